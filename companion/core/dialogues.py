"""The dialogues a person can be in, as they are stored: which question is asked, what was answered so far. Values only.

Each has a module of its own that says what happens: `consenting`, `briefing`, `enrolling`, `prescribing`, `handing_over`,
`desk`, `recording`, `reviewing`. `id` is what the buttons of this dialogue carry, so that a press of an older one is known
as such.
"""

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from companion.core.effects import ClientId
from companion.core.events import Entry, Facts
from companion.core.media import Recorded
from companion.core.programme import Plan
from companion.core.review_values import NOTHING, ReviewValues


@dataclass(frozen=True, slots=True)
class Consenting:
    """The client reads this version of the consent, one screen at a time, and then says what the carer may see (their call
    name, empty without one)."""

    id: str
    client: ClientId
    version: str
    screen: int = 0
    carer: str = ""
    kind: Literal["consenting"] = "consenting"


@dataclass(frozen=True, slots=True)
class Briefing:
    """The carer reads the briefing topic by topic. `asked`: the check question of the topic stands. `version`: of its words."""

    id: str
    version: str = ""
    topic: int = 0
    asked: bool = False
    kind: Literal["briefing"] = "briefing"


@dataclass(frozen=True, slots=True)
class Enrolling:
    """The therapist makes a client and takes the baseline. `at` is the question that stands. With `facts` the client is there
    already, and the baseline is taken anew."""

    id: str
    client: ClientId
    at: str
    answers: tuple[tuple[str, str], ...] = ()
    facts: Facts | None = None
    kind: Literal["enrolling"] = "enrolling"


@dataclass(frozen=True, slots=True)
class Step:
    """A screen of a plan that is written, and the draft as it was there: what Back goes back to."""

    at: str
    draft: Plan


@dataclass(frozen=True, slots=True)
class Prescribing:
    """The therapist writes a plan. `at` is the screen that stands, `draft` the plan as chosen so far, `before` the screens gone
    through, newest last. `turn` counts the screens shown: a button of an older one is known by it. `entries` are the clients
    found to copy from, from place `first` of `total`. `reason` is why the plan changes.
    """

    id: str
    facts: Facts
    at: str
    draft: Plan
    before: tuple[Step, ...] = ()
    turn: int = 0
    entries: tuple[Entry, ...] = ()
    first: int = 0
    total: int = 0
    reason: str = ""
    kind: Literal["prescribing"] = "prescribing"


@dataclass(frozen=True, slots=True)
class HandingOver:
    """The therapist gives a client to a colleague, for good or for a time. `cover`: for a time.

    `at` is the question that stands; `entries` the colleagues found, from place `first`; `start` and `end` the cover's.
    """

    id: str
    facts: Facts
    cover: bool
    to: str | None = None
    name: str = ""
    at: str = "who"
    first: int = 0
    entries: tuple[Entry, ...] = ()
    start: datetime | None = None
    end: datetime | None = None
    kind: Literal["handing_over"] = "handing_over"


@dataclass(frozen=True, slots=True)
class Setting:
    """The therapist sets hours, deputy, digest. `at` is the question that stands, `weekdays` those chosen so far, `entries`
    the colleagues found, from place `first`."""

    id: str
    at: str
    weekdays: tuple[int, ...] = ()
    first: int = 0
    entries: tuple[Entry, ...] = ()
    kind: Literal["setting"] = "setting"


@dataclass(frozen=True, slots=True)
class Recording:
    """The therapist records something for one exercise of a client. `at`: the question that stands; `media`: what was sent."""

    id: str
    facts: Facts
    at: str = "which"
    exercise: str = ""
    media: Recorded | None = None
    kind: Literal["recording"] = "recording"


@dataclass(frozen=True, slots=True)
class Reviewing:
    """The therapist enters what was measured at a review, begun at `begun`. `at` is the screen that stands, `turn` counts the
    screens shown: a button of an older one is known by it. `place` is the goal that is asked about, counted from 0; `level`
    what was chosen for it while its weight is asked.
    """

    id: str
    facts: Facts
    begun: datetime
    at: str = "menu"
    values: ReviewValues = NOTHING
    turn: int = 0
    place: int = 0
    level: int | None = None
    kind: Literal["reviewing"] = "reviewing"


Draft = Enrolling | Prescribing | Reviewing
"""What takes long enough to be put by while something else is done on the same phone."""

Dialogue = Consenting | Briefing | Enrolling | Prescribing | HandingOver | Setting | Recording | Reviewing
