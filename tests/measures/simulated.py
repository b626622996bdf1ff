"""Invented courses of practice whose truth is known, and how often the measures find it.

A hold lasts exp(m + day + bout) seconds: `day` is normal with the day-to-day log-SD, shared by all holds of a session, `bout`
normal with `WITHIN`, of each hold alone. It is seen up to the target, to the second or as the quarter in which it broke.
Sessions are independent, one in five is missing. Everything follows from the generator that is passed in.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from math import exp, hypot, log
from statistics import NormalDist

import numpy as np

from companion.measures.conditions import LAST, MOST_EARLIER
from companion.measures.holds import Hold, median_interval, restricted_mean
from companion.measures.notice import LEAST_EARLIER, Session, Standing, notice
from companion.measures.sides import two_sides
from companion.measures.trend import Direction, WeekMean, trend

WITHIN = 0.15
"""Log-SD of the holds of one session about its day."""
LEARNING = log(1.2)
"""A fifth over `COURSE_WEEKS`."""
COURSE_WEEKS = 12
A_WEEK = 4
MISSING = 0.2
CONDITIONS = 4
STEP = 0.15
"""Each condition is that much harder than the one before, in log seconds."""

Growth = Callable[[float], float]
"""Log growth at a time, in weeks from the beginning."""


def level(_: float) -> float:
    """No growth."""
    return 0.0


def learning(weeks: float) -> float:
    """A fifth over the first weeks, then level."""
    return LEARNING * min(weeks, COURSE_WEEKS) / COURSE_WEEKS


def doubling(weeks: float) -> float:
    """A doubling over the weeks of a course."""
    return log(2) * weeks / COURSE_WEEKS


@dataclass(frozen=True)
class Somebody:
    """Who practises: `spread` is the day-to-day log-SD, `full` the share of holds that last to the target of the first
    condition at the beginning. `quarters`: the quarter of a break is known, not its second. `left_out`: the chance of each
    condition but the first to be left out of a session."""

    spread: float
    full: float
    quarters: bool = False
    target: int = 60
    left_out: float = 0.0

    @property
    def middle(self) -> float:
        """The mean log hold in the first condition."""
        return log(self.target) + NormalDist().inv_cdf(self.full) * hypot(self.spread, WITHIN)

    def day(self, chance: np.random.Generator) -> float:
        """How a day is, in log seconds."""
        return self.spread * float(chance.standard_normal())

    def hold(self, session: str, at: float, chance: np.random.Generator) -> Hold:
        """A hold about `at` log seconds, as it is known."""
        second, target = exp(at + WITHIN * float(chance.standard_normal())), float(self.target)
        if second >= target:
            return Hold(session, target, None)
        if self.quarters:
            place = second // (target / 4)
            return Hold(session, place * target / 4, (place + 1) * target / 4)
        second = max(1.0, float(round(second)))
        return Hold(session, second, second if second < target else None)


@dataclass(frozen=True)
class Covered:
    """The shares of intervals that hold the truth, of those given. `open`: the share of the median's without an upper end.
    `given`: the share that gave one of the mean at all."""

    mean: float
    median: float
    open: float
    given: float


def covered(who: Somebody, sessions: int, chance: np.random.Generator, courses: int) -> Covered:
    """Over so many courses of so many sessions with two holds each. The truth is rounded as holds are, to the second."""
    everyone = np.exp(who.middle + hypot(who.spread, WITHIN) * chance.standard_normal(400_000))
    mean, median = float(np.minimum(everyone, who.target).mean()), min(exp(who.middle), who.target)
    means = medians = without_end = given = 0
    for _ in range(courses):
        holds = []
        for number in range(sessions):
            at = who.middle + who.day(chance)
            holds += [who.hold(str(number), at, chance) for _ in range(2)]
        interval, between = restricted_mean(holds, who.target).interval, median_interval(holds)
        if interval is not None:
            given += 1
            means += interval.low <= mean <= interval.high
        assert between is not None
        medians += between.low <= median + 0.5 and (between.high is None or median - 0.5 <= between.high)
        without_end += between.high is None
    return Covered(means / max(given, 1), medians / courses, without_end / courses, given / courses)


Dated = tuple[int, Session]
"""A session with the number of its week."""


def course(who: Somebody, weeks: int, growth: Growth, chance: np.random.Generator, holds: tuple[int, int]) -> list[Dated]:
    """The sessions of so many weeks, with `holds` conditions and holds in each."""
    conditions, each = holds
    found = []
    for number in range(weeks * A_WEEK):
        if chance.random() >= MISSING:
            at = who.middle + who.day(chance) + growth(number / A_WEEK)
            found.append((number // A_WEEK, _session(who, str(number), at, chance, (conditions, each))))
    return found


def _session(who: Somebody, name: str, at: float, chance: np.random.Generator, holds: tuple[int, int]) -> Session:
    conditions, each = holds
    done = [c for c in range(conditions) if not c or not who.left_out or chance.random() >= who.left_out]
    return {f"c{c}": [who.hold(name, at - STEP * c, chance) for _ in range(each)] for c in done}


def trend_shown(who: Somebody, growth: Growth, chance: np.random.Generator, courses: int) -> tuple[float, float]:
    """The shares of courses of twelve weeks in which any trend is shown, and in which a rising one is."""
    shown = rising = 0
    for _ in range(courses):
        sessions = course(who, COURSE_WEEKS, growth, chance, (1, 2))
        weeks = []
        for week in sorted({number for number, _ in sessions}):
            holds = [hold for number, session in sessions if number == week for hold in session["c0"]]
            weeks.append(WeekMean(week, restricted_mean(holds, who.target).value, len({hold.session for hold in holds})))
        found = trend(weeks)
        shown += found is not None and found.direction is not Direction.NOT_SHOWN
        rising += found is not None and found.direction is Direction.RISING
    return shown / courses, rising / courses


def weaker_found(who: Somebody, weaker: float, chance: np.random.Generator, courses: int) -> float:
    """The share of courses of 20 sessions, a hold a side, in which a side that holds `weaker` times as long is found weaker.

    With a `weaker` of 1 the share in which either side is found.
    """
    found = 0
    for _ in range(courses):
        one, other = [], []
        for number in range(20):
            at = who.middle + who.day(chance)
            other.append(who.hold(str(number), at, chance))
            one.append(who.hold(str(number), at + log(weaker), chance))
        sides = two_sides(one, other, who.target)
        if sides is not None and sides.p <= 0.05:
            found += weaker == 1 or sides.shorter.count * 2 > sides.shorter.total
    return found / courses


Rule = Callable[[Sequence[Session]], Standing]
"""How the last sessions stand against those before."""


def own_rule(sessions: Sequence[Session]) -> Standing:
    """That of the companion."""
    return notice(sessions).standing


def false_notices(who: Somebody, growth: Growth, chance: np.random.Generator, courses: int, rule: Rule = own_rule) -> float:
    """Notices in 26 weeks, on average, of somebody who gets no worse: assessed after each session, as in practice."""
    notices = 0
    for _ in range(courses):
        sessions = [session for _, session in course(who, 26, growth, chance, (CONDITIONS, 1))]
        stands = False
        for count in range(LEAST_EARLIER + LAST, len(sessions) + 1):
            standing = rule(sessions[:count])
            notices += standing is Standing.LOW and not stands
            stands = standing is Standing.LOW or (stands and standing is not Standing.USUAL)
    return notices / courses


@dataclass(frozen=True)
class Fall:
    """To what share of the holds somebody falls, and how they grew before."""

    left: float
    growth: Growth = level


def fall_noticed(who: Somebody, fall: Fall, chance: np.random.Generator, courses: int, rule: Rule = own_rule) -> float:
    """The share of courses of twelve weeks after which a fall is noticed within four sessions."""
    found = 0
    for _ in range(courses):
        sessions = [session for _, session in course(who, COURSE_WEEKS, fall.growth, chance, (CONDITIONS, 1))][-MOST_EARLIER:]
        noticed = False
        for number in range(LAST):
            at = who.middle + who.day(chance) + fall.growth(COURSE_WEEKS) + log(fall.left)
            sessions.append(_session(who, f"after{number}", at, chance, (CONDITIONS, 1)))
            noticed = noticed or rule(sessions) is Standing.LOW
        found += noticed
    return found / courses


def in_quarters(who: Somebody) -> Somebody:
    """The same person, of whom quarters are told."""
    return replace(who, quarters=True)
