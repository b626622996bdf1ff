"""The therapist prescribes in the chat: few taps, nothing contradictory, nothing lost, each step undone by Back."""

from dataclasses import replace
from datetime import date, time
from typing import Any

import pytest

from companion.core.baseline import Baseline
from companion.core.care import Client, Cover, facts
from companion.core.dialogues import Prescribing
from companion.core.effects import LookUp, Pass, Reply, Subject, Words
from companion.core.events import Entry, Facts, Found, Opened, Opens, Prescribed, Press
from companion.core.observations import PlanPrescribed
from companion.core.person import Part, Person, own
from companion.core.programme import CheckStyle, Clock, Hand, Plan, Practice, Side, Supervision, Template, UsualDose
from tests.core.people import People
from tests.core.practice import CARER, CLIENT, CONTACT, MONDAY, PEOPLE, RULES, THERAPIST, ZONE, full_plan, plan, planned
from tests.core.practice import client as made

ITEMS = (planned("press"), planned("together"), planned("tandem", target=30), planned("toes"))
TEMPLATES = (
    Template("hand_on", ITEMS, Supervision.ALWAYS, CheckStyle.SIGN_BY_SIGN, 20, 60),
    Template("seated", (planned("press"), planned("sit")), Supervision.WHEN_FORM_NEEDS, CheckStyle.ONE_LOOK, 15, 60),
)
RULES_HERE = replace(RULES, templates=TEMPLATES, usual_dose=UsualDose(20, "a published page"))
BASELINE = Baseline("left", "right", "none", "no", "none", "voice")
COVER = "t2"
CHAIR = replace(full_plan().place, support="sturdy_chair")


def clinic(plan_now: Plan | None = None, rules: Any = RULES_HERE, **more: Any) -> People:
    """A therapist's phone, another therapist's, and Ann's care; Ann agreed and has joined unless told otherwise."""
    ann = made(plan_now, **({"baseline": BASELINE} | more))
    phones = [
        Person(THERAPIST, Part.THERAPIST, "Cleo", ZONE, (ann.id,), user_id=1),
        Person(COVER, Part.THERAPIST, "Dina", ZONE, (), user_id=2),
    ]
    return People(phones, [ann], rules)


def opened(it: People, by: str = THERAPIST) -> People:
    """The plan of Ann is opened on that phone, as her care is now."""
    it.tell(by, Opened(it.now, Opens.PLAN, facts(it.clients[CLIENT])))
    return it


def dialogue(it: People, by: str = THERAPIST) -> Prescribing:
    found = it.persons[by].dialogue
    assert isinstance(found, Prescribing), f"no plan is written on {by}"
    return found


def ann(it: People) -> Client:
    return it.clients[CLIENT]


def at(it: People) -> str:
    return dialogue(it).at


def draft(it: People) -> Plan:
    return dialogue(it).draft


def choose(it: People, key: str, **params: str) -> People:
    """Press the button whose label has that key and these parameters (words by their key)."""

    def shown(label: Words) -> dict[str, str]:
        return {name: value.key if isinstance(value, Words) else value for name, value in label.params}

    there = [button for button in it.buttons(THERAPIST) if button.label.key == key]
    found = [button for button in there if shown(button.label).items() >= params.items()]
    assert found, f"no {key} {params}, but {[(one.label.key, shown(one.label)) for one in it.buttons(THERAPIST)]}"
    it.send(THERAPIST, found[0].press)
    return it


def drafted(it: People | None = None) -> People:
    """A draft from the first template, three days a week at nine."""
    it = it or clinic()
    choose(opened(it), "b-plan-template", template="template-hand-on")
    choose(it, "b-plan-mon-wed-fri")
    return choose(it, "plan-time", time="09:00")


def changing() -> People:
    """The plan that holds is opened to be changed."""
    return opened(clinic(plan(*ITEMS)))


def exercise(it: People, number: int) -> People:
    choose(it, "b-plan-change")
    return choose(it, "b-plan-item", number=str(number))


def prescribe(it: People) -> People:
    choose(it, "b-plan-preview")
    return choose(it, "b-plan-prescribe")


# --- from nothing to a plan -----------------------------------------------------------------------------------


def test_a_plan_of_4_exercises_from_a_template_takes_5_taps_of_the_20_there_are() -> None:
    it = prescribe(drafted())
    taps = it.seed // 7
    assert taps == 5
    of = ann(it).plan
    assert of is not None and [one.exercise for one in of.exercises] == ["press", "together", "tandem", "toes"]
    assert of.practice == Practice((0, 2, 4), (time(9),)) and of.version == 1
    assert (of.supervision, of.check, of.minutes) == (Supervision.ALWAYS, CheckStyle.SIGN_BY_SIGN, 20)
    assert it.persons[THERAPIST].dialogue is None
    assert "plan-taken" in it.keys(THERAPIST)


def test_what_was_found_at_the_visit_decides_what_it_bears_on() -> None:
    it = clinic(baseline=replace(BASELINE, orthosis="ankle_blocked", into_place_s=30, support="rail", call_for_help="none"))
    of = draft(choose(opened(it), "b-plan-template-faults", template="template-hand-on"))
    assert of.ankle_blocked and of.into_place_s == 30 and of.place.support == "rail" and not of.can_call_for_help


def test_without_a_baseline_no_first_plan_is_begun_since_safety_has_no_default() -> None:
    it = opened(clinic(baseline=None))
    assert it.keys(THERAPIST) == ["plan-no-baseline"] and it.persons[THERAPIST].dialogue is None


def test_the_permission_to_close_the_eyes_is_off_until_it_is_given() -> None:
    it = drafted()
    assert draft(it).eyes_closed is False
    choose(it, "b-plan-change")
    choose(it, "b-plan-eyes")
    choose(it, "plan-eyes-permitted")
    assert draft(it).eyes_closed and at(it) == "plan"


def test_an_empty_plan_is_filled_from_the_library_warm_up_first_with_all_the_support_there_is() -> None:
    it = opened(clinic())
    choose(it, "b-plan-empty")
    choose(it, "b-plan-every-day")
    choose(it, "plan-time", time="10:00")
    assert "objection-no-warm-up" in objections(it) and "b-plan-preview" not in it.labels(THERAPIST)
    for name in ("ex-tandem", "ex-press"):
        choose(it, "b-plan-change")
        choose(it, "b-plan-add")
        choose(it, "b-plan-add-one", exercise=name)
        choose(it, "b-answer-done")
    assert [one.exercise for one in draft(it).exercises] == ["press", "tandem"]
    added = draft(it).exercises[1]
    assert (added.hand, added.hand_hardest, added.hardest) == (Hand.ONE_HAND, Hand.ONE_HAND, "touching")
    assert objections(it) == []


def test_an_exercise_is_added_in_its_usual_form_or_the_hardest_easier_one_that_can_be() -> None:
    it = opened(clinic(baseline=replace(BASELINE, orthosis="ankle_blocked")))
    choose(it, "b-plan-empty")
    choose(it, "b-plan-every-day")
    choose(it, "plan-time", time="10:00")
    choose(it, "b-plan-change")
    choose(it, "b-plan-add")
    choose(it, "b-plan-add-one", exercise="ex-toes")
    assert draft(it).exercises[0].form == "flat", "up is done on the toes, and the ankle is blocked"


def test_days_are_chosen_one_by_one_and_several_times_are_typed() -> None:
    it = opened(clinic())
    choose(it, "b-plan-template", template="template-seated")
    choose(it, "b-plan-choose-days")
    choose(it, "b-plan-day-on", day="plan-short-day-5")
    choose(it, "b-plan-day-on", day="plan-short-day-1")
    choose(it, "b-plan-day-on", day="plan-short-day-0")
    choose(it, "b-plan-day-off", day="plan-short-day-5")
    choose(it, "b-answer-done")
    it.write(THERAPIST, "16:30, 8.15")
    assert draft(it).practice == Practice((0, 1), (time(8, 15), time(16, 30))) and at(it) == "plan"


@pytest.mark.parametrize("text", ["soon", "25:00", "9", "9:5", "09:00 10:00 11:00 12:00 13:00", "", "9:60"])
def test_what_is_no_time_of_day_is_told_so_and_changes_nothing(text: str) -> None:
    it = opened(clinic())
    choose(it, "b-plan-template", template="template-seated")
    choose(it, "b-plan-every-day")
    before = draft(it)
    it.write(THERAPIST, text)
    assert it.keys(THERAPIST)[0] == "plan-not-read" and draft(it) == before and at(it) == "time"
    choose(it, "plan-time", time="09:00")
    assert at(it) == "plan"


# --- one exercise -----------------------------------------------------------------------------------------------


def test_each_thing_about_an_exercise_is_changed_by_itself() -> None:
    it = exercise(drafted(), 3)
    for leaf, key, params in (
        ("b-plan-x-form", "form-tandem-gap", {}),
        ("b-plan-x-dose", "dose-seconds", {"dose": "45"}),
        ("b-plan-x-weaker", "dose-seconds", {"dose": "20"}),
        ("b-plan-x-hand", "hand-fingertips.short", {}),
        ("b-plan-x-clock", "plan-clock-carer-short", {}),
        ("b-plan-x-hardest", "form-tandem-touching", {}),
        ("b-plan-x-least", "hand-none.short", {}),
    ):
        choose(it, leaf)
        choose(it, key, **params)
        assert at(it) == "x2"
    of = draft(it).exercises[2]
    assert (of.form, of.target, of.weaker_target, of.hand) == ("gap", 45, 20, Hand.FINGERTIPS)
    assert (of.clock, of.hardest, of.hand_hardest) == (Clock.CARER, "touching", Hand.NONE)
    choose(it, "b-plan-x-sides")
    choose(it, "plan-x-sides-weaker")
    assert draft(it).exercises[2].sides == (Side.WEAKER,)
    choose(it, "b-answer-done")
    prescribe(it)
    kept = ann(it).plan
    assert kept is not None and kept.exercises[2] == replace(of, sides=(Side.WEAKER,))


def test_a_dose_is_typed_within_the_sane_doses_of_the_form() -> None:
    it = exercise(drafted(), 3)
    choose(it, "b-plan-x-dose")
    it.write(THERAPIST, "9999")
    assert it.keys(THERAPIST)[0] == "plan-not-read" and draft(it).exercises[2].target == 30
    it.write(THERAPIST, "37")
    assert draft(it).exercises[2].target == 37


def test_nothing_harder_is_open_unless_it_is_opened_and_a_new_form_closes_what_was_open() -> None:
    it = exercise(drafted(), 3)
    choose(it, "b-plan-x-hardest")
    choose(it, "form-tandem-long")
    choose(it, "b-plan-x-form")
    choose(it, "form-tandem-half")
    assert draft(it).exercises[2].hardest == "half"


def test_exercises_are_put_in_order_and_the_warm_up_stays_first() -> None:
    it = exercise(drafted(), 3)
    choose(it, "b-plan-x-earlier")
    assert [one.exercise for one in draft(it).exercises] == ["press", "tandem", "together", "toes"]
    assert at(it) == "x1" and "b-plan-x-earlier" not in it.labels(THERAPIST), "before the warm-up there is no place"
    choose(it, "b-plan-x-later")
    choose(it, "b-plan-take-out")
    assert [one.exercise for one in draft(it).exercises] == ["press", "together", "toes"]


@pytest.mark.parametrize(
    ("setting", "choice", "params", "field", "value"),
    [
        ("b-plan-supervision", "plan-supervision-when-form-needs", {}, "supervision", Supervision.WHEN_FORM_NEEDS),
        ("b-plan-check", "plan-check-one-look", {}, "check", CheckStyle.ONE_LOOK),
        ("b-plan-minutes", "plan-minutes-about", {"minutes": "30"}, "minutes", 30),
        ("b-plan-rest", "dose-seconds", {"dose": "90"}, "rest_s", 90),
        ("b-plan-review", "plan-in-weeks", {"weeks": "2"}, "review_on", date(2026, 11, 16)),
        ("b-plan-ends", "plan-in-weeks", {"weeks": "6"}, "ends_on", date(2026, 12, 14)),
    ],
)
def test_each_setting_is_changed_in_three_taps(
    setting: str, choice: str, params: dict[str, str], field: str, value: object
) -> None:
    it = drafted()
    before = it.seed
    choose(it, "b-plan-change")
    choose(it, setting)
    choose(it, choice, **params)
    assert getattr(draft(it), field) == value and at(it) == "plan" and it.seed - before == 3 * 7


def test_a_date_is_typed_and_one_that_is_past_is_not_taken() -> None:
    it = drafted()
    choose(it, "b-plan-change")
    choose(it, "b-plan-ends")
    it.write(THERAPIST, "2026-11-01")
    assert it.keys(THERAPIST)[0] == "plan-not-read"
    it.write(THERAPIST, "2027-01-31")
    assert draft(it).ends_on == date(2027, 1, 31)


# --- what contradicts itself --------------------------------------------------------------------------------------


def objections(it: People) -> list[str]:
    said = [line for say in it.phone(THERAPIST).said[-1:] for line in say.words if line.key in ("plan-refused", "plan-warned")]
    found = [dict(line.params)["said"] for line in said]
    return [one.key for one in found if isinstance(one, Words)]


def with_plan(*items: Any, **more: Any) -> People:
    """A draft that stands so, opened as the plan that holds."""
    carer = more.pop("carer", True)
    people = {} if carer else {"people": replace(PEOPLE, carer=None), "joined": (CLIENT, THERAPIST)}
    return opened(clinic(plan(*items, **more), baseline=None, **people))


@pytest.mark.parametrize(
    ("code", "it", "mend", "after"),
    [
        ("objection-eyes-closed", lambda: with_plan(planned("press"), planned("dark")), "b-plan-instead", ["press", "dark"]),
        ("objection-blocked-ankle", lambda: with_plan(planned("press"), planned("toes"), ankle_blocked=True), "b-plan-instead",
         ["press", "toes"]),
        ("objection-two-hands", lambda: with_plan(planned("press"), planned("toes", form="up_clap")), "b-plan-instead",
         ["press", "toes"]),
        ("objection-needs-carer", lambda: with_plan(
            planned("press"), planned("toes"), supervision=Supervision.WHEN_FORM_NEEDS, carer=False),
         "b-plan-take-out", ["press"]),
        ("objection-no-carer", lambda: with_plan(planned("press"), carer=False), "b-plan-mend-supervision", ["press"]),
        ("objection-clock-no-carer", lambda: with_plan(
            planned("press"), planned("together", clock=Clock.CARER), supervision=Supervision.WHEN_FORM_NEEDS, carer=False),
         "b-plan-mend-clock", ["press", "together"]),
        ("objection-tips", lambda: with_plan(planned("press"), planned("toes"), place=CHAIR), "b-plan-take-out", ["press"]),
        ("objection-one-hand", lambda: with_plan(planned("press"), planned("tandem", hand=Hand.TWO_HANDS)), "b-plan-mend-hand",
         ["press", "tandem"]),
        ("objection-hand", lambda: with_plan(planned("press"), planned("toes", hand_hardest=Hand.NONE)),
         "b-plan-mend-hand-hardest", ["press", "toes"]),
        ("objection-dose", lambda: with_plan(planned("press"), planned("tandem", target=900), minutes=60), "b-plan-mend-target",
         ["press", "tandem"]),
        ("objection-too-long", lambda: with_plan(planned("press"), planned("tandem"), minutes=2), "b-plan-mend-minutes",
         ["press", "tandem"]),
        ("objection-no-warm-up", lambda: with_plan(planned("together")), "b-plan-mend-order", ["press", "together"]),
        ("objection-no-warm-up", lambda: with_plan(planned("together"), planned("press")), "b-plan-mend-order",
         ["press", "together"]),
        ("objection-warm-up-late", lambda: with_plan(planned("press"), planned("together"), planned("press")),
         "b-plan-take-out", ["press", "together"]),
        ("objection-twice", lambda: with_plan(planned("press"), planned("sit"), planned("sit")), "b-plan-take-out",
         ["press", "sit"]),
        ("objection-no-sides", lambda: with_plan(planned("press"), planned("together", sides=(Side.WEAKER,))),
         "b-plan-mend-sides", ["press", "together"]),
        ("objection-review-after-end", lambda: with_plan(
            planned("press"), review_on=date(2027, 2, 1), ends_on=date(2027, 1, 1)), "b-plan-mend-review-on", ["press"]),
    ],
)  # fmt: skip
def test_a_contradiction_is_refused_with_its_reason_and_met_by_one_tap(code: str, it: Any, mend: str, after: list[str]) -> None:
    phone: People = it()
    assert code in objections(phone)
    assert "b-plan-preview" not in phone.labels(THERAPIST), "what contradicts itself can not be prescribed"
    for _ in range(3):
        if mend in phone.labels(THERAPIST):
            choose(phone, mend)
    assert [one for one in objections(phone) if one != "objection-long-to-begin"] == []
    assert [one.exercise for one in draft(phone).exercises] == after
    assert "b-plan-preview" in phone.labels(THERAPIST)


def test_for_one_good_hand_the_other_form_of_the_claps_is_offered_with_one_tap() -> None:
    it = with_plan(planned("press"), planned("toes", form="up_clap"))
    choose(it, "b-plan-instead", form="form-toes-up")
    assert draft(it).exercises[1].form == "up"


def test_five_sessions_of_40_minutes_are_warned_of_with_the_source_and_can_be_prescribed() -> None:
    it = with_plan(planned("press"), planned("tandem"), minutes=40)
    assert objections(it) == ["objection-long-to-begin"] and "b-plan-preview" in it.labels(THERAPIST)


def test_a_template_says_beforehand_how_much_of_it_is_to_mend_for_this_client() -> None:
    it = opened(clinic(people=replace(PEOPLE, carer=None), baseline=replace(BASELINE, supervision="none")))
    assert it.labels(THERAPIST)[:2] == ["b-plan-template-faults", "b-plan-template"]


# --- copying ------------------------------------------------------------------------------------------------------


def test_exercises_are_copied_from_another_client_and_days_supervision_and_permissions_are_not() -> None:
    it = clinic()
    other = replace(made(full_plan(minutes=40)), id="c2", name="Olu", people=replace(PEOPLE, client="c2"))
    it.clients["c2"] = other
    opened(it)
    choose(it, "b-plan-copy")
    assert it.all(LookUp) == [LookUp("caseload", 0)]
    it.tell(THERAPIST, Found(it.now, "caseload", 0, 2, (Entry(CLIENT, "Ann"), Entry("c2", "Olu"))))
    assert it.labels(THERAPIST).count("plan-client") == 1, "a plan is not copied from itself"
    choose(it, "plan-client", name="Olu")
    of = draft(it)
    assert [one.exercise for one in of.exercises] == [one.exercise for one in full_plan().exercises]
    assert of.minutes == 40 and of.eyes_closed is False and of.practice.weekdays == () and at(it) == "days"


def test_a_plan_of_somebody_elses_client_is_not_handed_out() -> None:
    it = clinic()
    it.clients["c2"] = replace(made(full_plan()), id="c2", people=replace(PEOPLE, client="c2", therapist="t9"))
    opened(it)
    choose(it, "b-plan-copy")
    it.tell(THERAPIST, Found(it.now, "caseload", 0, 2, (Entry("c2", "Olu"),)))
    choose(it, "plan-client", name="Olu")
    assert draft(it).exercises == () and at(it) == "copy"


def test_copying_from_a_client_without_a_plan_says_so() -> None:
    it = clinic()
    it.clients["c2"] = replace(made(None), id="c2", name="Olu", people=replace(PEOPLE, client="c2"))
    opened(it)
    choose(it, "b-plan-copy")
    it.tell(THERAPIST, Found(it.now, "caseload", 0, 9, (Entry("c2", "Olu"),)))
    choose(it, "plan-client", name="Olu")
    assert "plan-copy-none" in it.keys(THERAPIST) and at(it) == "copy"
    choose(it, "b-plan-next-page")
    assert it.all(LookUp) == [LookUp("caseload", 1)]


def test_the_plan_before_can_be_taken_up_again() -> None:
    it = opened(clinic(plan(planned("press")), previous=plan(*ITEMS, practice=Practice((6,), (time(11),)))))
    choose(it, "b-plan-other-start")
    choose(it, "b-plan-as-before")
    assert [one.exercise for one in draft(it).exercises] == ["press", "together", "tandem", "toes"]
    assert draft(it).practice == Practice((6,), (time(11),)) and draft(it).version == 2


# --- to its end -----------------------------------------------------------------------------------------------------


def test_the_preview_is_the_clients_own_set_up_screen_with_its_buttons() -> None:
    it = choose(drafted(), "b-plan-preview")
    lines = [line.key for line in it.phone(THERAPIST).said[-1].words]
    assert lines.count("plan-between") == 4
    assert "form-tandem-touching.setup" in lines and "plan-button" in lines and "ready-first" in lines


def test_a_change_is_prescribed_with_a_reason_of_few_or_in_own_words() -> None:
    it = prescribe(changing())
    assert it.labels(THERAPIST)[:4] == ["plan-reason-steadier", "plan-reason-easier", "plan-reason-asked", "plan-reason-visit"]
    choose(it, "plan-reason-steadier")
    assert [one.reason for one in it.records if isinstance(one, PlanPrescribed)] == ["steadier"]

    it = prescribe(changing())
    it.write(THERAPIST, "  Good  work. We hold longer. ")
    assert ann(it).plan == plan(*ITEMS), "typed words are shown before anything is prescribed"
    choose(it, "b-plan-reason-typed")
    noted = [one for one in it.records if isinstance(one, PlanPrescribed)]
    assert [(one.version, one.by, one.reason) for one in noted] == [(2, THERAPIST, "Good work. We hold longer.")]


def test_back_undoes_the_last_step_and_cancel_asks_once() -> None:
    it = exercise(drafted(), 3)
    choose(it, "b-plan-x-dose")
    choose(it, "dose-seconds", dose="45")
    choose(it, "b-answer-back")
    assert at(it) == "x2.dose" and draft(it).exercises[2].target == 30
    choose(it, "b-answer-back")
    choose(it, "b-answer-back")
    choose(it, "b-answer-back")
    choose(it, "b-answer-cancel")
    choose(it, "b-answer-keep")
    assert at(it) == "plan" and len(draft(it).exercises) == 4
    choose(it, "b-answer-cancel")
    choose(it, "b-answer-drop")
    assert it.persons[THERAPIST].dialogue is None and ann(it).plan is None and "plan-dropped" in it.keys(THERAPIST)


def test_back_goes_on_to_the_first_screen_and_never_out_of_the_draft() -> None:
    it = drafted()
    for _ in range(3):
        choose(it, "b-answer-back")
    assert at(it) == "start" and "b-answer-back" not in it.labels(THERAPIST)


def test_a_second_press_and_an_older_screen_change_nothing_and_get_one_line() -> None:
    it = opened(clinic())
    first = it.buttons(THERAPIST)[0].press
    it.send(THERAPIST, first)
    before = dialogue(it)
    it.send(THERAPIST, first)
    assert dialogue(it) == before and it.effects == [Reply(Words("press-over"))]
    it.send(THERAPIST, Press(own(THERAPIST), before.id, str(before.turn), "99"))
    it.send(THERAPIST, Press(own(THERAPIST), before.id, str(before.turn), "x"))
    assert dialogue(it) == before


def test_prescribe_pressed_twice_prescribes_once() -> None:
    it = drafted()
    choose(it, "b-plan-preview")
    press = next(one.press for one in it.buttons(THERAPIST) if one.label.key == "b-plan-prescribe")
    it.send(THERAPIST, press)
    it.send(THERAPIST, press)
    assert len([one for one in it.records if isinstance(one, PlanPrescribed)]) == 1


def test_typed_words_in_place_of_a_tap_get_one_line_and_the_screen_again() -> None:
    it = drafted()
    before = draft(it)
    it.write(THERAPIST, "make it harder please")
    assert it.keys(THERAPIST)[0] == "plan-only-buttons" and draft(it) == before
    choose(it, "b-plan-preview")


def test_a_draft_that_was_left_is_offered_to_go_on_with() -> None:
    it = drafted()
    before = draft(it)
    opened(it)
    assert at(it) == "resume"
    choose(it, "b-answer-keep")
    assert draft(it) == before and at(it) == "plan"
    opened(it)
    choose(it, "b-plan-anew")
    assert at(it) == "start" and draft(it).exercises == ()


def test_a_draft_for_another_client_is_put_by_and_not_lost() -> None:
    it = drafted()
    before = draft(it)
    other = Facts("c2", "Olu", ZONE, baseline=BASELINE)
    it.tell(THERAPIST, Opened(it.now, Opens.PLAN, other))
    assert dialogue(it).facts.client == "c2"
    opened(it)
    choose(it, "b-answer-keep")
    assert draft(it) == before


def test_a_screen_of_an_exercise_that_the_library_lost_is_the_whole_plan() -> None:
    it = exercise(drafted(), 3)
    it.rules = replace(RULES_HERE, exercises={name: one for name, one in RULES.exercises.items() if name != "tandem"})
    it.write(THERAPIST, "hello")
    assert "plan-title" in it.keys(THERAPIST) and objections(it) == ["objection-unknown-exercise"]
    choose(it, "b-plan-take-out")
    assert objections(it) == []


# --- two therapists at once -----------------------------------------------------------------------------------------


def two_at_once() -> People:
    """Own therapist and cover have the same plan open; the cover prescribes first."""
    cover = Cover(COVER, MONDAY, MONDAY.replace(day=9), begun=True)
    it = opened(clinic(plan(*ITEMS), cover=cover))
    mine = replace(plan(planned("press"), planned("sit")), version=2)
    it.do(Subject("client", CLIENT), Prescribed(it.now, mine, COVER, "visit"))
    return it


def test_the_later_of_two_therapists_is_told_that_the_plan_changed_and_sees_the_new_one() -> None:
    it = prescribe(two_at_once())
    choose(it, "plan-reason-steadier")
    now = ann(it).plan
    assert now is not None and [one.exercise for one in now.exercises] == ["press", "sit"], "the first one holds"
    assert at(it) == "meanwhile" and "plan-meanwhile" in it.keys(THERAPIST)
    assert [one for one in it.records if isinstance(one, PlanPrescribed) and one.by == THERAPIST] == []


def test_the_later_therapist_goes_on_from_the_new_plan_or_with_the_own_draft() -> None:
    it = prescribe(two_at_once())
    choose(it, "plan-reason-steadier")
    choose(it, "b-plan-from-now")
    assert [one.exercise for one in draft(it).exercises] == ["press", "sit"] and draft(it).version == 3
    choose(it, "b-answer-back")
    choose(it, "b-plan-my-draft")
    assert len(draft(it).exercises) == 4 and draft(it).version == 3
    prescribe(it)
    choose(it, "plan-reason-asked")
    now = ann(it).plan
    assert now is not None and now.version == 3 and len(now.exercises) == 4


def test_who_does_not_see_to_the_client_any_more_prescribes_nothing() -> None:
    it = drafted()
    it.clients[CLIENT] = replace(ann(it), people=replace(PEOPLE, therapist="t9"))
    prescribe(it)
    assert ann(it).plan is None and "plan-not-theirs" in it.keys(THERAPIST)
    assert not [one for one in it.all(Pass) if one.to == Subject("person", CONTACT)] and CARER not in it.phones
