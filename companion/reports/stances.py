"""Each stance of a week, side by side: how many bouts were clean, and when the others first broke.

Pure. A hold is capped at its target and reported by the person who held it, so there is no mean of it here: only
counts with their denominators, the bounds of each first break, and the quarter by whose end half of the bouts
had broken.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum
from math import ceil, floor

from companion.core.observations import Bout, Quality
from companion.core.programme import HAND_STAGES, Eyes, Hand, Measure, Plan, Side, Stance
from companion.measures.conditions import HELD_STANCES, own_line
from companion.measures.dated import Dated
from companion.measures.plans import Plans

Bouts = Sequence[Dated]
"""Bouts with their local day."""

NOT_BROKEN = 5
"""The place of a bout that did not break, after the four quarters."""


class FirstBreak(StrEnum):
    """The usual quarter of the first break. NO_BREAK: under half broke. UNKNOWN: the reports do not say."""

    FIRST = "first"
    SECOND = "second"
    THIRD = "third"
    LAST = "last"
    NO_BREAK = "no_break"
    UNKNOWN = "unknown"


QUARTERS = (FirstBreak.FIRST, FirstBreak.SECOND, FirstBreak.THIRD, FirstBreak.LAST, FirstBreak.NO_BREAK)


@dataclass(frozen=True, slots=True)
class BoutMark:
    """One bout as it is drawn, on its local day. Fractions of the target, 0 to 1.

    Up to `sure` it went without a break, or was counted. The first break, or the count, lies between `sure`
    and `at_most`; where the two are equal there is nothing more to tell. `practised` is how far the clock ran,
    broken or not; None where that is unknown or nothing ran. A bout of quality UNKNOWN was answered by nobody:
    all zero and None, and not drawn as a bar.
    """

    day: date
    quality: Quality
    sure: float = 0.0
    at_most: float = 0.0
    practised: float | None = None


@dataclass(frozen=True, slots=True)
class Tried:
    """`clean` of `tried` bouts; the `unknown` ones, of which nobody said how they went, are in neither."""

    clean: int
    tried: int
    unknown: int


@dataclass(frozen=True, slots=True)
class SideLine:
    """One stance on one side (None: it has no sides). `before` is last week; None: there is no week before.

    `usual_count` is the lower median of what was counted, for a counted exercise; else None.
    """

    side: Side | None
    marks: tuple[BoutMark, ...]
    now: Tried
    before: Tried | None
    usual: FirstBreak
    usual_count: int | None


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
    # an exercise that is named for a stance and has a line of its own was held in another
    apart = {key for key in order if key[1] in HELD_STANCES or names[key[0]] > 1 or key[0] in frozenset(Stance)}
    found = []
    for key in order:
        now = [(day, bout) for day, bout in week if _key(bout) == key]
        then = None if before is None else [(day, bout) for day, bout in before if _key(bout) == key]
        for place, (version, own) in enumerate(_by_plan(now, plans)):
            line = _line(key, own, then if place == 0 else None, told_apart=key in apart)
            found.append(replace(line, version=version))
    return tuple(found)


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


def _line(key: _Key, now: Bouts, then: Bouts | None, *, told_apart: bool) -> StanceLine:
    shown = [bout for _, bout in now or then or ()]
    sides = {bout.side for _, bout in (*now, *(then or ()))}
    order = [side for side in (Side.WEAKER, Side.STRONGER, None) if side in sides]
    targets, targets_before = _range(shown), _range([bout for _, bout in then or ()])
    stages = sorted(HAND_STAGES.index(bout.hand) for bout in shown)
    return StanceLine(
        exercise=key[0],
        stance=key[1],
        eyes=key[2],
        measure=key[3],
        told_apart=told_apart,
        targets=targets or (0, 0),
        hands=(HAND_STAGES[stages[0]], HAND_STAGES[stages[-1]]),
        sides=tuple(_side(side, now, then) for side in order),
        targets_before=targets_before if targets_before != targets else None,
    )


def _range(bouts: Sequence[Bout]) -> tuple[int, int] | None:
    """The smallest and the largest target."""
    targets = [bout.target for bout in bouts]
    return (min(targets), max(targets)) if targets else None


def _side(side: Side | None, now: Bouts, then: Bouts | None) -> SideLine:
    here = [(day, bout) for day, bout in now if bout.side is side]
    bouts = [bout for _, bout in here]
    counted = bool(bouts) and bouts[0].measure is Measure.COUNTED
    return SideLine(
        side=side,
        marks=tuple(_mark(day, bout) for day, bout in here),
        now=tried(bouts),
        before=None if then is None else tried(bout for _, bout in then if bout.side is side),
        usual=FirstBreak.UNKNOWN if counted else usual_break(bouts),
        usual_count=usual_count(bouts) if counted else None,
    )


def tried(bouts: Iterable[Bout]) -> Tried:
    """How many were clean of those of which somebody said how they went, and how many nobody spoke of."""
    qualities = [bout.quality for bout in bouts]
    unknown = qualities.count(Quality.UNKNOWN)
    return Tried(qualities.count(Quality.CLEAN), len(qualities) - unknown, unknown)


def usual_break(bouts: Iterable[Bout]) -> FirstBreak:
    """The quarter by whose end half or more of the tried bouts had first broken: the lower median.

    A clean bout is counted as not broken within the target, never as a break at its end (a capped hold: the
    median of 12, 18, 30+, 30+, 30+ s is "not reached"). Where a time is known only in part, the median is taken
    with all breaks as early and with all as late as the reports allow; if the two differ, it is UNKNOWN.
    """
    places = [_quarters(bout) for bout in bouts if bout.quality is not Quality.UNKNOWN]
    if not places:
        return FirstBreak.UNKNOWN
    middle = (len(places) - 1) // 2
    earliest = sorted(early for early, _ in places)[middle]
    latest = sorted(late for _, late in places)[middle]
    return QUARTERS[earliest - 1] if earliest == latest else FirstBreak.UNKNOWN


def usual_count(bouts: Iterable[Bout]) -> int | None:
    """The lower median of what was counted; None where the reports ("fewer", a foot came down) do not say."""
    ranges = [_counts(bout) for bout in bouts if bout.quality is not Quality.UNKNOWN]
    if not ranges:
        return None
    middle = (len(ranges) - 1) // 2
    least = sorted(low for low, _ in ranges)[middle]
    most = sorted(high for _, high in ranges)[middle]
    return least if least == most else None


def _counts(bout: Bout) -> tuple[int, int]:
    """The least and the most that may have been counted."""
    if bout.done is not None:
        return bout.done, bout.done
    if bout.quality is Quality.CLEAN:
        return bout.target, bout.target
    return 0, max(bout.target - 1, 0)


def _quarters(bout: Bout) -> tuple[int, int]:
    """The earliest and the latest quarter, 1 to 4, in which it may first have broken; 5: not within the target.

    Bounds are answered in whole seconds, so the cuts of a target of 10 or 30 s are rounded by up to half a second.
    """
    if bout.quality is Quality.CLEAN:
        return NOT_BROKEN, NOT_BROKEN
    if bout.first_break is None:
        return 1, 4 if bout.quality is Quality.BROKE else NOT_BROKEN
    low, high = bout.first_break.low, bout.first_break.high
    if high is None:
        return _quarter_after(low, bout.target), NOT_BROKEN
    if low == high:
        return _quarter_after(low, bout.target), _quarter_after(low, bout.target)
    return _quarter_after(low + 0.5, bout.target), min(max(ceil((high - 0.5) * 4 / bout.target), 1), 4)


def _quarter_after(seconds: float, target: int) -> int:
    """The quarter, 1 to 4, in which that second lies; a second on a cut belongs to the later one."""
    return min(floor(seconds * 4 / target) + 1, 4)


def _mark(day: date, bout: Bout) -> BoutMark:
    if bout.quality is Quality.UNKNOWN:
        return BoutMark(day, bout.quality)
    if bout.measure is Measure.COUNTED:
        least, most = _counts(bout)
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
