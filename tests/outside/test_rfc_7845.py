"""RFC 7845, Ogg Opus: our voice notes as an outside tool reads them (opusinfo of opus-tools, by the format's own makers)."""

import re
import shutil
import subprocess
from collections.abc import Callable
from functools import partial
from pathlib import Path

import pytest

from tests.media.listening import Heard, check, clock

pytestmark = pytest.mark.skipif(shutil.which("opusinfo") is None, reason="no opusinfo here (Debian package opus-tools)")

NOTES = {"clock of 10 s": partial(clock, 10), "clock of 60 s": partial(clock, 60), "check": partial(check, 3)}


def opusinfo(data: bytes, folder: Path) -> str:
    """What the tool says; it ends with an error where the file is not right."""
    path = folder / "note.ogg"
    path.write_bytes(data)
    done = subprocess.run(["opusinfo", str(path)], capture_output=True, text=True, check=False)
    return f"{done.stdout}{done.stderr}\nexit {done.returncode}"


@pytest.mark.parametrize("note", NOTES.values(), ids=NOTES)
def test_a_voice_note_is_valid_without_a_warning(note: Callable[[], Heard], tmp_path: Path) -> None:
    said = opusinfo(note().data, tmp_path)
    assert said.endswith("exit 0")
    assert not re.search(r"warning|error|invalid|corrupt|hole", said, re.IGNORECASE), said
    assert re.search(r"Channels: 1\b", said) and "Logical stream 1 ended" in said


@pytest.mark.parametrize("note", NOTES.values(), ids=NOTES)
def test_its_length_and_its_comments_read_as_we_wrote_them(note: Callable[[], Heard], tmp_path: Path) -> None:
    said = opusinfo(note().data, tmp_path)
    minutes, seconds = re.findall(r"Playback length: (\d+)m:([\d.]+)s", said)[0]
    assert 60 * int(minutes) + float(seconds) == pytest.approx(len(note().samples) / note().rate, abs=0.01)
    assert "\tDESCRIPTION=" in said and "\tLANGUAGE=en\n" in said and "\tMARKS=" in said


def test_the_tool_notices_a_page_whose_checksum_is_wrong(tmp_path: Path) -> None:
    data = bytearray(clock(10).data)
    data[data.index(b"LANGUAGE")] ^= 1
    assert re.search(r"warning|error|hole|corrupt", opusinfo(bytes(data), tmp_path), re.IGNORECASE)
