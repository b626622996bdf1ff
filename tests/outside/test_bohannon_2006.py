"""Norms by age, Bohannon 2006: one leg, eyes open (Top Geriatr Rehabil 22:70-77), and five times sit to stand, worse than usual
above (Percept Mot Skills 103:215-222). The companion knows the decade of the age, never more."""

import pytest

from companion.core.review_values import ReviewValues
from companion.measures.review import FIVE_SIT_TO_STANDS, ONE_LEG_EYES_OPEN
from tests.reports.course_of_reviews import Shown


def decade(age: int) -> int:
    """As a therapist enters it."""
    return max(50, age // 10 * 10)


@pytest.mark.parametrize(("age", "seconds"), [(60, 27.0), (69, 27.0), (70, 17.2), (79, 17.2), (80, 8.5), (90, 8.5), (99, 8.5)])
def test_under_the_norm_of_the_age_on_one_leg_is_worse_on_the_page(age: int, seconds: float) -> None:
    norm = ONE_LEG_EYES_OPEN.at(age)
    assert norm is not None and norm.seconds == seconds
    shown = Shown(ReviewValues(one_leg_weaker=seconds - 0.1, one_leg_stronger=seconds, decade=decade(age)))
    assert shown.newest("against:one-leg-weaker") == "worse"
    assert shown.newest("against:one-leg-stronger") == "not worse"
    assert f"under {seconds:g} s at" in shown.said("norm")
    assert "healthy adults; Bohannon 2006, Top Geriatr Rehabil 22:70-77" in shown.said("norm")


@pytest.mark.parametrize("age", [30, 59])
def test_under_60_there_is_no_norm(age: int) -> None:
    assert ONE_LEG_EYES_OPEN.at(age) is None and ONE_LEG_EYES_OPEN.worse_than_usual(age, 5) is None
    shown = Shown(ReviewValues(sit_to_stand_5=40, one_leg_weaker=1, decade=decade(age)))
    assert {shown.newest("against:sit-to-stand"), shown.newest("against:one-leg-weaker")} == {"no norm"}
    assert "worse" not in shown.caption.lower() and "Worse than usual" not in shown.said("norm")


@pytest.mark.parametrize(
    ("age", "seconds", "told"), [(65, 11.5, "worse"), (75, 12.5, "not worse"), (85, 14.9, "worse"), (95, 20.0, "no norm")]
)
def test_five_sit_to_stands_against_the_age_on_the_page(age: int, seconds: float, told: str) -> None:
    shown = Shown(ReviewValues(sit_to_stand_5=seconds, decade=decade(age)))
    assert shown.newest("against:sit-to-stand") == told
    assert "Bohannon 2006, Percept Mot Skills 103:215-222" in shown.said("norm")


@pytest.mark.parametrize(("age", "seconds"), [(65, 11.4), (75, 12.6), (85, 14.8)])
def test_worse_than_usual_is_above_the_published_time_and_not_at_it(age: int, seconds: float) -> None:
    assert FIVE_SIT_TO_STANDS.worse_than_usual(age, seconds) is False
    assert Shown(ReviewValues(sit_to_stand_5=seconds + 0.01, decade=decade(age))).newest("against:sit-to-stand") == "worse"
    assert f"above {seconds:g} s at" in Shown(ReviewValues(sit_to_stand_5=9, decade=decade(age))).said("norm")
