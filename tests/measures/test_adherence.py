"""How much of what was prescribed was reported."""

from dataclasses import replace
from datetime import date, timedelta

from companion.measures.adherence import Adherence, Dose, adherence
from companion.measures.due import Day, State

REPORTED, MISSED, UNKNOWN, LEFT_OUT = State.DONE, State.DECLINED, State.NO_ANSWER, State.PAUSED
DOSE = Dose(7, 420)
SILENT = {UNKNOWN: 1}


def days(*states: State, version: int = 1, start: date = date(2026, 3, 2), bouts: int = 4) -> list[Day]:
    return [
        Day(start + timedelta(days=at), True, state, version=version, bouts=bouts, seconds=60.0 * bouts, reported=1)
        if state is REPORTED
        else Day(start + timedelta(days=at), True, state, version=version, silent=SILENT.get(state, 0))
        for at, state in enumerate(states)
    ]


def windows(of: list[Day]) -> tuple[Adherence, ...]:
    return adherence(of, {1: DOSE, 2: DOSE})


def test_sessions_bouts_and_seconds_each_have_their_denominator() -> None:
    (found,) = windows(days(REPORTED, REPORTED, MISSED, UNKNOWN))
    assert (found.sessions.count, found.sessions.total) == (2, 4)
    assert (found.bouts.count, found.bouts.total) == (8, 28)
    assert (found.seconds, found.seconds_due) == (480, 1680)


def test_where_a_plan_asks_several_times_a_day_sessions_are_counted_and_not_days() -> None:
    of = [
        replace(day, asked=2, reported=done, bouts=7 * done)
        for day, done in zip(days(*[REPORTED] * 4), (2, 1, 2, 3), strict=True)
    ]
    (found,) = windows([*of, *(replace(day, asked=2, silent=2) for day in days(UNKNOWN, start=date(2026, 3, 6)))])
    assert (found.sessions.count, found.sessions.total, found.unknown) == (7, 10, 2)
    assert (found.bouts.count, found.bouts.total) == (14 + 7 + 14 + 14, 70), "more than a day asked for counts as that"
    assert found.seconds_due == 10 * 420 and found.adherent is False, "7 of 10, whatever the days"


def test_unknown_days_stay_and_are_counted_apart_and_days_off_leave() -> None:
    (found,) = windows(days(REPORTED, UNKNOWN, UNKNOWN, LEFT_OUT))
    assert found.sessions.total == 3 and found.unknown == 2 and found.left_out == 1


def test_seven_of_ten_is_not_adherent_and_eight_is() -> None:
    assert windows(days(*[REPORTED] * 7, *[MISSED] * 3))[0].adherent is False
    assert windows(days(*[REPORTED] * 8, *[MISSED] * 2))[0].adherent is True


def test_a_new_plan_is_a_window_of_its_own() -> None:
    found = windows([*days(REPORTED, MISSED), *days(REPORTED, version=2, start=date(2026, 3, 9))])
    assert [(one.version, one.sessions.count, one.sessions.total) for one in found] == [(1, 1, 2), (2, 1, 1)]


def test_more_than_the_dose_of_a_day_counts_as_that_dose() -> None:
    (found,) = windows(days(REPORTED, bouts=12))
    assert (found.bouts.count, found.bouts.total) == (7, 7) and found.seconds == 420


def test_where_all_was_paused_nobody_is_adherent_or_not() -> None:
    (found,) = windows(days(LEFT_OUT, LEFT_OUT))
    assert found.adherent is None and found.sessions.value is None and found.sessions.interval is None


def test_nothing_due_is_no_window() -> None:
    assert windows([]) == ()
