"""A session as data: what a plan becomes, and that every form of every exercise can be practised to the closing."""

import pytest

from companion.core.how import How
from companion.core.observations import CarerSeen, Ending
from companion.core.programme import CheckStyle, Clock, Hand, Plan, Planned, Side, Supervision
from companion.core.script import compile_session
from companion.core.steps import Ask, Gate, Label, Timed
from tests.core.everywhere import full, waiting_ids
from tests.core.home import home
from tests.core.laws import standing_specs
from tests.core.practice import CARER, CLIENT, EXERCISES, alone, full_plan, plan, planned

FORMS = [(exercise.id, form.id) for exercise in EXERCISES.values() for form in exercise.forms]


def any_body(*items: Planned) -> Plan:
    """A plan that rules no form out."""
    return plan(*items, eyes_closed=True, one_good_hand=False)


@pytest.mark.parametrize(("exercise", "form"), FORMS)
def test_each_exercise_in_each_form_is_rehearsed_to_its_closing(exercise: str, form: str) -> None:
    item = planned(exercise, form=form)
    it = home(any_body(planned("press"), item) if exercise != "press" else any_body(item)).start().check().finish()
    done = [bout for bout in it.bouts if bout.exercise == exercise]
    assert done and {bout.form for bout in done} == {form} and {bout.eased for bout in done} == {0}
    assert it.ended[0].ending is Ending.DONE and "closing-all" in it.heard(CLIENT)


@pytest.mark.parametrize(("exercise", "form"), FORMS)
def test_each_bout_that_is_not_clean_is_told_to_its_closing_too(exercise: str, form: str) -> None:
    item = planned(exercise, form=form)
    it = home(any_body(item)).start().check()
    it.finish(prefer=("not_quite", "q2", "step", "fewer", "foot_down"))
    assert it.over and it.ended[0].ending is Ending.DONE
    timed = [bout for bout in it.bouts if bout.practised_s is not None]
    assert all(bout.first_break is not None and bout.broke_by is not None for bout in timed)


def test_every_step_at_which_a_session_can_wait_is_reached() -> None:
    """But for two kinds that stand in the script for nothing: a seated count has no set-up to choose an easier one at, and
    nobody can tap on a screen's clock."""
    script = full()["b1.1.count"].session.script
    screens = {step.id.rpartition(".")[0] for step in script.steps if isinstance(step, Timed) and step.tap is None}
    assert waiting_ids(script) - set(full()) == {"b1.0.count"} | {f"{name}.known" for name in screens if name.startswith("b")}


def test_every_jump_of_a_script_lands() -> None:
    for of in (full_plan(), full_plan(check=CheckStyle.SIGN_BY_SIGN)):
        session = home(of).start().session
        names = [step.name for step in session.script.steps if isinstance(step, Label)]
        assert len(names) == len(set(names))
        targets = [step.skip for step in session.script.steps if isinstance(step, Label)]
        for step in session.script.steps:
            if isinstance(step, Gate):
                targets += [step.otherwise, step.not_there.go, step.different.go]
            elif isinstance(step, Timed):
                targets.append(step.lost)
            elif isinstance(step, Ask):
                targets += [step.otherwise, step.late, *(goes for one in step.choices for goes in (one.go, one.go_tapped))]
        assert {target for target in targets if target is not None} <= set(names)


def test_warm_up_comes_first_wherever_the_plan_names_it() -> None:
    it = home(plan(planned("together"), planned("press"))).start().check()
    assert it.session.script.bouts[0] == "press:both"


def test_a_plan_without_a_warm_up_is_practised_all_the_same() -> None:
    it = home(plan(planned("together"))).start().check().finish()
    assert it.ended[0].ending is Ending.DONE


def test_the_stronger_leg_takes_the_weight_first() -> None:
    it = home(full_plan()).start()
    bouts = it.session.script.bouts
    assert bouts[2:4] == ("tandem:weaker", "tandem:stronger") and bouts[5:7] == ("toes:stronger", "toes:weaker")


def test_which_was_steadier_is_asked_only_after_both_sides() -> None:
    one = home(plan(planned("tandem", sides=(Side.WEAKER,)))).start().check().finish()
    both = home(plan(planned("tandem"))).start().check().finish()
    assert "ask-steadier-side" not in one.heard(CLIENT) and "ask-steadier-side" in both.heard(CLIENT)


def test_easier_is_offered_at_every_set_up_down_to_the_easiest_form() -> None:
    it = home(full_plan()).start().check().reach("b3.4.set")
    while "easier" in [button.press.choice for button in it.phone(CLIENT).buttons()]:
        it.press(CLIENT, "easier")
    assert it.at == "b3.0.set"
    it.reach("b4.4.set")
    assert (it.bouts[-1].form, it.bouts[-1].hand, it.bouts[-1].eased) == ("half", Hand.ONE_HAND, 4)


def test_harder_is_offered_only_inside_the_range_that_the_plan_opens() -> None:
    shut = home(plan(planned("together"))).start().check()
    assert "harder" not in [button.press.choice for button in shut.phone(CLIENT).buttons()]
    opened = home(plan(planned("together", hand_hardest=Hand.NONE))).start().check()
    opened.press(CLIENT, "harder")
    assert "harder" not in [button.press.choice for button in opened.phone(CLIENT).buttons()]
    opened.finish()
    assert (opened.bouts[0].hand, opened.bouts[0].eased) == (Hand.NONE, -1)


def test_who_made_it_easier_may_go_back_to_the_plan() -> None:
    it = home(full_plan()).start().check().reach("b3.4.set")
    it.press(CLIENT, "easier")
    it.press(CLIENT, "easier")
    it.press(CLIENT, "as_planned")
    assert it.at == "b3.4.set"


# --- who must be there --------------------------------------------------------------------------------------------


def gated(of: Plan) -> bool:
    it = home(of).start()
    return any(isinstance(step, Gate) for step in it.session.script.steps)


def test_a_carer_is_asked_for_whenever_the_plan_or_a_form_of_it_needs_one() -> None:
    when = Supervision.WHEN_FORM_NEEDS
    assert gated(plan(planned("press")))
    assert not gated(plan(planned("press"), planned("together"), supervision=when))
    assert gated(plan(planned("together", clock=Clock.CARER), supervision=when))
    assert gated(plan(planned("toes"), supervision=when))
    assert gated(plan(planned("tandem", form="long"), supervision=when))


def test_who_can_not_call_for_help_never_stands_without_a_carer_shown_to_be_there() -> None:
    """A carer's phone in the chat is not a carer in the room."""
    of = plan(planned("press"), planned("together"), supervision=Supervision.WHEN_FORM_NEEDS, can_call_for_help=False)
    assert gated(of)
    it = home(of, **alone()).start().check().finish()
    assert [bout.exercise for bout in it.bouts] == ["press"]


def test_a_harder_form_that_needs_a_carer_is_not_offered_where_no_carer_is_shown_to_be_there() -> None:
    of = plan(planned("tandem", hardest="long"), supervision=Supervision.WHEN_FORM_NEEDS)
    it = home(of).start()
    assert "long" not in {spec.form for spec in standing_specs(it.session)} or gated(of)


def test_without_a_carer_a_plan_on_the_carers_clock_leaves_that_exercise_out() -> None:
    of = plan(planned("press"), planned("together", clock=Clock.CARER), supervision=Supervision.WHEN_FORM_NEEDS)
    it = home(of, **alone()).start().check().finish()
    assert [bout.exercise for bout in it.bouts] == ["press"]


def test_a_client_without_a_carer_whose_plan_always_wants_one_gets_seated_exercises_only() -> None:
    it = home(full_plan(), **alone()).start().check().finish()
    assert {bout.exercise for bout in it.bouts} == {"press", "rise", "sit"} and it.ended[0].carer is CarerSeen.ABSENT
    assert {bout.form for bout in it.bouts if bout.exercise == "rise"} == {"lean"}


def test_a_plan_of_standing_exercises_without_a_carer_is_refused_kindly() -> None:
    it = home(plan(planned("together")), **alone()).start()
    assert it.over and it.keys(CLIENT) == ["needs-helper"]


def test_a_client_who_may_practise_alone_needs_no_carer() -> None:
    it = home(plan(planned("press"), planned("together"), supervision=Supervision.WHEN_FORM_NEEDS), **alone())
    it.start().check().finish()
    assert it.ended[0].ending is Ending.DONE and CARER not in it.phones


# --- eyes closed --------------------------------------------------------------------------------------------------


def test_closed_eyes_need_the_permission_or_the_open_form_stands_in() -> None:
    without = home(full_plan(eyes_closed=False)).start().check().finish()
    assert [bout.form for bout in without.bouts if bout.exercise == "dark"] == ["open"]
    assert [bout.eased for bout in without.bouts if bout.exercise == "dark"] == [1]
    allowed = home(full_plan()).start().check().finish()
    assert [bout.form for bout in allowed.bouts if bout.exercise == "dark"] == ["shut"]


def test_a_script_without_anything_left_has_no_bouts() -> None:
    it = home(full_plan()).start()
    assert it.client.plan is not None
    how = How(
        "s9",
        "c1",
        "Ann",
        CLIENT,
        CARER,
        "112",
        False,
        it.rules.signs,
        it.rules.patience,
        frozenset(it.session.script.bouts),
    )
    assert compile_session(it.client.plan, EXERCISES, how).bouts == ()
