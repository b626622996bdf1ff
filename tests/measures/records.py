"""Records of practice to measure: bouts and sessions as a session would leave them."""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

from companion.core.observations import Bounds, Bout, BrokeBy, CarerSeen, Ending, Observation, Quality, Reporter, SessionEnded
from companion.core.programme import Clock, Eyes, Hand, Measure, Side, Stance

FIRST = date(2026, 11, 2)
"""A Monday."""

Observed = list[tuple[datetime, Observation]]

CLEAN = Bout(
    at=datetime(2026, 11, 2, 9, tzinfo=UTC),
    session="s1",
    exercise="heel_to_toe",
    form="still",
    stance=Stance.HEEL_TO_TOE,
    eyes=Eyes.OPEN,
    hand=Hand.HOVERING,
    clock=Clock.CARER,
    measure=Measure.TIMED,
    target=60,
    side=Side.WEAKER,
    quality=Quality.CLEAN,
    practised_s=60.0,
    done=None,
    first_break=Bounds(60.0, None),
    broke_by=None,
    reporter=Reporter.CLIENT,
)


def broke(low: float | None = None, high: float | None = None, by: BrokeBy = BrokeBy.STEP, **changes: Any) -> Bout:
    """A bout that broke between these seconds; at one second; or, without any, nobody knows when."""
    at = None if low is None else Bounds(low, low if high is None else high)
    return replace(CLEAN, **{"quality": Quality.BROKE, "first_break": at, "broke_by": by} | changes)


def ended(quality: Quality, practised_s: float | None) -> Bout:
    """A bout that was stopped, for that reason, after so long."""
    return replace(CLEAN, quality=quality, practised_s=practised_s, first_break=None)


def morning(day: int) -> datetime:
    """Nine in the morning, so many days after `FIRST`."""
    return datetime.combine(FIRST + timedelta(days=day), time(9), UTC)


def session(day: int, *bouts: Bout, ending: Ending = Ending.DONE, planned: int | None = None) -> Observed:
    """A session of that day, with these bouts."""
    at, name = morning(day), f"s{day}"
    own = [(at, replace(bout, at=at + timedelta(minutes=place), session=name)) for place, bout in enumerate(bouts)]
    many = len(bouts) if planned is None else planned
    end = SessionEnded(at, name, at.date(), at, ending, many, len(bouts), CarerSeen.VERIFIED, "easy")
    return [*own, (at, end)]
