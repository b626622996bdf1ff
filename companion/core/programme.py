"""What is practised: exercises, their forms, the plan a therapist prescribes, and the rules of the house.

`content/` and the therapist's choices are parsed into these values. Nothing here does anything.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, time
from enum import StrEnum


class Posture(StrEnum):
    """Whether an exercise is done seated or standing. Standing needs a complete, fresh safety check."""

    SEATED = "seated"
    STANDING = "standing"


class Stance(StrEnum):
    """How the feet stand. The first four of the ladder are the trade's, in rising order of challenge."""

    SEATED = "seated"
    FEET_APART = "feet_apart"
    FEET_TOGETHER = "feet_together"
    HALF_STEP = "half_step"
    HEEL_TO_TOE = "heel_to_toe"
    ONE_LEG = "one_leg"
    ONE_LEG_TOES = "one_leg_toes"
    TWO_LEG_TOES = "two_leg_toes"
    WALKING = "walking"


class Hand(StrEnum):
    """Hand support, from most to least. NONE still has the support in reach."""

    TWO_HANDS = "two_hands"
    ONE_HAND = "one_hand"
    FINGERTIPS = "fingertips"
    HOVERING = "hovering"
    NONE = "none"


HAND_STAGES: tuple[Hand, ...] = tuple(Hand)


class Eyes(StrEnum):
    """Eyes open or closed. Closed is a permission of its own."""

    OPEN = "open"
    CLOSED = "closed"


class Clock(StrEnum):
    """Who keeps the time of a bout."""

    SCREEN = "screen"
    SOUND = "sound"
    CARER = "carer"
    NONE = "none"


class Measure(StrEnum):
    """What a bout is measured in: seconds held, or things counted (repeats, claps, lengths)."""

    TIMED = "timed"
    COUNTED = "counted"


class Sides(StrEnum):
    """Whether an exercise has sides, and what a side means in it."""

    NONE = "none"
    FRONT_FOOT = "front_foot"
    LEG = "leg"


class Side(StrEnum):
    """A side of the body, told by strength, never by left and right alone."""

    STRONGER = "stronger"
    WEAKER = "weaker"


class Role(StrEnum):
    """Warm-up comes first in every session."""

    WARM_UP = "warm_up"
    MAIN = "main"


class AskAfter(StrEnum):
    """What an exercise asks after its last bout."""

    SWAY_AMOUNT = "sway_amount"
    SWAY_DIRECTION = "sway_direction"
    AGAINST_WARM_UP = "against_warm_up"
    STEADIER_SIDE = "steadier_side"


@dataclass(frozen=True, slots=True)
class Form:
    """One form of an exercise.

    `target` is seconds for a timed form and a count for a counted one; `least` to `most`, both included, are the sane doses.
    `counts` are the answers offered for a counted form, most first. `hands` are the hand stages this form may be done with,
    most support first.
    """

    id: str
    posture: Posture
    stance: Stance
    measure: Measure
    target: int
    eyes: Eyes = Eyes.OPEN
    hands: tuple[Hand, ...] = (Hand.ONE_HAND,)
    counts: tuple[int, ...] = ()
    needs_carer: bool = False
    needs_free_ankle: bool = False
    needs_two_hands: bool = False
    least: int = 1
    most: int = 600


@dataclass(frozen=True, slots=True)
class Exercise:
    """An exercise of the library. `forms` run from easiest to hardest; `usual` is the id of the one normally planned."""

    id: str
    role: Role
    sides: Sides
    forms: tuple[Form, ...]
    usual: str
    clocks: tuple[Clock, ...]
    asks: tuple[AskAfter, ...] = ()

    def form(self, form_id: str) -> Form:
        """The form of that id; KeyError if there is none."""
        for form in self.forms:
            if form.id == form_id:
                return form
        raise KeyError(form_id)


@dataclass(frozen=True, slots=True)
class Planned:
    """One exercise of a plan. `target` is seconds or a count; `weaker_target` that of the weaker side, None for the same.

    The client may move up to `hardest` and `hand_hardest` by themselves.
    """

    exercise: str
    form: str
    target: int
    hand: Hand
    clock: Clock
    hardest: str
    hand_hardest: Hand
    sides: tuple[Side, ...] = ()
    weaker_target: int | None = None

    def dose(self, side: Side | None) -> int:
        """Seconds or a count for that side."""
        return self.weaker_target if side is Side.WEAKER and self.weaker_target is not None else self.target


class Supervision(StrEnum):
    """When a carer must be beside the client."""

    ALWAYS = "always"
    WHEN_FORM_NEEDS = "when_form_needs"


class CheckStyle(StrEnum):
    """The safety check: all signs in one look, or sign by sign."""

    ONE_LOOK = "one_look"
    SIGN_BY_SIGN = "sign_by_sign"


@dataclass(frozen=True, slots=True)
class Practice:
    """When practice is due: weekdays (0 is Monday) and local times of day."""

    weekdays: tuple[int, ...]
    times: tuple[time, ...]

    def sessions(self, day: date) -> int:
        """For how many sessions it asks on that local day."""
        return len(self.times) if day.weekday() in self.weekdays else 0


@dataclass(frozen=True, slots=True)
class Quiet:
    """Local hours in which no reminder goes out; `start` later than `end` means over midnight."""

    start: time
    end: time


@dataclass(frozen=True, slots=True)
class ReportTime:
    """When the weekly chart is due, in the therapist's time zone."""

    weekday: int
    at: time
    zone: str


@dataclass(frozen=True, slots=True)
class Place:
    """The client's own set-up: keys of `place-support-*` and `place-footwear-*` in the texts.

    `side` is where the support stands: "stronger" (on the stronger side) or "front". `name`: what the client calls it, or "".
    """

    support: str
    footwear: str
    chair_behind: bool = True
    side: str = "stronger"
    name: str = ""


@dataclass(frozen=True, slots=True)
class Plan:
    """What the therapist prescribes. Times of getting into place and of rest are seconds. `review_on`: the therapist looks at
    it again; `ends_on`: its last day. Both are dates at the client's home, None for not set."""

    version: int
    exercises: tuple[Planned, ...]
    practice: Practice
    report: ReportTime
    place: Place
    supervision: Supervision = Supervision.ALWAYS
    check: CheckStyle = CheckStyle.ONE_LOOK
    eyes_closed: bool = False
    into_place_s: int = 20
    rest_s: int = 60
    minutes: int = 20
    one_good_hand: bool = True
    ankle_blocked: bool = False
    blood_thinner: bool = False
    can_call_for_help: bool = True
    review_on: date | None = None
    ends_on: date | None = None

    def over(self, day: date) -> bool:
        """Whether that day at the client's home is after the plan's last one."""
        return self.ends_on is not None and day > self.ends_on


@dataclass(frozen=True, slots=True)
class Template:
    """A plan to begin with. What it leaves out (days, place, what was found at the visit) comes from the client at hand."""

    id: str
    exercises: tuple[Planned, ...]
    supervision: Supervision
    check: CheckStyle
    minutes: int
    rest_s: int


@dataclass(frozen=True, slots=True)
class UsualDose:
    """Minutes at a time to begin with, as published in `source`. More is warned of, never refused."""

    minutes: int = 20
    source: str = ""


class Level(StrEnum):
    """How grave a red flag is, gravest first."""

    EMERGENCY = "emergency"
    URGENT = "urgent"


@dataclass(frozen=True, slots=True)
class FlagRule:
    """A red flag is raised when every fact of `when` is present. Facts are plain names, see `red_flags.py`."""

    id: str
    level: Level
    when: frozenset[str]


@dataclass(frozen=True, slots=True)
class Rhythm:
    """When alerts repeat and move on. Seconds since the alert was raised."""

    repeat_s: tuple[int, ...] = (600, 1200, 2400, 3600)
    repeat_every_s: int = 3600
    next_contact_s: int = 900
    emergency_next_contact_s: int = 300
    fall_ask_again_s: int = 120
    fall_next_contact_s: int = 300
    fall_therapist_again_s: int = 600


@dataclass(frozen=True, slots=True)
class Patience:
    """How long the companion waits, in seconds. No answer ever has a time limit that costs the client anything."""

    check_fresh_s: int = 1800
    gate_s: int = 600
    nudge_s: int = 180
    carer_nudge_s: int = 300
    no_word_s: int = 600
    carer_start_s: int = 300
    later_s: int = 1800
    idle_s: int = 14400
    late_cue_s: int = 3
    late_reminder_s: int = 7200
    receipt_s: int = 10
    writing_s: int = 1800


@dataclass(frozen=True, slots=True)
class ConsentWords:
    """What the client is asked to agree to: texts by key, screen by screen, and the version of these words."""

    version: str = ""
    screens: tuple[tuple[str, ...], ...] = ()


@dataclass(frozen=True, slots=True)
class Topic:
    """One topic of the carer's briefing, as keys of texts: what is told, the check question, its 2 or 3 choices, of which
    `right` is one, and what is said to a wrong answer."""

    id: str
    tell: tuple[str, ...]
    ask: str
    choices: tuple[str, ...]
    right: str
    wrong: str


@dataclass(frozen=True, slots=True)
class CarerBriefing:
    """What a carer goes through before the first session that needs one. Without topics nobody has to."""

    version: str
    topics: tuple[Topic, ...]


class Challenge(StrEnum):
    """The ways in which practice can be made harder, one at a time."""

    LONGER_HOLD = "longer_hold"
    LESS_HAND = "less_hand"
    NARROWER_BASE = "narrower_base"
    EYES_CLOSED = "eyes_closed"


class Direction(StrEnum):
    """Where a proposal points: a step up, or a step back."""

    UP = "up"
    BACK = "back"


@dataclass(frozen=True, slots=True)
class Progression:
    """When a step may be proposed to the therapist, and in what order. The numbers are content's.

    Up: an exercise was clean to its target on every planned side in `sessions_running` sessions running, the effort reported
    and one of `efforts`, and the client adherent. Back: a bout broke or was made easier in `back_sessions` running, in the last
    not less than in the first. `more_seconds`, `more_repeats`: by how much a dose grows at once.
    """

    order: tuple[Challenge, ...] = tuple(Challenge)
    sessions_running: int = 3
    efforts: tuple[str, ...] = ("easy", "medium")
    back_sessions: int = 3
    more_seconds: int = 15
    more_repeats: int = 2
    ask_again_days: int = 7
    adherent_above_percent: int = 70

    def is_adherent(self, done: int, planned: int) -> bool | None:
        """Whether `done` of `planned` sessions is adherent; None where nothing was planned. Exact, in whole numbers."""
        return None if planned == 0 else done * 100 > self.adherent_above_percent * planned


@dataclass(frozen=True, slots=True)
class Listing:
    """From when a therapist's list gives a client a reason to look. Days; the numbers are content's.

    `silent_days`: practice was due and nobody answered. `window_days`: over which adherence is counted. `fall_days`: for so
    long a fall or near-fall stays on the list after it was reported.
    """

    silent_days: int = 3
    window_days: int = 14
    fall_days: int = 7


@dataclass(frozen=True, slots=True)
class Noticeable:
    """Of a client whose holds differ from session to session by this log-SD: in how many of 100 cases a lasting fall by a
    third, or by half, is noticed within four sessions. From a simulation."""

    log_sd: float
    third: int
    half: int


@dataclass(frozen=True, slots=True)
class Rules:
    """Everything content tells the core: the library, the signs asked, the flags, the rhythms, and how to call help.

    `can_be_usual` are the signs that may be usual for a client. `noticeable`: by rising log-SD.
    """

    exercises: Mapping[str, Exercise]
    signs: tuple[str, ...]
    flags: tuple[FlagRule, ...]
    emergency_number: str
    rhythm: Rhythm = field(default_factory=Rhythm)
    patience: Patience = field(default_factory=Patience)
    sign_by_sign_sessions: int = 3
    sign_by_sign_gap_days: int = 7
    briefing: CarerBriefing = CarerBriefing("", ())
    consent: ConsentWords = field(default_factory=ConsentWords)
    templates: tuple[Template, ...] = ()
    usual_dose: UsualDose = field(default_factory=UsualDose)
    progression: Progression = field(default_factory=Progression)
    listing: Listing = field(default_factory=Listing)
    can_be_usual: tuple[str, ...] = ()
    noticeable: tuple[Noticeable, ...] = ()
