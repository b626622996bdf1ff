"""Early notice of getting worse: the last sessions against the client's own usual.

Each hold is ranked among the client's own earlier ones of the same stance, side and condition, so a hard stance is no bad day.
The words of it are: "the last four sessions, taken together, were among the lowest of the last forty".

Chosen over control limits on the same simulated courses (`tests/benchmarks/simulation.py`, 200 a row; falls of a third noticed
at log-SD 0.15 with learning: 0.75). Limits of single sessions notice fewer of them (0.41), and where most holds are full they
are wrong 1.0 to 1.7 times in 26 weeks. Those of a weighted moving average are wrong less often (0.06 to 0.18 times, this 0.08
to 0.35) and mostly notice fewer (0.66); where most holds are full they notice more (0.72 to 0.98, this 0.60 to 0.92) and are
wrong more often (0.43 to 0.57 times, this 0.31 to 0.45).
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from scipy.stats import mannwhitneyu

from companion.measures.conditions import LAST, MOST_EARLIER
from companion.measures.holds import Hold

LEAST_EARLIER = 15
NOTICE_AT = 0.01
CLOSED_ABOVE = 0.16
UNDER_MEDIAN = 3


class Standing(StrEnum):
    """Where the last sessions stand. USUAL also closes a notice that is open; BETWEEN leaves things as they are."""

    TOO_FEW = "too_few"
    USUAL = "usual"
    BETWEEN = "between"
    LOW = "low"


@dataclass(frozen=True, slots=True)
class Notice:
    """How the last `LAST` sessions compare with `earlier` ones. `p` is one-sided; None: too few. `under`: how many of the last
    are under the earlier median."""

    standing: Standing
    p: float | None
    under: int
    earlier: int


Session = Mapping[str, Sequence[Hold]]
"""The holds of one session by condition: stance, side, hand support, target and clock, as one name."""


def notice(sessions: Sequence[Session]) -> Notice:
    """The last four of the sessions, in order, against up to forty before. Sessions of another usual (a new target, another
    condition) compare with nothing, and count as not there."""
    last, earlier = sessions[-LAST:], sessions[:-LAST][-MOST_EARLIER:]
    known: dict[str, list[float]] = {}
    for session in earlier:
        for condition, holds in session.items():
            known.setdefault(condition, []).extend(_second(hold) for hold in holds)
    usual = {condition: np.array(seconds) for condition, seconds in known.items()}
    marks = [_mark(session, usual) for session in earlier]
    before = [mark for mark in marks if mark is not None]
    now = [mark for mark in (_mark(session, usual) for session in last) if mark is not None]
    if len(now) < LAST or len(before) < LEAST_EARLIER:
        return Notice(Standing.TOO_FEW, None, 0, len(before))
    p = float(mannwhitneyu(now, before, alternative="less", method="asymptotic").pvalue)
    if np.isnan(p):  # all alike
        p = 1.0
    under = int(sum(mark < float(np.median(before)) for mark in now))
    low = p <= NOTICE_AT and under >= UNDER_MEDIAN
    standing = Standing.LOW if low else Standing.USUAL if p > CLOSED_ABOVE else Standing.BETWEEN
    return Notice(standing, p, under, len(before))


def _second(hold: Hold) -> float:
    """The middle of what is known; a hold that was not seen to break stands above every one that was."""
    return np.inf if hold.high is None else (hold.low + hold.high) / 2


def _mark(session: Session, usual: Mapping[str, np.ndarray]) -> float | None:
    """The mean place of a session's holds among those known, 0 (lowest) to 1; None: nothing to compare with."""
    places = []
    for condition, holds in session.items():
        among = usual.get(condition)
        if among is not None:
            seconds = [_second(hold) for hold in holds]
            places += [float(((among < second).sum() + (among == second).sum() / 2) / len(among)) for second in seconds]
    return sum(places) / len(places) if places else None
