"""A client's week as the therapist needs it, worked out from observations. Pure: no clock, no words, no drawing.

In the order in which it is read: flags and falls, days with no answer; sessions reported of those due; each
stance, side by side; hand support, steps, touches, made easier; effort, carer, own words; the decision that waits.

Everything a client or carer said is a report. What nobody answered is unknown: it is counted apart, never as zero.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from enum import StrEnum
from zoneinfo import ZoneInfo

from companion.core.observations import (
    Answer,
    Bout,
    BrokeBy,
    CarerSeen,
    DayClosed,
    FallKind,
    FallReported,
    FlagAcknowledged,
    FlagLifted,
    FlagRaised,
    Observation,
    OwnWords,
    Quality,
    Reporter,
    SessionEnded,
)
from companion.core.programme import HAND_STAGES, Hand, Level, Plan
from companion.core.schedule import local_day, next_due
from companion.reports.stances import StanceLine, lines

WEEK = timedelta(days=7)


@dataclass(frozen=True, slots=True)
class Case:
    """Whose week it is. `zone` is the client's time zone, `roles` say who a person id is: client, carer, ...

    `since` is when the first plan began: nothing was due before. None: not known.
    """

    name: str
    zone: str
    plan: Plan
    roles: tuple[tuple[str, str], ...] = ()
    since: datetime | None = None


class State(StrEnum):
    """What became of a day's practice, the best first. All but the last two are an `Ending`."""

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
    NO_RECORD = "no_record"
    TO_COME = "to_come"


UNKNOWN = frozenset({State.NO_ANSWER, State.NOT_ASKED, State.NO_RECORD})
NOT_COUNTED = frozenset({State.HELD, State.PAUSED, State.TO_COME})
REPORTED = frozenset({State.DONE, State.PARTLY})
_BEST_FIRST = tuple(State)
CONFIDENCE = frozenset({"sure", "a_little_sure", "not_sure"})


@dataclass(frozen=True, slots=True)
class Day:
    """One local day. The plan is a dose a day: what is left of it may be done later that day, as one session.

    `state` None: nothing was due and nothing took place. `due` False with a state: practised beyond what was due.
    `no_word`: a session of that day ended without a word after standing, whatever came later.
    """

    day: date
    due: bool
    state: State | None
    no_word: bool = False


@dataclass(frozen=True, slots=True)
class Tally:
    """Days on which practice was due, by state; `extra` are days on which it was not and was reported all the same."""

    states: tuple[tuple[State, int], ...]
    extra: int

    def count(self, *states: State) -> int:
        """How many of the days due are in one of these states."""
        return sum(number for state, number in self.states if state in states)

    @property
    def due(self) -> int:
        """Sessions that count as due: not those held, paused or still to come."""
        return sum(number for state, number in self.states if state not in NOT_COUNTED)

    @property
    def reported(self) -> int:
        """Sessions reported done or partly."""
        return self.count(*REPORTED)

    @property
    def unknown(self) -> int:
        """Sessions due of which nobody told anything."""
        return self.count(*UNKNOWN)

    @property
    def more_than_70(self) -> bool:
        """Adherent after stroke: more than 70 % of the prescribed dose, so 7 of 10 is not (SS-MAHE 2019)."""
        return self.due >= 1 and self.reported * 10 > self.due * 7


@dataclass(frozen=True, slots=True)
class Flag:
    """A red flag of this week, or an older one that was still open in it. `fall` None: no fall is spoken of.

    `more`: when more was reported under it after it was raised. `seen`: the newest acknowledgement.
    """

    id: str
    at: datetime
    more: datetime | None
    rule: str
    level: Level | None
    facts: tuple[str, ...]
    by: str
    seen: datetime | None
    lifted: datetime | None
    reason: str | None
    fall: FallKind | None

    @property
    def open(self) -> bool:
        """Whether it holds the practice still."""
        return self.lifted is None


@dataclass(frozen=True, slots=True)
class Support:
    """Hand support and what broke the bouts, counted over the bouts of the week that somebody spoke of.

    `eased` and `harder` are bouts done easier or harder than planned. BOTH counts as a step and as a touch.
    """

    bouts: int
    hands: tuple[tuple[Hand, int], ...]
    steps: int
    touches: int
    leaned: int
    feet_down: int
    eased: int
    harder: int


@dataclass(frozen=True, slots=True)
class Said:
    """The client's or carer's own words; `form` instead where they were no text."""

    at: datetime
    by: Reporter
    text: str
    form: str = ""


@dataclass(frozen=True, slots=True)
class Week:
    """What the chart and its caption show, and nothing else. `first_week`: nothing is known of the week before.

    `confidence` is the client's newest answer of the week, one of `CONFIDENCE`; None: not answered. `carer_saw_more`: sessions
    in which the carer saw a step or a touch and the client reported none. `near_falls`: days of near-falls without a red flag.
    """

    name: str
    zone: str
    roles: tuple[tuple[str, str], ...]
    first: date
    last: date
    as_of: datetime
    flags: tuple[Flag, ...]
    days: tuple[Day, ...]
    tally: Tally
    first_week: bool
    stances: tuple[StanceLine, ...]
    support: Support
    effort: tuple[tuple[str | None, int], ...]
    confidence: str | None
    carer: tuple[tuple[CarerSeen, int], ...]
    carer_saw_more: int
    near_falls: tuple[date, ...]
    said: tuple[Said, ...]

    def days_of(self, *states: State) -> tuple[date, ...]:
        """The days in one of these states."""
        return tuple(day.day for day in self.days if day.state in states)

    @property
    def practised(self) -> bool:
        """Whether any bout of this week is on record."""
        return any(side.marks for line in self.stances for side in line.sides)

    @property
    def no_word_days(self) -> tuple[date, ...]:
        """Days on which a session ended without a word after standing."""
        return tuple(day.day for day in self.days if day.no_word)

    @property
    def to_lift(self) -> tuple[Flag, ...]:
        """The decisions that are waiting: the flags that only the therapist can lift."""
        return tuple(flag for flag in self.flags if flag.open)


def summarise(
    case: Case, first: date, last: date, observations: Sequence[tuple[datetime, Observation]], as_of: datetime
) -> Week:
    """The week `first` to `last`, local dates, both included, as it is known at `as_of`.

    `observations` are all there are from a week before `first` to `as_of`, in the order of writing; of earlier
    ones only flags are taken. Raises ValueError if `last` is before `first`.
    """
    if last < first:
        raise ValueError(f"the week ends on {last}, before it begins on {first}")
    zone = ZoneInfo(case.zone)
    dated = [(_local_day(what, at, zone), what) for at, what in observations if at <= as_of]
    week = [(day, what) for day, what in dated if first <= day <= last]
    before = [(day, what) for day, what in dated if first - WEEK <= day < first]
    flagged = [(day, what) for day, what in dated if not _is_near_fall(what)]
    bouts = [(day, what) for day, what in week if isinstance(what, Bout)]
    bouts_before = [(day, what) for day, what in before if isinstance(what, Bout)]
    ended = [what for _, what in week if isinstance(what, SessionEnded)]
    since = _first_due(case) or (first if before or not week else min(day for day, _ in week))
    days = _days(case.plan, (first, last), [what for _, what in week], (since, as_of.astimezone(zone).date()))
    return Week(
        name=case.name,
        zone=case.zone,
        roles=case.roles,
        first=first,
        last=last,
        as_of=as_of,
        flags=_flags(flagged, first, last),
        days=days,
        tally=_tally(days),
        first_week=not before,
        stances=lines(bouts, bouts_before if before else None, case.plan),
        support=_support([bout for _, bout in bouts]),
        effort=_effort(ended),
        confidence=_confidence(what for _, what in week),
        carer=_carer(ended),
        carer_saw_more=_carer_saw_more(what for _, what in week),
        near_falls=tuple(day for day, what in week if _is_near_fall(what)),
        said=tuple(Said(what.at, what.by, what.text, what.form) for _, what in week if isinstance(what, OwnWords)),
    )


def _local_day(what: Observation, at: datetime, zone: ZoneInfo) -> date:
    if isinstance(what, SessionEnded | DayClosed):
        return what.day
    return at.astimezone(zone).date()


def _first_due(case: Case) -> date | None:
    """The local day of the first practice moment after the first plan began; None where that is not known.

    The day of the start itself counts only if a moment of practice was still to come. Where the start is unknown the
    first record stands for it: every day due leaves one.
    """
    moment = None if case.since is None else next_due(case.plan.practice, case.zone, case.since)
    return None if moment is None else local_day(moment, case.zone)


def _days(plan: Plan, span: tuple[date, date], week: Iterable[Observation], known: tuple[date, date]) -> tuple[Day, ...]:
    """The days of the span. `known`: the first day of which anything can be known, and today."""
    endings: dict[date, list[State]] = {}
    closed: dict[date, State] = {}
    for what in week:
        if isinstance(what, SessionEnded):
            endings.setdefault(what.day, []).append(State(what.ending))
        elif isinstance(what, DayClosed):
            closed[what.day] = State(what.ending)
    first, last = span
    every = [first + timedelta(days=step) for step in range((last - first).days + 1)]
    return tuple(_day(plan, day, endings.get(day, []), closed.get(day), known) for day in every)


def _day(plan: Plan, day: date, ended: list[State], closed: State | None, known: tuple[date, date]) -> Day:
    since, today = known
    due = closed is not None or (day >= since and day.weekday() in plan.practice.weekdays)
    state: State | None = None
    if ended:
        state = min(ended, key=_BEST_FIRST.index)
    elif due:
        state = closed or (State.NO_RECORD if day < today else State.TO_COME)
    return Day(day, due, state, State.NO_WORD in ended)


def _tally(days: Iterable[Day]) -> Tally:
    counts = Counter(day.state for day in days if day.due)
    extra = sum(day.state in REPORTED for day in days if not day.due)
    return Tally(tuple((state, counts[state]) for state in State if counts[state]), extra)


@dataclass(slots=True)
class _Course:
    """What is on record of one flag, as it is gathered."""

    first: tuple[date, FlagRaised | FallReported]
    newest: FlagRaised | None = None
    seen: datetime | None = None
    lifted: tuple[date, FlagLifted] | None = None
    fall: FallKind | None = None


def _flags(dated: Iterable[tuple[date, Observation]], first: date, last: date) -> tuple[Flag, ...]:
    """The flags raised in the week, and older ones that were not lifted when it began; oldest first."""
    courses: dict[str, _Course] = {}
    for day, what in dated:
        if isinstance(what, FlagRaised | FallReported):
            course = courses.setdefault(what.flag, _Course((day, what)))
            if isinstance(what, FlagRaised):
                course.newest = what
            else:
                course.fall = what.fall
        elif isinstance(what, FlagAcknowledged | FlagLifted) and what.flag in courses:
            if isinstance(what, FlagLifted):
                courses[what.flag].lifted = (day, what)
            else:
                courses[what.flag].seen = what.at
    shown = [
        course
        for course in courses.values()
        if course.first[0] <= last and (course.first[0] >= first or course.lifted is None or course.lifted[0] >= first)
    ]
    return tuple(sorted((_flag(course) for course in shown), key=lambda flag: flag.at))


def _flag(course: _Course) -> Flag:
    raised, newest = course.first[1], course.newest
    lift = course.lifted[1] if course.lifted else None
    return Flag(
        id=raised.flag,
        at=raised.at,
        more=newest.at if newest is not None and newest.at > raised.at else None,
        rule=newest.rule if newest else "",
        level=newest.level if newest else None,
        facts=newest.facts if newest else (),
        by=raised.by,
        seen=course.seen,
        lifted=lift.at if lift else None,
        reason=lift.reason if lift else None,
        fall=course.fall,
    )


def _support(bouts: Sequence[Bout]) -> Support:
    spoken = [bout for bout in bouts if bout.quality is not Quality.UNKNOWN]
    hands = Counter(bout.hand for bout in spoken)
    broke = Counter(bout.broke_by for bout in spoken)
    return Support(
        bouts=len(spoken),
        hands=tuple((hand, hands[hand]) for hand in HAND_STAGES if hands[hand]),
        steps=broke[BrokeBy.STEP] + broke[BrokeBy.BOTH],
        touches=broke[BrokeBy.HAND] + broke[BrokeBy.BOTH],
        leaned=broke[BrokeBy.LEANED],
        feet_down=broke[BrokeBy.FOOT_DOWN],
        eased=sum(bout.eased > 0 for bout in spoken),
        harder=sum(bout.eased < 0 for bout in spoken),
    )


def _effort(ended: Iterable[SessionEnded]) -> tuple[tuple[str | None, int], ...]:
    """Answers on effort, easiest first, over the sessions in which something was done; None: not answered."""
    counts = Counter(what.effort for what in ended if what.done)
    order = {"easy": 0, "medium": 1, "hard": 2}
    return tuple(sorted(counts.items(), key=lambda item: (item[0] is None, order.get(item[0] or "", 3))))


def _confidence(week: Iterable[Observation]) -> str | None:
    """What the client answered last; an answer that this chart does not know is not guessed at."""
    answers = [
        what
        for what in week
        if isinstance(what, Answer)
        and what.question == "confidence"
        and what.by is Reporter.CLIENT
        and what.answer in CONFIDENCE
    ]
    return max(answers, key=lambda what: what.at).answer if answers else None


def _is_near_fall(what: Observation) -> bool:
    """A near-fall that was reported by itself: nobody was hurt, and it raised no red flag."""
    return isinstance(what, FallReported) and what.without_flag


def _carer_saw_more(week: Iterable[Observation]) -> int:
    """Sessions in which carer and client differ: a step or a touch that only the carer tells of. Both stay in the record.

    The carer tells it with their last word, or taps it on their clock in an exercise.
    """
    seen: set[tuple[str, str | None]] = set()
    broke: set[tuple[str, str | None]] = set()
    for what in week:
        if isinstance(what, Answer) and what.by is Reporter.CARER and what.question in ("carer_saw", "tap"):
            seen.add((what.session, what.exercise))
        elif isinstance(what, Bout) and what.quality is Quality.BROKE:
            broke |= {(what.session, what.exercise), (what.session, None)}
    return len({session for session, _ in seen - broke})


def _carer(ended: Iterable[SessionEnded]) -> tuple[tuple[CarerSeen, int], ...]:
    """Whether a carer was seen, over the sessions that came so far that it was asked."""
    counts = Counter(what.carer for what in ended if what.done or what.carer is not CarerSeen.NOT_NEEDED)
    return tuple((seen, counts[seen]) for seen in CarerSeen if counts[seen])
