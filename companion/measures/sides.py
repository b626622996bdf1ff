"""The weaker side against the stronger one, within the same sessions."""

from collections.abc import Sequence
from dataclasses import dataclass

from scipy.stats import binomtest

from companion.measures.holds import Hold
from companion.measures.proportions import Share

LEAST_SESSIONS = 6
"""Under so many sessions in which a difference could be seen it is not measurable."""


@dataclass(frozen=True, slots=True)
class Sides:
    """The weaker side's holds were shorter in `shorter.count` of the `shorter.total` sessions that could show it.

    `p` is that of the exact sign test, two-sided. `alike`: sessions in which none could be seen. `at_least`: by how much the
    stronger side's mean is longer, as a ratio; at least that, since both are counted to the target only; None: no weaker mean.
    """

    shorter: Share
    p: float
    alike: int
    at_least: float | None


def two_sides(weaker: Sequence[Hold], stronger: Sequence[Hold], target: float) -> Sides | None:
    """Compare within sessions by the net sign over all pairs; None: not measurable. ValueError: a target not above 0."""
    if not target > 0:
        raise ValueError(f"the target of {target} s is not above 0")
    signs = []
    for session in dict.fromkeys(hold.session for hold in weaker):
        mine = [hold for hold in weaker if hold.session == session]
        others = [hold for hold in stronger if hold.session == session]
        if others:
            signs.append(sum(_sign(one, other, target) for one in mine for other in others))
    seen = [sign for sign in signs if sign]
    if len(seen) < LEAST_SESSIONS:
        return None
    shorter = sum(sign < 0 for sign in seen)
    p = float(binomtest(shorter, len(seen)).pvalue)
    return Sides(Share(shorter, len(seen)), p, len(signs) - len(seen), ratio(weaker, stronger, target))


def ratio(weaker: Sequence[Hold], stronger: Sequence[Hold], target: float) -> float | None:
    """The stronger side's mean over the weaker side's, both up to the target; None where there is none, or both are at it."""
    one, other = _mean(weaker, target), _mean(stronger, target)
    if one is None or other is None or not one or one >= target <= other:
        return None
    return other / one


def _sign(weaker: Hold, stronger: Hold, target: float) -> int:
    """-1: the weaker side surely broke first. What is known as bounds that overlap is no difference that could be seen."""
    low, high = _capped(weaker, target)
    other_low, other_high = _capped(stronger, target)
    if high < other_low or (high == other_low and low < high) or (high == other_low and other_low < other_high):
        return -1
    if other_high < low or (other_high == low and other_low < other_high) or (other_high == low and low < high):
        return 1
    return 0


def _capped(hold: Hold, target: float) -> tuple[float, float]:
    return min(hold.low, target), target if hold.high is None else min(hold.high, target)


def _mean(holds: Sequence[Hold], target: float) -> float | None:
    if not holds:
        return None
    return sum(sum(_capped(hold, target)) / 2 for hold in holds) / len(holds)
