"""With the real content: from nothing to a plan of 4 exercises from a template in at most 40 taps of the therapist."""

from companion.core.effects import Invite
from companion.core.events import Joined
from tests.content.at_the_visit import MOST_TAPS, T, Visit, enrolled, prescribe


def test_from_nothing_to_a_plan_of_4_exercises_takes_at_most_40_taps() -> None:
    it = enrolled(Visit())
    baseline = it.taps
    assert [one.whom for one in it.all(Invite)] == ["t1.1", "t1.1.k"]
    it.tap("b-enrol-prescribe")
    prescribe(it)
    plan = it.clients["t1.1"].plan
    assert plan is not None and len(plan.exercises) >= 4 and plan.practice.weekdays
    assert plan.one_good_hand and not plan.ankle_blocked and plan.can_call_for_help
    assert baseline <= 20 and it.taps <= MOST_TAPS


def test_who_was_enrolled_in_the_chat_is_a_client_with_a_baseline_whose_phones_can_join() -> None:
    it = enrolled(Visit())
    made = it.clients["t1.1"]
    assert made.baseline is not None and made.baseline.deficits == ("face", "arm") and made.plan is None
    assert (made.people.therapist, made.people.carer, made.people.name("t1.1.k")) == (T, "t1.1.k", "Ben")
    it.tell("t1.1", Joined(it.now, "t1.1"))
    assert "t1.1" in it.clients["t1.1"].joined and it.keys("t1.1")[0] == "hello"
