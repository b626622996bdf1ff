"""Whether weekly means rise or fall over a course. Where none is seen the words are "no trend shown", never "no change"."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from math import sqrt

import numpy as np
from scipy.stats import norm, theilslopes

from companion.measures.proportions import Interval

LEAST_WEEKS = 10
LEAST_SESSIONS = 2
"""A week counts with so many sessions."""


class Direction(StrEnum):
    """Where a course goes."""

    RISING = "rising"
    FALLING = "falling"
    NOT_SHOWN = "not_shown"


@dataclass(frozen=True, slots=True)
class MannKendall:
    """The rank test for a monotonic trend (Mann 1945, Kendall 1975), with the variance corrected for ties."""

    score: int
    variance: float
    z: float
    p: float


def mann_kendall(values: Sequence[float]) -> MannKendall:
    """The test on values in order of time, two-sided, with continuity correction. ValueError: fewer than 2 values."""
    if len(values) < 2:
        raise ValueError("1 value has no trend")
    seen = np.asarray(values, dtype=float)
    count = len(seen)
    score = int(np.sign(seen[None, :] - seen[:, None])[np.triu_indices(count, 1)].sum())
    tied = np.unique(seen, return_counts=True)[1].astype(float)
    variance = (count * (count - 1) * (2 * count + 5) - float((tied * (tied - 1) * (2 * tied + 5)).sum())) / 18
    z = 0.0 if score == 0 or variance == 0 else (score - np.sign(score)) / sqrt(variance)
    return MannKendall(score, variance, float(z), float(2 * norm.sf(abs(z))))


@dataclass(frozen=True, slots=True)
class Trend:
    """The slope in seconds a week (Theil 1950, Sen 1968) with its 95 % interval, over so many weeks that count."""

    direction: Direction
    slope: float
    interval: Interval
    weeks: int
    p: float


@dataclass(frozen=True, slots=True)
class WeekMean:
    """A week, numbered from the first: the restricted mean in seconds over so many sessions."""

    week: int
    seconds: float
    sessions: int


def trend(weeks: Sequence[WeekMean]) -> Trend | None:
    """The trend over the weeks, in order, all up to one target (the lowest of the course). None: too few weeks that count."""
    counted = [week for week in weeks if week.sessions >= LEAST_SESSIONS]
    if len(counted) < LEAST_WEEKS:
        return None
    seconds = [week.seconds for week in counted]
    test = mann_kendall(seconds)
    slope, _, low, high = theilslopes(seconds, [week.week for week in counted], 0.95)
    shown = test.p <= 0.05
    direction = (Direction.RISING if test.score > 0 else Direction.FALLING) if shown else Direction.NOT_SHOWN
    return Trend(direction, float(slope), Interval(float(low), float(high)), len(counted), test.p)
