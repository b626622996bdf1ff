"""Goal attainment scaling: the T value of Kiresuk & Sherman 1968."""

import pytest

from companion.core.review_values import GoalLevel, ReviewValues
from companion.measures.review import goal_attainment
from tests.reports.course_of_reviews import Shown


def test_the_worked_examples() -> None:
    assert goal_attainment((-2, 0, -1, 2, 0, 1), (3, 5, 1, 4, 2, 6)) == pytest.approx(55.0, abs=0.05)
    assert goal_attainment((-1, -1, -1), (1, 1, 1)) == pytest.approx(36.31, abs=0.005)


@pytest.mark.parametrize(
    ("levels", "weights", "told"),
    [
        ((-2, 0, -1, 2, 0, 1), (3, 5, 1, 4, 2, 6), "55.0"),
        ((-1, -1, -1), (1, 1, 1), "36.3"),
        ((0, 0, 0), (1, 5, 2), "50.0"),
    ],
)
def test_the_page_of_reviews_shows_it_to_one_decimal(levels: tuple[int, ...], weights: tuple[int, ...], told: str) -> None:
    goals = tuple(GoalLevel(None, level, weight) for level, weight in zip(levels, weights, strict=True))
    shown = Shown(ReviewValues(goals=goals))
    assert shown.newest("goals") == told and f"T {told} (50 = as expected)" in shown.caption
    assert "Kiresuk & Sherman 1968, r 0.3" in shown.said("source")


def test_all_as_expected_is_50_whatever_the_weights() -> None:
    assert goal_attainment((0, 0, 0, 0), (1, 7, 2, 5)) == 50


@pytest.mark.parametrize(("levels", "weights"), [((), ()), ((3,), (1,)), ((0,), (0,)), ((0, 1), (1,))])
def test_what_can_not_be_is_refused(levels: tuple[int, ...], weights: tuple[float, ...]) -> None:
    with pytest.raises(ValueError, match="goal"):
        goal_attainment(levels, weights)
