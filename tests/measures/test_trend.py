"""Whether weekly means rise or fall."""

import pymannkendall
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from companion.measures.trend import Direction, WeekMean, mann_kendall, trend


@settings(max_examples=1000, deadline=None)
@given(st.lists(st.integers(min_value=0, max_value=12), min_size=3, max_size=40))
def test_the_test_agrees_with_pymannkendall_ties_included(values: list[int]) -> None:
    found, theirs = mann_kendall(values), pymannkendall.original_test(values)
    assert found.score == theirs.s
    if found.variance > 0:
        assert found.variance == pytest.approx(theirs.var_s)
        assert (found.z, found.p) == pytest.approx((theirs.z, theirs.p))
    else:
        assert (found.z, found.p) == (0.0, 1.0)


@settings(max_examples=1000, deadline=None)
@given(st.lists(st.integers(min_value=0, max_value=60), min_size=10, max_size=30))
def test_the_slope_of_a_trend_agrees_with_pymannkendall_ties_included(values: list[int]) -> None:
    found = trend(weeks(*values))
    assert found is not None and found.slope == pytest.approx(float(pymannkendall.sens_slope(values).slope))
    assert found.p == pytest.approx(float(pymannkendall.original_test(values).p) if len(set(values)) > 1 else 1.0)


def weeks(*seconds: float, sessions: int = 3) -> list[WeekMean]:
    return [WeekMean(number, value, sessions) for number, value in enumerate(seconds)]


def test_a_course_that_rises_is_told_with_its_slope_in_seconds_a_week() -> None:
    found = trend(weeks(*range(10, 22)))
    assert found is not None
    assert (found.direction, found.slope, found.weeks) == (Direction.RISING, 1.0, 12)


def test_a_course_that_falls_falls() -> None:
    found = trend(weeks(*range(30, 18, -1)))
    assert found is not None and found.direction is Direction.FALLING and found.slope == -1.0


def test_a_level_course_shows_no_trend_and_is_not_said_to_be_unchanged() -> None:
    found = trend(weeks(*[20, 21] * 6))
    assert found is not None and found.direction is Direction.NOT_SHOWN and found.p > 0.05


def test_under_10_weeks_that_count_nothing_is_said() -> None:
    assert trend(weeks(*range(9))) is None
    assert trend([*weeks(*range(9)), WeekMean(9, 20.0, 1)]) is None


def test_weeks_that_are_missing_leave_their_place() -> None:
    every_other = [WeekMean(2 * number, float(number), 2) for number in range(10)]
    found = trend(every_other)
    assert found is not None and found.slope == 0.5
