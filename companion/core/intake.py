"""The client's care takes in what was found at the visit: kept, recorded, and fitted into the plan that there is."""

from dataclasses import replace

from companion.core.baseline import Baseline
from companion.core.programme import Place, Plan, Supervision

BOTH_HANDS = "either"
BLOCKED = "ankle_blocked"
CALLS = frozenset({"voice", "alarm", "some_way"})
"""How a client can call for help. A phone that has to be tapped is no such way: nobody taps it from the floor."""


def fit(plan: Plan, baseline: Baseline) -> Plan:
    """The plan with everything in it that the baseline decides; its version and what the therapist chose stay.

    Unknown is read on the safe side: on a blood thinner, one good hand.
    """
    place = replace(
        plan.place,
        support=baseline.support,
        footwear=baseline.footwear,
        side=baseline.support_side,
        name=baseline.support_name,
    )
    return replace(
        plan,
        place=place,
        into_place_s=baseline.into_place_s,
        one_good_hand=baseline.tap_hand != BOTH_HANDS,
        ankle_blocked=baseline.orthosis == BLOCKED,
        blood_thinner=baseline.blood_thinner != "no",
        can_call_for_help=baseline.call_for_help in CALLS,
    )


def place_of(baseline: Baseline) -> Place:
    """The client's set-up, for a first plan."""
    return Place(baseline.support, baseline.footwear, side=baseline.support_side, name=baseline.support_name)


def supervision_of(baseline: Baseline) -> Supervision:
    """How the plan supervises: who has nobody there is never sent into a form that needs somebody."""
    return Supervision.ALWAYS if baseline.supervision == Supervision.ALWAYS else Supervision.WHEN_FORM_NEEDS
