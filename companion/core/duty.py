"""A therapist's working hours and deputy, as each of their clients' care knows them, and who is told of a red flag when."""

from dataclasses import dataclass
from datetime import datetime, time, timedelta
from zoneinfo import ZoneInfo

from companion.core.schedule import instant

DAYS_AHEAD = 9


@dataclass(frozen=True, slots=True)
class Hours:
    """A therapist's working hours: weekdays (0 is Monday), local times in the person's zone.

    `start` later than `end` means over midnight, on the weekday of `start`; equal means the whole day.
    """

    weekdays: tuple[int, ...]
    start: time
    end: time


@dataclass(frozen=True, slots=True)
class Duty:
    """When the therapist `by` works (None: they set no hours), in their own zone, and who is told when they do not."""

    by: str
    zone: str
    hours: Hours | None = None
    deputy: str | None = None


def at_work(duty: Duty, at: datetime) -> bool:
    """Whether that therapist works at that instant. Who set no hours is never said to be off."""
    hours = duty.hours
    if hours is None:
        return True
    here = at.astimezone(ZoneInfo(duty.zone))
    day, now = here.weekday(), here.time()
    if hours.start == hours.end:
        return day in hours.weekdays
    if hours.start < hours.end:
        return day in hours.weekdays and hours.start <= now < hours.end
    return (day in hours.weekdays and now >= hours.start) or ((day - 1) % 7 in hours.weekdays and now < hours.end)


def next_work(duty: Duty, at: datetime) -> datetime:
    """That instant, or the next one at which that therapist works; that instant if they never do."""
    if at_work(duty, at) or duty.hours is None:
        return at
    today = at.astimezone(ZoneInfo(duty.zone)).date()
    starts = (instant(today + timedelta(days=ahead), duty.hours.start, duty.zone) for ahead in range(DAYS_AHEAD))
    return next((start for start in starts if start > at and at_work(duty, start)), at)
