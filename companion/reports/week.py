"""A client's week as the therapist needs it, worked out from observations. Pure: no clock, no words, no drawing.

In the order in which it is read: flags and falls, days with no answer; sessions reported of those due; each
stance, side by side; hand support, steps, touches, made easier; effort, carer, own words; the decision that waits.

Everything a client or carer said is a report. What nobody answered is unknown: it is counted apart, never as zero.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from companion.core.observations import (
    Answer,
    Bout,
    BrokeBy,
    CarerSeen,
    Course,
    CourseNoted,
    Observation,
    OwnWords,
    PauseAgreed,
    ProposalAnswered,
    ProposalEnd,
    Proposed,
    Quality,
    Reporter,
    SessionEnded,
)
from companion.core.programme import HAND_STAGES, Hand, Plan
from companion.core.schedule import local_day
from companion.measures.dated import Observed, with_days
from companion.measures.due import Day, Part, State, Tally, days, parts, tally
from companion.measures.plans import Plans, plans
from companion.reports.flags import Flag, flags, is_near_fall
from companion.reports.pauses import Pause, pause
from companion.reports.stances import StanceLine, lines

WEEK = timedelta(days=7)


@dataclass(frozen=True, slots=True)
class Case:
    """Whose week it is. `zone` is the client's time zone, `roles` say who a person id is: client, carer, ...

    `since` is when the first plan began: nothing was due before. None: not known. `previous` is the plan before `plan`. `ended`
    is when practice with the companion ended; None: it goes on.
    `lower_since` is when the last sessions were first found to be among the lowest of the client's own. `goal`: their words.
    `pause` is the one under way. `weaker_side` is that of the baseline: left, right or unknown.
    """

    name: str
    zone: str
    plan: Plan
    roles: tuple[tuple[str, str], ...] = ()
    since: datetime | None = None
    previous: Plan | None = None
    lower_since: datetime | None = None
    goal: str = ""
    ended: datetime | None = None
    pause: PauseAgreed | None = None
    weaker_side: str = "unknown"


CONFIDENCE = frozenset({"sure", "a_little_sure", "not_sure"})


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
class Lower:
    """An early notice: since when the last sessions are among the lowest of the last `earlier`; None: not known."""

    since: datetime
    earlier: int | None


@dataclass(frozen=True, slots=True)
class Absent:
    """A session in which the carer was shown to be absent; `begun`: something was done in it."""

    day: date
    begun: bool


@dataclass(frozen=True, slots=True)
class Week:
    """What the chart and its caption show, and nothing else. `first_week`: nothing is known of the week before.

    `confidence` is the client's newest answer of the week, one of `CONFIDENCE`; None: not answered. `carer_saw_more`: sessions
    in which the carer saw a step or a touch and the client reported none. `near_falls`: days of near-falls without a red flag.
    `parts` are the days by plan, where there was more than one. `lower`: an early notice stands. `proposed`: the steps that
    wait for the therapist's word, in `plan`. `weaker_side`: left, right or unknown.
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
    parts: tuple[Part, ...]
    first_week: bool
    stances: tuple[StanceLine, ...]
    support: Support
    effort: tuple[tuple[str | None, int], ...]
    confidence: str | None
    carer: tuple[tuple[CarerSeen, int], ...]
    carer_saw_more: int
    near_falls: tuple[date, ...]
    said: tuple[Said, ...]
    lower: Lower | None = None
    proposed: tuple[Proposed, ...] = ()
    plan: Plan | None = None
    carer_absent: tuple[Absent, ...] = ()
    pause: Pause | None = None
    weaker_side: str = "unknown"

    @property
    def more_than_70(self) -> bool:
        """The label of SS-MAHE, which is given to one plan's dose."""
        return self.tally.more_than_70 and not self.parts

    def days_of(self, *states: State) -> tuple[date, ...]:
        """The days in one of these states."""
        return tuple(day.day for day in self.days if day.state in states)

    @property
    def practised(self) -> bool:
        """Whether any bout of this week is on record."""
        return any(side.marks for line in self.stances for side in line.sides)

    @property
    def unanswered(self) -> int:
        """Bouts of this week of which nobody said how they went."""
        return sum(side.now.unknown for line in self.stances for side in line.sides)

    @property
    def no_word_days(self) -> tuple[date, ...]:
        """Days on which a session ended without a word after standing."""
        return tuple(day.day for day in self.days if day.no_word)

    @property
    def paused_through(self) -> bool:
        """Whether all there was of practice was paused: nobody was asked anything."""
        return any(day.state is State.PAUSED for day in self.days) and all(
            day.state in (State.PAUSED, None) for day in self.days
        )

    @property
    def to_lift(self) -> tuple[Flag, ...]:
        """The decisions that are waiting: the flags that only the therapist can lift."""
        return tuple(flag for flag in self.flags if flag.open)


def summarise(case: Case, first: date, last: date, observations: Observed, as_of: datetime) -> Week:
    """The week `first` to `last`, local dates, both included, as it is known at `as_of`.

    `observations` are all there are from a week before `first` to `as_of`, in the order of writing; of earlier
    ones only flags are taken. Raises ValueError if `last` is before `first`.
    """
    if last < first:
        raise ValueError(f"the week ends on {last}, before it begins on {first}")
    known = [(at, what) for at, what in observations if at <= as_of]
    dated = with_days(known, case.zone)
    week = [(day, what) for day, what in dated if first <= day <= last]
    before = [(day, what) for day, what in dated if first - WEEK <= day < first]
    flagged = [(day, what) for day, what in dated if not is_near_fall(what)]
    bouts = [(day, what) for day, what in week if isinstance(what, Bout)]
    bouts_before = [(day, what) for day, what in before if isinstance(what, Bout)]
    ended = [what for _, what in week if isinstance(what, SessionEnded)]
    held = plans_of(case, known)
    shown = days(held, (first, last), known, local_day(as_of, case.zone))
    by_plan = parts(shown)
    return Week(
        name=case.name,
        zone=case.zone,
        roles=case.roles,
        first=first,
        last=last,
        as_of=as_of,
        flags=flags(flagged, first, last),
        days=shown,
        tally=tally(shown),
        parts=by_plan if len(by_plan) > 1 else (),
        first_week=not before,
        stances=lines(bouts, bouts_before if before else None, case.plan, held),
        support=_support([bout for _, bout in bouts]),
        effort=_effort(ended),
        confidence=_confidence(what for _, what in week),
        carer=_carer(ended),
        carer_saw_more=_carer_saw_more(what for _, what in week),
        near_falls=tuple(day for day, what in week if is_near_fall(what)),
        said=tuple(Said(what.at, what.by, what.text, what.form) for _, what in week if isinstance(what, OwnWords)),
        lower=_lower(case, dated, last),
        proposed=_proposed(what for day, what in dated if day <= last),
        plan=case.plan,
        carer_absent=tuple(Absent(what.day, what.done > 0) for what in ended if what.carer is CarerSeen.ABSENT),
        pause=pause(dated, case.pause, case.zone, (first, last)),
        weaker_side=case.weaker_side,
    )


def plans_of(case: Case, observations: Observed) -> Plans:
    """Which plan held when, by these records and by what the case knows beside them."""
    return plans(observations, case.zone, case.plan, case.previous, case.since, case.ended)


def _lower(case: Case, dated: Iterable[tuple[date, Observation]], last: date) -> Lower | None:
    """The early notice that stands at the end of the week: noted then, or before what is looked back on."""
    stands = case.lower_since
    if stands is not None and local_day(stands, case.zone) > last:
        stands = None
    found = None if stands is None else Lower(stands, None)
    for day, what in dated:
        if isinstance(what, CourseNoted) and day <= last:
            since = found.since if found is not None else what.at
            found = Lower(since, what.earlier) if what.course is Course.LOW else None
    return found


def _proposed(observations: Iterable[Observation]) -> tuple[Proposed, ...]:
    """The steps proposed and not yet decided; one put off still waits."""
    waits: dict[str, Proposed] = {}
    for what in observations:
        if isinstance(what, Proposed):
            waits[what.proposal] = what
        elif isinstance(what, ProposalAnswered) and what.answer is not ProposalEnd.LATER:
            waits.pop(what.proposal, None)
    return tuple(waits.values())


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
