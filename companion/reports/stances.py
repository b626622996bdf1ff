"""Each stance of a week, side by side: how many bouts were clean, and when the others first broke.

Pure. A hold is capped at its target and reported by the person who held it, so there is no mean of it here: only
counts with their denominators, the bounds of each first break, and the quarter by whose end half of the bouts
had broken.
"""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

from companion.core.observations import Bout, Quality
from companion.core.programme import HAND_STAGES, Eyes, Hand, Measure, Plan, Side, Stance
from companion.measures.conditions import HELD_STANCES, own_line
from companion.measures.dated import Dated
from companion.measures.plans import Plans
from companion.reports.breaks import FirstBreak, counts, earliest_break, least_count, usual_break, usual_count

Bouts = Sequence[Dated]
"""Bouts with their local day."""

Turns = Mapping[tuple[date, str], int]
"""Which session of a day each one was, by the day and the session."""

MANY = 2
"""Where a day had more sessions than this, what came of the first, the second and so on is told apart."""


@dataclass(frozen=True, slots=True)
class BoutMark:
    """One bout as it is drawn, on its local day. Fractions of the target, 0 to 1.

    Up to `sure` it went without a break, or was counted. The first break, or the count, lies between `sure`
    and `at_most`; where the two are equal there is nothing more to tell. `practised` is how far the clock ran,
    broken or not; None where that is unknown or nothing ran. A bout of quality UNKNOWN was answered by nobody:
    all zero and None, and not drawn as a bar. `turn`: of which session of that day it was, the first is 1.
    """

    day: date
    quality: Quality
    sure: float = 0.0
    at_most: float = 0.0
    practised: float | None = None
    turn: int = 1


@dataclass(frozen=True, slots=True)
class Tried:
    """`clean` of `tried` bouts, `stopped` of these for a symptom; the `unknown` ones, of which nobody said how they went, are
    in none of these."""

    clean: int
    tried: int
    unknown: int
    stopped: int = 0


@dataclass(frozen=True, slots=True)
class Found:
    """What came of some bouts of a stance on a side: how many were clean; the median and the earliest quarter of first break.

    `usual_count` and `least_count` are the lower median and the least of what was counted, for a counted exercise; else None.
    """

    tried: Tried
    usual: FirstBreak
    earliest: FirstBreak
    usual_count: int | None
    least_count: int | None

    @property
    def all_clean(self) -> bool:
        """Whether every bout that somebody spoke of was clean; there was one at least."""
        return self.tried.clean == self.tried.tried > 0


@dataclass(frozen=True, slots=True)
class SideLine:
    """One stance on one side (None: it has no sides). `before` is last week; None: there is no week before.

    `hands`: the most and the least support of the bouts shown. `eased`: how many of this week were done easier than planned.
    `turns`: what came of the first session of each day, of the second, and so on, where any day of the week had more than two.
    """

    side: Side | None
    marks: tuple[BoutMark, ...]
    found: Found
    before: Tried | None
    hands: tuple[Hand, Hand]
    eased: int = 0
    turns: tuple[Found, ...] = ()

    @property
    def now(self) -> Tried:
        """This week."""
        return self.found.tried


@dataclass(frozen=True, slots=True)
class StanceLine:
    """One stance (or, where what is counted differs, one exercise) of the week, with a line for each side.

    `exercise` None: every exercise that holds this stance. `told_apart`: the stance is to be said beside the exercise.
    `targets` and `hands` are the smallest and largest, the most and least support, of the bouts shown. `targets_before` are
    those of last week where they were others. `version`: of the plan, where a new one in the week asked for something else.
    """

    exercise: str | None
    stance: Stance
    eyes: Eyes
    measure: Measure
    told_apart: bool
    targets: tuple[int, int]
    hands: tuple[Hand, Hand]
    sides: tuple[SideLine, ...]
    targets_before: tuple[int, int] | None = None
    version: int | None = None


_Key = tuple[str | None, Stance, Eyes, Measure]


def lines(week: Bouts, before: Bouts | None, plan: Plan, plans: Plans | None = None) -> tuple[StanceLine, ...]:
    """The stances of this week and of the week before (None: there was none), in the order of the plan.

    Bouts come with their local day. A stance of last week that was not tried this week keeps its line. A stance of which a new
    plan, by `plans`, asked something else in this week has a line for each plan.
    """
    planned = {planned.exercise: place for place, planned in enumerate(plan.exercises)}
    places: dict[_Key, int] = {}
    for _, bout in (*week, *(before or ())):
        key = _key(bout)
        place = planned.get(bout.exercise, len(planned))
        places[key] = min(place, places.get(key, place))
    order = sorted(places, key=lambda key: (places[key], list(Stance).index(key[1]), key[2] is Eyes.CLOSED))
    names = Counter(key[0] for key in order)
    turns = _turns(week)
    # an exercise that is named for a stance and has a line of its own was held in another
    apart = {key for key in order if key[1] in HELD_STANCES or names[key[0]] > 1 or key[0] in frozenset(Stance)}
    found = []
    for key in order:
        now = [(day, bout) for day, bout in week if _key(bout) == key]
        then = None if before is None else [(day, bout) for day, bout in before if _key(bout) == key]
        for place, (version, own) in enumerate(_by_plan(now, plans)):
            line = _line(key, (own, then if place == 0 else None), turns, told_apart=key in apart)
            found.append(replace(line, version=version))
    return tuple(found)


def _turns(week: Bouts) -> Turns:
    """Which session of its day each one was, by its first bout."""
    began: dict[date, dict[str, datetime]] = {}
    for day, bout in week:
        own = began.setdefault(day, {})
        own[bout.session] = min(bout.at, own.get(bout.session, bout.at))
    return {
        (day, session): place + 1
        for day, own in began.items()
        for place, session in enumerate(sorted(own, key=lambda session: own[session]))
    }


def _by_plan(now: Bouts, plans: Plans | None) -> list[tuple[int | None, Bouts]]:
    """The bouts of a stance, or those of each plan of the week by its version where they asked for different things."""
    asked: dict[int, list[Dated]] = {}
    if plans is None:
        return [(None, now)]
    for day, bout in now:
        asked.setdefault(plans.of_bout(bout).version, []).append((day, bout))
    doses = {frozenset((bout.side, bout.target, bout.hand) for _, bout in own if not bout.eased) for own in asked.values()}
    return [(None, now)] if len(doses) < 2 else list(asked.items())


def _key(bout: Bout) -> _Key:
    return (own_line(bout), bout.stance, bout.eyes, bout.measure)


def _line(key: _Key, weeks: tuple[Bouts, Bouts | None], turns: Turns, *, told_apart: bool) -> StanceLine:
    now, then = weeks
    shown = [bout for _, bout in now or then or ()]
    sides = {bout.side for _, bout in (*now, *(then or ()))}
    order = [side for side in (Side.WEAKER, Side.STRONGER, None) if side in sides]
    targets, targets_before = _range(shown), _range([bout for _, bout in then or ()])
    return StanceLine(
        exercise=key[0],
        stance=key[1],
        eyes=key[2],
        measure=key[3],
        told_apart=told_apart,
        targets=targets or (0, 0),
        hands=_hands(shown),
        sides=tuple(_side(side, now, then, turns) for side in order),
        targets_before=targets_before if targets_before != targets else None,
    )


def _hands(bouts: Sequence[Bout]) -> tuple[Hand, Hand]:
    """The most and the least support."""
    stages = sorted(HAND_STAGES.index(bout.hand) for bout in bouts)
    return HAND_STAGES[stages[0]], HAND_STAGES[stages[-1]]


def _range(bouts: Sequence[Bout]) -> tuple[int, int] | None:
    """The smallest and the largest target."""
    targets = [bout.target for bout in bouts]
    return (min(targets), max(targets)) if targets else None


def _side(side: Side | None, now: Bouts, then: Bouts | None, turns: Turns) -> SideLine:
    here = [(turns[day, bout.session], day, bout) for day, bout in now if bout.side is side]
    bouts = [bout for _, _, bout in here]
    earlier = [bout for _, bout in then or () if bout.side is side]
    most = max(turns.values(), default=0)
    return SideLine(
        side=side,
        marks=tuple(replace(_mark(day, bout), turn=turn) for turn, day, bout in here),
        found=came_of(bouts),
        before=None if then is None else tried(earlier),
        hands=_hands(bouts or earlier),
        eased=sum(bout.eased > 0 and bout.quality is not Quality.UNKNOWN for bout in bouts),
        turns=tuple(
            came_of([bout for own, _, bout in here if own == turn]) for turn in range(1, most + 1 if most > MANY else 1)
        ),
    )


def came_of(bouts: Sequence[Bout]) -> Found:
    """What came of bouts that are all timed or all counted."""
    counted = bool(bouts) and bouts[0].measure is Measure.COUNTED
    unknown = FirstBreak.UNKNOWN
    return Found(
        tried=tried(bouts),
        usual=unknown if counted else usual_break(bouts),
        earliest=unknown if counted else earliest_break(bouts),
        usual_count=usual_count(bouts) if counted else None,
        least_count=least_count(bouts) if counted else None,
    )


def tried(bouts: Iterable[Bout]) -> Tried:
    """How many were clean of those of which somebody said how they went, and how many nobody spoke of."""
    qualities = [bout.quality for bout in bouts]
    unknown = qualities.count(Quality.UNKNOWN)
    return Tried(qualities.count(Quality.CLEAN), len(qualities) - unknown, unknown, qualities.count(Quality.UNWELL))


def _mark(day: date, bout: Bout) -> BoutMark:
    if bout.quality is Quality.UNKNOWN:
        return BoutMark(day, bout.quality)
    if bout.measure is Measure.COUNTED:
        least, most = counts(bout)
        return BoutMark(day, bout.quality, _share(least, bout), _share(most, bout))
    if bout.quality is Quality.CLEAN:
        return BoutMark(day, bout.quality, 1.0, 1.0, 1.0)
    practised = None if bout.practised_s is None else _share(bout.practised_s, bout)
    if bout.first_break is None:
        return BoutMark(day, bout.quality, 0.0, 1.0 if bout.quality is Quality.BROKE else 0.0, practised)
    low, high = bout.first_break.low, bout.first_break.high
    return BoutMark(day, bout.quality, _share(low, bout), _share(low if high is None else high, bout), practised)


def _share(amount: float, bout: Bout) -> float:
    return min(max(amount / bout.target, 0.0), 1.0)
