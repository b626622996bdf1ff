"""What contradicts itself is refused on the screen with its reason, and met by one tap; what is copied from another plan."""

from dataclasses import replace
from datetime import date, time
from typing import Any

import pytest

from companion.core.effects import LookUp
from companion.core.events import Entry, Found
from companion.core.programme import Clock, Hand, Practice, Side, Supervision
from tests.core.people import People
from tests.core.practice import CLIENT, PEOPLE, THERAPIST, full_plan, plan, planned
from tests.core.practice import client as made
from tests.core.prescriber import (
    BASELINE,
    CHAIR,
    ITEMS,
    at,
    choose,
    clinic,
    draft,
    objections,
    opened,
    with_plan,
)

# --- what contradicts itself --------------------------------------------------------------------------------------


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
