"""The days on which practice was due, and what became of them, read off the records."""

from dataclasses import replace
from datetime import date, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.observations import DayClosed, Discharged, Ending, Observation, PlanPrescribed, SessionEnded
from companion.core.programme import Clock, Hand, Plan, Planned, Practice, Progression, Side
from companion.measures.adherence import Adherence, Dose, adherence, dose, doses
from companion.measures.due import Day, State, adherent, days, tally
from companion.measures.plans import plans
from companion.measures.proportions import Share
from tests.core.practice import EXERCISES, plan, planned
from tests.measures.records import CLEAN, FIRST, Observed, broke, morning, session

BOTH = planned("tandem")
ASKED = replace(plan(BOTH), practice=Practice((0, 2, 4), (time(9),)))
WEEK = (FIRST, FIRST + timedelta(days=6))
LATER = FIRST + timedelta(days=90)


def begun(plan: Plan | None = ASKED, day: int = -1, version: int = 1) -> Observed:
    at = morning(day)
    return [(at, PlanPrescribed(at, version, "t", "", plan))]


def closed(day: int, ending: Ending) -> Observed:
    at = morning(day)
    seen: Observation = DayClosed(at, at.date(), ending)
    return [(at, seen)]


OTHER = replace(ASKED, version=9)


def every(records: Observed, span: tuple[date, date] = WEEK, now: Plan = OTHER, today: date = LATER) -> tuple[Day, ...]:
    return days(plans(records, "UTC", now), span, records, today)


def due(records: Observed, span: tuple[date, date] = WEEK, now: Plan = OTHER) -> tuple[Day, ...]:
    return tuple(day for day in every(records, span, now) if day.due)


def windows(records: Observed, span: tuple[date, date] = WEEK, now: Plan = OTHER) -> tuple[Adherence, ...]:
    held = plans(records, "UTC", now)
    return adherence(days(held, span, records, LATER), doses(held, EXERCISES))


TWICE = replace(ASKED, practice=Practice((0, 2, 4), (time(9), time(15))))


def test_a_day_asks_for_the_bouts_and_seconds_of_its_plan() -> None:
    assert dose(ASKED, EXERCISES) == Dose(2, 120)
    assert dose(TWICE, EXERCISES) == Dose(2, 120)  # each time, so a day asks for twice as much
    assert windows(begun(TWICE), (FIRST, FIRST))[0].bouts == Share(0, 4)
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
    assert [day.state for day in found] == [
        State(one) for one in ("done", "no_answer", "declined", "paused", "held", "stopped")
    ]
    assert (found[0].bouts, found[0].seconds, found[0].sessions) == (2, 120.0, 1)
    counted = tally(found)
    assert (counted.reported, counted.unknown, counted.due) == (1, 1, 4)


def test_a_session_without_a_last_word_is_unknown_and_never_missed_or_done() -> None:
    records = begun() + session(0, CLEAN, ending=Ending.NO_WORD)
    counted = tally(due(records, (FIRST, FIRST)))
    assert (counted.reported, counted.unknown, counted.due) == (0, 1, 1)
    (found,) = windows(records, (FIRST, FIRST))
    assert (found.sessions, found.unknown, found.left_out) == (Share(0, 1), 1, 0)


@pytest.mark.parametrize(
    ("endings", "state"),
    [
        ((Ending.PARTLY, Ending.DONE), State.DONE),
        ((Ending.NO_WORD, Ending.PARTLY), State.PARTLY),
        ((Ending.STOPPED, Ending.NO_WORD), State.NO_WORD),  # what nobody told of may have been done
        ((Ending.NO_WORD, Ending.STOPPED), State.NO_WORD),
        ((Ending.NOT_READY, Ending.STOPPED), State.STOPPED),
    ],
)
def test_of_several_sessions_of_a_day_the_best_that_is_known_counts(endings: tuple[Ending, ...], state: State) -> None:
    records = begun() + [one for ending in endings for one in session(0, CLEAN, ending=ending)]
    assert [day.state for day in due(records, (FIRST, FIRST))] == [state]


@pytest.mark.parametrize(
    ("records", "told"),
    [
        (session(0, CLEAN), (1, 2, 1)),
        (session(0, CLEAN) + session(0, CLEAN), (2, 2, 0)),
        (session(0, CLEAN) + session(0, CLEAN) + session(0, CLEAN), (2, 2, 0)),
        (session(0, CLEAN) + session(0, CLEAN, ending=Ending.NOT_READY), (1, 2, 0)),
        (session(0, CLEAN, ending=Ending.NO_WORD), (0, 2, 2)),
        (closed(0, Ending.DECLINED), (0, 2, 0)),
        (closed(0, Ending.NO_ANSWER), (0, 2, 2)),
        (closed(0, Ending.HELD), (0, 0, 0)),
        ([], (0, 2, 2)),
    ],
)
def test_of_a_day_that_asks_twice_each_session_counts_and_what_nobody_told_of_is_unknown(
    records: Observed, told: tuple[int, int, int]
) -> None:
    counted = tally(due([*begun(TWICE), *records], (FIRST, FIRST)))
    assert (counted.sessions, counted.asked, counted.silent) == told


def test_on_its_first_day_a_plan_asks_for_the_sessions_that_came_after_it() -> None:
    noon = morning(0) + timedelta(hours=3)
    assert [day.asked for day in every([(noon, PlanPrescribed(noon, 1, "t", "", TWICE))])] == [1, 0, 2, 0, 2, 0, 0]


def test_a_session_counts_for_more_than_how_its_day_was_closed() -> None:
    records = begun() + session(0, CLEAN, ending=Ending.STOPPED) + closed(0, Ending.HELD)
    assert [day.state for day in due(records, (FIRST, FIRST))] == [State.STOPPED]


def test_a_day_due_that_left_no_record_is_unknown() -> None:
    found = due(begun())
    assert [day.state for day in found] == [State.NO_RECORD] * 3 and tally(found).unknown == 3


def test_today_and_later_days_are_still_to_come_and_count_for_nothing_yet() -> None:
    found = every(begun() + session(0, CLEAN), today=FIRST + timedelta(days=2))
    assert [day.state for day in found if day.due] == [State.DONE, State.TO_COME, State.TO_COME]
    assert tally(found).due == 1 and adherence(found)[0].sessions == Share(1, 1)


def test_practice_beyond_what_was_due_makes_no_day_due() -> None:
    records = begun() + session(1, CLEAN)
    assert [day.day.weekday() for day in due(records)] == [0, 2, 4]
    assert tally(every(records)).extra == 1 and windows(records)[0].bouts == Share(0, 6)


def test_before_the_first_plan_and_after_its_end_or_a_discharge_nothing_was_due() -> None:
    at = morning(2)
    assert due([], now=replace(ASKED, practice=Practice((), ()))) == ()
    assert [day.day.weekday() for day in due(begun(day=1))] == [2, 4]
    assert [day.day.weekday() for day in due(begun(replace(ASKED, ends_on=FIRST)))] == [0]
    assert [day.day.weekday() for day in due([*begun(), (at, Discharged(at, "t"))])] == [0, 2]


def test_a_plan_that_began_after_the_moment_of_practice_asks_nothing_of_that_day() -> None:
    assert [day.day.weekday() for day in due(begun(day=0))] == [2, 4]
    assert [day.day.weekday() for day in due(begun(day=0) + session(0, CLEAN))] == [0, 2, 4]


def test_a_new_plan_splits_the_window() -> None:
    more = replace(ASKED, version=2, exercises=(BOTH, BOTH))
    found = windows(begun() + session(0, CLEAN, CLEAN) + begun(more, 1, 2) + session(2, CLEAN, CLEAN))
    assert [(one.version, one.sessions, one.bouts) for one in found] == [
        (1, Share(1, 1), Share(2, 2)),
        (2, Share(1, 2), Share(2, 8)),
    ]


def test_a_plan_that_is_not_on_record_counts_by_what_was_written_down_of_its_days() -> None:
    records = begun(None) + session(0, CLEAN) + closed(2, Ending.NO_ANSWER)
    assert [day.state for day in due(records)] == [State.DONE, State.NO_ANSWER]
    (found,) = windows(records)
    assert (found.sessions, found.bouts, found.seconds_due) == (Share(1, 2), Share(0, 0), 0)


def test_the_plan_that_holds_now_stands_for_its_own_record() -> None:
    (found,) = windows(begun(None), now=ASKED)
    assert (found.sessions, found.unknown, found.bouts) == (Share(0, 3), 3, Share(0, 6))


def test_more_than_the_dose_of_a_day_counts_as_that_dose() -> None:
    (found,) = windows(begun() + session(0, CLEAN, CLEAN, CLEAN), (FIRST, FIRST))
    assert found.bouts == Share(2, 2) and (found.seconds, found.seconds_due) == (120, 120)


@pytest.mark.parametrize(("reported", "label"), [(0, False), (7, False), (8, True), (10, True)])
def test_the_label_is_one_and_the_same_in_charts_documents_and_proposals(reported: int, label: bool) -> None:
    span = (FIRST, FIRST + timedelta(days=9))
    every_day = replace(ASKED, practice=Practice(tuple(range(7)), (time(9),)))
    records = begun(every_day) + [one for day in range(reported) for one in session(day, CLEAN)]
    assert adherent(reported, 10) is Progression().is_adherent(reported, 10) is label
    assert tally(due(records, span)).more_than_70 is label
    assert [one.adherent for one in windows(records, span)] == [label]
    assert adherent(0, 0) is None and not tally(()).more_than_70


ON = st.integers(-9, 20)
CLOSINGS = st.sampled_from((Ending.NO_ANSWER, Ending.NOT_ASKED, Ending.DECLINED, Ending.HELD, Ending.PAUSED))
PLANS = st.builds(
    lambda day, version, known: begun(replace(ASKED, version=version) if known else None, day, version),
    ON,
    st.integers(1, 4),
    st.booleans(),
)
LIVES = st.lists(
    st.builds(closed, ON, CLOSINGS)
    | st.builds(lambda day, ending: session(day, CLEAN, ending=ending), ON, st.sampled_from(Ending))
    | PLANS
    | ON.map(lambda day: [(morning(day), Discharged(morning(day), "t"))]),
    max_size=25,
).map(lambda parts: sorted((one for part in parts for one in part), key=lambda one: one[0]))


@given(LIVES)
def test_whatever_is_on_record_each_day_counts_once_and_silence_is_never_done_nor_left_out(
    records: Observed,
) -> None:
    found = every(records, (FIRST - timedelta(days=9), FIRST + timedelta(days=20)))
    counted, split = tally(found), windows(records, (found[0].day, found[-1].day))
    assert sum(one.sessions.total for one in split) == counted.asked >= counted.due
    assert sum(one.unknown for one in split) == counted.silent >= counted.unknown
    assert sum(one.sessions.count for one in split) == counted.sessions <= counted.asked - counted.silent
    told = {what.day for _, what in records if isinstance(what, SessionEnded) and what.ending in (Ending.DONE, Ending.PARTLY)}
    silent = {what.day for _, what in records if isinstance(what, SessionEnded) and what.ending is Ending.NO_WORD} - told
    assert {day.state for day in found if day.day in silent} <= {State.NO_WORD}
    recorded = {what.day for _, what in records if isinstance(what, SessionEnded | DayClosed)}
    assert not [day for day in found if day.state is State.NO_RECORD and day.day in recorded]
