"""RFC 5545: weekly recurrences (3.8.5.3), and local times that do not exist or exist twice (3.3.5)."""

from collections.abc import Iterator
from datetime import datetime, time, timedelta
from itertools import islice, pairwise
from zoneinfo import ZoneInfo

from companion.core.programme import Practice
from companion.core.schedule import next_due

NEW_YORK = "America/New_York"
HERE = ZoneInfo(NEW_YORK)


def recurrences(practice: Practice, after: datetime) -> Iterator[datetime]:
    moment = next_due(practice, NEW_YORK, after)
    while moment is not None:
        yield moment.astimezone(HERE)
        moment = next_due(practice, NEW_YORK, moment)


def test_weekly_for_10_occurrences_stays_at_nine_across_the_change_of_the_clocks() -> None:
    # "Weekly for 10 occurrences" from 1997-09-02 09:00: daylight time to 21 October, standard time from 28 October
    start = datetime(1997, 9, 2, 8, 59, tzinfo=HERE)
    found = list(islice(recurrences(Practice((1,), (time(9),)), start), 10))
    assert [(at.month, at.day) for at in found] == [
        (9, 2), (9, 9), (9, 16), (9, 23), (9, 30), (10, 7), (10, 14), (10, 21), (10, 28), (11, 4),
    ]  # fmt: skip
    assert {at.time() for at in found} == {time(9)}
    assert [at.tzname() for at in found] == ["EDT"] * 8 + ["EST"] * 2


def test_tuesday_and_sunday_of_one_week_are_the_days_of_the_example() -> None:
    # 1997-08-05, BYDAY=TU,SU: 5 and 10 August; the example's second fortnight (19 and 24) is among our weeks too
    found = list(islice(recurrences(Practice((1, 6), (time(9),)), datetime(1997, 8, 4, tzinfo=HERE)), 6))
    days = [at.day for at in found]
    assert days == [5, 10, 12, 17, 19, 24] and {5, 10, 19, 24} <= set(days)


def test_a_time_that_does_not_exist_is_placed_with_the_offset_before_the_gap() -> None:
    # 2007-03-11 02:30 New York is 03:30 EDT (the RFC's example, from memory)
    practice = Practice((6,), (time(2, 30),))
    found = next(recurrences(practice, datetime(2007, 3, 10, tzinfo=HERE)))
    assert (found.day, found.time(), found.tzname()) == (11, time(3, 30), "EDT")


def test_a_time_that_exists_twice_means_the_first() -> None:
    # 2007-11-04 01:30 New York is 01:30 EDT (the RFC's example, from memory)
    practice = Practice((6,), (time(1, 30),))
    found = next(recurrences(practice, datetime(2007, 11, 3, tzinfo=HERE)))
    assert (found.day, found.time(), found.tzname()) == (4, time(1, 30), "EDT")


def test_no_week_of_a_year_is_missed_or_doubled() -> None:
    found = list(islice(recurrences(Practice((1,), (time(9),)), datetime(1997, 1, 1, tzinfo=HERE)), 52))
    assert {b.replace(tzinfo=None) - a.replace(tzinfo=None) for a, b in pairwise(found)} == {timedelta(days=7)}
