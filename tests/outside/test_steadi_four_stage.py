"""CDC STEADI, 4-Stage Balance Test: feet side by side, half-step, heel-to-toe, one leg, in this order of challenge."""

from itertools import pairwise

from companion.core.programme import Exercise, Eyes, Stance
from tests.outside.practice_at_home import RULES

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
