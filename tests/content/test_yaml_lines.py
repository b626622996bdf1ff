"""YAML as it is used here: plain values, and a line for each."""

from pathlib import Path

import pytest
from pydantic import Field

from companion.content.yaml_lines import Id, Line, Page, Shape, Switch, Whole, parse, read
from companion.errors import Fault, FoundWrong


class Part(Shape):
    name: Line
    size: Whole = Field(default=1, ge=1, le=9)
    on: Switch = False


class Whole_(Shape):
    id: Id
    parts: tuple[Part, ...] = ()


def page(tmp_path: Path, text: str) -> Page:
    path = tmp_path / "a.yaml"
    path.write_text(text, encoding="utf-8")
    return read(path)


def faults(tmp_path: Path, text: str) -> tuple[Fault, ...]:
    with pytest.raises(FoundWrong) as found:
        parse(page(tmp_path, text), Whole_)
    return found.value.faults


def test_a_time_of_day_stays_text(tmp_path: Path) -> None:
    assert page(tmp_path, "at: 10:30\n").data == {"at": "10:30"}


def test_a_date_a_fraction_and_a_version_stay_text(tmp_path: Path) -> None:
    data = page(tmp_path, "a: 2026-11-03\nb: 1.5\nc: 0x10\nd: 1_000\ne: 007\n").data
    assert data == {"a": "2026-11-03", "b": "1.5", "c": "0x10", "d": "1_000", "e": "007"}


def test_whole_numbers_yes_no_and_nothing_are_told_apart(tmp_path: Path) -> None:
    data = page(tmp_path, "a: 12\nb: -3\nc: yes\nd: no\ne: true\nf: false\ng:\nh: ~\ni: '12'\nj: 'yes'\n").data
    assert data == {
        "a": 12, "b": -3, "c": True, "d": False, "e": True, "f": False, "g": None, "h": None, "i": "12", "j": "yes",
    }  # fmt: skip


def test_every_value_knows_its_line(tmp_path: Path) -> None:
    found = page(tmp_path, "id: a\nparts:\n  - name: b\n    size: 2\n  - {name: c,\n     on: yes}\n")
    assert found.line(("id",)) == 1
    assert found.line(("parts", 0, "size")) == 4
    assert found.line(("parts", 1, "on")) == 6


def test_what_is_missing_is_told_at_the_line_of_what_is_around_it(tmp_path: Path) -> None:
    found = page(tmp_path, "id: a\nparts:\n  - size: 2\n")
    assert found.line(("parts", 0, "name")) == 3


@pytest.mark.parametrize(
    ("text", "line", "what", "do"),
    [
        ("id: a\nid: b\n", 2, "twice", "Mend"),
        ("id: a\nparts: [\n", 3, "not YAML", "Mend"),
        ("id: &x a\nparts: *x\n", 2, "alias", "Mend"),
        ("id: a\n\tparts: []\n", 2, "not YAML", "Mend"),
        ("? [a]\n: b\n", 1, "a key must be a word", "Mend"),
        ("id: a: b\n", 1, "not YAML", "quotes"),
    ],
)
def test_what_is_not_yaml_is_told_with_its_line(tmp_path: Path, text: str, line: int, what: str, do: str) -> None:
    with pytest.raises(FoundWrong) as found:
        page(tmp_path, text)
    (fault,) = found.value.faults
    assert fault.where.endswith("a.yaml") and fault.line == line
    assert what in fault.what and do in fault.do


@pytest.mark.parametrize(
    ("text", "line", "what", "do"),
    [
        ("parts: []\n", 1, '"id" is missing', "Add it"),
        ("id: a\nparst: []\n", 2, 'the key "parst" is not known', 'Write "parts"'),
        ("id: a\nzzz: 1\n", 2, 'the key "zzz" is not known', "id, parts"),
        ("id: A b\n", 1, "is not an id", "small letters"),
        ("id: 5\n", 1, '"id" must be text', "quotes"),
        ("id: a\nparts: 5\n", 2, '"parts" must be a list', "dash"),
        ("id: a\nparts: [5]\n", 2, "keys are wanted here", "name, size, on"),
        ("id: a\nparts:\n- name: b\n  size: big\n", 4, "\"size\" must be a whole number, not 'big'", "digits"),
        ("id: a\nparts:\n- name: b\n  size: yes\n", 4, '"size" must be a whole number', "digits"),
        ("id: a\nparts:\n- name: b\n  size: 10\n", 4, '"size" must be 9 or less, not 10', "Use 9 or less"),
        ("id: a\nparts:\n- name: b\n  size: 0\n", 4, '"size" must be 1 or more', "Use 1 or more"),
        ("id: a\nparts:\n- name: b\n  on: 1\n", 4, '"on" must be yes or no', "yes or no"),
        ("id: a\nparts:\n- name: ''\n", 3, "one line of text is wanted", "1 to 200"),
        ("", 1, "keys are wanted here", "id, parts"),
    ],
)
def test_what_does_not_fit_is_told_with_line_and_remedy(tmp_path: Path, text: str, line: int, what: str, do: str) -> None:
    (fault,) = faults(tmp_path, text)
    assert (fault.line, what in fault.what, do in fault.do) == (line, True, True), str(fault)


def test_all_faults_of_a_file_are_told_at_once(tmp_path: Path) -> None:
    found = faults(tmp_path, "id: A\nparts:\n- name: b\n  size: 0\n- size: 11\n")
    assert [fault.line for fault in found] == [1, 4, 5, 5]


def test_a_file_that_is_not_there_is_told_by_name(tmp_path: Path) -> None:
    with pytest.raises(FoundWrong, match=r"gone\.yaml: the file is not there"):
        read(tmp_path / "gone.yaml")


def test_a_file_that_is_not_text_is_told_by_name(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_bytes(b"id: \xff\xfe")
    with pytest.raises(FoundWrong, match=r"a\.yaml: the file can not be read"):
        read(path)
    path.write_bytes(b"id: \x07\n")
    with pytest.raises(FoundWrong, match=r"a\.yaml: this is not YAML"):
        read(path)


def test_a_file_nested_without_end_is_a_fault_and_no_crash(tmp_path: Path) -> None:
    with pytest.raises(FoundWrong, match="nested too deeply"):
        page(tmp_path, "[" * 3000 + "]" * 3000)


def test_a_number_of_a_thousand_digits_is_a_fault_and_no_crash(tmp_path: Path) -> None:
    (fault,) = faults(tmp_path, f"id: a\nparts:\n- name: b\n  size: {'9' * 5000}\n")
    assert fault.line == 4 and "whole number" in fault.what
