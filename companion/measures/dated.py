"""To which local day an observation belongs. No library of numbers is loaded: also the companion's own process asks."""

from collections.abc import Sequence
from datetime import date, datetime
from zoneinfo import ZoneInfo

from companion.core.observations import Bout, DayClosed, Observation, SessionEnded

Observed = Sequence[tuple[datetime, Observation]]
"""Observations, each with the instant of its writing, in that order."""

Dated = tuple[date, Bout]
"""A bout with the local day of its session."""


def with_days(observations: Observed, zone: str) -> tuple[tuple[date, Observation], ...]:
    """Each observation with its day at the client's home. A bout belongs to the day of its session, also after midnight."""
    here = ZoneInfo(zone)
    sessions = {what.session: what.day for _, what in observations if isinstance(what, SessionEnded)}

    def day(at: datetime, what: Observation) -> date:
        if isinstance(what, SessionEnded | DayClosed):
            return what.day
        if isinstance(what, Bout):
            return sessions.get(what.session) or what.at.astimezone(here).date()
        return at.astimezone(here).date()

    return tuple((day(at, what), what) for at, what in observations)


def dated(observations: Observed, zone: str) -> tuple[Dated, ...]:
    """The bouts on record, oldest first, each with its day."""
    bouts = [(day, what) for day, what in with_days(observations, zone) if isinstance(what, Bout)]
    return tuple(sorted(bouts, key=lambda one: one[1].at))
