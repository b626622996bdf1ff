"""How much of what was prescribed was reported."""

from datetime import date, timedelta

from companion.measures.adherence import DayOutcome, DueDay, adherence

REPORTED, MISSED, UNKNOWN, LEFT_OUT = DayOutcome


def days(*outcomes: DayOutcome, version: int = 1, start: date = date(2026, 3, 2), bouts: int = 4) -> list[DueDay]:
    return [
        DueDay(start + timedelta(days=at), version, outcome, 7, 420.0, bouts if outcome is REPORTED else 0, 60.0 * bouts)
        if outcome is REPORTED
        else DueDay(start + timedelta(days=at), version, outcome, 7, 420.0)
        for at, outcome in enumerate(outcomes)
    ]


def test_sessions_bouts_and_seconds_each_have_their_denominator() -> None:
    (found,) = adherence(days(REPORTED, REPORTED, MISSED, UNKNOWN))
    assert (found.sessions.count, found.sessions.total) == (2, 4)
    assert (found.bouts.count, found.bouts.total) == (8, 28)
    assert (found.seconds, found.seconds_due) == (480, 1680)


def test_unknown_days_stay_and_are_counted_apart_and_days_off_leave() -> None:
    (found,) = adherence(days(REPORTED, UNKNOWN, UNKNOWN, LEFT_OUT))
    assert found.sessions.total == 3 and found.unknown == 2 and found.left_out == 1


def test_seven_of_ten_is_not_adherent_and_eight_is() -> None:
    assert adherence(days(*[REPORTED] * 7, *[MISSED] * 3))[0].adherent is False
    assert adherence(days(*[REPORTED] * 8, *[MISSED] * 2))[0].adherent is True


def test_a_new_plan_is_a_window_of_its_own() -> None:
    found = adherence([*days(REPORTED, MISSED), *days(REPORTED, version=2, start=date(2026, 3, 9))])
    assert [(one.version, one.sessions.count, one.sessions.total) for one in found] == [(1, 1, 2), (2, 1, 1)]


def test_more_than_the_dose_of_a_day_counts_as_that_dose() -> None:
    (found,) = adherence(days(REPORTED, bouts=12))
    assert (found.bouts.count, found.bouts.total) == (7, 7) and found.seconds == 420


def test_where_all_was_paused_nobody_is_adherent_or_not() -> None:
    (found,) = adherence(days(LEFT_OUT, LEFT_OUT))
    assert found.adherent is None and found.sessions.value is None and found.sessions.interval is None


def test_nothing_due_is_no_window() -> None:
    assert adherence([]) == ()
