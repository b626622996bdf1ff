"""The next due moment, from weekdays and local times. The only place of the core where local time is known.

A time of day keeps its place on the clock across a change of the clocks. A time that does not exist is placed with the
offset before the gap; one that exists twice means the first (both are what `fold=0` means, PEP 495).
"""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from companion.core.programme import Practice, Quiet, ReportTime


def is_zone(name: str) -> bool:
    """Whether there is a time zone of that name, like Europe/London."""
    try:
        ZoneInfo(name)
    except (KeyError, ValueError, OSError):
        return False
    return bool(name)


NIGHT = Quiet(time(21), time(8))
"""When news that can wait is not told."""


def local_day(at: datetime, zone: str) -> date:
    """The date on the wall at that instant."""
    return at.astimezone(ZoneInfo(zone)).date()


def instant(day: date, at: time, zone: str) -> datetime:
    """The instant, UTC, of a local time of day."""
    return datetime.combine(day, at, ZoneInfo(zone)).astimezone(UTC)


def end_of_day(day: date, zone: str) -> datetime:
    """The first instant of the next local day."""
    return instant(day + timedelta(days=1), time(0), zone)


def clock_text(at: datetime, zone: str) -> str:
    """Local date and time for a therapist, ISO: "2026-11-03 09:31"."""
    return at.astimezone(ZoneInfo(zone)).strftime("%Y-%m-%d %H:%M")


def is_quiet(at: time, quiet: Quiet) -> bool:
    """Whether that local time of day is in the quiet hours."""
    if quiet.start > quiet.end:
        return at >= quiet.start or at < quiet.end
    return quiet.start <= at < quiet.end


def out_of_quiet(at: datetime, quiet: Quiet | None, zone: str) -> datetime:
    """That instant, or the end of the quiet hours it falls into."""
    if quiet is None or quiet.start == quiet.end:
        return at
    here = at.astimezone(ZoneInfo(zone))
    now = here.time()
    if not is_quiet(now, quiet):
        return at
    day = here.date() + timedelta(days=1 if quiet.start > quiet.end and now >= quiet.start else 0)
    return instant(day, quiet.end, zone)


def daytime(at: datetime, zone: str) -> datetime:
    """That instant, or the next local morning where it is night: what can wait rings nobody out of bed."""
    return out_of_quiet(at, NIGHT, zone)


def next_due(practice: Practice, zone: str, after: datetime, quiet: Quiet | None = None) -> datetime | None:
    """The first moment of practice later than `after`, None if none is agreed."""
    first = local_day(after, zone) - timedelta(days=1)
    for ahead in range(9):
        day = first + timedelta(days=ahead)
        if day.weekday() not in practice.weekdays:
            continue
        moments = sorted(out_of_quiet(instant(day, at, zone), quiet, zone) for at in practice.times)
        for moment in moments:
            if moment > after:
                return moment
    return None


def next_report(report: ReportTime, after: datetime) -> datetime:
    """The first moment a weekly chart is due, later than `after`."""
    first = local_day(after, report.zone)
    days = (first + timedelta(days=ahead) for ahead in range(9))
    moments = (instant(day, report.at, report.zone) for day in days if day.weekday() == report.weekday)
    return next(moment for moment in moments if moment > after)


def reported_week(at: datetime, zone: str) -> tuple[date, date]:
    """Monday and Sunday of the newest ISO week that has reached its Sunday at that instant."""
    day = local_day(at, zone)
    last = day - timedelta(days=(day.weekday() + 1) % 7)
    return last - timedelta(days=6), last
