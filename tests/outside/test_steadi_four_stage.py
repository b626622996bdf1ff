"""CDC STEADI, 4-Stage Balance Test: feet side by side, half-step, heel-to-toe, one leg, in this order of challenge."""

from itertools import pairwise

import pytest

from companion.core.programme import Exercise, Eyes, Stance
from companion.core.review_values import FourStage, ReviewValues, four_stage
from tests.outside.practice_at_home import RULES
from tests.reports.course_of_reviews import Shown

STAGES = ["feet_together", "half_step", "heel_to_toe", "one_leg"]
LADDER = list(Stance)


def open_stages(exercise: Exercise) -> list[str]:
    return [form.stance for form in exercise.forms if form.eyes is Eyes.OPEN and form.stance in STAGES]


def test_the_stances_stand_in_the_order_of_the_four_stages() -> None:
    assert [stance for stance in Stance if stance in STAGES] == STAGES


def test_each_of_the_four_stages_is_an_exercise_of_its_own() -> None:
    assert {RULES.exercises[stage].form(RULES.exercises[stage].usual).stance for stage in STAGES} == set(STAGES)


def test_easier_never_means_a_stance_that_comes_later_in_the_four_stages() -> None:
    # both legs on the toes comes before one flat foot in the claps; it is none of the four stages
    for exercise in RULES.exercises.values():
        for easier, harder in pairwise(open_stages(exercise)):
            assert STAGES.index(easier) <= STAGES.index(harder), exercise.id


def test_feet_apart_is_easier_than_every_stage() -> None:
    assert LADDER.index(Stance.FEET_APART) < min(LADDER.index(Stance(stage)) for stage in STAGES)


# the test itself, as a therapist enters it at a review


def test_it_stops_at_the_first_stage_that_is_not_held_and_flags_heel_to_toe_under_10_s() -> None:
    found = four_stage((10, 10, 7.2))
    assert found.next is None and found.at_risk is True
    with pytest.raises(ValueError, match="stops at heel_to_toe"):
        four_stage((10, 10, 7.2, 10))
    shown = Shown(ReviewValues((10, 10, 7.2)))
    assert (shown.newest("stage:heel_to_toe"), shown.newest("stage:one_leg"), shown.newest("risk")) == ("7.2", "–", "flag")
    assert shown.said("four-stage") == (
        "23 Nov: stopped at heel-to-toe, 7.2 s. Heel-to-toe under 10 s: fall risk flag (CDC STEADI). Not a diagnosis."
    )


def test_heel_to_toe_held_for_10_s_is_no_flag_whatever_one_leg_was() -> None:
    assert four_stage((10, 10, 10, 3)).at_risk is False
    shown = Shown(ReviewValues((10, 10, 10, 3)))
    assert (shown.newest("stage:one_leg"), shown.newest("risk")) == ("3", "no flag")
    assert "stopped at one leg, 3 s" in shown.said("four-stage")


def test_just_under_10_s_is_not_10_s() -> None:
    assert four_stage((10, 10, 9.99)).at_risk is True
    shown = Shown(ReviewValues((10, 10, 9.99)))
    assert (shown.newest("stage:heel_to_toe"), shown.newest("risk")) == ("9.99", "flag")


def test_what_is_not_yet_known_is_no_flag_and_not_fine() -> None:
    assert four_stage((10, 10)).next is FourStage.HEEL_TO_TOE and four_stage((10, 10)).at_risk is None
    assert Shown(ReviewValues((10, 10))).newest("risk") == "unknown"


def test_a_failure_before_heel_to_toe_is_the_same_flag() -> None:
    shown = Shown(ReviewValues((10, 6)))
    assert shown.newest("risk") == "flag" and "Heel-to-toe not reached: fall risk flag (CDC STEADI)" in shown.said("four-stage")


@pytest.mark.parametrize("held", [(10, 10, 10, 10, 10), (-1,), (float("nan"),)])
def test_what_is_no_result_of_four_stages_is_refused(held: tuple[float, ...]) -> None:
    with pytest.raises(ValueError, match="not the seconds"):
        four_stage(held)
