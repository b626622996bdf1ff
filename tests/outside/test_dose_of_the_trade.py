"""Common practice, no source: 1 minute a standing hold, 10 repeats of the seated press, 3 claps a side.

Both sides are practised, the stronger leg first.
"""

import pytest

from companion.core.programme import Measure, Posture, Sides
from companion.core.script import planned_sides
from tests.outside.practice_at_home import PLAN, RULES


def test_every_standing_hold_aims_at_one_minute() -> None:
    holds = [
        form
        for exercise in RULES.exercises.values()
        for form in exercise.forms
        if form.measure is Measure.TIMED and form.posture is Posture.STANDING
    ]
    assert len(holds) >= 12 and {form.target for form in holds} == {60}


@pytest.mark.parametrize(("exercise", "target"), [("seated_press", 10), ("one_leg_toes", 3)])
def test_the_press_is_done_10_times_and_the_claps_3_a_side(exercise: str, target: int) -> None:
    assert {form.target for form in RULES.exercises[exercise].forms} == {target}


def test_both_sides_are_practised_and_the_stronger_leg_takes_the_weight_first() -> None:
    for planned in PLAN.exercises:
        exercise = RULES.exercises[planned.exercise]
        sides = [str(side) for side in planned_sides(planned, exercise)]
        # the leg behind takes the weight: the weaker foot in front means the stronger leg first
        first = {Sides.NONE: ["None"], Sides.LEG: ["stronger", "weaker"], Sides.FRONT_FOOT: ["weaker", "stronger"]}
        assert sides == first[exercise.sides]
