"""What the runtime needs from the outside: a way to send, to put into words, to draw. Others fill these protocols.

Nothing here knows a chat platform. What goes out is `Outgoing`, how it went is an `Outcome`, what comes in is
`Inbound`.
"""

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from typing import Protocol

from companion.core.effects import Paper, Sheet, Words
from companion.core.events import Assessed, Press
from companion.core.media import Made, Medium


class Op(StrEnum):
    """What is done to the chat. TEXT, FILE and COPY are new messages, the others change one.

    EDIT changes the words of a message without a file, CAPTION those beside a file, SWAP puts another picture or clip in
    place of words alone or of the one that is there. CLEAR takes the buttons off a message and leaves the rest.
    """

    TEXT = "text"
    FILE = "file"
    COPY = "copy"
    EDIT = "edit"
    CAPTION = "caption"
    SWAP = "swap"
    CLEAR = "clear"


CHANGES = frozenset({Op.EDIT, Op.CAPTION, Op.SWAP, Op.CLEAR})
"""What changes a message that is there."""

CAPTION = 1024
"""The platform's limit of the words beside a file, in UTF-16 code units."""


def fits_caption(text: str) -> bool:
    """Whether words may stand beside a file."""
    return len(text.encode("utf-16-le", "surrogatepass")) // 2 <= CAPTION


@dataclass(frozen=True, slots=True)
class File:
    """A file to send: its bytes, or the platform's own id of it. `name` is that of a document."""

    medium: Medium
    content: bytes | str
    name: str = ""


@dataclass(frozen=True, slots=True)
class Outgoing:
    """One request to the chat platform, words already rendered.

    `rows` are buttons under the message, one to a row, as (label, what a press means); a change replaces the
    buttons too, so it carries all that shall remain. `fixed_row` are the labels of the persistent row of controls, row by
    row; only a TEXT without buttons lays it. `message_id` names the message to change, and for COPY the one in
    `from_chat` that is copied. FILE and SWAP have a `file`, and `text` is its caption.
    """

    op: Op
    chat_id: int
    text: str = ""
    rows: tuple[tuple[str, Press], ...] = ()
    fixed_row: tuple[tuple[str, ...], ...] = ()
    message_id: int | None = None
    silent: bool = False
    file: File | None = None
    from_chat: int | None = None


@dataclass(frozen=True, slots=True)
class Receipt:
    """The platform took it, at its own time `at`. An edit that changes nothing was taken too.

    `file_id` is the platform's id of the file that it took, empty without one.
    """

    message_id: int
    at: datetime
    file_id: str = ""


@dataclass(frozen=True, slots=True)
class TryLater:
    """Too many requests; nothing was sent. `everywhere`: the platform means the bot, not this chat."""

    after_s: float
    everywhere: bool = False


class NoWay(StrEnum):
    """Why a message can never be delivered: the person shut us out, or the platform will not take it."""

    BLOCKED = "blocked"
    REFUSED = "refused"


@dataclass(frozen=True, slots=True)
class Undeliverable:
    """It can not be delivered, now or later."""

    why: NoWay


@dataclass(frozen=True, slots=True)
class NotThere:
    """The message to edit or to copy is gone, or can not be edited. Nothing was changed."""


@dataclass(frozen=True, slots=True)
class FileUnknown:
    """The platform knows no file by this id, or takes it for another kind. Nothing was sent."""


@dataclass(frozen=True, slots=True)
class Unknown:
    """The request went out and no answer came. It may have been taken."""


@dataclass(frozen=True, slots=True)
class Unreachable:
    """The network or the platform is down (no connection, or a 5xx answer). Nothing was sent."""


Outcome = Receipt | TryLater | Undeliverable | NotThere | FileUnknown | Unknown | Unreachable


class Transport(Protocol):
    """One request at a time to the chat platform."""

    async def send(self, outgoing: Outgoing) -> Outcome:
        """Send and say how it went. Never raises, and ends within a time-out of its own (then: `Unknown`)."""
        ...


class Renderer(Protocol):
    """Puts keys into words."""

    def text(self, words: Words, language: str) -> str:
        """The words in that language. Raises when a key or a parameter is missing: a fault of content."""
        ...


class Doors(Protocol):
    """How somebody gets in: links that the chat platform opens, once."""

    def link(self, payload: str) -> str:
        """The link that starts a chat with the bot, with this payload. LookupError before the bot's name is known."""
        ...

    def picture(self, link: str) -> bytes:
        """The same link as a picture (PNG) for the camera of another phone."""
        ...


@dataclass(frozen=True, slots=True)
class Drawing:
    """A chart as a PNG, and what it says in words and numbers (1,024 characters at most); or a document, which has a `name`."""

    file: bytes
    caption: str
    name: str = ""


class Assessor(Protocol):
    """Works out and draws a client's week, and makes pictures and sounds, in a process of its own."""

    async def draw(
        self, client_id: str, first: date, last: date, language: str, what: tuple[Sheet, Paper] = (Sheet.WEEK, Paper.A4)
    ) -> Drawing:
        """A chart or a document over local dates, both included. May raise; it is then tried again."""
        ...

    async def assess(self, client_id: str) -> Assessed:
        """Where the last sessions stand against the client's own usual, as known now. May raise; it is then tried again."""
        ...

    async def draw_digest(self, person_id: str, first: date, last: date, language: str) -> bytes:
        """The weeks of all clients of a therapist side by side, as a PNG. May raise; it is then tried again."""
        ...

    async def make(self, media: Made, language: str) -> bytes:
        """A picture as a PNG, a sound as Ogg Opus. May raise; it is then tried again."""
        ...


@dataclass(frozen=True, slots=True)
class InPress:
    """A button under a message was pressed."""

    press: Press


@dataclass(frozen=True, slots=True)
class InText:
    """A typed line, which may be a control of the fixed row."""

    text: str


@dataclass(frozen=True, slots=True)
class InStart:
    """Start was pressed; `payload` comes from the one-time link, empty if there was none."""

    payload: str = ""


@dataclass(frozen=True, slots=True)
class InOther:
    """Anything else: a picture, a voice note. `form` says what; `file_id` is the platform's id of the file, if it has one."""

    form: str
    file_id: str = ""


@dataclass(frozen=True, slots=True)
class InGone:
    """The person shut the bot out, or let it in again (`back`)."""

    back: bool = False


@dataclass(frozen=True, slots=True)
class Inbound:
    """One thing that came in from a private chat.

    `key` is the name under which it is handled once and never again. `message_id` is the message it is, or under
    which the pressed button stood; `sent` is when the platform took it, if it says.
    """

    key: str
    user_id: int
    chat_id: int
    what: InPress | InText | InStart | InOther | InGone
    message_id: int | None = None
    sent: datetime | None = None


@dataclass(frozen=True, slots=True)
class ReplyText:
    """What the platform's own answer to a press shall say."""

    text: str
