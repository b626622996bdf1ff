"""`companion pictures`: one file for each picture, and plain sentences where it was used wrong."""

from pathlib import Path

import pytest
from PIL import Image

from companion.cli import main


def test_every_picture_of_an_exercise_is_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["pictures", "reach", "--out", str(tmp_path / "new" / "folder")]) == 0
    files = sorted((tmp_path / "new" / "folder").iterdir())
    assert [one.name for one in files] == sorted(
        f"reach.{form}.none.weaker-{side}.png" for form in ("near", "far", "across") for side in ("left", "right")
    )
    with Image.open(files[0]) as image:
        assert "Arrow: stronger hand goes across to your weaker side." in image.text["Description"]  # type: ignore[attr-defined]
    assert f"6 pictures are in {tmp_path}" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--language", "xx"], "There are no texts in 'xx'. There are: en"),
        (["juggling"], "There is no exercise juggling. There are: feet_together,"),
    ],
)
def test_what_is_not_there_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str], arguments: list[str], said: str) -> None:
    assert main(["pictures", *arguments, "--out", str(tmp_path)]) == 2
    assert said in capsys.readouterr().err


def test_a_folder_that_can_not_be_written_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "taken").write_text("a file", encoding="utf-8")
    assert main(["pictures", "reach", "--out", str(tmp_path / "taken")]) == 2
    assert "taken can not be written" in capsys.readouterr().err
