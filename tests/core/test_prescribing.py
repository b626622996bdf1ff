"""The therapist prescribes in the chat: few taps, nothing contradictory, nothing lost, each step undone by Back."""

from dataclasses import replace
from datetime import date, time, timedelta

import pytest

from companion.core.care import Cover
from companion.core.effects import Pass, Reply, Subject, Words
from companion.core.events import Facts, Opened, Opens, Prescribed, Press
from companion.core.observations import PlanPrescribed
from companion.core.person import own
from companion.core.programme import CheckStyle, Clock, Hand, Practice, Quiet, Side, Supervision
from tests.core.people import People
from tests.core.practice import CARER, CLIENT, CONTACT, MONDAY, PEOPLE, RULES, THERAPIST, ZONE, plan, planned
from tests.core.prescriber import (
    BASELINE,
    COVER,
    ITEMS,
    RULES_HERE,
    ann,
    at,
    changing,
    choose,
    clinic,
    dialogue,
    draft,
    drafted,
    exercise,
    objections,
    opened,
    prescribe,
)

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


def test_a_time_in_the_quiet_hours_is_noted_with_when_the_reminder_comes() -> None:
    it = opened(clinic(quiet=Quiet(time(21), time(8))))
    choose(it, "b-plan-template", template="template-seated")
    choose(it, "b-plan-every-day")
    it.write(THERAPIST, "07:59 08:00 21:00")
    noted = [dict(line.params) for line in it.phone(THERAPIST).said[-1].words if line.key == "plan-quiet"]
    assert [one["time"] for one in noted] == ["07:59", "21:00"] and noted[0]["end"] == "08:00"
    assert "b-plan-preview" in it.labels(THERAPIST), "a note stands in nobody's way"


def test_a_date_that_has_passed_is_not_taken_into_the_next_version() -> None:
    it = opened(clinic(plan(*ITEMS, review_on=date(2026, 11, 2), ends_on=date(2026, 11, 1))))
    assert (draft(it).review_on, draft(it).ends_on) == (None, None)
    it = opened(clinic(plan(*ITEMS, review_on=date(2026, 11, 3), ends_on=date(2026, 11, 3))))
    assert (draft(it).review_on, draft(it).ends_on) == (date(2026, 11, 3), date(2026, 11, 3))
    it.now += timedelta(days=2)
    it.write(THERAPIST, "still here")
    assert objections(it) == ["objection-ended"], "a draft may lie about for days"
    choose(it, "b-plan-mend-ends-on")
    assert objections(it) == []


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
