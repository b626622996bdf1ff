"""The ladder of a bout: easier always, harder only as far as the plan opens it, nothing that the plan rules out."""

from dataclasses import replace
from itertools import pairwise, product

from hypothesis import given
from hypothesis import strategies as st

from companion.core.ladder import Rung, ladder, stands
from companion.core.programme import HAND_STAGES, Clock, Exercise, Eyes, Form, Hand, Measure, Plan, Planned
from companion.core.steps import BoutSpec
from tests.core.laws import assert_in_range
from tests.core.practice import EXERCISES, RULES, plan, planned


@st.composite
def plans(draw: st.DrawFn) -> tuple[Planned, Exercise, Plan, bool]:
    """Any exercise in any form, opened as far as any other, for any body, with a carer or without."""
    exercise = EXERCISES[draw(st.sampled_from(sorted(EXERCISES)))]
    forms = [form.id for form in exercise.forms]
    item = planned(
        exercise.id,
        form=draw(st.sampled_from(forms)),
        hardest=draw(st.sampled_from(forms)),
        hand=draw(st.sampled_from(HAND_STAGES)),
        hand_hardest=draw(st.sampled_from(HAND_STAGES)),
        clock=draw(st.sampled_from([*exercise.clocks, Clock.NONE])),
        target=draw(st.integers(1, 120)),
    )
    flags = {name: draw(st.booleans()) for name in ("eyes_closed", "one_good_hand", "ankle_blocked")}
    return item, exercise, plan(item, **flags), draw(st.booleans())


def spec(item: Planned, rung: Rung) -> BoutSpec:
    form = rung.form
    return BoutSpec(
        "k",
        item.exercise,
        form.id,
        form.posture,
        form.stance,
        form.eyes,
        rung.hand,
        rung.clock,
        form.measure,
        rung.target,
        None,
        0,
    )


@given(plans())
def test_no_rung_is_harder_than_the_plan_opens(case: tuple[Planned, Exercise, Plan, bool]) -> None:
    item, exercise, of, carer = case
    for rung in ladder(item, exercise, of, carer):
        assert_in_range(spec(item, rung), item, of, RULES)


def test_no_rung_closes_the_eyes_without_leave_a_carer_and_a_time_that_is_heard() -> None:
    """Whatever clock the plan names, and whatever the content says of who is needed."""
    closed = 0
    for exercise, clock, leave, carer in product(EXERCISES.values(), Clock, (True, False), (True, False)):
        bare = replace(exercise, forms=tuple(replace(form, needs_carer=False) for form in exercise.forms))
        for form in bare.forms:
            item = planned(exercise.id, form=form.id, hardest=bare.forms[-1].id, clock=clock, hand_hardest=HAND_STAGES[-1])
            for rung in ladder(item, bare, plan(item, eyes_closed=leave), carer):
                if rung.form.eyes is Eyes.CLOSED:
                    closed += 1
                    heard = rung.clock in (Clock.CARER, Clock.SOUND) or rung.form.measure is Measure.COUNTED
                    assert leave and carer and heard
    assert closed > 0


@given(plans())
def test_without_a_carer_no_rung_needs_one(case: tuple[Planned, Exercise, Plan, bool]) -> None:
    item, exercise, of, _ = case
    for rung in ladder(item, exercise, of, False):
        assert not rung.form.needs_carer and rung.clock is not Clock.CARER


@given(plans())
def test_everything_easier_is_on_the_ladder(case: tuple[Planned, Exercise, Plan, bool]) -> None:
    """Every easier form that the plan admits is there, and every stage of more support in the planned form."""
    item, exercise, of, carer = case
    rungs = ladder(item, exercise, of, carer)
    there = {rung.form.id for rung in rungs}
    at = exercise.forms.index(exercise.form(item.form))
    admitted = {form.id for form in exercise.forms[: at + 1] if admits(form, of, item, carer)}
    assert admitted <= there
    if item.form in admitted:
        stages = possible(exercise.form(item.form), of)
        more = (
            {hand for hand in stages if HAND_STAGES.index(hand) < HAND_STAGES.index(item.hand)}
            if item.hand in stages
            else set()
        )
        assert more <= {rung.hand for rung in rungs if rung.form.id == item.form}


@given(plans())
def test_each_rung_is_one_step_from_the_next(case: tuple[Planned, Exercise, Plan, bool]) -> None:
    """Either the form or the hand changes; both only where the other form is not done with that hand."""
    item, exercise, of, carer = case
    rungs = ladder(item, exercise, of, carer)
    forms = [form.id for form in exercise.forms]
    for easier, harder in pairwise(rungs):
        assert (easier.eased > harder.eased) and forms.index(easier.form.id) <= forms.index(harder.form.id)
        if easier.form.id == harder.form.id:
            assert HAND_STAGES.index(easier.hand) < HAND_STAGES.index(harder.hand)
        elif easier.hand is not harder.hand:
            assert harder.hand not in possible(easier.form, of)


@given(plans())
def test_the_planned_rung_is_marked_unless_it_is_ruled_out(case: tuple[Planned, Exercise, Plan, bool]) -> None:
    item, exercise, of, carer = case
    zero = [rung for rung in ladder(item, exercise, of, carer) if rung.eased == 0]
    if admits(exercise.form(item.form), of, item, carer):
        assert [rung.form.id for rung in zero] == [item.form] and zero[0].target == item.target
    else:
        assert zero == []


def admits(form: Form, of: Plan, item: Planned, carer: bool) -> bool:
    """Whether a form is possible at all, said again from the rules of the house."""
    counted = form.measure is Measure.COUNTED
    clock = Clock.NONE if counted else item.clock
    if not counted and clock is Clock.NONE:
        clock = Clock.SCREEN if Clock.SCREEN in EXERCISES[item.exercise].clocks else Clock.CARER
    shut = form.eyes is Eyes.CLOSED and not (of.eyes_closed and carer and (counted or clock in (Clock.CARER, Clock.SOUND)))
    helpless = (form.needs_carer or clock is Clock.CARER) and not carer
    body = (form.needs_free_ankle and of.ankle_blocked) or (form.needs_two_hands and of.one_good_hand)
    return bool(possible(form, of)) and not (shut or helpless or body)


def possible(form: Form, of: Plan) -> list[Hand]:
    return [hand for hand in form.hands if not (hand is Hand.TWO_HANDS and of.one_good_hand)]


def test_harder_is_first_less_hand_and_then_the_next_form() -> None:
    item = planned("together", form="apart", hardest="close", hand=Hand.FINGERTIPS, hand_hardest=Hand.NONE)
    rungs = ladder(item, EXERCISES["together"], plan(item), carer=True)
    assert [(rung.form.id, rung.hand.value, rung.eased) for rung in rungs] == [
        ("apart", "one_hand", 1),
        ("apart", "fingertips", 0),
        ("apart", "hovering", -1),
        ("apart", "none", -2),
        ("close", "none", -3),
    ]


def test_a_blocked_ankle_takes_the_toes_off_the_ladder_and_the_flat_foot_stands_in() -> None:
    item = planned("toes")
    rungs = ladder(item, EXERCISES["toes"], plan(item, ankle_blocked=True), carer=True)
    assert {rung.form.id for rung in rungs} == {"both", "flat"} and all(rung.eased > 0 for rung in rungs)


def test_one_good_hand_never_gets_a_form_of_two() -> None:
    item = planned("toes", form="up_clap")
    of = plan(item, one_good_hand=True)
    assert "up_clap" not in {rung.form.id for rung in ladder(item, EXERCISES["toes"], of, carer=True)}
    both = {rung.form.id for rung in ladder(item, EXERCISES["toes"], replace(of, one_good_hand=False), carer=True)}
    assert "up_clap" in both


def test_an_easier_form_may_be_seated() -> None:
    item = planned("rise")
    rungs = ladder(item, EXERCISES["rise"], plan(item), carer=False)
    assert [stands(rung) for rung in rungs] == [False, True]
