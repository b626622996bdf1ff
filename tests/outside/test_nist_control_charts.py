"""NIST e-Handbook of Statistical Methods, 6.3.2.2 (limits for single values) and 6.3.2.4 (weighted moving average).

The companion uses no control limits: its early notice was chosen over them by simulation. These figures show that the rules
which it is compared with there (`tests/measures/limits.py`) are the published ones.
"""

from statistics import fmean

import pytest

from companion.measures.holds import Hold
from companion.measures.notice import Standing
from tests.measures.limits import by_single_limits, by_weighted_limits, single_limits, weighted, weighted_limits

FLOW = (49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1)
# 6.3.2.4: the twenty values are from memory, the limits seen; the last ten are those of 6.3.2.2
TWENTY = (52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, *FLOW)
CENTRE, DEVIATION = 50.0, 2.0539
AVERAGES = (
    50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33,
    50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99,
)  # fmt: skip


def test_the_limits_of_single_values_are_those_of_the_handbook() -> None:
    found = single_limits(FLOW)
    assert (found.low, found.centre, found.high) == pytest.approx((45.8159, 50.81, 55.8041), abs=5e-4)


def test_the_limits_of_the_weighted_average_are_those_of_the_handbook() -> None:
    found = weighted_limits(CENTRE, DEVIATION)
    assert (found.low, found.high) == pytest.approx((47.4115, 52.5884), abs=2e-4)


def test_the_weighted_average_of_the_handbook_stays_within_its_limits() -> None:
    averages, limits = weighted(TWENTY, CENTRE), weighted_limits(CENTRE, DEVIATION)
    assert averages == pytest.approx(AVERAGES, abs=6e-3)
    assert all(limits.low < average < limits.high for average in averages)


def sessions(*seconds: float) -> list[dict[str, list[Hold]]]:
    return [{"together": [Hold(str(at), held, held)]} for at, held in enumerate(seconds)]


def test_a_session_under_the_limit_of_single_values_is_low_and_just_above_it_is_not() -> None:
    usual, limits = FLOW * 2, single_limits(FLOW * 2)
    for newest, standing in ((limits.low - 0.01, Standing.LOW), (limits.low + 0.01, Standing.BETWEEN), (52, Standing.USUAL)):
        assert by_single_limits(sessions(*usual, 50, 50, 50, newest)) is standing


def test_four_sessions_together_reach_the_limit_of_the_average_which_none_does_alone() -> None:
    usual = FLOW * 2
    lower = fmean(usual) - 4
    assert by_single_limits(sessions(*usual, *[lower] * 4)) is Standing.BETWEEN
    assert by_weighted_limits(sessions(*usual, *[lower] * 4)) is Standing.LOW


def test_both_need_as_many_earlier_sessions_as_the_notice() -> None:
    for rule in (by_single_limits, by_weighted_limits):
        assert rule(sessions(*FLOW, *[10.0] * 4)) is Standing.TOO_FEW
