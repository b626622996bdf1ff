"""The record of everything that a phone showed or that its owner did, in order."""

from dataclasses import dataclass, field
from datetime import datetime
from typing import Literal

Way = Literal["in", "out"]
"""in: from the person to the bot. out: from the bot to the phone."""

EntryKind = Literal["text", "photo", "voice", "video", "animation", "document", "edit", "press", "delete", "toast"]


@dataclass(frozen=True)
class Entry:
    """One line of the record.

    `text` is the text, the caption, the label pressed or the toast; `buttons` what can be pressed, by row
    (under the message, or the fixed row that came with it); `silent` no sound: an edit never makes one;
    `data` what a press sent; `file` the bytes that came with it.
    """

    at: datetime
    user_id: int
    way: Way
    kind: EntryKind
    text: str
    buttons: tuple[tuple[str, ...], ...] = ()
    silent: bool = False
    message_id: int | None = None
    data: str | None = None
    file: bytes | None = field(default=None, repr=False)
