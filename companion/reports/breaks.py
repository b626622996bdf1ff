"""When the holds of a week first broke and how far counts went: the median of them, and the earliest or least one. Pure.

A hold is capped at its target: what did not break is "not within the target", never a break at its end. Where the reports leave
a time open, everything is taken as early and as late as they allow; if the two differ, the answer is "unknown".
"""

from collections.abc import Iterable
from enum import StrEnum
from math import ceil, floor

from companion.core.observations import Bout, Quality

NOT_BROKEN = 5
"""The place of a bout that did not break, after the four quarters."""


class FirstBreak(StrEnum):
    """A quarter of the hold. NO_BREAK: not within the target (a median: under half broke). UNKNOWN: nobody can say."""

    FIRST = "first"
    SECOND = "second"
    THIRD = "third"
    LAST = "last"
    NO_BREAK = "no_break"
    UNKNOWN = "unknown"


QUARTERS = (FirstBreak.FIRST, FirstBreak.SECOND, FirstBreak.THIRD, FirstBreak.LAST, FirstBreak.NO_BREAK)


def usual_break(bouts: Iterable[Bout]) -> FirstBreak:
    """The quarter by whose end half or more of the tried bouts had first broken: the lower median.

    A clean bout is counted as not broken within the target, never as a break at its end (a capped hold: the
    median of 12, 18, 30+, 30+, 30+ s is "not reached").
    """
    return _break_at(bouts, middle=True)


def earliest_break(bouts: Iterable[Bout]) -> FirstBreak:
    """The earliest quarter in which one of the tried bouts first broke."""
    return _break_at(bouts, middle=False)


def _break_at(bouts: Iterable[Bout], *, middle: bool) -> FirstBreak:
    told = [bout for bout in bouts if bout.quality is not Quality.UNKNOWN]
    places = [_quarters(bout) for bout in told if not _stopped(bout)]
    if not places:
        return FirstBreak.NO_BREAK if told else FirstBreak.UNKNOWN
    at = (len(places) - 1) // 2 if middle else 0
    early = sorted(early for early, _ in places)[at]
    late = sorted(late for _, late in places)[at]
    return QUARTERS[early - 1] if early == late else FirstBreak.UNKNOWN


def usual_count(bouts: Iterable[Bout]) -> int | None:
    """The lower median of what was counted; None where the reports ("fewer", a foot came down) do not say."""
    return _count_at(bouts, middle=True)


def least_count(bouts: Iterable[Bout]) -> int | None:
    """The least that was counted; None likewise."""
    return _count_at(bouts, middle=False)


def _count_at(bouts: Iterable[Bout], *, middle: bool) -> int | None:
    ranges = [counts(bout) for bout in bouts if bout.quality is not Quality.UNKNOWN]
    if not ranges:
        return None
    at = (len(ranges) - 1) // 2 if middle else 0
    least = sorted(low for low, _ in ranges)[at]
    most = sorted(high for _, high in ranges)[at]
    return least if least == most else None


def counts(bout: Bout) -> tuple[int, int]:
    """The least and the most that may have been counted."""
    if bout.done is not None:
        return bout.done, bout.done
    if bout.quality is Quality.CLEAN:
        return bout.target, bout.target
    return 0, max(bout.target - 1, 0)


def _stopped(bout: Bout) -> bool:
    """Stopped for a symptom and no break told: its own end, neither a break nor a full hold."""
    return bout.quality is Quality.UNWELL and bout.first_break is None


def _quarters(bout: Bout) -> tuple[int, int]:
    """The earliest and the latest quarter, 1 to 4, in which it may first have broken; 5: not within the target.

    Bounds are answered in whole seconds, so the cuts of a target of 10 or 30 s are rounded by up to half a second.
    """
    if bout.quality is Quality.CLEAN:
        return NOT_BROKEN, NOT_BROKEN
    if bout.first_break is None:
        return 1, 4 if bout.quality is Quality.BROKE else NOT_BROKEN
    low, high = bout.first_break.low, bout.first_break.high
    if high is None:
        return _quarter_after(low, bout.target), NOT_BROKEN
    if low == high:
        return _quarter_after(low, bout.target), _quarter_after(low, bout.target)
    return _quarter_after(low + 0.5, bout.target), min(max(ceil((high - 0.5) * 4 / bout.target), 1), 4)


def _quarter_after(seconds: float, target: int) -> int:
    """The quarter, 1 to 4, in which that second lies; a second on a cut belongs to the later one."""
    return min(floor(seconds * 4 / target) + 1, 4)
