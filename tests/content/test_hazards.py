"""The hazard file: complete, each control proved by a test that is there, and every fault told with its line."""

import shutil
from pathlib import Path

import pytest

from companion import cli
from companion.content import hazard_file
from companion.content.folders import content_dir, folder_of_tests
from companion.errors import FoundWrong

FOLDER = content_dir()


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    shutil.copy(FOLDER / hazard_file.FILE, tmp_path)
    return tmp_path


def changed(folder: Path, old: str, new: str) -> Path:
    path = folder / hazard_file.FILE
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    return folder


def test_there_are_at_least_35_hazards_and_none_is_graver_after_its_controls() -> None:
    hazards = hazard_file.load(FOLDER).hazards
    assert len(hazards) >= 35
    assert all(
        hazard.after.severity * hazard.after.likelihood < hazard.before.severity * hazard.before.likelihood
        for hazard in hazards
    )


def test_every_kind_of_control_is_used() -> None:
    assert {control.kind for hazard in hazard_file.load(FOLDER).hazards for control in hazard.controls} == {
        "design",
        "warning",
        "procedure",
    }


def test_every_control_names_a_test_that_is_there() -> None:
    tests = folder_of_tests()
    assert tests is not None
    assert hazard_file.unproved(FOLDER, tests.parent) == []


def test_a_control_whose_test_is_not_there_fails_the_command(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    changed(folder, "::test_only_the_therapist_lifts", "::test_anybody_lifts")
    assert cli.main(["hazards", str(folder)]) == 1
    assert "test_anybody_lifts" in capsys.readouterr().err


def test_the_command_prints_every_hazard_with_its_controls(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["hazards"]) == 0
    told = capsys.readouterr().out
    for hazard in hazard_file.load(FOLDER).hazards:
        assert hazard.hazard in told and hazard.cause in told and hazard.harm in told
        assert all(control.what in told and control.proof in told for control in hazard.controls)


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("kind: design", "kind: hope", "kind"),
        ("tests/core/test_clocks.py::test_the_next", "test_the_next", "names no test"),
        ("id: alone_in_stance", "id: tap_while_standing", "is there twice"),
        ("after: {severity: 5, likelihood: 2}", "after: {severity: 5, likelihood: 5}", "higher after the controls"),
        ("5: fatal", "6: fatal", "needs a word"),
        ("owner: developer", "owner: nobody", "owner"),
    ],
)
def test_a_fault_is_told_with_file_and_line(folder: Path, old: str, new: str, told: str) -> None:
    with pytest.raises(FoundWrong) as wrong:
        hazard_file.load(changed(folder, old, new))
    assert told in str(wrong.value) and f"{hazard_file.FILE}:" in str(wrong.value)
