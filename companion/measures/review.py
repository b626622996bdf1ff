"""Measures that a therapist takes at a review, against published norms and detectable change, each with population and source.

They are for the therapist's review only: never beside home practice, never a pass mark for a client, and they move nobody up.
Scales are named, not quoted; a total is what the therapist entered.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from companion.core.review_values import STAGE_S


def tandem_points(seconds: float) -> int:
    """Points for heel-to-toe, 0 to 2 (Short Physical Performance Battery, Guralnik 1994). ValueError: below 0."""
    return _category(seconds, ((3.0, 1), (10.0, 2)), 0)


def one_leg_category(seconds: float) -> int | None:
    """The category of the time on one leg without a hold, 1 to 4 (item 14 of the Berg scale, NLM common data elements): 3 s and
    more is 2, 5 s and more 3, above 10 s 4. None at 0 s: a time does not tell whether it was tried. ValueError: below 0."""
    if seconds == 0:
        return None
    return 4 if seconds > STAGE_S else _category(seconds, ((3.0, 2), (5.0, 3)), 1)


def _category(seconds: float, steps: Sequence[tuple[float, int]], lowest: int) -> int:
    if not seconds >= 0:
        raise ValueError(f"{seconds} s is no time")
    return max((value for least, value in steps if seconds >= least), default=lowest)


@dataclass(frozen=True, slots=True)
class Norm:
    """A published value in seconds for an age band, both ends included."""

    first_year: int
    last_year: int
    seconds: float


@dataclass(frozen=True, slots=True)
class Norms:
    """Published values by age. `population`, a key of the texts, and `source` are told with every use; `longer_is_better`
    says which way."""

    values: tuple[Norm, ...]
    longer_is_better: bool
    population: str
    source: str

    def at(self, age: int) -> Norm | None:
        """The value for that age in years; None: nothing was published for it."""
        return next((norm for norm in self.values if norm.first_year <= age <= norm.last_year), None)

    def worse_than_usual(self, age: int, seconds: float) -> bool | None:
        """Whether a time is worse than the value for that age; None: there is none."""
        norm = self.at(age)
        if norm is None:
            return None
        return seconds < norm.seconds if self.longer_is_better else seconds > norm.seconds


ONE_LEG_EYES_OPEN = Norms(
    (Norm(60, 69, 27.0), Norm(70, 79, 17.2), Norm(80, 99, 8.5)),
    longer_is_better=True,
    population="healthy",
    source="Bohannon 2006, Top Geriatr Rehabil 22:70-77",
)
FIVE_SIT_TO_STANDS = Norms(
    (Norm(60, 69, 11.4), Norm(70, 79, 12.6), Norm(80, 89, 14.8)),
    longer_is_better=False,
    population="at-home",
    source="Bohannon 2006, Percept Mot Skills 103:215-222",
)


@dataclass(frozen=True, slots=True)
class Detectable:
    """The smallest change beyond the error of measurement: `points`, at `level` % confidence, in that population (a key of the
    texts)."""

    points: float
    level: int
    population: str
    source: str

    def reached(self, change: float) -> bool:
        """Whether a change, in either direction, is as large."""
        return abs(change) >= self.points


BERG_CHANGE = (
    Detectable(6, 90, "stroke-rehabilitation", "Stevenson 2001"),
    Detectable(5, 95, "stroke-chronic", "Hiengkaew 2012"),
    # its level is told by its numbers: 1.96 x sqrt 2 x SEM 0.98 = 2.7
    Detectable(2.7, 95, "stroke-chronic", "PMC6136166"),
)
"""They differ: which one is meant is always named."""


def goal_attainment(levels: Sequence[int], weights: Sequence[float], correlation: float = 0.3) -> float:
    """Goal attainment T: levels -2 to 2, a weight each; 50 where all are as expected (Kiresuk & Sherman 1968).

    T = 50 + 10 sum(w x) / sqrt((1 - r) sum(w^2) + r (sum w)^2). ValueError: no goals, a level or weight that can not be.
    """
    if not levels or len(levels) != len(weights):
        raise ValueError(f"{len(levels)} goals and {len(weights)} weights")
    if any(level not in range(-2, 3) for level in levels) or any(not weight > 0 for weight in weights):
        raise ValueError("a goal's level is -2 to 2, its weight above 0")
    total = sum(weight * level for weight, level in zip(weights, levels, strict=True))
    squares = sum(weight**2 for weight in weights)
    return 50 + 10 * total / sqrt((1 - correlation) * squares + correlation * sum(weights) ** 2)
