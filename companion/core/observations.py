"""What practice leaves behind. Times are the client's or carer's own report unless the bot's clock says so."""

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from typing import Literal

from companion.core.baseline import Baseline
from companion.core.programme import Clock, Direction, Eyes, Hand, Level, Measure, Plan, Side, Stance
from companion.core.review_values import ReviewValues


@dataclass(frozen=True, slots=True)
class Bounds:
    """When something happened within a bout, seconds from its start: `low` to `high`, both included.

    `high` None: not before `low`, and not seen to happen (the hold was clean to its end). Equal: known to the second.
    """

    low: float
    high: float | None


class Quality(StrEnum):
    """How a bout went. CLEAN: no step and no touch, to the end. ENDED_EARLY: stopped on purpose. UNWELL: stopped for a
    symptom, its own end. UNKNOWN: nobody answered."""

    CLEAN = "clean"
    BROKE = "broke"
    ENDED_EARLY = "ended_early"
    UNWELL = "unwell"
    UNKNOWN = "unknown"


class BrokeBy(StrEnum):
    """What broke a hold."""

    STEP = "step"
    HAND = "hand"
    BOTH = "both"
    LEANED = "leaned"
    FOOT_DOWN = "foot_down"


class Reporter(StrEnum):
    """Who says so."""

    CLIENT = "client"
    CARER = "carer"
    NOBODY = "nobody"


@dataclass(frozen=True, slots=True)
class Bout:
    """One bout of one exercise. `practised_s` None: the time is unknown. `done` is the count of a counted bout.

    `first_break` None: unknown. `eased` counts the steps by which it was made easier than planned; negative: harder.
    """

    at: datetime
    session: str
    exercise: str
    form: str
    stance: Stance
    eyes: Eyes
    hand: Hand
    clock: Clock
    measure: Measure
    target: int
    side: Side | None
    quality: Quality
    practised_s: float | None
    done: int | None
    first_break: Bounds | None
    broke_by: BrokeBy | None
    reporter: Reporter
    eased: int = 0
    kind: Literal["bout"] = "bout"


@dataclass(frozen=True, slots=True)
class Answer:
    """An answer about an exercise or the session: sway, steadier side, effort, the carer's last word."""

    at: datetime
    session: str
    exercise: str | None
    question: str
    answer: str
    by: Reporter
    kind: Literal["answer"] = "answer"


class Ending(StrEnum):
    """How a session ended, or why a day had none. NO_ANSWER is unknown, never "fine"; NOT_ASKED: the bot was away."""

    DONE = "done"
    PARTLY = "partly"
    STOPPED = "stopped"
    NO_WORD = "no_word"
    NOT_READY = "not_ready"
    NO_ANSWER = "no_answer"
    NOT_ASKED = "not_asked"
    DECLINED = "declined"
    HELD = "held"
    PAUSED = "paused"


class CarerSeen(StrEnum):
    """Whether a carer was shown to be there. NOT_VERIFIED: it was said on a phone that client and carer share."""

    VERIFIED = "verified"
    NOT_VERIFIED = "not_verified"
    NOT_NEEDED = "not_needed"
    ABSENT = "absent"


@dataclass(frozen=True, slots=True)
class SessionEnded:
    """A session came to its end. `day` is the client's local date; `planned` and `done` count bouts."""

    at: datetime
    session: str
    day: date
    began: datetime
    ending: Ending
    planned: int
    done: int
    carer: CarerSeen
    effort: str | None = None
    kind: Literal["session_ended"] = "session_ended"


@dataclass(frozen=True, slots=True)
class DayClosed:
    """A day on which practice was due and no session ended. `ending` is one of the last six."""

    at: datetime
    day: date
    ending: Ending
    kind: Literal["day_closed"] = "day_closed"


@dataclass(frozen=True, slots=True)
class FlagRaised:
    """A red flag. `facts` are what was pressed or asked, by plain name; `by` is the person."""

    at: datetime
    flag: str
    rule: str
    level: Level
    facts: tuple[str, ...]
    by: str
    kind: Literal["flag_raised"] = "flag_raised"


@dataclass(frozen=True, slots=True)
class FlagAcknowledged:
    """A contact has seen the alert."""

    at: datetime
    flag: str
    by: str
    kind: Literal["flag_acknowledged"] = "flag_acknowledged"


@dataclass(frozen=True, slots=True)
class FlagLifted:
    """The therapist lifted the hold, with a reason by key."""

    at: datetime
    flag: str
    by: str
    reason: str
    kind: Literal["flag_lifted"] = "flag_lifted"


class FallKind(StrEnum):
    """ProFaNE (Lamb 2005): a fall is coming to rest unexpectedly on the ground, floor or other lower level."""

    FALL = "fall"
    NEAR_FALL = "near_fall"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class FallReported:
    """A fall or near-fall was reported, or is not yet told apart (UNKNOWN). The last one of a flag counts.

    A near-fall in which nobody was hurt raises no flag: then `flag` names the report itself (n1, n2 ...).
    """

    at: datetime
    flag: str
    fall: FallKind
    by: str
    kind: Literal["fall_reported"] = "fall_reported"

    @property
    def without_flag(self) -> bool:
        """Whether it was reported by itself, under no red flag."""
        return self.flag.startswith("n")


@dataclass(frozen=True, slots=True)
class OwnWords:
    """The client's or carer's own words, kept for the therapist. Not read at once. `form`: what it was if it was no text, in
    the platform's word ("voice", "photo"); then `text` is empty."""

    at: datetime
    by: Reporter
    text: str
    form: str = ""
    kind: Literal["own_words"] = "own_words"


@dataclass(frozen=True, slots=True)
class PlanPrescribed:
    """A plan holds from now on. `by` None: from an enrolment file. `reason` as in the event `Prescribed`. `plan` None: from
    before plans were kept here."""

    at: datetime
    version: int
    by: str | None
    reason: str = ""
    plan: Plan | None = None
    kind: Literal["plan_prescribed"] = "plan_prescribed"


@dataclass(frozen=True, slots=True)
class BaselineNoted:
    """What the therapist `by` found at a visit. The newest one holds; older ones stay as they were."""

    at: datetime
    by: str
    baseline: Baseline
    kind: Literal["baseline_noted"] = "baseline_noted"


class ConsentAnswer(StrEnum):
    """What the client said to the consent. WITHDRAWN: agreed, and then left."""

    AGREED = "agreed"
    DECLINED = "declined"
    WITHDRAWN = "withdrawn"


@dataclass(frozen=True, slots=True)
class ConsentNoted:
    """The client's word on the consent, to this version of it. `carer_sees`: what the carer may see, by key."""

    at: datetime
    by: str
    version: str
    answer: ConsentAnswer
    carer_sees: tuple[str, ...] = ()
    kind: Literal["consent_noted"] = "consent_noted"


@dataclass(frozen=True, slots=True)
class Proposed:
    """A step was proposed to the therapist. `step`: what would be harder, empty for a step back. `days`: what it rests on."""

    at: datetime
    proposal: str
    exercise: str
    direction: Direction
    step: str
    version: int
    days: tuple[date, ...]
    kind: Literal["proposed"] = "proposed"


class ProposalEnd(StrEnum):
    """What became of a proposal. LATER: to be asked again. The last five: nobody answered, and it does not hold any more."""

    NEXT = "next"
    STAY = "stay"
    BACK = "back"
    LATER = "later"
    PLAN_CHANGED = "plan_changed"
    FLAG = "flag"
    THERAPIST_CHANGED = "therapist_changed"
    NO_LONGER_MET = "no_longer_met"
    DISCHARGED = "discharged"


@dataclass(frozen=True, slots=True)
class ProposalAnswered:
    """The therapist `by` answered a proposal; `by` empty: it was withdrawn."""

    at: datetime
    proposal: str
    exercise: str
    answer: ProposalEnd
    by: str = ""
    kind: Literal["proposal_answered"] = "proposal_answered"


@dataclass(frozen=True, slots=True)
class CallNoted:
    """Somebody who was told of a red flag says what came of calling the client: "reached", "not_reached", "with_them"."""

    at: datetime
    flag: str
    by: str
    answer: str
    kind: Literal["call_noted"] = "call_noted"


@dataclass(frozen=True, slots=True)
class TherapistChanged:
    """Who sees to the client changed: `what` is "handed_over", "cover_began" or "cover_ended"; `by` sees to them from then on,
    or no longer where a cover ended."""

    at: datetime
    what: str
    by: str
    kind: Literal["therapist_changed"] = "therapist_changed"


@dataclass(frozen=True, slots=True)
class Discharged:
    """The therapist `by` ended practice with the companion."""

    at: datetime
    by: str
    kind: Literal["discharged"] = "discharged"


@dataclass(frozen=True, slots=True)
class PauseAgreed:
    """The client pauses: why ("holiday" or "unwell", reported) and the first local day after it, None while it is open."""

    at: datetime
    why: str
    until: date | None
    kind: Literal["pause_agreed"] = "pause_agreed"


@dataclass(frozen=True, slots=True)
class PauseOver:
    """The pause is over: the client `by` came back, or its days have passed (None)."""

    at: datetime
    by: str | None
    kind: Literal["pause_over"] = "pause_over"


@dataclass(frozen=True, slots=True)
class GoalSet:
    """The client's goal in the client's own words."""

    at: datetime
    text: str
    kind: Literal["goal_set"] = "goal_set"


@dataclass(frozen=True, slots=True)
class MediaDecided:
    """What became of a file that a therapist recorded for an exercise: "given", then "agreed" or "declined" by the client;
    "removed" by either. `medium` as in `Medium`."""

    at: datetime
    by: str
    exercise: str
    medium: str
    what: str
    kind: Literal["media_decided"] = "media_decided"


class Course(StrEnum):
    """Where the last sessions stand against the client's own usual. BETWEEN leaves a notice as it is."""

    TOO_FEW = "too_few"
    USUAL = "usual"
    BETWEEN = "between"
    LOW = "low"


@dataclass(frozen=True, slots=True)
class CourseNoted:
    """The last sessions, taken together, were among the lowest of the last `earlier` (LOW), or that is over: USUAL again, or
    TOO_FEW, a new plan. `p` is that of the rank test, one-sided; None: none was made."""

    at: datetime
    course: Course
    earlier: int
    p: float | None
    kind: Literal["course_noted"] = "course_noted"


@dataclass(frozen=True, slots=True)
class Reviewed:
    """What the therapist `by` measured at a review."""

    at: datetime
    by: str
    values: ReviewValues
    kind: Literal["reviewed"] = "reviewed"


Observation = (
    Bout
    | Answer
    | SessionEnded
    | DayClosed
    | FlagRaised
    | FlagAcknowledged
    | FlagLifted
    | FallReported
    | OwnWords
    | ConsentNoted
    | PauseAgreed
    | PauseOver
    | GoalSet
    | PlanPrescribed
    | BaselineNoted
    | Proposed
    | ProposalAnswered
    | CallNoted
    | TherapistChanged
    | Discharged
    | MediaDecided
    | CourseNoted
    | Reviewed
)
