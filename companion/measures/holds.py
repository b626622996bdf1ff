"""How long a stance was held before it first broke: curve, median, share past a mark, mean up to the target.

What is known of a hold are bounds. A hold that was clean to the target is not shorter than that, and nobody knows how much
longer it would have been. Holds of one day are alike, so each session counts once wherever an interval is given: bands that
take every hold for independent are too narrow, and are not offered.

What was tried beside it on simulated courses (`tests/benchmarks/simulation.py`), 8 to 20 sessions of two holds:

- Median by order statistics of the sessions' middles: a session with one full hold has a middle without an upper end, so with
  20 sessions and 20 % full the interval was open above in 42 to 75 of 100 courses, against 7 to 15 here. A sign test of the
  sessions that leaves out those split even covers 0.97 to 0.99 at 8 sessions, the t interval on the logit 0.98 to 0.99; here
  0.93 to 0.97.
- A median past the target can not be seen: the interval is open above then, and covers 0.98 and more whatever the method.
- A break known as a quarter ends the median's interval on a mark only: it covers 0.98 and more, and is the wider for it.
- The mean with each such break in the middle of its quarter is too low: it covered down to 0.82. At the ends of its quarter it
  covers 1.00. By a log-normal shape with the same allowance 0.92 to 0.98, and needs the shape. By the monotone cubic through
  the curve (Fritsch and Carlson 1980) 0.93 to 0.99, in four times as long; here 0.93 to 0.98.
"""

from collections import Counter
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from math import sqrt

import numpy as np
from scipy.special import expit, logit, stdtrit
from scipy.stats import CensoredData, ecdf

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
        broke, lasting = (
            [hold.low for hold in holds if hold.high is not None],
            [hold.low for hold in holds if hold.high is None],
        )
        lasted = ecdf(CensoredData(broke, right=lasting)).sf
        left = [1.0, *lasted.probabilities.tolist()]
        pieces = (Piece(at, at, one - two) for at, (one, two) in zip(lasted.quantiles.tolist(), pairwise(left), strict=True))
        return Curve(tuple(piece for piece in pieces if piece.share > 0), seen_to)
    return Curve(tuple(piece for piece in _turnbull(holds) if piece.share > 1e-9), seen_to)


def _turnbull(holds: Sequence[Hold]) -> list[Piece]:
    """Shares on the pieces in which any can lie, by self-consistency. A hold that broke after `low` did not break at it."""
    alike = Counter((hold.low, hold.high) for hold in holds)
    low, high, exact = _arrays(alike)
    left, right = _innermost(low, high, exact)
    # a hold may have broken in a piece if the piece lies within its bounds
    inside = (left[None, :] >= low[:, None]) & (right[None, :] <= high[:, None])
    # what is known to the second is at that second, not just before it
    starts_after = ~exact[:, None] & (right[None, :] <= low[:, None])
    inside &= ~starts_after
    share = np.full(len(left), 1.0 / len(left))
    often, may = np.array(list(alike.values())) / len(holds), inside / 1.0
    for _ in range(20_000):
        new = share * (often / (may @ share) @ may)
        if np.abs(new - share).max() < 1e-10:
            break
        share = new
    finite = np.isfinite(right)
    return [Piece(float(a), float(b), float(c)) for a, b, c in zip(left[finite], right[finite], share[finite], strict=True)]


def _arrays(bounds: Collection[tuple[float, float | None]]) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    low = np.array([first for first, _ in bounds])
    high = np.array([np.inf if last is None else last for _, last in bounds])
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


def _student(sessions: int) -> float:
    """Student's t at 0.975 for the mean of so many sessions."""
    return float(stdtrit(sessions - 1, 0.975))


def restricted_mean(holds: Sequence[Hold], target: float, whole: Curve | None = None) -> Mean:
    """Seconds held before the first break, up to `target`.

    A hold known as bounds stands at its mean within them by the curve of all holds. The interval is Student's t on the logit of
    mean over target, with the spread between sessions, and what is not known within those bounds added to it; all of it is
    ours, chosen by simulation. `whole` is the curve of these holds where it is known already. ValueError: no holds, or a target
    that is not above 0.
    """
    if not target > 0:
        raise ValueError(f"the target of {target} s is not above 0")
    found = _sessions(holds, target, whole)
    means = np.array([mean for mean, _ in found])
    count, value = len(means), float(means.mean())
    between = float(means.var(ddof=1)) if count > 1 else 0.0
    share = value / target
    if count < LEAST_SESSIONS or between == 0.0 or not 0.0 < share < 1.0:
        return Mean(value, None, count)
    spread = sqrt(between + sum(variance for _, variance in found) / count)
    half = _student(count) * spread / target / sqrt(count) / (share * (1 - share))
    middle = float(logit(share))
    return Mean(value, Interval(float(expit(middle - half)) * target, float(expit(middle + half)) * target), count)


def _sessions(holds: Sequence[Hold], target: float, whole: Curve | None = None) -> list[tuple[float, float]]:
    """For each session the mean of its holds up to `target`, and the variance of what is not known of that mean."""
    if not holds:
        raise ValueError("no holds have no mean")
    bounds = {(hold.low, hold.high) for hold in holds}
    # where every break is known to the second the curve has nothing to add
    vague = any(high is not None and high > low for low, high in bounds)
    placed = _placed(whole or curve(holds), target) if vague else ()
    expected = {(low, high): _expected(low, high, placed, target) for low, high in bounds}
    by_session: dict[str, list[tuple[float, float]]] = {}
    for hold in holds:
        by_session.setdefault(hold.session, []).append(expected[hold.low, hold.high])
    return [
        (sum(mean for mean, _ in own) / len(own), sum(variance for _, variance in own) / len(own) ** 2)
        for own in by_session.values()
    ]


def _placed(whole: Curve, target: float) -> list[tuple[Piece, float]]:
    """Each piece of the curve with the mean of the breaks in it.

    Within a piece they become more or fewer along a straight line, as steep as the one through the stretches of the curve on
    its two sides; at an end of the curve through the piece itself. It goes no lower than 0 at an end of the piece: the mean
    then stands at a third of it. Ours, chosen by simulation.
    """
    ends = sorted({0.0, whole.seen_to, target} | {end for piece in whole.pieces for end in (piece.low, piece.high)})
    lasting = [whole.lasting(end) for end in ends]
    # of each stretch its middle, and how many break a second in it
    stretches = [((a + b) / 2, (one - two) / (b - a)) for (a, one), (b, two) in pairwise(zip(ends, lasting, strict=True))]

    def mean(piece: Piece) -> float:
        wide, first, last = piece.high - piece.low, ends.index(piece.low), ends.index(piece.high)
        if not wide or len(stretches) == 1:
            return (piece.low + piece.high) / 2
        (at, before), (then, after) = stretches[max(first - 1, 0)], stretches[min(last, len(stretches) - 1)]
        later = (after - before) / (then - at) * wide**3 / 12 / piece.share
        return (piece.low + piece.high) / 2 + min(max(later, -wide / 6), wide / 6)

    return [(piece, mean(piece)) for piece in whole.pieces]


def _expected(low: float, high: float | None, placed: Sequence[tuple[Piece, float]], target: float) -> tuple[float, float]:
    """The seconds that a hold counts, up to the target, with their variance: those known, else by the curve in its bounds."""
    if high is None or high == low:
        return min(low, target), 0.0
    within = [(piece, mean) for piece, mean in placed if piece.low >= low and piece.high <= high]
    within = within or [(Piece(low, high, 1.0), (low + high) / 2)]
    parts = [(piece.share, min(at, target), min(piece.high, target) - min(piece.low, target)) for piece, at in within]
    total = sum(share for share, _, _ in parts)
    mean = sum(share * at for share, at, _ in parts) / total
    return mean, sum(share * ((at - mean) ** 2 + wide**2 / 12) for share, at, wide in parts) / total


def median_interval(holds: Sequence[Hold]) -> Between | None:
    """The interval of the median, each session counted once; None under `LEAST_SESSIONS` sessions.

    The seconds past which half the holds may last: where the t interval of the sessions' own shares lasting longer holds 1/2
    (Brookmeyer and Crowley 1982, with the spread between sessions in place of Greenwood's). Of one hold a session these are the
    order statistics whose coverage comes nearest to 95 %. What is known as bounds counts for neither end before its own.
    """
    sessions = list(dict.fromkeys(hold.session for hold in holds))
    count = len(sessions)
    if count < LEAST_SESSIONS:
        return None
    low, high, _ = _arrays([(hold.low, hold.high) for hold in holds])
    marks = np.unique(np.concatenate([[0.0], low, high[np.isfinite(high)]]))
    between = np.append((marks[:-1] + marks[1:]) / 2, marks[-1] + 1)
    own = np.array([[hold.session == session for hold in holds] for session in sessions]) / 1.0
    own /= own.sum(axis=1, keepdims=True)
    surely, perhaps = own @ (low[:, None] > between), own @ (high[:, None] > between)
    half = _student(count) / sqrt(count)
    not_past = surely.mean(axis=0) - half * surely.std(axis=0, ddof=1) <= 0.5
    not_before = perhaps.mean(axis=0) + half * perhaps.std(axis=0, ddof=1) >= 0.5
    first, last = int(not_past.argmax()), int(np.flatnonzero(not_before).max(initial=-1))
    return Between(float(marks[first]), float(marks[last + 1]) if last + 1 < len(marks) else None)
