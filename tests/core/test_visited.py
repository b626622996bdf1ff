"""What a visit brings to a client's care: kept, recorded, fitted into the plan; easier at once, never harder."""

from dataclasses import replace
from datetime import time
from typing import Any

import pytest

from companion.core.baseline import About, Baseline
from companion.core.care import Cover, facts
from companion.core.effects import Words
from companion.core.events import BaselineTaken, Event, Press
from companion.core.intake import fit
from companion.core.observations import BaselineNoted, PlanPrescribed
from companion.core.programme import Place, Posture, Quiet, Supervision
from companion.core.steps import Ask, Counted, Timed
from tests.core.home import Home
from tests.core.practice import (
    CARER,
    CLIENT,
    CONTACT,
    MONDAY,
    NINE,
    PEOPLE,
    STRANGER,
    THERAPIST,
    ZONE,
    alone,
    client,
    full_plan,
    planned,
)
from tests.core.practice import plan as plan_of

FOUND = Baseline(
    weaker_side="left",
    tap_hand="right",
    orthosis="none",
    blood_thinner="no",
    falls_last_year="one",
    call_for_help="voice",
)


def taken(by: str = THERAPIST, about: About | None = None, **changes: Any) -> Event:
    return BaselineTaken(MONDAY, by, replace(FOUND, **changes), about)


def home(**more: Any) -> Home:
    """A client with a plan that already fits what was found."""
    return Home(client(fit(full_plan(), FOUND), baseline=FOUND, **more))


@pytest.mark.parametrize(
    ("found", "of_the_plan"),
    [
        ({"tap_hand": "either"}, {"one_good_hand": False}),
        ({"tap_hand": "neither"}, {"one_good_hand": True}),
        ({"tap_hand": "one"}, {"one_good_hand": True}),
        ({"orthosis": "ankle_blocked"}, {"ankle_blocked": True}),
        ({"orthosis": "ankle_free"}, {"ankle_blocked": False}),
        ({"blood_thinner": "yes"}, {"blood_thinner": True}),
        ({"blood_thinner": "unknown"}, {"blood_thinner": True}),
        ({"call_for_help": "alarm"}, {"can_call_for_help": True}),
        ({"call_for_help": "phone_tap"}, {"can_call_for_help": False}),
        ({"call_for_help": "cannot"}, {"can_call_for_help": False}),
        ({"into_place_s": 30}, {"into_place_s": 30}),
        ({"support": "rail", "footwear": "barefoot"}, {"place": Place("rail", "barefoot")}),
        (
            {"support_side": "front", "support_name": "the hall"},
            {"place": Place("worktop", "shoes", True, "front", "the hall")},
        ),
    ],
)
def test_what_was_found_decides_these_of_a_plan_and_unknown_is_read_on_the_safe_side(
    found: dict[str, Any], of_the_plan: dict[str, Any]
) -> None:
    plan = fit(full_plan(), replace(FOUND, **found))
    assert {name: getattr(plan, name) for name in of_the_plan} == of_the_plan


def test_a_plan_that_fits_already_stays_the_same_version() -> None:
    it = home()
    it.do(taken())
    assert it.client.plan is not None and it.client.plan.version == 1 and it.all(BaselineNoted) and not it.all(PlanPrescribed)


def test_a_changed_baseline_makes_a_new_version_at_once_and_the_therapist_is_told() -> None:
    it = Home(client(fit(plan_of(planned("press"), planned("together")), FOUND), baseline=FOUND))
    it.do(taken(into_place_s=30))
    assert it.client.plan is not None and (it.client.plan.version, it.client.plan.into_place_s) == (2, 30)
    assert [one.by for one in it.all(PlanPrescribed)] == [THERAPIST]
    assert it.keys(THERAPIST) == ["baseline-kept", "baseline-plan"]


def test_what_the_plan_now_contradicts_is_told_and_is_not_offered_any_more() -> None:
    it = home()
    it.do(taken(orthosis="ankle_blocked"))
    assert it.keys(THERAPIST)[:3] == ["baseline-kept", "baseline-plan", "baseline-plan-against"]
    said = [dict(line.params)["said"] for say in it.phone(THERAPIST).said for line in say.words if line.key == "plan-refused"]
    assert "objection-blocked-ankle" in [line.key for line in said if isinstance(line, Words)]
    it.start().check()
    steps = it.session.script.steps
    forms = {step.bout.form for step in steps if isinstance(step, Timed | Counted) and step.bout is not None}
    assert not {"up", "up_clap", "up_shut"} & forms and "flat" in forms


def test_a_client_alone_who_can_not_call_by_voice_is_offered_no_standing_practice() -> None:
    it = Home(client(fit(full_plan(supervision=Supervision.WHEN_FORM_NEEDS), FOUND), baseline=FOUND, **alone()))
    it.do(taken(call_for_help="phone_tap", supervision="none"))
    it.until(NINE)
    it.press(CLIENT, "start")
    steps = it.session.script.steps
    postures = {step.bout.posture for step in steps if isinstance(step, Timed | Counted) and step.bout is not None}
    assert postures == {Posture.SEATED}


def test_a_session_under_way_ends_on_the_plan_it_began_with() -> None:
    it = home().start().check()
    script = it.session.script
    it.do(BaselineTaken(it.now, THERAPIST, replace(FOUND, orthosis="ankle_blocked")))
    assert it.session.script == script and it.client.plan is not None and it.client.plan.ankle_blocked


def test_supervision_follows_only_where_the_therapist_answered_it_anew() -> None:
    it = Home(client(fit(full_plan(supervision=Supervision.WHEN_FORM_NEEDS), FOUND), baseline=FOUND))
    it.do(taken(into_place_s=10))
    assert it.client.plan is not None and it.client.plan.supervision is Supervision.WHEN_FORM_NEEDS
    it = Home(client(it.client.plan, baseline=replace(FOUND, supervision="when_form_needs")))
    it.do(taken())
    assert it.client.plan is not None and it.client.plan.supervision is Supervision.ALWAYS


def test_a_discharged_client_is_not_taken_on_again_by_a_baseline() -> None:
    it = home(discharged_at=MONDAY)
    it.do(taken(into_place_s=30))
    assert it.client.discharged_at == MONDAY and not it.all(PlanPrescribed)
    assert it.client.plan is not None and it.client.plan.into_place_s == 30


def test_names_zone_quiet_hours_and_contacts_are_those_of_the_visit_and_the_carer_stays() -> None:
    it = home()
    about = About("Anna", "America/New_York", Quiet(time(21), time(8)), (CARER, "Benny"), ((CARER, "Benny"),))
    it.do(taken(about=about))
    people = it.client.people
    assert (it.client.name, it.client.zone, it.client.quiet) == ("Anna", "America/New_York", about.quiet)
    assert (people.carer, people.contacts, people.name(CARER), people.name(CLIENT)) == (CARER, (CARER,), "Benny", "Anna")
    assert people.name(THERAPIST) == PEOPLE.name(THERAPIST)


def test_a_shared_phone_is_allowed_by_the_clients_own_therapist_and_not_by_who_covers() -> None:
    it = home()
    it.do(taken(shared_phone=True))
    assert it.client.shared_phone and it.heard(CLIENT) == ["shared-now"]
    cover = Cover("t2", MONDAY, MONDAY.replace(day=9), begun=True)
    it = home(cover=cover)
    it.do(taken("t2", shared_phone=True, blood_thinner="yes"))
    assert it.client.baseline is not None and it.client.baseline.blood_thinner == "yes"
    assert not it.client.shared_phone and not it.client.baseline.shared_phone


def test_a_shared_phone_allowed_on_the_page_stands_in_the_next_baseline() -> None:
    it = home(shared_phone=True)
    found = facts(it.client).baseline
    assert found is not None and found.shared_phone


@pytest.mark.parametrize("by", [STRANGER, CLIENT, CARER, CONTACT, "t2"])
def test_only_who_sees_to_the_client_takes_the_baseline(by: str) -> None:
    it = home()
    before = it.client
    it.do(taken(by, About("Eve", ZONE), blood_thinner="yes"))
    assert it.client.baseline == FOUND and it.client.plan == before.plan and it.client.name == before.name


# --- usual deficits -------------------------------------------------------------------------------------------


def test_beside_a_usual_sign_the_one_look_check_says_that_worse_counts() -> None:
    it = home(sessions=9)
    it.do(taken(deficits=("face",)))
    it.start()
    step = it.session.current
    assert isinstance(step, Ask)
    shown = [(line.key, dict(line.params)["sign"]) for line in step.words if line.key in ("sign-row", "usual-row")]
    assert [key for key, _ in shown] == ["sign-row", "usual-row", "sign-row"]


def test_sign_by_sign_a_usual_sign_is_asked_for_worse_and_a_press_still_raises_the_flag() -> None:
    it = home(sessions=0)
    it.do(taken(deficits=("face",)))
    it.start()
    assert "usual-asked" not in it.keys(CLIENT)
    it.press(CLIENT, "same")
    assert it.keys(CLIENT) == ["sign-face", "usual-asked"]
    it.press(CLIENT, "different")
    assert it.held


def test_who_pauses_unwell_is_asked_for_worse_than_usual_too() -> None:
    it = home()
    it.do(taken(deficits=("face",)))
    it.send(CLIENT, Press("c1", "menu", "pause", "unwell"))
    assert "usual-row" in it.keys(CLIENT)
