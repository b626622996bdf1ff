"""Shares of what was counted, and how far they can be trusted."""

from dataclasses import dataclass
from math import sqrt

from scipy.stats import binomtest, chi2


@dataclass(frozen=True, slots=True)
class Interval:
    """From `low` to `high`, both included."""

    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Share:
    """`count` of `total`. Nothing is said of 0 of 0."""

    count: int
    total: int

    def __post_init__(self) -> None:
        if not 0 <= self.count <= self.total:
            raise ValueError(f"{self.count} of {self.total} is no share")

    @property
    def value(self) -> float | None:
        """From 0 to 1; None of nothing."""
        return self.count / self.total if self.total else None

    @property
    def interval(self) -> Interval | None:
        """The 95 % score interval without continuity correction (Wilson 1927; Newcombe 1998, method 3); None of nothing."""
        if not self.total:
            return None
        found = binomtest(self.count, self.total).proportion_ci(0.95, method="wilson")
        return Interval(max(0.0, float(found.low)), min(1.0, float(found.high)))


def difference(first: Share, second: Share) -> Interval | None:
    """The 95 % interval of the first share less the second, from their own (Newcombe 1998, method 10); None of nothing."""
    one, other = first.interval, second.interval
    if one is None or other is None:
        return None
    p, q = first.count / first.total, second.count / second.total
    below = sqrt((p - one.low) ** 2 + (other.high - q) ** 2)
    above = sqrt((one.high - p) ** 2 + (q - other.low) ** 2)
    return Interval(p - q - below, p - q + above)


def rate(events: int, minutes: float) -> tuple[float, Interval]:
    """Events a minute practised, and the exact 95 % Poisson interval (Garwood 1936). ValueError: no time, or below 0."""
    if events < 0 or not minutes > 0:
        raise ValueError(f"{events} events in {minutes} minutes have no rate")
    low = chi2.ppf(0.025, 2 * events) / 2 if events else 0.0
    high = chi2.ppf(0.975, 2 * events + 2) / 2
    return events / minutes, Interval(float(low) / minutes, float(high) / minutes)
