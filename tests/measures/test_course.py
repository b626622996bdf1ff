"""From the records of practice to measures."""

from dataclasses import replace
from datetime import timedelta

import pytest

from companion.core.observations import Bounds, Bout, BrokeBy, Quality
from companion.core.programme import Clock, Hand, Measure, Side, Stance
from companion.measures.course import (
    compared,
    course,
    hold,
    measured,
    own_sessions,
    rates,
    series,
    standing,
    weeks,
    whole,
)
from companion.measures.dated import dated
from companion.measures.holds import Between, Hold
from companion.measures.notice import Standing
from companion.measures.proportions import Share
from companion.measures.trend import Direction
from tests.measures.records import CLEAN, FIRST, Observed, broke, ended, session


@pytest.mark.parametrize(
    ("bout", "known"),
    [
        (CLEAN, Hold("s1", 60, None)),
        (broke(22.4), Hold("s1", 22.4, 22.4)),
        (broke(15, 30), Hold("s1", 15, 30)),
        (broke(45, 60), Hold("s1", 45, 60)),
        (broke(), Hold("s1", 0, 60)),
        (ended(Quality.UNWELL, 20.0), Hold("s1", 20, 20)),
        (ended(Quality.UNWELL, 60.0), Hold("s1", 60, 60)),
        (ended(Quality.ENDED_EARLY, 31.5), Hold("s1", 31.5, 31.5)),
        (replace(ended(Quality.ENDED_EARLY, 31.5), first_break=Bounds(12, 12)), Hold("s1", 12, 12)),
    ],
)
def test_what_is_known_of_a_hold_is_its_bounds(bout: Bout, known: Hold) -> None:
    assert hold(bout) == known


@pytest.mark.parametrize(
    "bout",
    [
        ended(Quality.UNKNOWN, 60.0),
        ended(Quality.UNKNOWN, None),
        broke(practised_s=None),
        ended(Quality.UNWELL, None),
        replace(CLEAN, measure=Measure.COUNTED, target=10, first_break=None),
    ],
)
def test_what_nobody_told_and_a_lost_clock_are_no_hold(bout: Bout) -> None:
    assert hold(bout) is None


def test_unknown_bouts_and_lost_clocks_are_counted_apart() -> None:
    bouts = dated(session(0, CLEAN, broke(20), ended(Quality.UNKNOWN, 60.0), broke(practised_s=None)), "UTC")
    (held,) = series(bouts)
    assert (held.clean, held.unknown, held.sessions) == (Share(1, 3), 1, 1)
    assert held.holds == (Hold("s0", 60, None), Hold("s0", 20, 20)), "of the third nobody knows the time"


def test_a_stop_for_a_symptom_at_the_end_is_no_full_hold() -> None:
    (held,) = series(dated(session(0, ended(Quality.UNWELL, 60.0), ended(Quality.UNWELL, 60.0)), "UTC"))
    found = measured(held)
    assert found is not None and found.clean == Share(0, 2) and found.median == Between(60, 60)


def test_a_stance_held_by_two_exercises_is_one_series_and_another_hand_or_target_a_new_one() -> None:
    own = replace(CLEAN, exercise="feet_together", stance=Stance.FEET_TOGETHER, side=None)
    other = replace(own, exercise="warm_up_stand")
    bouts = dated(session(0, own, other, replace(own, hand=Hand.NONE), replace(own, target=45)), "UTC")
    assert [len(held.bouts) for held in series(bouts)] == [2, 1, 1]
    assert [(len(held.bouts), held.target) for held in whole(bouts)] == [(3, 45), (1, 60)]


def test_under_eight_sessions_holds_are_listed_and_no_interval_is_given() -> None:
    records = [one for day in range(7) for one in session(day, broke(20.0 + day), CLEAN)]
    (held,) = series(dated(records, "UTC"))
    found = measured(held)
    assert found is not None and found.sessions == 7 and len(found.listed) == 14
    assert found.clean == Share(7, 14) and found.mean.interval is None and found.median_from is None


def test_eight_sessions_give_intervals_and_each_counts_once() -> None:
    records = [one for day in range(8) for one in session(day, broke(20.0 + day), broke(30.0 + day), CLEAN)]
    (held,) = series(dated(records, "UTC"))
    found = measured(held)
    assert found is not None and found.mean.sessions == 8 and found.listed == ()
    assert found.mean.interval is not None and found.mean.interval.low < found.mean.value < found.mean.interval.high
    assert found.past == pytest.approx((1.0, 15 / 24, 8 / 24))  # who broke at 30 s had not held past it


def test_quarters_give_a_median_as_bounds_and_clean_holds_none() -> None:
    (held,) = series(dated(session(0, broke(15, 30), broke(30, 45), broke(30, 45), CLEAN), "UTC"))
    found = measured(held)
    assert found is not None and found.median == Between(30, 45)
    (clean,) = series(dated(session(0, CLEAN, CLEAN, broke(10)), "UTC"))
    found = measured(clean)
    assert found is not None and found.median == Between(60, None)


def test_nothing_is_measured_of_holds_that_nobody_told_of() -> None:
    (held,) = series(dated(session(0, ended(Quality.UNKNOWN, None)), "UTC"))
    assert measured(held) is None and weeks(held) == ()


def twelve_weeks(*, growing: bool) -> Observed:
    """Three sessions a week, ten seconds at first; the target goes from 30 to 60 s in the middle."""
    found: Observed = []
    for week in range(12):
        target = 30 if week < 6 else 60
        for day in (0, 2, 4):
            second = 10.0 + (week * 1.5 if growing else 0) + (day - 2) + week % 2
            found += session(week * 7 + day, broke(second, target=target))
    return found


def test_a_course_is_measured_up_to_its_lowest_target_throughout() -> None:
    (held,) = whole(dated(twelve_weeks(growing=True), "UTC"))
    assert held.target == 30
    found = course(held)
    assert found is not None and found.direction is Direction.RISING and found.weeks == 12
    assert all(week.seconds <= 30 and week.sessions == 3 for week in weeks(held))


def test_a_course_without_a_trend_says_that_none_is_shown() -> None:
    (held,) = whole(dated(twelve_weeks(growing=False), "UTC"))
    found = course(held)
    assert found is not None and found.direction is Direction.NOT_SHOWN


def test_a_week_without_practice_has_no_mean_and_keeps_its_number() -> None:
    records = [*session(0, broke(20)), *session(15, broke(30))]
    (held,) = whole(dated(records, "UTC"))
    assert [(week.week, week.seconds) for week in weeks(held)] == [(0, 20.0), (2, 30.0)]


def test_two_sides_are_compared_within_sessions_in_the_same_condition() -> None:
    records: Observed = []
    for day in range(8):
        records += session(day, broke(20.0), broke(40.0, side=Side.STRONGER), broke(9.0, side=Side.STRONGER, hand=Hand.NONE))
    (found,) = compared(dated(records, "UTC"))
    assert found.sides is not None and found.sides.shorter == Share(8, 8) and found.sides.at_least == 2.0


def test_under_six_sessions_with_a_difference_two_sides_are_not_measurable() -> None:
    records = [one for day in range(5) for one in session(day, broke(20.0), broke(40.0, side=Side.STRONGER))]
    (found,) = compared(dated(records, "UTC"))
    assert found.sides is None and found.weaker.sessions == 5


def test_steps_and_touches_are_counted_a_minute_practised() -> None:
    both = broke(10, by=BrokeBy.BOTH)
    bouts = dated(session(0, broke(20), both, broke(5, by=BrokeBy.HAND), CLEAN, broke(9, practised_s=None)), "UTC")
    found = rates(bouts)
    assert found is not None and found.steps.minutes == 4.0
    assert (found.steps.count, found.touches.count, found.steps.value) == (2, 2, 0.5)
    assert found.steps.interval.low == pytest.approx(0.2422 / 4, abs=1e-3)  # Garwood, 2 events
    assert rates(dated(session(0, broke(9, practised_s=None)), "UTC")) is None


def test_a_session_after_midnight_belongs_to_the_day_on_which_it_began() -> None:
    late = [(at, replace(what, at=what.at + timedelta(hours=15, minutes=10))) for at, what in session(0, CLEAN)]
    assert [day for day, _ in dated(late, "UTC")] == [FIRST]


def usual(sessions: int) -> Observed:
    return [one for day in range(sessions) for one in session(day, broke(30.0 + day * 7 % 11), CLEAN)]


def test_four_low_sessions_stand_low_and_a_new_target_starts_a_new_usual() -> None:
    low = [one for day in range(20, 24) for one in session(day, broke(8.0), broke(12.0))]
    assert standing(dated(usual(20) + low, "UTC")).standing is Standing.LOW
    new = [one for day in range(20, 24) for one in session(day, broke(8.0, target=45), broke(12.0, target=45))]
    found = standing(dated(usual(20) + new, "UTC"))
    assert found.standing is Standing.TOO_FEW and found.p is None


def test_a_stop_for_a_symptom_is_no_good_hold_in_the_own_usual() -> None:
    stopped = [one for day in range(20, 24) for one in session(day, ended(Quality.UNWELL, 8.0))]
    assert standing(dated(usual(20) + stopped, "UTC")).standing is Standing.LOW


def test_sessions_stand_in_order_and_conditions_apart() -> None:
    bouts = dated([*session(3, CLEAN, replace(CLEAN, clock=Clock.SOUND)), *session(1, broke(20))], "UTC")
    first, second = own_sessions(bouts)
    assert len(first) == 1 and len(second) == 2
