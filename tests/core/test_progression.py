"""One step harder, or back: one thing at a time, in content's order, never what the plan rules out. Cases: progression.yaml."""

import random
from dataclasses import replace
from typing import Any

import pytest

from companion.core.programme import (
    HAND_STAGES,
    Challenge,
    Clock,
    Direction,
    Hand,
    Planned,
    Progression,
)
from companion.core.progression import direction, easier, harder
from companion.core.recent import Run
from tests.core.lives import Choose, any_planned
from tests.core.practice import EXERCISES, MONDAY, plan, planned

RULE = Progression()


def runs(*clean: bool, effort: str | None = "easy") -> list[Run]:
    days = enumerate(clean)
    return [Run("tandem", f"s{at}", MONDAY.date(), 2, 2 if one else 1, 0 if one else 1, effort) for at, one in days]


def step(item: Planned, carer: bool = True, **of: Any) -> tuple[Challenge, Planned] | None:
    return harder(item, EXERCISES[item.exercise], plan(item, **of), carer, RULE)


def test_a_longer_hold_comes_first_then_less_hand_then_the_next_form() -> None:
    item = planned("tandem", form="half", target=30, hand=Hand.FINGERTIPS)
    seen = []
    while (found := step(item)) is not None:
        way, item = found
        seen.append((way.value, item.form, item.hand.value, item.target))
    assert seen == [
        ("longer_hold", "half", "fingertips", 45),
        ("longer_hold", "half", "fingertips", 60),
        ("less_hand", "half", "hovering", 60),
        ("less_hand", "half", "none", 60),
        ("narrower_base", "gap", "none", 60),
        ("narrower_base", "touching", "none", 60),
        ("narrower_base", "long", "none", 60),
        ("longer_hold", "long", "none", 75),
        ("longer_hold", "long", "none", 90),
    ]


def test_both_sides_move_together_also_where_the_weaker_side_does_less() -> None:
    item = planned("tandem", target=40, weaker_target=20)
    assert step(item) == (Challenge.LONGER_HOLD, replace(item, target=55, weaker_target=35))
    nearly = planned("tandem", target=60, weaker_target=50)
    assert step(nearly) == (Challenge.LONGER_HOLD, replace(nearly, weaker_target=60))


def test_a_dose_above_the_usual_one_is_left_as_it_is() -> None:
    found = step(planned("tandem", target=80, hand=Hand.FINGERTIPS))
    assert found is not None and found[0] is Challenge.LESS_HAND and found[1].target == 80


def test_closed_eyes_are_proposed_only_with_permission_a_carer_and_their_clock() -> None:
    item = planned("dark", form="open", hand=Hand.NONE, clock=Clock.CARER)
    assert step(item) is None
    assert step(item, eyes_closed=True, carer=False) is None
    assert step(replace(item, clock=Clock.SCREEN), eyes_closed=True) is None
    found = step(item, eyes_closed=True)
    assert found is not None and found[0] is Challenge.EYES_CLOSED and found[1].form == "shut"


def test_what_the_baseline_rules_out_is_no_next_step() -> None:
    item = planned("toes", form="flat", hand=Hand.FINGERTIPS)
    assert step(item, ankle_blocked=True) is None
    found = step(item)
    assert found is not None and found[1].form == "up"
    assert step(planned("toes", form="up", hand=Hand.FINGERTIPS)) is None  # the claps need two good hands
    two = step(planned("toes", form="up", hand=Hand.FINGERTIPS), one_good_hand=False)
    assert two is not None and two[1].form == "up_clap"


def test_a_step_up_opens_the_range_as_far_as_it_goes_and_no_further() -> None:
    closed = step(planned("tandem", form="half", hand=Hand.HOVERING))
    assert closed is not None and (closed[1].hardest, closed[1].hand_hardest) == ("half", Hand.NONE)
    opened = step(planned("tandem", form="half", hand=Hand.HOVERING, hardest="long", hand_hardest=Hand.NONE))
    assert opened is not None and opened[1].hardest == "long"


def test_a_step_back_gives_more_hand_then_the_easier_form_and_leaves_nothing_harder_open() -> None:
    item = planned("tandem", form="gap", hand=Hand.ONE_HAND, hardest="long", hand_hardest=Hand.NONE)
    of = plan(item)
    back = easier(item, EXERCISES["tandem"], of, True)
    assert back is not None and (back.form, back.hand) == ("half", Hand.ONE_HAND)
    assert (back.hardest, back.hand_hardest) == ("half", Hand.ONE_HAND)
    held = easier(planned("tandem"), EXERCISES["tandem"], of, True)
    assert held is not None and (held.form, held.hand) == ("touching", Hand.FINGERTIPS)


def test_there_is_nothing_easier_than_the_easiest() -> None:
    item = planned("tandem", form="half", hand=Hand.ONE_HAND)
    assert easier(item, EXERCISES["tandem"], plan(item), True) is None


@pytest.mark.parametrize("seed", range(400))
def test_any_next_step_changes_one_thing_is_harder_and_goes_back_by_itself(seed: int) -> None:
    chance = random.Random(seed)
    choose = Choose(chance.choice)
    item = any_planned(choose, choose.of(list(EXERCISES)))
    exercise = EXERCISES[item.exercise]
    of = plan(item, eyes_closed=choose.flag(), one_good_hand=choose.flag(), ankle_blocked=choose.flag())
    carer = choose.flag()
    found = harder(item, exercise, of, carer, RULE)
    if found is not None:
        _, then = found
        ids = [form.id for form in exercise.forms]
        form = ids.index(then.form) - ids.index(item.form)
        hand = HAND_STAGES.index(then.hand) - HAND_STAGES.index(item.hand)
        assert then != item and form >= 0 and then.target >= item.target
        assert [form > 0, then.target != item.target].count(True) <= 1
        assert form > 0 or hand >= 0
        assert (then.exercise, then.clock, then.sides) == (item.exercise, item.clock, item.sides)
    back = easier(item, exercise, of, carer)
    if back is not None:
        assert exercise.forms.index(exercise.form(back.form)) <= exercise.forms.index(exercise.form(item.form))
        assert back.target <= max(item.target, exercise.form(back.form).target)
        assert (back.hardest, back.hand_hardest) == (back.form, back.hand)


def test_the_newest_sessions_decide() -> None:
    assert direction(runs(False, True, True, True), True, RULE) is Direction.UP
    assert direction(runs(True, True, True, False), True, RULE) is None
    assert direction(runs(True, True, True), None, RULE) is Direction.UP  # nothing was due: nothing is missing
    assert direction(runs(True, True, True), False, RULE) is None
    assert direction(runs(True, True, True, effort=None), True, RULE) is None
    assert direction(runs(False, False, False), False, RULE) is Direction.BACK
    assert direction([], True, RULE) is None


def test_one_side_alone_is_not_enough_and_breaks_that_grow_fewer_are_no_step_back() -> None:
    one_side = [replace(run, clean=1) for run in runs(True, True, True)]
    assert direction(one_side, True, RULE) is None
    fewer = [replace(run, broke=broke) for run, broke in zip(runs(False, False, False), (2, 1, 1), strict=True)]
    assert direction(fewer, True, RULE) is None
