"""The days on which practice was due, read off the records."""

from dataclasses import replace
from datetime import date, time, timedelta

from companion.core.observations import DayClosed, Discharged, Ending, Observation, PlanPrescribed
from companion.core.programme import Clock, Hand, Plan, Planned, Practice, Side
from companion.measures.adherence import DayOutcome, DueDay, adherence
from companion.measures.due import Dose, dose, due_days
from companion.measures.proportions import Share
from tests.core.practice import EXERCISES, plan, planned
from tests.measures.records import CLEAN, FIRST, Observed, broke, morning, session

BOTH = planned("tandem")
ASKED = replace(plan(BOTH), practice=Practice((0, 2, 4), (time(9),)))
WEEK = (FIRST, FIRST + timedelta(days=6))
REPORTED, MISSED, UNKNOWN, LEFT_OUT = DayOutcome


def begun(plan: Plan | None = ASKED, day: int = -1, version: int = 1) -> Observed:
    at = morning(day)
    return [(at, PlanPrescribed(at, version, "t", "", plan))]


def closed(day: int, ending: Ending) -> Observed:
    at = morning(day)
    seen: Observation = DayClosed(at, at.date(), ending)
    return [(at, seen)]


def due(records: Observed, span: tuple[date, date] = WEEK, now: Plan | None = None) -> tuple[DueDay, ...]:
    return due_days(records, "UTC", span, now, EXERCISES)


def test_a_day_asks_for_the_bouts_and_seconds_of_its_plan() -> None:
    assert dose(ASKED, EXERCISES) == Dose(2, 120)
    assert dose(replace(ASKED, practice=Practice((0,), (time(9), time(15)))), EXERCISES) == Dose(4, 240)
    assert dose(plan(planned("press"), BOTH), EXERCISES) == Dose(3, 120)  # what is counted has no seconds
    weaker = replace(BOTH, weaker_target=30)
    assert dose(replace(ASKED, exercises=(weaker,)), EXERCISES) == Dose(2, 90)


def test_an_exercise_that_the_library_no_longer_has_counts_by_what_the_plan_says_of_it() -> None:
    gone = Planned("gone", "still", 60, Hand.HOVERING, Clock.SCREEN, "still", Hand.HOVERING, (Side.WEAKER, Side.STRONGER))
    assert dose(plan(gone), EXERCISES) == Dose(2, 120)
    assert dose(plan(replace(gone, clock=Clock.NONE, sides=())), EXERCISES) == Dose(1, 0)


def test_each_day_due_is_reported_missed_unknown_or_left_out() -> None:
    records = begun() + session(0, CLEAN, broke(20)) + closed(2, Ending.NO_ANSWER) + closed(4, Ending.DECLINED)
    records += closed(7, Ending.PAUSED) + closed(9, Ending.HELD) + session(11, CLEAN, ending=Ending.STOPPED)
    found = due(records, (FIRST, FIRST + timedelta(days=13)))
    assert [day.outcome for day in found] == [REPORTED, UNKNOWN, MISSED, LEFT_OUT, LEFT_OUT, MISSED]
    assert (found[0].bouts_reported, found[0].seconds_reported, found[0].bouts, found[0].seconds) == (2, 120.0, 2, 120)


def test_a_session_without_a_last_word_is_unknown_and_never_missed_or_done() -> None:
    assert due(begun() + session(0, CLEAN, ending=Ending.NO_WORD), (FIRST, FIRST))[0].outcome is UNKNOWN


def test_a_day_due_that_left_no_record_is_unknown() -> None:
    assert [day.outcome for day in due(begun())] == [UNKNOWN] * 3


def test_practice_beyond_what_was_due_makes_no_day_due() -> None:
    assert [day.day.weekday() for day in due(begun() + session(1, CLEAN))] == [0, 2, 4]


def test_before_the_first_plan_and_after_its_end_or_a_discharge_nothing_was_due() -> None:
    at = morning(2)
    assert due([]) == ()
    assert [day.day.weekday() for day in due(begun(day=1))] == [2, 4]
    assert [day.day.weekday() for day in due(begun(replace(ASKED, ends_on=FIRST)))] == [0]
    assert [day.day.weekday() for day in due([*begun(), (at, Discharged(at, "t"))])] == [0, 2]


def test_a_plan_that_began_after_the_moment_of_practice_asks_nothing_of_that_day() -> None:
    assert [day.day.weekday() for day in due(begun(day=0))] == [2, 4]
    assert [day.day.weekday() for day in due(begun(day=0) + session(0, CLEAN))] == [0, 2, 4]


def test_a_new_plan_splits_the_window() -> None:
    more = replace(ASKED, version=2, exercises=(BOTH, BOTH))
    found = adherence(due(begun() + session(0, CLEAN, CLEAN) + begun(more, 1, 2) + session(2, CLEAN, CLEAN)))
    assert [(one.version, one.sessions, one.bouts) for one in found] == [
        (1, Share(1, 1), Share(2, 2)),
        (2, Share(1, 2), Share(2, 8)),
    ]


def test_a_plan_that_is_not_on_record_counts_by_what_was_written_down_of_its_days() -> None:
    records = begun(None) + session(0, CLEAN) + closed(2, Ending.NO_ANSWER)
    found = due(records)
    assert [(day.outcome, day.bouts, day.seconds) for day in found] == [(REPORTED, 0, 0), (UNKNOWN, 0, 0)]
    assert adherence(found)[0].sessions == Share(1, 2)


def test_the_plan_that_holds_now_stands_for_its_own_record() -> None:
    found = due(begun(None), now=ASKED)
    assert [(day.outcome, day.bouts) for day in found] == [(UNKNOWN, 2)] * 3


def test_more_than_the_dose_of_a_day_counts_as_that_dose() -> None:
    (found,) = adherence(due(begun() + session(0, CLEAN, CLEAN, CLEAN), (FIRST, FIRST)))
    assert found.bouts == Share(2, 2) and (found.seconds, found.seconds_due) == (120, 120)
