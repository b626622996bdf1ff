"""A wheel built from the checkout has everything with it: away from the checkout it rehearses too."""

import subprocess
import sys
import zipfile
from pathlib import Path

from tests.architecture.sources import ROOT

REHEARSE = """
import sys
import companion
from companion.cli import main
print(companion.__file__)
sys.exit(main(["rehearse", "first_session", "--out", "played"]))
"""


def test_a_wheel_away_from_the_checkout_rehearses_too(tmp_path: Path) -> None:
    built, away = tmp_path / "built", tmp_path / "away"
    command = [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", str(built), str(ROOT)]
    subprocess.run(command, check=True, capture_output=True)
    (wheel,) = built.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(away)
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    told = subprocess.run(
        [sys.executable, "-c", REHEARSE], cwd=elsewhere, env={"PYTHONPATH": str(away)}, capture_output=True, text=True
    )
    assert told.returncode == 0, told.stdout + told.stderr
    assert told.stdout.startswith(str(away)), "the checkout was played instead"
    played = elsewhere / "played" / "first_session" / "transcript.md"
    assert "Time to practise." in played.read_text(encoding="utf-8")
