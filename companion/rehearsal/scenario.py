"""A scenario as values: who the people are, what they are used to do, what happens to them, what must come true.

`scenario_file.py` reads them from demo_scenarios/*.yaml; `player.py` plays them.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Literal

from companion.content.enrolment import Enrolment

ALL_DAYS = (date.min, date.max)


@dataclass(frozen=True, slots=True)
class Taps:
    """Taps what says `label`: under the message that was seen, or in the fixed row. A label may end in `*`: any that
    begins so."""

    label: str


@dataclass(frozen=True, slots=True)
class Copies:
    """Taps the label that stands on the client's phone now: the number that is shown there. `wrong`: another one."""

    wrong: bool


@dataclass(frozen=True, slots=True)
class Types:
    """Types and sends a text."""

    text: str


@dataclass(frozen=True, slots=True)
class Counts:
    """Listens to the newest voice note and taps how many tones are in it. `wrong`: another number."""

    wrong: bool


@dataclass(frozen=True, slots=True)
class Sends:
    """Sends a voice note, a picture or a clip of their own. `of`: what it says or shows; `seconds`: how long it plays."""

    form: Literal["voice", "photo", "video"]
    of: str = ""
    seconds: int = 3


@dataclass(frozen=True, slots=True)
class Ignores:
    """Does nothing."""


Act = Taps | Copies | Counts | Types | Sends | Ignores


@dataclass(frozen=True, slots=True)
class Rule:
    """What a person does when something shows on their phone; a voice note is listened to first, to its end.

    Every one of `sees` must be in the message's words, or be what a button under it says. `days` are the first and last
    local date on which the rule holds. `in_mind`: what the person keeps in mind must have all of these in it; a rule with
    `keeps` puts the message it answers there. `once`: it is followed once only. `own`: it is written in the scenario itself,
    so it must have been followed by the end: a rule that never fits is a mistake.
    """

    where: str
    sees: tuple[str, ...]
    act: Act
    after: timedelta
    once: bool
    days: tuple[date, date]
    in_mind: tuple[str, ...]
    keeps: bool
    own: bool


@dataclass(frozen=True, slots=True)
class Habits:
    """What a person is used to do: the first rule that fits is followed. `twice`: everything is tapped twice."""

    rules: tuple[Rule, ...] = ()
    twice: bool = False


@dataclass(frozen=True, slots=True)
class Does:
    """A person does something of their own accord."""

    who: str
    act: Taps | Types | Sends


@dataclass(frozen=True, slots=True)
class Scans:
    """A person opens the start link that `phone` shows now, in the newest message with all of `sees`: as when it is scanned at
    the visit."""

    who: str
    phone: str
    sees: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Shuts:
    """A person blocks the bot, or lets it in again (`back`)."""

    who: str
    back: bool


@dataclass(frozen=True, slots=True)
class Power:
    """The machine the companion runs on loses its power, or has it again."""

    on: bool


@dataclass(frozen=True, slots=True)
class Network:
    """The companion can not reach the chat platform, or can again."""

    up: bool


Event = Does | Scans | Shuts | Power | Network


@dataclass(frozen=True, slots=True)
class Seen:
    """When somebody's phone shows all of `sees`, later than what happened before; on `day`, if it is given."""

    who: str
    sees: tuple[str, ...]
    day: date | None


@dataclass(frozen=True, slots=True)
class Happening:
    """One thing that happens. `at` is an instant, or what it waits for (None: what happened before, or the beginning);
    `after` is added to it. Happenings happen in the order in which they are written."""

    where: str
    at: datetime | Seen | None
    after: timedelta
    what: Event


@dataclass(frozen=True, slots=True)
class Expectation:
    """A phone shows all of `text`, from `since` to `by`, both included; `never`: it does not."""

    where: str
    who: str
    text: tuple[str, ...]
    since: datetime
    by: datetime
    never: bool


@dataclass(frozen=True, slots=True)
class Newcomer:
    """Somebody with a phone who is not enrolled yet: they come by a link that another phone shows. `beside`: whom they stand
    beside, for a carer."""

    id: str
    role: str
    name: str
    beside: str | None


@dataclass(frozen=True, slots=True)
class Scenario:
    """Everything of one file. Instants are UTC; `zone` is what local times mean."""

    name: str
    title: str
    about: str
    starts: datetime
    ends: datetime
    zone: str
    enrolment: Enrolment
    habits: Mapping[str, Habits]
    happenings: tuple[Happening, ...]
    expectations: tuple[Expectation, ...]
    newcomers: tuple[Newcomer, ...] = ()
