"""`companion check --texts`: every text for client and carer, the hardest first, and what is over a limit."""

from pathlib import Path

import pytest

from companion.cli import main
from companion.content import library, text_list
from companion.content.folders import content_dir
from companion.content.plain_words import FOR_THE_THERAPIST
from companion.content.text_list import Row
from companion.content.texts import Texts


@pytest.fixture(scope="module")
def rows() -> list[Row]:
    return text_list.rows(Texts(content_dir() / "texts"), library.load(content_dir()))


def listed(rows: list[Row], key: str) -> Row:
    return next(row for row in rows if row.key == key)


def test_every_text_for_client_and_carer_is_listed_once_and_no_other(rows: list[Row]) -> None:
    keys = Texts(content_dir() / "texts").keys("en")
    plain = {key for key, source in keys.items() if source.path.name not in FOR_THE_THERAPIST and not key.startswith("-")}
    titles = {key for key in plain if key.startswith("sign-") and key.endswith(".title")}
    assert sorted(row.key for row in rows) == sorted(plain - titles)


def test_the_hardest_comes_first_and_nothing_is_over_a_limit(rows: list[Row]) -> None:
    grades = [row.grade for row in rows if row.grade is not None]
    assert grades == sorted(grades, reverse=True) and grades[0] <= 6
    assert max(row.words for row in rows) <= 10
    assert [row for row in rows if row.over] == []


def test_a_text_is_listed_by_its_place_its_reader_and_what_stands_under_it(rows: list[Row]) -> None:
    asked = listed(rows, "ask-when")
    assert asked.where.startswith("content/texts/en/session.ftl:") and asked.answers == 5
    assert listed(rows, "gate-carer").reader == "carer" and listed(rows, "week-none").reader == "client"
    assert listed(rows, "emergency-call").reader == "client, carer"
    assert listed(rows, "b-clean").grade is None or listed(rows, "b-clean").words >= 5


def test_a_text_of_several_readings_is_listed_by_its_hardest(rows: list[Row], copy: Path) -> None:
    (copy / "texts/en/more.ftl").write_text(
        "week-again = { $days ->\n    [one] A day.\n   *[other] Preparation needs careful consideration.\n }\n"
    )
    changed = listed(text_list.rows(Texts(copy / "texts"), library.load(copy)), "week-again")
    assert changed.words == 4 and any("syllables" in what for what in changed.over)


def test_the_command_lists_them_and_ends_with_0(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--texts"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].split() == list(text_list.HEADING) and lines[-1].endswith(" texts, 0 over a limit.")
    assert any(line.endswith("  emergency-call") for line in lines)


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("rest = Rest now.", "rest = Take an appropriate individualised recovery opportunity.", "grade"),
        ("rest = Rest now.", "rest = Rest now and sit down on your own chair for some time.", "a sentence of 12 words"),
    ],
)
def test_what_is_over_a_limit_comes_first_and_the_command_ends_with_1(
    old: str, new: str, told: str, copy: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = copy / "texts/en/session.ftl"
    text = file.read_text()
    assert text.count(old) == 1
    file.write_text(text.replace(old, new))
    assert main(["check", "--texts", str(copy)]) == 1
    out = capsys.readouterr().out.splitlines()
    assert " OVER " in out[1] and out[-1].endswith(" 1 over a limit.")
    line = text[: text.index(old)].count("\n") + 1
    assert f"session.ftl:{line}: " in out[-2] and told in out[-2]


def test_a_question_whose_answers_look_alike_is_over_a_limit(copy: Path) -> None:
    file = copy / "texts/en/session.ftl"
    file.write_text(file.read_text().replace("b-not-quite = Not quite", "b-not-quite = I felt not unwell"))
    asked = listed(text_list.rows(Texts(copy / "texts"), library.load(copy)), "ask-how")
    assert any("differ by a not alone" in what for what in asked.over)
