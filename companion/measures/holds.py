"""How long a stance was held before it first broke: curve, median, share past a mark, mean up to the target.

What is known of a hold are bounds. A hold that was clean to the target is not shorter than that, and nobody knows how much
longer it would have been. Holds of one day are alike, so each session counts once wherever an interval is given: bands that
take every hold for independent are too narrow, and are not offered.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from math import sqrt

import numpy as np
from scipy.special import expit, logit
from scipy.stats import CensoredData, binom, ecdf, t

from companion.measures.proportions import Interval

LEAST_SESSIONS = 8
"""Under so many sessions holds are listed, and no interval is given."""


@dataclass(frozen=True, slots=True)
class Hold:
    """A hold of a session. It first broke between `low` and `high` seconds; `high` None: it was not seen to break by `low`."""

    session: str
    low: float
    high: float | None

    def __post_init__(self) -> None:
        if not (self.low >= 0 and (self.high is None or self.high >= self.low)):
            raise ValueError(f"a hold can not break between {self.low} and {self.high} s")


@dataclass(frozen=True, slots=True)
class Between:
    """Seconds, `low` to `high`, both included. `high` None: not reached by `low`."""

    low: float
    high: float | None


@dataclass(frozen=True, slots=True)
class Piece:
    """A share of the holds that broke between `low` and `high` seconds; where within, the records do not tell."""

    low: float
    high: float
    share: float


@dataclass(frozen=True, slots=True)
class Curve:
    """When holds first broke, in rising order. What the pieces leave of 1 had not broken by `seen_to` seconds."""

    pieces: tuple[Piece, ...]
    seen_to: float

    def lasting(self, seconds: float) -> float:
        """The share that had not broken at `seconds`; one that broke then counts as broken. Of a piece that lies across, all
        is taken to have lasted."""
        return max(0.0, 1.0 - sum(piece.share for piece in self.pieces if piece.high <= seconds))

    @property
    def median(self) -> Between:
        """When half had broken."""
        broken = 0.0
        for piece in self.pieces:
            broken += piece.share
            if broken >= 0.5 - 1e-9:
                return Between(piece.low, piece.high)
        return Between(self.seen_to, None)


def curve(holds: Sequence[Hold]) -> Curve:
    """The share of holds that broke, over time, without a shape assumed.

    Kaplan and Meier (1958) where every break is known to the second, Turnbull (1976) where some are known as bounds.
    ValueError: no holds.
    """
    if not holds:
        raise ValueError("no holds have no curve")
    seen_to = max(hold.low if hold.high is None else hold.high for hold in holds)
    if all(hold.high is None or hold.high == hold.low for hold in holds):
        times = np.array([hold.low for hold in holds])
        lasted = ecdf(CensoredData.right_censored(times, [hold.high is None for hold in holds])).sf
        shares = -np.diff(lasted.probabilities, prepend=1.0)
        pieces = tuple(Piece(float(at), float(at), float(share)) for at, share in zip(lasted.quantiles, shares, strict=True))
        return Curve(tuple(piece for piece in pieces if piece.share > 0), seen_to)
    return Curve(tuple(piece for piece in _turnbull(holds) if piece.share > 1e-9), seen_to)


def _turnbull(holds: Sequence[Hold]) -> list[Piece]:
    """Shares on the pieces in which any can lie, by self-consistency. A hold that broke after `low` did not break at it."""
    low, high, exact = _arrays(holds)
    left, right = _innermost(low, high, exact)
    # a hold may have broken in a piece if the piece lies within its bounds
    inside = (left[None, :] >= low[:, None]) & (right[None, :] <= high[:, None])
    # what is known to the second is at that second, not just before it
    starts_after = ~exact[:, None] & (right[None, :] <= low[:, None])
    inside &= ~starts_after
    share = np.full(len(left), 1.0 / len(left))
    for _ in range(20_000):
        weight = inside * share
        weight /= weight.sum(axis=1, keepdims=True)
        new = weight.mean(axis=0)
        if np.abs(new - share).max() < 1e-10:
            break
        share = new
    finite = np.isfinite(right)
    return [Piece(float(a), float(b), float(c)) for a, b, c in zip(left[finite], right[finite], share[finite], strict=True)]


def _arrays(holds: Sequence[Hold]) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    low = np.array([hold.low for hold in holds])
    high = np.array([np.inf if hold.high is None else hold.high for hold in holds])
    return low, high, low == high


def _innermost(low: np.ndarray, high: np.ndarray, exact: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """The pieces that can carry a share (Peto 1973): from a lower bound to the next upper bound, none between.

    An open lower bound sorts after an upper bound at the same second, one known to the second before it.
    """
    ends = [(second, 2 if not known else 0, "low") for second, known in zip(low, exact, strict=True)]
    ends += [(second, 1, "high") for second in high]
    ordered = [(second, kind) for (second, kind), _ in groupby(sorted(set(ends)), key=lambda end: (end[0], end[2]))]
    pieces = [(a, b) for (a, one), (b, other) in pairwise(ordered) if (one, other) == ("low", "high")]
    return np.array([a for a, _ in pieces]), np.array([b for _, b in pieces])


@dataclass(frozen=True, slots=True)
class Mean:
    """The mean of `sessions` session means, each hold counted up to the target, in seconds. `interval` (95 %) None: too few
    sessions, or all alike."""

    value: float
    interval: Interval | None
    sessions: int


def restricted_mean(holds: Sequence[Hold], target: float) -> Mean:
    """Seconds held before the first break, up to `target`.

    A hold known as bounds stands at its mean within them by the curve of all holds. The interval is Student's t on the logit of
    mean over target, with the spread between sessions; both are ours, chosen by simulation. ValueError: no holds, or a target
    that is not above 0.
    """
    if not target > 0:
        raise ValueError(f"the target of {target} s is not above 0")
    means = np.array(session_means(holds, target))
    count, value = len(means), float(means.mean())
    spread = float(means.std(ddof=1)) if count > 1 else 0.0
    share = value / target
    if count < LEAST_SESSIONS or spread == 0.0 or not 0.0 < share < 1.0:
        return Mean(value, None, count)
    half = float(t.ppf(0.975, count - 1)) * spread / target / sqrt(count) / (share * (1 - share))
    middle = float(logit(share))
    return Mean(value, Interval(float(expit(middle - half)) * target, float(expit(middle + half)) * target), count)


def session_means(holds: Sequence[Hold], target: float) -> list[float]:
    """For each session, in order of its first hold, the mean of its holds up to `target`, in seconds. ValueError: no holds."""
    whole = curve(holds)
    by_session: dict[str, list[float]] = {}
    for hold in holds:
        by_session.setdefault(hold.session, []).append(_expected(hold, whole, target))
    return [sum(seconds) / len(seconds) for seconds in by_session.values()]


def _expected(hold: Hold, whole: Curve, target: float) -> float:
    """The seconds that a hold counts, up to the target: those known, else their mean within its bounds by the curve."""
    if hold.high is None or hold.high == hold.low:
        return min(hold.low, target)
    within = [piece for piece in whole.pieces if piece.low >= hold.low and piece.high <= hold.high]
    total = sum(piece.share for piece in within)
    if total <= 0:
        return min((hold.low + hold.high) / 2, target)
    return sum(piece.share * min((piece.low + piece.high) / 2, target) for piece in within) / total


def median_interval(holds: Sequence[Hold]) -> Between | None:
    """The interval of the median over sessions, each at the middle of its own holds; None under `LEAST_SESSIONS` sessions.

    Order statistics (David and Nagaraja 2003, section 7.1), with the ranks whose coverage comes nearest to 95 %.
    """
    by_session: dict[str, list[Hold]] = {}
    for hold in holds:
        by_session.setdefault(hold.session, []).append(hold)
    count = len(by_session)
    if count < LEAST_SESSIONS:
        return None
    lows = sorted(float(np.median([hold.low for hold in own])) for own in by_session.values())
    highs = sorted(
        float(np.median([np.inf if hold.high is None else hold.high for hold in own])) for own in by_session.values()
    )
    short = 1 - 2 * binom.cdf(np.arange(count // 2), count, 0.5) - 0.95
    rank = int(np.abs(short).argmin()) + 1
    high = highs[count - rank]
    return Between(lows[rank - 1], high if np.isfinite(high) else None)
