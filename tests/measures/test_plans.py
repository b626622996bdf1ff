"""Which plan held when, and for which days it asked."""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta

import pytest

from companion.core.observations import Discharged, OwnWords, PlanPrescribed, Reporter
from companion.core.programme import Plan, Practice
from companion.measures.plans import Plans, plans
from tests.core.practice import plan, planned
from tests.measures.records import CLEAN, FIRST, Observed, session

ONE = replace(plan(planned("tandem")), practice=Practice(tuple(range(7)), (time(9),)))
TWO = replace(ONE, version=2)
NEXT = FIRST + timedelta(days=1)


def at(hour: int, day: int = 0) -> datetime:
    return datetime.combine(FIRST + timedelta(days=day), time(hour), UTC)


def begun(plan: Plan | None, hour: int, day: int = 0, version: int = 1) -> Observed:
    return [(at(hour, day), PlanPrescribed(at(hour, day), version, "t", "", plan))]


def ended(hour: int, day: int = 0) -> Observed:
    return [(at(hour, day), Discharged(at(hour, day), "t"))]


def held(records: Observed, now: Plan = ONE, previous: Plan | None = None, since: datetime | None = None) -> Plans:
    return plans(records, "UTC", now, previous, since)


def asked(of: Plans, day: date = FIRST) -> tuple[int, bool]:
    reign, sessions = of.of_day(day)
    return reign.version, sessions > 0


@pytest.mark.parametrize(("hour", "due"), [(8, True), (9, False), (10, False)])
def test_on_its_first_day_a_plan_asks_only_for_a_moment_of_practice_that_came_after_it(hour: int, due: bool) -> None:
    assert asked(held(begun(ONE, hour))) == (1, due)
    assert asked(held(begun(ONE, hour)), NEXT) == (1, True)


def test_a_session_on_the_first_day_of_a_plan_was_due_if_the_plan_names_that_day_whenever_it_began() -> None:
    assert asked(held(begun(ONE, 9) + session(0, CLEAN))) == (1, True)
    assert asked(held(begun(replace(ONE, practice=Practice((1,), (time(9),))), 9) + session(0, CLEAN))) == (1, False)


@pytest.mark.parametrize(("hour", "due"), [(8, False), (9, True), (10, True)])
def test_on_the_day_of_a_discharge_practice_was_due_only_where_its_moment_had_come(hour: int, due: bool) -> None:
    of = held(begun(ONE, 12, -7) + ended(hour))
    assert asked(of) == (1, due) and asked(of, NEXT) == (1, False)


def test_a_discharge_from_before_the_records_is_known_beside_them() -> None:
    of = plans([], "UTC", ONE, since=at(9, -90), ended=at(12, -30))
    assert asked(of) == (1, False) and asked(of, FIRST - timedelta(days=31)) == (1, True)


def test_a_plan_after_a_discharge_asks_again_and_nothing_was_due_between() -> None:
    of = held(begun(ONE, 12, -9) + ended(12, -7) + begun(TWO, 8, -1, version=2), TWO)
    assert [asked(of, FIRST + timedelta(days=day)) for day in (-8, -7, -6, -2, -1)] == [
        (1, True), (1, True), (1, False), (1, False), (2, True)
    ]  # fmt: skip


@pytest.mark.parametrize(("hour", "version"), [(8, 2), (10, 1)])
def test_a_day_of_two_plans_without_a_session_counts_to_the_newest_that_asked_for_it(hour: int, version: int) -> None:
    of = held(begun(ONE, 8, -5) + begun(TWO, hour, version=2), TWO)
    assert asked(of) == (version, True) and asked(of, NEXT) == (2, True)


def test_where_both_plans_of_a_day_asked_for_it_it_counts_to_the_newer() -> None:
    twice = replace(TWO, practice=Practice(tuple(range(7)), (time(9), time(15))))
    assert asked(held(begun(ONE, 8, -5) + begun(twice, 12, version=2), twice)) == (2, True)


def test_a_session_keeps_the_plan_it_began_with_and_so_does_its_day() -> None:
    later = replace(TWO, practice=Practice((0,), (time(15),)))
    of = held(begun(ONE, 8, -5) + session(0, CLEAN) + begun(later, 11, version=2), later)
    late = replace(CLEAN, session="s0", at=at(12))
    assert asked(of) == (1, True) and of.of_bout(late).version == 1


def test_of_the_plan_before_the_first_on_record_the_one_before_this_is_known_and_older_ones_are_not() -> None:
    records = begun(replace(ONE, version=3), 8, version=3)
    before = FIRST - timedelta(days=1)
    assert asked(held(records, replace(ONE, version=3), TWO, at(8, -90)), before) == (2, True)
    assert asked(held(records, replace(ONE, version=4), replace(ONE, version=3), at(8, -90)), before) == (2, False)


def test_a_plan_that_is_not_on_record_asks_only_for_days_on_which_there_was_a_session() -> None:
    of = held(begun(None, 8, -5) + session(0, CLEAN), TWO)
    assert asked(of) == (1, True) and asked(of, NEXT) == (1, False)


def test_where_it_is_not_known_when_the_first_plan_began_nothing_is_due_before_the_first_day_on_record() -> None:
    note = at(20)
    of = held([(note, OwnWords(note, Reporter.CLIENT, "Hello."))])
    assert asked(of) == (1, True) and asked(of, FIRST - timedelta(days=1)) == (1, False)


def test_of_no_record_at_all_the_plan_that_holds_asked_for_every_day_it_names() -> None:
    assert asked(held([], replace(ONE, practice=Practice((0,), (time(9),))))) == (1, True)
    assert asked(held([], replace(ONE, practice=Practice((1,), (time(9),))))) == (1, False)
    assert asked(held([], replace(ONE, ends_on=FIRST - timedelta(days=1)))) == (1, False)


def test_the_moment_of_practice_is_that_of_the_clients_own_clock() -> None:
    # nine in the morning in New York is 14:00 UTC
    of = plans(begun(ONE, 12), "America/New_York", ONE)
    assert asked(of) == (1, True)
    assert asked(plans(begun(ONE, 15), "America/New_York", ONE)) == (1, False)
