"""Everything that can happen, in the past tense. A closed union.

Every event carries `at` (aware, UTC) and `seed`, the journaled chance from which numbers to show are drawn.
"""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import Literal

from companion.core.programme import Plan


@dataclass(frozen=True, slots=True)
class Press:
    """What a button stands for, as opaque ids: whose (`client`), in what (`scope`: a session, an offer, a flag), which
    question (`step`), which answer (`choice`). All short: together they fit 64 bytes."""

    client: str
    scope: str
    step: str
    choice: str


class Control(StrEnum):
    """The fixed row of controls, and the commands that stand for them."""

    SOMETHING_WRONG = "something_wrong"
    ENOUGH = "enough"
    HAD_TO_LEAVE = "had_to_leave"
    MORE = "more"


class Why(StrEnum):
    """Why a message is lost: judged too late to send, or timed out after sending, or the phone can not be reached."""

    EXPIRED = "expired"
    UNKNOWN = "unknown"
    UNDELIVERABLE = "undeliverable"


@dataclass(frozen=True, slots=True)
class Woke:
    """The alarm of this row went off. It may be late."""

    at: datetime
    seed: int = 0
    kind: Literal["woke"] = "woke"


@dataclass(frozen=True, slots=True)
class Pressed:
    """A button under a message was pressed by the person `by`."""

    at: datetime
    by: str
    press: Press
    seed: int = 0
    kind: Literal["pressed"] = "pressed"


@dataclass(frozen=True, slots=True)
class Controlled:
    """A control of the fixed row was pressed, or typed. `sent` is when the platform took it, if it says."""

    at: datetime
    by: str
    control: Control
    sent: datetime | None = None
    seed: int = 0
    kind: Literal["controlled"] = "controlled"


@dataclass(frozen=True, slots=True)
class Typed:
    """Words, or a picture, a sound or anything else that is no control (then `text` may be empty)."""

    at: datetime
    by: str
    text: str
    seed: int = 0
    kind: Literal["typed"] = "typed"


@dataclass(frozen=True, slots=True)
class Arrived:
    """The platform took the message that carried `tag`."""

    at: datetime
    tag: str
    seed: int = 0
    kind: Literal["arrived"] = "arrived"


@dataclass(frozen=True, slots=True)
class Lost:
    """The message that carried `tag` was not, or perhaps not, taken."""

    at: datetime
    tag: str
    why: Why
    seed: int = 0
    kind: Literal["lost"] = "lost"


@dataclass(frozen=True, slots=True)
class Prescribed:
    """A plan was agreed for this client, from now on."""

    at: datetime
    plan: Plan
    seed: int = 0
    kind: Literal["prescribed"] = "prescribed"


@dataclass(frozen=True, slots=True)
class Joined:
    """A person came into the chat by their one-time link, or pressed start again (`again`)."""

    at: datetime
    by: str
    again: bool = False
    seed: int = 0
    kind: Literal["joined"] = "joined"


@dataclass(frozen=True, slots=True)
class Left:
    """A person blocked the bot, or came back (`back`)."""

    at: datetime
    by: str
    back: bool = False
    seed: int = 0
    kind: Literal["left"] = "left"


Event = Woke | Pressed | Controlled | Typed | Arrived | Lost | Prescribed | Joined | Left
