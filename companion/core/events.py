"""Everything that can happen, in the past tense. A closed union.

Every event carries `at` (aware, UTC) and `seed`, the journaled chance from which numbers to show are drawn.
"""

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from typing import Literal

from companion.core.baseline import About, Baseline
from companion.core.duty import Duty
from companion.core.media import OwnMedia, Recorded
from companion.core.observations import Course
from companion.core.programme import Plan
from companion.core.review_values import ReviewValues


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
    CASELOAD = "caseload"
    NEW_CLIENT = "new_client"
    SETTINGS = "settings"


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
    """Words, or a picture, a sound or anything else that is no control (then `text` may be empty).

    `form` says what it was, in the platform's word ("voice", "photo", "video"), empty for words; `message_id` names it there,
    `file_id` the file itself.
    """

    at: datetime
    by: str
    text: str
    form: str = ""
    message_id: int | None = None
    file_id: str = ""
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
    """A plan was agreed for this client, from now on. `by` None: it came in an enrolment file. `reason` is what the client is
    told of why, a text by key, empty for none."""

    at: datetime
    plan: Plan
    by: str | None = None
    reason: str = ""
    seed: int = 0
    kind: Literal["prescribed"] = "prescribed"


@dataclass(frozen=True, slots=True)
class PlanAsked:
    """The therapist `by` wants to copy this client's plan for another one. Passed to Client; comes back as `Opened`."""

    at: datetime
    by: str
    seed: int = 0
    kind: Literal["plan_asked"] = "plan_asked"


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


@dataclass(frozen=True, slots=True)
class Facts:
    """What a client's care tells a therapist's phone when a dialogue about it opens there. `previous` is the plan before the
    present one; `meant` a plan that was not taken, since the present one came between. `own_media` is what therapists recorded
    for the client, without the files themselves. `goal` is the client's, in their own words.
    """

    client: str
    name: str
    zone: str
    plan: Plan | None = None
    baseline: Baseline | None = None
    carer: str | None = None
    cover: str | None = None
    about: About | None = None
    previous: Plan | None = None
    meant: Plan | None = None
    own_media: tuple[OwnMedia, ...] = ()
    goal: str = ""


class Opens(StrEnum):
    """The dialogues that a client's care opens on a therapist's phone; the consent on the client's own."""

    PLAN = "plan"
    COPY = "copy"
    BASELINE = "baseline"
    HAND_OVER = "hand_over"
    COVER = "cover"
    CONSENT = "consent"
    MEDIA = "media"
    REVIEW = "review"


@dataclass(frozen=True, slots=True)
class Opened:
    """A client's care opens a dialogue on this person's phone. Passed from Client to Person."""

    at: datetime
    what: Opens
    facts: Facts
    seed: int = 0
    kind: Literal["opened"] = "opened"


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of a list that was looked up: a client of the caseload (with reasons, gravest first), or a colleague."""

    id: str
    name: str
    reasons: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Found:
    """What a `LookUp` found: `entries` from place `first` on, of `total`. Passed to the Person who asked."""

    at: datetime
    what: str
    first: int
    total: int
    entries: tuple[Entry, ...]
    seed: int = 0
    kind: Literal["found"] = "found"


@dataclass(frozen=True, slots=True)
class Consented:
    """The client agreed, on their own phone, to this version of the consent. `carer_sees` is what the carer may see."""

    at: datetime
    by: str
    version: str
    carer_sees: tuple[str, ...] = ()
    seed: int = 0
    kind: Literal["consented"] = "consented"


@dataclass(frozen=True, slots=True)
class Declined:
    """The client did not agree, on their own phone, to this version of the consent. Passed from Person to Client."""

    at: datetime
    by: str
    version: str
    seed: int = 0
    kind: Literal["declined"] = "declined"


@dataclass(frozen=True, slots=True)
class Briefed:
    """A carer went through this version of the briefing and answered its check questions. Passed from Person to Client."""

    at: datetime
    by: str
    version: str
    seed: int = 0
    kind: Literal["briefed"] = "briefed"


@dataclass(frozen=True, slots=True)
class BaselineTaken:
    """The baseline was taken, or taken anew, by the therapist `by`. `about` None: nothing else was asked."""

    at: datetime
    by: str
    baseline: Baseline
    about: About | None = None
    seed: int = 0
    kind: Literal["baseline_taken"] = "baseline_taken"


@dataclass(frozen=True, slots=True)
class Assigned:
    """A client was given to this therapist's phone (hand-over, or cover). Passed from Client to Person."""

    at: datetime
    client: str
    seed: int = 0
    kind: Literal["assigned"] = "assigned"


@dataclass(frozen=True, slots=True)
class Released:
    """A client no longer belongs to this person's phone, who sees and does nothing more there. Passed from Client to Person."""

    at: datetime
    client: str
    seed: int = 0
    kind: Literal["released"] = "released"


@dataclass(frozen=True, slots=True)
class HandedOver:
    """The therapist `by` gave the client to `to`, called `name`, for good."""

    at: datetime
    by: str
    to: str
    name: str
    seed: int = 0
    kind: Literal["handed_over"] = "handed_over"


@dataclass(frozen=True, slots=True)
class CoverAgreed:
    """`to`, called `name`, sees to the client beside the therapist `by`, from `start` up to `end`."""

    at: datetime
    by: str
    to: str
    name: str
    start: datetime
    end: datetime
    seed: int = 0
    kind: Literal["cover_agreed"] = "cover_agreed"


@dataclass(frozen=True, slots=True)
class DutySet:
    """A therapist who sees to the client told their hours and deputy; `deputy_name` is the deputy's call name."""

    at: datetime
    duty: Duty
    deputy_name: str = ""
    seed: int = 0
    kind: Literal["duty_set"] = "duty_set"


@dataclass(frozen=True, slots=True)
class MediaGiven:
    """The therapist `by` recorded a voice cue, a photo or a clip for an exercise of this client, and the client is to be asked.
    `beside`: it shall come beside the standard picture, else instead. Passed from Person to Client."""

    at: datetime
    by: str
    exercise: str
    media: Recorded
    beside: bool
    seed: int = 0
    kind: Literal["media_given"] = "media_given"


@dataclass(frozen=True, slots=True)
class MediaRemoved:
    """The therapist `by` takes back what was recorded for this client: `media` is its id. Passed from Person to Client."""

    at: datetime
    by: str
    media: str
    seed: int = 0
    kind: Literal["media_removed"] = "media_removed"


@dataclass(frozen=True, slots=True)
class Assessed:
    """The records up to now were assessed: where the last sessions stand against `earlier` ones. `p` None: too few to say."""

    at: datetime
    course: Course
    earlier: int
    p: float | None = None
    seed: int = 0
    kind: Literal["assessed"] = "assessed"


@dataclass(frozen=True, slots=True)
class ReviewDone:
    """The therapist `by` measured this at a review. Passed from Person to Client."""

    at: datetime
    by: str
    values: ReviewValues
    seed: int = 0
    kind: Literal["review_done"] = "review_done"


@dataclass(frozen=True, slots=True)
class ChartDue:
    """With the digest, or on a tap, the therapist `by` gets the chart of this week: local dates, both included. Passed from
    Person to Client."""

    at: datetime
    by: str
    first: date
    last: date
    seed: int = 0
    kind: Literal["chart_due"] = "chart_due"


ToPerson = Opened | Found | Assigned | Released
"""What only a Person handles; to a Client it means nothing."""

ToClient = (
    Prescribed
    | PlanAsked
    | Consented
    | Declined
    | Briefed
    | BaselineTaken
    | HandedOver
    | CoverAgreed
    | DutySet
    | MediaGiven
    | MediaRemoved
    | Assessed
    | ReviewDone
    | ChartDue
)
"""What only a Client handles; to a Person it means nothing."""

Event = Woke | Pressed | Controlled | Typed | Arrived | Lost | Joined | Left | ToPerson | ToClient
