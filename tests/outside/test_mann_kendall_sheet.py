"""The worked sheet of a Mann-Kendall test with a tie (a course of the College of the Holy Cross), and the example of an
outlier in Helsel & Hirsch, Statistical Methods in Water Resources (from memory, worked out again)."""

import pytest
from scipy.stats import theilslopes

from companion.measures.trend import WeekMean, mann_kendall, trend

SHEET = (12.9, 14.8, 13.2, 15.7, 13.8, 15.6, 12.9, 11.0, 17.3, 15.9, 19.0, 18.3, 20.1, 21.7)


def test_the_score_its_variance_and_z_are_those_of_the_sheet() -> None:
    found = mann_kendall(SHEET)
    assert found.score == 54
    assert found.variance == pytest.approx(332.667, abs=5e-4)
    assert found.z == pytest.approx(2.9058, abs=5e-5)


def test_an_outlier_does_not_bend_the_slope_that_the_trend_is_told_by() -> None:
    assert theilslopes([1, 2, 3, 4, 5, 16, 7]).slope == 1.0
    # the same outlier among as many weeks as a trend needs
    found = trend([WeekMean(week, seconds, 2) for week, seconds in enumerate([1, 2, 3, 4, 5, 16, 7, 8, 9, 10])])
    assert found is not None and found.slope == 1.0
