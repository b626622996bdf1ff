"""Local times into instants: weekdays, quiet hours, changes of the clocks, weeks of a report."""

from datetime import UTC, date, datetime, time, timedelta

from hypothesis import given
from hypothesis import strategies as st

from companion.core.programme import Practice, Quiet, ReportTime
from companion.core.schedule import (
    clock_text,
    daytime,
    end_of_day,
    instant,
    local_day,
    next_due,
    next_report,
    out_of_quiet,
    reported_week,
)

ZONES = st.sampled_from(
    ["Europe/London", "America/New_York", "Africa/Cairo", "Asia/Kathmandu", "Pacific/Auckland", "America/Havana"]
)
INSTANTS = st.integers(0, 6 * 365 * 86400).map(lambda seconds: datetime(2024, 1, 1, tzinfo=UTC) + timedelta(seconds=seconds))
TIMES = st.times().map(lambda at: at.replace(second=0, microsecond=0))
WEEKDAYS = st.sets(st.integers(0, 6), min_size=1).map(sorted).map(tuple)


def test_a_weekly_time_stays_where_it_is_on_the_clock_across_a_change() -> None:
    """RFC 5545 3.8.5.3: weekly from 1997-09-02 09:00 New York stays 09:00 local across the change of 1997-10-26."""
    zone = "America/New_York"
    practice = Practice((1,), (time(9),))
    at, found = datetime(1997, 9, 2, 12, tzinfo=UTC), []
    for _ in range(10):
        following = next_due(practice, zone, at)
        assert following is not None
        at = following
        found.append(clock_text(at, zone))
    days = ["09-02", "09-09", "09-16", "09-23", "09-30", "10-07", "10-14", "10-21", "10-28", "11-04"]
    assert found == [f"1997-{day} 09:00" for day in days]
    assert at - datetime(1997, 9, 2, 13, tzinfo=UTC) == timedelta(weeks=9, hours=1)


def test_a_time_that_does_not_exist_is_placed_with_the_offset_before_the_gap() -> None:
    """London, 2026-03-29: clocks go from 01:00 to 02:00. 01:30 GMT is 01:30 UTC (PEP 495, fold 0)."""
    assert instant(date(2026, 3, 29), time(1, 30), "Europe/London") == datetime(2026, 3, 29, 1, 30, tzinfo=UTC)


def test_a_time_that_exists_twice_means_the_first() -> None:
    """London, 2026-10-25: clocks go from 02:00 back to 01:00. The first 01:30 is BST, 00:30 UTC (PEP 495, fold 0)."""
    assert instant(date(2026, 10, 25), time(1, 30), "Europe/London") == datetime(2026, 10, 25, 0, 30, tzinfo=UTC)


@given(WEEKDAYS, st.lists(TIMES, min_size=1, max_size=3), ZONES, INSTANTS)
def test_the_next_practice_is_later_and_on_an_agreed_weekday(
    weekdays: tuple[int, ...], times: list[time], zone: str, after: datetime
) -> None:
    found = next_due(Practice(weekdays, tuple(times)), zone, after)
    assert found is not None and after < found <= after + timedelta(days=8)
    assert local_day(found, zone).weekday() in weekdays


@given(WEEKDAYS, st.lists(TIMES, min_size=1, max_size=3), ZONES, INSTANTS, TIMES, TIMES)
def test_practice_never_falls_into_the_quiet_hours(
    weekdays: tuple[int, ...], times: list[time], zone: str, after: datetime, start: time, end: time
) -> None:
    quiet = Quiet(start, end)
    found = next_due(Practice(weekdays, tuple(times)), zone, after, quiet)
    assert found is not None and found > after and out_of_quiet(found, quiet, zone) == found


@given(WEEKDAYS, st.lists(TIMES, min_size=1, max_size=3), ZONES, INSTANTS)
def test_no_practice_is_passed_over(weekdays: tuple[int, ...], times: list[time], zone: str, after: datetime) -> None:
    practice = Practice(weekdays, tuple(times))
    found = next_due(practice, zone, after)
    days = [local_day(after, zone) + timedelta(days=ahead) for ahead in range(-1, 9)]
    every = [instant(day, at, zone) for day in days if day.weekday() in weekdays for at in times]
    assert found == min(moment for moment in every if moment > after)


def test_without_weekdays_nothing_is_due() -> None:
    assert next_due(Practice((), (time(9),)), "Europe/London", datetime(2026, 11, 2, tzinfo=UTC)) is None


@given(INSTANTS, ZONES)
def test_a_day_ends_where_the_next_begins(at: datetime, zone: str) -> None:
    day = local_day(at, zone)
    end = end_of_day(day, zone)
    assert end > at and local_day(end, zone) == day + timedelta(days=1)
    assert local_day(end - timedelta(seconds=1), zone) == day


@given(st.integers(0, 6), TIMES, ZONES, INSTANTS)
def test_a_report_comes_once_a_week(weekday: int, at: time, zone: str, after: datetime) -> None:
    report = ReportTime(weekday, at, zone)
    first = next_report(report, after)
    second = next_report(report, first)
    assert after < first <= after + timedelta(days=7, hours=1)
    assert local_day(first, zone).weekday() == weekday == local_day(second, zone).weekday()
    assert local_day(second, zone) - local_day(first, zone) == timedelta(days=7)


@given(INSTANTS, ZONES)
def test_the_week_of_a_report_is_a_whole_one_that_has_reached_its_sunday(at: datetime, zone: str) -> None:
    first, last = reported_week(at, zone)
    assert (first.weekday(), last.weekday()) == (0, 6) and last - first == timedelta(days=6)
    assert last <= local_day(at, zone) < last + timedelta(days=7)
    eight = datetime(2026, 11, 2, 8, tzinfo=UTC)  # a Monday of winter in London
    assert daytime(eight, "Europe/London") == eight
    assert daytime(eight.replace(hour=21), "Europe/London") == eight.replace(day=3)
    assert daytime(eight.replace(hour=0), "Europe/London") == eight
