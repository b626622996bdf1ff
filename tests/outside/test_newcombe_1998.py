"""Newcombe 1998, Stat Med 17:857-872 (method 3, Wilson's score interval) and 17:873-890 (method 10): the worked examples."""

import pytest

from companion.measures.proportions import Share, difference


@pytest.mark.parametrize(
    ("count", "total", "low", "high"),
    [(81, 263, 0.2553, 0.3662), (15, 148, 0.0624, 0.1605), (0, 20, 0.0, 0.1611), (1, 29, 0.0061, 0.1718), (7, 7, 0.6457, 1.0)],
)
def test_the_interval_of_a_share_is_that_of_the_worked_example(count: int, total: int, low: float, high: float) -> None:
    found = Share(count, total).interval
    assert found is not None
    assert (found.low, found.high) == pytest.approx((low, high), abs=5e-5)


@pytest.mark.parametrize(
    ("first", "second", "low", "high"),
    [((6, 7), (2, 7), 0.0582, 0.8062), ((56, 70), (48, 80), 0.0524, 0.3339)],
)
def test_the_interval_of_a_difference_is_that_of_the_worked_example(
    first: tuple[int, int], second: tuple[int, int], low: float, high: float
) -> None:
    found = difference(Share(*first), Share(*second))
    assert found is not None
    assert (found.low, found.high) == pytest.approx((low, high), abs=5e-5)
