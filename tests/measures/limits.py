"""Two rules that the early notice is compared with: control limits for single values, and for a weighted moving average.

Both look at the mean seconds of a session, as a chart of a process would, and know nothing of conditions or ties. The values
that show that they are the published rules are in `tests/outside/test_nist_control_charts.py`. The companion uses neither.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from math import sqrt
from statistics import fmean, stdev

from companion.measures.conditions import LAST, MOST_EARLIER
from companion.measures.notice import LEAST_EARLIER, Session, Standing

WIDTH = 3
"""How many standard deviations the limits are from the centre."""
MOVING_RANGE = 1.128
"""The mean range of two values, in standard deviations of a normal one (d2)."""
WEIGHT = 0.3
"""Of the newest value in the average."""


@dataclass(frozen=True)
class Limits:
    """Between which values are as usual."""

    low: float
    centre: float
    high: float


def single_limits(values: Sequence[float]) -> Limits:
    """For single values, from the mean range between one and the next (XmR)."""
    half = WIDTH * fmean(abs(b - a) for a, b in pairwise(values)) / MOVING_RANGE
    return Limits(fmean(values) - half, fmean(values), fmean(values) + half)


def weighted_limits(centre: float, deviation: float) -> Limits:
    """For the weighted moving average (EWMA) of values with this mean and standard deviation."""
    half = WIDTH * sqrt(WEIGHT / (2 - WEIGHT)) * deviation
    return Limits(centre - half, centre, centre + half)


def weighted(values: Sequence[float], centre: float) -> list[float]:
    """The average after each value, begun at the centre."""
    return list(accumulate(values, lambda mean, value: WEIGHT * value + (1 - WEIGHT) * mean, initial=centre))[1:]


def by_single_limits(sessions: Sequence[Session]) -> Standing:
    """The newest session against the limits from those before the last four."""
    earlier, last = _parted(sessions)
    if len(earlier) < LEAST_EARLIER:
        return Standing.TOO_FEW
    return _standing(last[-1], single_limits(earlier))


def by_weighted_limits(sessions: Sequence[Session]) -> Standing:
    """The average over the last four sessions, begun at the mean of those before, against its limits."""
    earlier, last = _parted(sessions)
    if len(earlier) < LEAST_EARLIER:
        return Standing.TOO_FEW
    centre = fmean(earlier)
    return _standing(weighted(last, centre)[-1], weighted_limits(centre, stdev(earlier)))


def _parted(sessions: Sequence[Session]) -> tuple[list[float], list[float]]:
    means = [
        fmean(hold.low if hold.high is None else (hold.low + hold.high) / 2 for holds in session.values() for hold in holds)
        for session in sessions
    ]
    return means[:-LAST][-MOST_EARLIER:], means[-LAST:]


def _standing(value: float, limits: Limits) -> Standing:
    """Low under the lower limit, and until it is back at the centre."""
    return Standing.LOW if value < limits.low else Standing.USUAL if value >= limits.centre else Standing.BETWEEN
