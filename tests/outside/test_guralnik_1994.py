"""Points for heel-to-toe, 0 to 2, as in the Short Physical Performance Battery (Guralnik 1994): 3 s is 1, 10 s is 2."""

import pytest

from companion.core.review_values import ReviewValues
from companion.measures.review import tandem_points
from tests.reports.course_of_reviews import Shown


@pytest.mark.parametrize(("seconds", "points"), [(2.99, 0), (3.0, 1), (9.99, 1), (10, 2)])
def test_points_on_the_page_of_reviews(seconds: float, points: int) -> None:
    shown = Shown(ReviewValues((10, 10, seconds)))
    assert shown.newest("tandem") == str(points)
    assert "SPPB (Guralnik 1994)" in shown.said("source")


def test_a_stance_that_was_not_tried_has_no_points() -> None:
    assert Shown(ReviewValues((10, 8))).newest("tandem") == "–"


@pytest.mark.parametrize("seconds", [-0.1, float("nan")])
def test_what_is_no_time_is_refused(seconds: float) -> None:
    with pytest.raises(ValueError, match="no time"):
        tandem_points(seconds)
