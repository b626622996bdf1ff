"""What contradicts itself in a plan is refused with the reason; what is only much is warned of with its source."""

from dataclasses import replace
from datetime import date, time
from typing import Any

import pytest

from companion.core.plan_rules import Severity, judge, least_seconds, possible_forms, refused, usable_clocks
from companion.core.programme import Clock, Hand, Place, Plan, Planned, Practice, Side, Supervision, UsualDose
from tests.core.practice import EXERCISES, RULES, full_plan, plan, planned

SOUND = plan(planned("press"), planned("together"), planned("tandem"), planned("toes"), minutes=20)


def codes(of: Plan, carer: bool = True) -> list[str]:
    return [objection.code for objection in judge(of, RULES, carer)]


def with_(item: Planned, **more: Any) -> Plan:
    return plan(planned("press"), item, **more)


def test_a_sound_plan_is_objected_to_in_nothing() -> None:
    assert codes(SOUND) == []


@pytest.mark.parametrize(
    ("code", "of", "carer"),
    [
        ("eyes_closed", with_(planned("dark")), True),
        ("needs_carer", with_(planned("dark", clock=Clock.SCREEN), eyes_closed=True), False),
        ("needs_carer", with_(planned("dark", clock=Clock.SOUND), eyes_closed=True), False),
        ("sound_short", with_(planned("tandem", clock=Clock.SOUND, weaker_target=4)), True),
        ("blocked_ankle", with_(planned("toes"), ankle_blocked=True), True),
        ("needs_carer", with_(planned("toes", form="flat"), supervision=Supervision.WHEN_FORM_NEEDS), False),
        ("two_hands", with_(planned("toes", form="up_clap")), True),
        ("two_hands", with_(planned("toes", hardest="up_clap")), True),
        ("alone", with_(planned("together"), can_call_for_help=False, supervision=Supervision.WHEN_FORM_NEEDS), False),
        ("one_hand", with_(planned("tandem", hand=Hand.TWO_HANDS)), True),
        ("hand", with_(planned("toes", hand=Hand.NONE)), True),
        ("opens_nothing", with_(planned("tandem", hand=Hand.HOVERING, hand_hardest=Hand.ONE_HAND)), True),
        ("hardest_is_easier", with_(planned("tandem", hardest="half")), True),
        ("dose", with_(planned("tandem", target=601)), True),
        ("dose", with_(planned("tandem", weaker_target=0)), True),
        ("clock", with_(planned("toes", clock=Clock.SCREEN)), True),
        ("clock_no_carer", with_(planned("together", clock=Clock.CARER), supervision=Supervision.WHEN_FORM_NEEDS), False),
        ("no_sides", with_(planned("together", sides=(Side.WEAKER,))), True),
        ("no_sides", with_(planned("together", weaker_target=30)), True),
        ("side_twice", with_(planned("tandem", sides=(Side.WEAKER, Side.WEAKER))), True),
        ("tips", with_(planned("toes", form="both"), place=Place("sturdy_chair", "shoes")), True),
        ("no_carer", SOUND, False),
        ("no_warm_up", plan(planned("together")), True),
        ("no_warm_up", plan(), True),
        ("warm_up_late", plan(planned("press"), planned("together"), planned("press")), True),
        ("twice", plan(planned("press"), planned("together"), planned("together")), True),
        ("unknown_exercise", with_(replace(planned("together"), exercise="gone")), True),
        ("unknown_form", with_(replace(planned("together"), form="gone")), True),
        ("unknown_form", with_(replace(planned("together"), hardest="gone")), True),
        ("too_long", replace(SOUND, minutes=5), True),
        ("no_days", replace(SOUND, practice=Practice((), (time(9),))), True),
        ("no_days", replace(SOUND, practice=Practice((0,), ())), True),
        ("review_after_end", replace(SOUND, review_on=date(2027, 1, 2), ends_on=date(2027, 1, 1)), True),
    ],
)  # fmt: skip
def test_a_contradiction_is_refused_by_name(code: str, of: Plan, carer: bool) -> None:
    found = [objection for objection in judge(of, RULES, carer) if objection.code == code]
    assert found and found[0].severity is Severity.REFUSED
    assert found[0] in refused(judge(of, RULES, carer))


def test_a_chair_is_a_support_for_what_is_done_on_two_feet() -> None:
    assert codes(with_(planned("tandem"), place=Place("sturdy_chair", "shoes"))) == []


def test_for_claps_with_one_good_hand_the_form_of_the_same_stance_is_offered() -> None:
    (found,) = judge(with_(planned("toes", form="up_clap")), RULES, carer=True)
    assert (found.code, found.same) == ("two_hands", "up")


def test_five_sessions_of_40_minutes_are_warned_of_with_the_source_and_not_refused() -> None:
    rules = replace(RULES, usual_dose=UsualDose(20, "a published page"))
    (found,) = judge(replace(SOUND, minutes=40), rules, carer=True)
    assert (found.code, found.severity) == ("long_to_begin", Severity.WARNED)
    assert found.param("times") == "5" and found.param("minutes") == "40" and found.param("source") == "a published page"
    assert refused(judge(replace(SOUND, minutes=40), rules, carer=True)) == ()
    assert judge(replace(SOUND, minutes=20), rules, carer=True) == ()


def test_a_smaller_dose_for_the_weaker_side_counts_in_the_length() -> None:
    same, less = with_(planned("tandem", target=60)), with_(planned("tandem", target=60, weaker_target=30))
    assert least_seconds(same, EXERCISES) - least_seconds(less, EXERCISES) == 30


def test_only_forms_that_this_client_can_have_are_possible() -> None:
    of = plan(ankle_blocked=True)
    assert [form.id for form in possible_forms(EXERCISES["toes"], of, carer=True)] == ["both", "flat"]
    assert possible_forms(EXERCISES["toes"], of, carer=False) == ()


def test_the_carers_clock_is_usable_only_with_a_carer() -> None:
    dark = EXERCISES["dark"]
    assert usable_clocks(dark, dark.forms[0], carer=True) == (Clock.CARER, Clock.SOUND)
    assert usable_clocks(dark, dark.forms[0], carer=False) == (Clock.SOUND,)


def test_a_plan_by_sound_is_fine_also_with_closed_eyes_and_a_carer() -> None:
    assert codes(with_(planned("tandem", clock=Clock.SOUND, target=5))) == []
    assert codes(with_(planned("dark", clock=Clock.SOUND), eyes_closed=True)) == []


def test_what_needs_everything_is_judged_without_raising() -> None:
    assert "too_long" in codes(full_plan(minutes=5)) and codes(full_plan(), carer=False)
