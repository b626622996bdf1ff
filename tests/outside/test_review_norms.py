"""Norms and detectable change as published: Bohannon 2006 (two papers), STEADI, Guralnik 1994, Berg item 14, Stevenson 2001,
Hiengkaew 2012."""

import pytest

from companion.core.review_values import FourStage, four_stage
from companion.measures.review import (
    BERG_CHANGE,
    FIVE_SIT_TO_STANDS,
    ONE_LEG_EYES_OPEN,
    one_leg_category,
    tandem_points,
)


def test_four_stages_stop_at_the_first_that_is_not_held() -> None:
    found = four_stage((10, 10, 7.2))
    assert found.next is None and found.at_risk is True
    with pytest.raises(ValueError, match="stops at heel_to_toe"):
        four_stage((10, 10, 7.2, 10))


def test_heel_to_toe_held_for_10_s_is_no_sign_of_risk_whatever_one_leg_was() -> None:
    assert four_stage((10, 10, 10, 3)).at_risk is False


def test_just_under_10_s_is_not_10_s() -> None:
    assert four_stage((10, 10, 9.99)).at_risk is True
    assert four_stage((10, 10)).next is FourStage.HEEL_TO_TOE and four_stage((10, 10)).at_risk is None


@pytest.mark.parametrize("held", [(10, 10, 10, 10, 10), (-1,), (float("nan"),)])
def test_what_is_no_result_of_four_stages_is_refused(held: tuple[float, ...]) -> None:
    with pytest.raises(ValueError, match="not the seconds"):
        four_stage(held)


@pytest.mark.parametrize(("seconds", "points"), [(2.99, 0), (3.0, 1), (9.99, 1), (10, 2)])
def test_points_for_heel_to_toe(seconds: float, points: int) -> None:
    assert tandem_points(seconds) == points


@pytest.mark.parametrize(("seconds", "category"), [(2.9, 1), (3, 2), (4.9, 2), (5, 3), (10, 3), (10.1, 4)])
def test_categories_of_one_leg(seconds: float, category: int) -> None:
    assert one_leg_category(seconds) == category


@pytest.mark.parametrize(("age", "seconds"), [(60, 27.0), (69, 27.0), (70, 17.2), (79, 17.2), (80, 8.5), (99, 8.5)])
def test_the_norm_on_one_leg_is_that_of_the_age(age: int, seconds: float) -> None:
    norm = ONE_LEG_EYES_OPEN.at(age)
    assert norm is not None and norm.seconds == seconds


def test_there_is_no_norm_on_one_leg_under_60() -> None:
    assert ONE_LEG_EYES_OPEN.at(59) is None and ONE_LEG_EYES_OPEN.worse_than_usual(59, 5) is None


@pytest.mark.parametrize(("age", "seconds", "worse"), [(65, 11.5, True), (75, 12.5, False), (85, 14.9, True), (95, 20.0, None)])
def test_five_sit_to_stands_against_the_age(age: int, seconds: float, worse: bool | None) -> None:
    assert FIVE_SIT_TO_STANDS.worse_than_usual(age, seconds) is worse


def test_each_detectable_change_names_its_source_and_population() -> None:
    assert [(one.points, one.level, one.source) for one in BERG_CHANGE[:2]] == [
        (6, 90, "Stevenson 2001"),
        (5, 95, "Hiengkaew 2012"),
    ]
    assert all(one.population and one.source for one in BERG_CHANGE)
    for norms in (ONE_LEG_EYES_OPEN, FIVE_SIT_TO_STANDS):
        assert norms.population and norms.source
