"""Which edition the pictures and sounds are: a file made by another edition is made anew. Loads nothing heavy."""

import hashlib
from pathlib import Path

from companion.media.sound.engine import engine

PICTURES = 1
"""Raised whenever pictures are drawn otherwise."""

SOUNDS = 1
"""Raised whenever sounds are made otherwise."""


def edition(content: Path, speaks: bool = True) -> str:
    """A short name of everything that files made from this folder of content depend on.

    Sounds with spoken words and without are two editions; `speaks` as in `maker.make`.
    """
    voice = speaks and engine() is not None
    made_by = hashlib.sha256(f"{PICTURES} {SOUNDS} {voice}".encode())
    for path in sorted((*content.glob("exercises/*.yaml"), *content.glob("texts/*/*.ftl"))):
        made_by.update(path.read_bytes())
    return made_by.hexdigest()[:12]
