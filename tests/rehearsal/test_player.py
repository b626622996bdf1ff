"""The command's library: which scenarios, where to, what is printed, how it ends."""

import logging
from pathlib import Path

import pytest

from companion.errors import FoundWrong, UsedWrong
from companion.rehearsal import player
from tests.rehearsal.small import HABITS, written


@pytest.fixture(autouse=True)
def own_scenarios(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Two small scenarios in a folder of their own; the command's working directory is empty."""
    folder, here = tmp_path / "scenarios", tmp_path / "here"
    folder.mkdir()
    here.mkdir()
    written(folder, HABITS, name="fortnight")
    written(folder, HABITS, "expects:\n  - {phone: olga, text: Pigs fly.}\n", name="wrong")
    monkeypatch.setattr(player, "scenarios_dir", lambda: folder)
    monkeypatch.chdir(here)
    return folder


def test_without_a_name_it_plays_the_fortnight_and_says_where_everything_is(capsys: pytest.CaptureFixture[str]) -> None:
    assert player.rehearse_command([]) == 0
    told = capsys.readouterr()
    assert "transcript  rehearsal-out/fortnight/transcript.md" in told.out
    assert Path("rehearsal-out/fortnight/transcript.md").is_file()
    assert "100%" in told.err and "day 1 of 1" in told.err


def test_what_goes_wrong_is_told_and_ends_with_1(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert player.rehearse_command(["fortnight", "wrong"], tmp_path / "out") == 1
    told = capsys.readouterr().out
    assert "WRONG" in told and "olga's phone never showed 'Pigs fly.' in time" in told
    assert (tmp_path / "out" / "wrong" / "transcript.md").is_file(), "what was played is there to read"


def test_an_unknown_scenario_is_refused_before_anything_is_played(tmp_path: Path) -> None:
    with pytest.raises(UsedWrong) as wrong:
        player.rehearse_command(["fortnight", "gone"], tmp_path / "out")
    assert wrong.value.exit_code == 2
    assert not (tmp_path / "out").exists()


def test_a_place_that_can_not_be_a_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("a file")
    with pytest.raises(UsedWrong, match=r"out can not be written: .+ Give --out a folder\."):
        player.rehearse_command(["fortnight"], tmp_path / "out")


def test_a_broken_scenario_is_refused_before_anything_is_played(own_scenarios: Path, tmp_path: Path) -> None:
    (own_scenarios / "broken.yaml").write_text("title: Broken\n")
    with pytest.raises(FoundWrong) as wrong:
        player.rehearse_command(["fortnight", "broken"], tmp_path / "out")
    assert wrong.value.exit_code == 1
    assert not (tmp_path / "out").exists()


def test_what_the_app_logs_goes_into_the_scenarios_folder(tmp_path: Path) -> None:
    before = list(logging.getLogger("companion").handlers)
    player.rehearse_command(["fortnight"], tmp_path / "out")
    assert (tmp_path / "out" / "fortnight" / "companion.log").is_file()
    assert logging.getLogger("companion").handlers == before
