"""The command that makes voice notes to listen to."""

from pathlib import Path

import pytest

from companion.cli import main
from companion.media.sound import ogg
from tests.media.listening import heard


def test_it_writes_notes_of_every_usual_hold_and_tells_what_is_heard(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    assert main(["sounds", "--out", str(tmp_path / "notes")]) == 0
    out = capsys.readouterr().out
    assert "At 60 seconds: a long falling tone: the end." in out and "Tones only" in out
    files = {path.stem: heard(path.read_bytes()) for path in (tmp_path / "notes").iterdir()}
    assert {name: len(note.tones) for name, note in files.items()} == {
        **dict.fromkeys(("hold_10_s", "hold_30_s", "hold_45_s", "hold_60_s"), 8),
        **{f"check_{tones}_tones": tones for tones in (2, 3, 4)},
    }
    assert all(ogg.comments(note.data)["DESCRIPTION"] in out for note in files.values())


def test_a_language_without_texts_or_a_folder_that_can_not_be_made_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "file").write_text("")
    assert main(["sounds", "--out", str(tmp_path), "--language", "xx"]) == 2
    assert "no texts in 'xx'" in capsys.readouterr().err
    assert main(["sounds", "--out", str(tmp_path / "file")]) == 2
    assert "Name another folder" in capsys.readouterr().err
