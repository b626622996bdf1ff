"""Voice notes to listen to: clocks of usual holds and sound checks, as a session would send them."""

from collections.abc import Iterator
from pathlib import Path

from companion.content.texts import Texts
from companion.core.media import SoundCheck, SoundClock
from companion.core.words import words
from companion.media.sound.making import make

HOLDS_S = (10, 30, 45, 60)
INTO_PLACE_S = 10
TONES = (2, 3, 4)


def write(folder: Path, language: str, texts: Texts) -> Iterator[Path]:
    """Write them into the folder, one after the other. Raises OSError."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, media in _samples():
        path = folder / f"{name}.ogg"
        path.write_bytes(make(media, language, texts))
        yield path


def _samples() -> Iterator[tuple[str, SoundClock | SoundCheck]]:
    before, after = (words("sound-starts"),), (words("hand-down"), words("eyes-open"), words("feet-apart"))
    for seconds in HOLDS_S:
        yield f"hold_{seconds}_s", SoundClock(before, INTO_PLACE_S, seconds, words("sound-breathe"), after)
    for tones in TONES:
        yield f"check_{tones}_tones", SoundCheck((words("sound-count"),), INTO_PLACE_S, tones)
