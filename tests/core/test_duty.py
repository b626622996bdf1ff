"""Working hours: when a therapist is at work, in their own zone, also over a change of the clocks."""

from datetime import UTC, datetime, time, timedelta

import pytest

from companion.core.duty import Duty, Hours, at_work, next_work

LONDON = "Europe/London"
WEEK = (0, 1, 2, 3, 4)
NINE_TO_FIVE = Hours(WEEK, time(9), time(17))
NIGHTS = Hours((4,), time(22), time(6))


def utc(*when: int) -> datetime:
    return datetime(*when, tzinfo=UTC)  # type: ignore[misc, arg-type]


@pytest.mark.parametrize(
    ("at", "working"),
    [
        (utc(2026, 11, 2, 8, 59, 59), False),
        (utc(2026, 11, 2, 9), True),
        (utc(2026, 11, 2, 16, 59, 59), True),
        (utc(2026, 11, 2, 17), False),
        (utc(2026, 11, 1, 12), False),
    ],
)
def test_who_works_nine_to_five_on_weekdays_is_at_work_just_then(at: datetime, working: bool) -> None:
    assert at_work(Duty("t1", LONDON, NINE_TO_FIVE), at) is working


def test_nine_stays_nine_on_the_wall_when_the_clocks_change() -> None:
    """London's clocks go back on 25 October 2026, forward on 28 March 2027."""
    duty = Duty("t1", LONDON, NINE_TO_FIVE)
    assert at_work(duty, utc(2026, 10, 23, 8)) and not at_work(duty, utc(2026, 10, 26, 8))
    assert not at_work(duty, utc(2027, 3, 26, 8)) and at_work(duty, utc(2027, 3, 29, 8))
    assert next_work(duty, utc(2026, 10, 23, 17)) == utc(2026, 10, 26, 9)
    assert next_work(duty, utc(2027, 3, 26, 17)) == utc(2027, 3, 29, 8)


def test_hours_are_those_of_the_therapists_zone() -> None:
    there = Duty("t1", "Pacific/Auckland", NINE_TO_FIVE)
    assert at_work(there, utc(2026, 11, 1, 21)) and not at_work(there, utc(2026, 11, 2, 9))


def test_a_night_belongs_to_the_weekday_on_which_it_begins() -> None:
    duty = Duty("t1", LONDON, NIGHTS)
    assert at_work(duty, utc(2026, 11, 6, 23)) and at_work(duty, utc(2026, 11, 7, 5, 59))
    assert not at_work(duty, utc(2026, 11, 7, 6)) and not at_work(duty, utc(2026, 11, 6, 5))


def test_equal_times_mean_the_whole_day() -> None:
    duty = Duty("t1", LONDON, Hours((0,), time(0), time(0)))
    assert (
        at_work(duty, utc(2026, 11, 2, 0))
        and at_work(duty, utc(2026, 11, 2, 23, 59))
        and not at_work(duty, utc(2026, 11, 3, 0))
    )


def test_who_set_no_hours_is_never_off() -> None:
    duty = Duty("t1", LONDON)
    at = utc(2026, 11, 1, 3)
    assert at_work(duty, at) and next_work(duty, at) == at


def test_the_next_work_is_now_at_work_and_never_for_who_works_on_no_day() -> None:
    at = utc(2026, 11, 3, 12)
    assert next_work(Duty("t1", LONDON, NINE_TO_FIVE), at) == at
    assert next_work(Duty("t1", LONDON, Hours((), time(9), time(17))), at) == at
    assert next_work(Duty("t1", LONDON, Hours((1,), time(9), time(10))), at) == utc(2026, 11, 10, 9)
    assert next_work(Duty("t1", LONDON, NINE_TO_FIVE), at + timedelta(hours=6)) == utc(2026, 11, 4, 9)
