"""How much a client's holds differ from one session to the next, and what fall that leaves to be noticed."""

from collections.abc import Mapping, Sequence
from math import log

import numpy as np
from scipy.optimize import minimize
from scipy.special import log_ndtr, logsumexp, roots_hermitenorm

from companion.core.programme import Noticeable
from companion.measures.holds import Hold
from companion.measures.notice import LEAST_EARLIER, Session

NODES, WEIGHTS = roots_hermitenorm(15)
LEAST_HALF_S = 0.5
"""A hold known to the second is known to half a second either way."""
SMALLEST, LARGEST = 0.02, 1.5


def day_to_day(sessions: Sequence[Session]) -> float | None:
    """The log-SD from session to session of what a client can hold; None under 15 sessions with a hold that was seen to break.

    Log-normal holds with a mean for each condition, an effect of the session and one of the hold, by maximum likelihood over
    the bounds that are known (full holds too), the session's effect integrated by Gauss and Hermite's rule.
    """
    broke = [session for session in sessions if any(hold.high is not None for holds in session.values() for hold in holds)]
    if len(broke) < LEAST_EARLIER:
        return None
    seen = {name for session in broke for name, holds in session.items() for hold in holds if hold.high is not None}
    places = {name: place for place, name in enumerate(sorted(seen))}
    low, high, condition, starts = _bounds(sessions, places)

    def unlikely(values: np.ndarray) -> float:
        day, within = np.exp(np.clip(values[:2], log(SMALLEST), log(LARGEST)))
        at = values[2:][condition][:, None] + day * NODES[None, :]
        each = _between((low[:, None] - at) / within, (high[:, None] - at) / within)
        summed = np.add.reduceat(each, starts, axis=0)
        return -float(logsumexp(summed, b=WEIGHTS / WEIGHTS.sum(), axis=1).sum())

    middle = np.where(np.isfinite(low), np.where(np.isfinite(high), (low + high) / 2, low), high)
    first = [float(middle[condition == place].mean()) for place in range(len(places))]
    found = minimize(unlikely, np.array([log(0.2), log(0.2), *first]), method="L-BFGS-B")
    return float(np.exp(np.clip(found.x[0], log(SMALLEST), log(LARGEST))))


def _bounds(sessions: Sequence[Session], places: Mapping[str, int]) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    """Log bounds and condition of each hold, and where each session starts among them. Sessions without a hold are left out."""
    low: list[float] = []
    high: list[float] = []
    condition: list[int] = []
    starts: list[int] = []
    for session in sessions:
        holds = [(places[name], hold) for name, holds in session.items() if name in places for hold in holds]
        starts += [len(low)] if holds else []
        for place, hold in holds:
            below, above = _seconds(hold)
            low.append(log(below) if below > 0 else -np.inf)
            high.append(log(above) if np.isfinite(above) else np.inf)
            condition.append(place)
    return np.array(low), np.array(high), np.array(condition), np.array(starts)


def _seconds(hold: Hold) -> tuple[float, float]:
    if hold.high is None:
        return hold.low, np.inf
    if hold.high == hold.low:
        return max(0.0, hold.low - LEAST_HALF_S), hold.high + LEAST_HALF_S
    return hold.low, hold.high


def _between(low: np.ndarray, high: np.ndarray) -> np.ndarray:
    """The log of the normal probability between two bounds, also far out in a tail."""
    flip = low + high > 0
    low, high = np.where(flip, -high, low), np.where(flip, -low, high)
    above, below = log_ndtr(high), log_ndtr(low)
    return np.asarray(above + np.log1p(-np.exp(np.minimum(below - above, -1e-12))))


def allows(spread: float, table: Sequence[Noticeable]) -> Noticeable | None:
    """What falls are noticed at this spread: the row of the table at or next above it; None: it is beyond the table."""
    return min((row for row in table if row.log_sd >= spread), key=lambda row: row.log_sd, default=None)
