"""Order of challenge: longer hold, less hand support, narrower base, eyes closed; longer holds first.

Otago (trial staff forum, seen) for the longer holds first; eyes closed lies outside Otago; the rest is common practice.
"""

from itertools import pairwise

from companion.core.ladder import ladder
from companion.core.programme import HAND_STAGES, Clock, Eyes, Measure, Planned, Stance
from tests.outside.practice_at_home import PLAN, RULES


def test_what_is_proposed_first_is_a_longer_hold_and_last_closed_eyes() -> None:
    assert RULES.progression.order == ("longer_hold", "less_hand", "narrower_base", "eyes_closed")


def test_within_a_form_less_hand_comes_before_the_next_form() -> None:
    heel = next(planned for planned in PLAN.exercises if planned.exercise == "heel_to_toe")
    opened = Planned("heel_to_toe", "half_step", 60, HAND_STAGES[3], Clock.SCREEN, "touching", HAND_STAGES[4])
    rungs = ladder(opened, RULES.exercises[heel.exercise], PLAN, True)
    harder = [(rung.form.id, rung.hand.value) for rung in rungs if rung.eased < 0]
    assert harder == [("half_step", "none"), ("small_gap", "none"), ("touching", "none")]


def test_one_thing_is_made_harder_at_a_time() -> None:
    for exercise in RULES.exercises.values():
        for easier, harder in pairwise(exercise.forms):
            changed = [easier.stance is not harder.stance, easier.eyes is not harder.eyes]
            assert sum(changed) <= 1, (exercise.id, easier.id, harder.id)


def test_within_an_exercise_closed_eyes_come_after_open_ones() -> None:
    for exercise in RULES.exercises.values():
        eyes = [form.eyes for form in exercise.forms]
        assert eyes == sorted(eyes, key=list(Eyes).index), exercise.id


def test_a_walk_heel_to_toe_is_counted_in_lengths_and_begins_with_wide_feet() -> None:
    # common practice: the walk only when the still stance is easy, so it has an easier form than the line
    walk = RULES.exercises["heel_to_toe_walk"]
    assert walk.forms[0].id == "wide" and {form.measure for form in walk.forms} == {Measure.COUNTED}


def test_no_step_up_leads_from_standing_to_walking_which_only_a_therapist_adds_to_a_plan() -> None:
    for exercise in RULES.exercises.values():
        walks = {form.stance is Stance.WALKING for form in exercise.forms}
        assert len(walks) == 1, exercise.id
