"""How much of what was prescribed was reported, with what nobody told of counted apart.

Each plan is a window of its own, since a new plan is a new dose. Days paused or held leave it; a day that nobody answered
stays, as unknown. Everything is reported, and diaries overstate (Nicolson 2018).
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from companion.measures.proportions import Share

LABEL_ABOVE = 70
"""Adherent after stroke is more than so many per cent of the prescribed dose (SS-MAHE 2019)."""


class DayOutcome(StrEnum):
    """What became of a day on which practice was due. LEFT_OUT: paused or held."""

    REPORTED = "reported"
    MISSED = "missed"
    UNKNOWN = "unknown"
    LEFT_OUT = "left_out"


@dataclass(frozen=True, slots=True)
class DueDay:
    """A day on which the plan of that version asked for practice: so many bouts and seconds, and what was reported of them."""

    day: date
    version: int
    outcome: DayOutcome
    bouts: int
    seconds: float
    bouts_reported: int = 0
    seconds_reported: float = 0.0


@dataclass(frozen=True, slots=True)
class Adherence:
    """Of one plan. Sessions, bouts and seconds reported of those due; the unknown sessions are among the due.

    `adherent` is the label of SS-MAHE, by sessions; None where nothing was due.
    """

    version: int
    first: date
    last: date
    sessions: Share
    bouts: Share
    seconds: float
    seconds_due: float
    unknown: int
    left_out: int

    @property
    def adherent(self) -> bool | None:
        due = self.sessions.total
        return None if due == 0 else self.sessions.count * 100 > LABEL_ABOVE * due


def adherence(days: Iterable[DueDay]) -> tuple[Adherence, ...]:
    """For each plan, in order of its first day. Bouts beyond a day's dose count as that dose."""
    windows: dict[int, list[DueDay]] = {}
    for day in sorted(days, key=lambda day: day.day):
        windows.setdefault(day.version, []).append(day)
    return tuple(_window(version, own) for version, own in windows.items())


def _window(version: int, days: Sequence[DueDay]) -> Adherence:
    counted = [day for day in days if day.outcome is not DayOutcome.LEFT_OUT]
    reported = [day for day in counted if day.outcome is DayOutcome.REPORTED]
    return Adherence(
        version=version,
        first=days[0].day,
        last=days[-1].day,
        sessions=Share(len(reported), len(counted)),
        bouts=Share(sum(min(day.bouts_reported, day.bouts) for day in counted), sum(day.bouts for day in counted)),
        seconds=sum(min(day.seconds_reported, day.seconds) for day in counted),
        seconds_due=sum(day.seconds for day in counted),
        unknown=sum(day.outcome is DayOutcome.UNKNOWN for day in counted),
        left_out=len(days) - len(counted),
    )
