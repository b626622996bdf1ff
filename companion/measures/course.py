"""What the records of a client's practice say, in measures: holds by condition, rates, weekly means, two sides, own usual.

From observations to numbers, pure. A hold is what is known of one timed bout as bounds, counted up to its target:

    clean to its end       at least the target, and nobody knows how much longer
    broke, second known    that second, where the carer tapped it or the companion's clock stood still for it
    broke, quarter known   between the ends of that quarter
    broke, "do not know"   between 0 and the target
    stopped, or a symptom  an end of its own: it lasted for what was practised and no longer, and is not clean
    nobody answered, or    no hold: counted apart, as what is not known
    the clock was lost

Everything is reported. Each session counts once, however many holds it has.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from companion.core.observations import Bout, BrokeBy, Quality
from companion.core.programme import Measure, Side
from companion.measures import notice as early
from companion.measures.conditions import Condition, condition
from companion.measures.dated import Dated
from companion.measures.holds import LEAST_SESSIONS, Between, Hold, Mean, curve, median_interval, restricted_mean
from companion.measures.proportions import Interval, Share, rate
from companion.measures.sides import Sides, two_sides
from companion.measures.trend import Trend, WeekMean, trend

QUARTERS = (0.25, 0.5, 0.75)


def hold(bout: Bout) -> Hold | None:
    """What is known of a timed bout, in seconds; None where nothing is: nobody answered, or its clock was lost."""
    if bout.measure is not Measure.TIMED or bout.quality is Quality.UNKNOWN:
        return None
    target, broke = float(bout.target), bout.first_break
    if bout.quality is Quality.CLEAN:
        return Hold(bout.session, target, None)
    if broke is not None:
        low = min(broke.low, target)
        return Hold(bout.session, low, target if broke.high is None else max(low, min(broke.high, target)))
    if bout.practised_s is None:
        return None
    if bout.quality is Quality.BROKE:
        return Hold(bout.session, 0.0, target)
    ended = min(bout.practised_s, target)
    return Hold(bout.session, ended, ended)


@dataclass(frozen=True, slots=True)
class Series:
    """The timed bouts of one condition, oldest first, with holds counted up to `target` seconds."""

    condition: Condition
    target: int
    bouts: tuple[Dated, ...]

    @property
    def holds(self) -> tuple[Hold, ...]:
        """What is known of each, oldest first."""
        return tuple(known for _, bout in self.bouts if (known := hold(bout)) is not None)

    @property
    def clean(self) -> Share:
        """Clean to their own target, of those of which somebody said how they went."""
        told = [bout for _, bout in self.bouts if bout.quality is not Quality.UNKNOWN]
        return Share(sum(bout.quality is Quality.CLEAN for bout in told), len(told))

    @property
    def unknown(self) -> int:
        """Bouts of which nobody said how they went."""
        return len(self.bouts) - self.clean.total

    @property
    def sessions(self) -> int:
        """Sessions with a hold."""
        return len({known.session for known in self.holds})


def series(bouts: Iterable[Dated]) -> tuple[Series, ...]:
    """The timed bouts by condition and target, in the order in which each was first practised."""
    found: dict[tuple[Condition, int], list[Dated]] = {}
    for day, bout in bouts:
        if bout.measure is Measure.TIMED:
            found.setdefault((condition(bout), bout.target), []).append((day, bout))
    return tuple(Series(key, target, tuple(own)) for (key, target), own in found.items())


def whole(bouts: Iterable[Dated]) -> tuple[Series, ...]:
    """The timed bouts by condition alone, up to the lowest target of each throughout: what can be compared over a course."""
    found: dict[Condition, list[Dated]] = {}
    for day, bout in bouts:
        if bout.measure is Measure.TIMED:
            found.setdefault(condition(bout), []).append((day, bout))
    return tuple(Series(key, min(bout.target for _, bout in own), tuple(own)) for key, own in found.items())


@dataclass(frozen=True, slots=True)
class Measured:
    """How a condition was held, in seconds to the target. `past` are the shares not broken at the first three quarters.

    `mean` and `median` are over `sessions` sessions; `median_from` is the interval of the median. Under `LEAST_SESSIONS` there
    are no intervals, and `listed` are the holds themselves, to be shown instead.
    """

    sessions: int
    clean: Share
    past: tuple[float, ...]
    mean: Mean
    median: Between
    median_from: Between | None
    listed: tuple[Hold, ...]


def measured(held: Series) -> Measured | None:
    """The measures of a series; None: nothing is known of any hold."""
    holds = held.holds
    if not holds:
        return None
    lasted = curve(holds)
    return Measured(
        sessions=held.sessions,
        clean=held.clean,
        past=tuple(lasted.lasting(held.target * quarter) for quarter in QUARTERS),
        mean=restricted_mean(holds, held.target, lasted),
        median=lasted.median,
        median_from=median_interval(holds),
        listed=holds if held.sessions < LEAST_SESSIONS else (),
    )


def weeks(held: Series) -> tuple[WeekMean, ...]:
    """The restricted mean of each calendar week with a hold, numbered from the first, up to the target of the series."""
    by_week: dict[date, list[Hold]] = {}
    for day, bout in held.bouts:
        known = hold(bout)
        if known is not None:
            by_week.setdefault(day - timedelta(days=day.weekday()), []).append(known)
    first = min(by_week, default=date.min)
    means = ((monday, restricted_mean(holds, held.target)) for monday, holds in sorted(by_week.items()))
    return tuple(WeekMean((monday - first).days // 7, mean.value, mean.sessions) for monday, mean in means)


def course(held: Series) -> Trend | None:
    """The trend of a series of `whole`; None: too few weeks that count."""
    return trend(weeks(held))


@dataclass(frozen=True, slots=True)
class Compared:
    """Weaker and stronger side in the same condition, up to `target` seconds. `sides` None: not measurable."""

    weaker: Series
    stronger: Series
    target: int
    sides: Sides | None


def compared(bouts: Iterable[Dated]) -> tuple[Compared, ...]:
    """Both sides of each condition that has both, up to the lowest target of the two."""
    found: dict[tuple[object, ...], dict[Side, Series]] = {}
    for held in whole(bouts):
        key = held.condition
        if key.side is not None:
            found.setdefault((key.exercise, key.stance, key.eyes, key.hand, key.clock), {})[key.side] = held
    both = [sides for sides in found.values() if len(sides) == len(Side)]
    return tuple(_compared(sides[Side.WEAKER], sides[Side.STRONGER]) for sides in both)


def _compared(weaker: Series, stronger: Series) -> Compared:
    target = min(weaker.target, stronger.target)
    return Compared(weaker, stronger, target, two_sides(weaker.holds, stronger.holds, target))


@dataclass(frozen=True, slots=True)
class Rate:
    """First breaks by a step, or by a touch, a minute practised, with the exact 95 % interval."""

    count: int
    minutes: float
    value: float
    interval: Interval


@dataclass(frozen=True, slots=True)
class Rates:
    """A bout that broke by a step and a touch at once counts in both."""

    steps: Rate
    touches: Rate


def rates(bouts: Iterable[Dated]) -> Rates | None:
    """Over the bouts whose time is known and of which somebody said how they went; None: no time was practised."""
    timed = [bout for _, bout in bouts if bout.practised_s and bout.quality is not Quality.UNKNOWN]
    minutes = sum(bout.practised_s or 0.0 for bout in timed) / 60
    if not minutes:
        return None

    def of(*causes: BrokeBy) -> Rate:
        count = sum(bout.broke_by in causes for bout in timed)
        return Rate(count, minutes, *rate(count, minutes))

    return Rates(of(BrokeBy.STEP, BrokeBy.BOTH), of(BrokeBy.HAND, BrokeBy.BOTH))


def own_sessions(bouts: Iterable[Dated]) -> list[early.Session]:
    """Each session's holds by condition and target, in the order of the sessions: a new target starts a new usual."""
    found: dict[str, dict[str, list[Hold]]] = {}
    for _, bout in bouts:
        known = hold(bout)
        if known is not None:
            key = condition(bout)
            name = "|".join(map(str, (key.exercise, key.stance, key.side, key.eyes, key.hand, key.clock, bout.target)))
            found.setdefault(bout.session, {}).setdefault(name, []).append(known)
    return list(found.values())


def standing(bouts: Iterable[Dated]) -> early.Notice:
    """Where the last sessions stand against the client's own usual."""
    return early.notice(own_sessions(bouts))
