"""A step is proposed with its evidence and never taken by itself; what outdates a proposal withdraws it."""

import random
from dataclasses import replace
from datetime import timedelta
from functools import cache

import pytest

from companion.core.care import Client, Cover, Past
from companion.core.effects import Pass, Put, Say, Urgency
from companion.core.events import Control, Prescribed, Press
from companion.core.observations import Ending, FallReported, ProposalAnswered, ProposalEnd, Proposed, Quality
from companion.core.person import Part, Person
from companion.core.programme import Direction, Hand, Plan, Practice, Progression
from tests.core.home import Home, home
from tests.core.laws import Laws
from tests.core.people import People
from tests.core.practice import CARER, CLIENT, CONTACT, MONDAY, RULES, THERAPIST, ZONE, plan, planned

DAY = timedelta(days=1)
OTHER = "t2"
CARD = "proposal-c1"


def the_plan(practice: Practice | None = None, **more: object) -> Plan:
    it = plan(planned("press"), planned("tandem", form="half", target=45, **more))
    return replace(it, practice=practice) if practice is not None else it


def practised(it: Home, days: int, *prefer: str) -> Home:
    """So many days of practice, each answered as preferred, or clean and easy."""
    for _ in range(days):
        nine = it.now.replace(hour=9, minute=0, second=0)
        nine += DAY if it.now.hour >= 9 else 0 * DAY
        it.until(nine + (7 - nine.weekday()) * DAY if nine.weekday() > 4 else nine)
        it.press(CLIENT, "start")
        it.check().finish(prefer)
        it.wait(3600)
    return it


@cache
def _proposed() -> Home:
    return practised(home(the_plan()), 3)


def proposed() -> Home:
    """A client who held three days running, with the proposal on the therapist's phone."""
    return _proposed().copy()


def broken() -> Home:
    """A client whose holds broke three days running."""
    return practised(home(the_plan()), 3, "not_quite", "q1", "step")


def cards(it: Home, who: str = THERAPIST) -> list[Say]:
    return [say for say in it.phone(who).said if say.card == CARD]


def choices(it: Home, who: str = THERAPIST) -> list[str]:
    return [button.press.choice for button in it.phone(who).cards[CARD].buttons]


def answered(it: Home) -> list[ProposalEnd]:
    return [one.answer for one in it.all(ProposalAnswered)]


def with_therapists(it: Home) -> People:
    """The same client with the therapists' phones beside, so that what is passed on arrives."""
    persons = [
        Person(who, Part.THERAPIST, who, ZONE, ("c1",), user_id=place) for place, who in enumerate((THERAPIST, OTHER), 1)
    ]
    people = People(persons, [it.client])
    people.now = it.now
    return people


def answer(people: People, choice: str, by: str = THERAPIST) -> Client:
    proposal = people.clients["c1"].proposal
    assert proposal is not None
    people.send(by, Press("c1", proposal.id, "proposal", choice))
    return people.clients["c1"]


# --- proposing ------------------------------------------------------------------------------------------------


def test_after_three_clean_days_a_step_is_proposed_with_the_evidence_and_four_answers() -> None:
    it = proposed()
    (record,) = it.all(Proposed)
    assert record.direction is Direction.UP and record.step == "longer_hold" and record.exercise == "tandem"
    assert [str(day) for day in record.days] == ["2026-11-02", "2026-11-03", "2026-11-04"]
    (say,) = cards(it)
    assert choices(it) == ["next", "stay", "back", "week"]
    keys = [line.key for line in say.words]
    assert keys.count("proposal-day") == 3
    assert {"proposal-evidence-up", "proposal-due", "proposal-now", "proposal-next", "proposal-back"} <= set(keys)
    due = next(dict(line.params) for line in say.words if line.key == "proposal-due")
    assert (due["done"], due["due"]) == ("3", "3")


def test_a_proposal_makes_no_sound_and_waits_behind_everything_else() -> None:
    (say,) = cards(proposed())
    assert say.silent and say.urgency is Urgency.REPORT


def test_nothing_changes_by_itself_however_long_nobody_answers() -> None:
    it = proposed()
    before = it.client.plan
    practised(it, 4)
    assert it.client.plan == before and answered(it) == []
    assert len(it.all(Proposed)) == 1 and len(cards(it)) == 1  # one at a time, said once


@pytest.mark.parametrize("days", [1, 2])
def test_fewer_sessions_propose_nothing(days: int) -> None:
    assert practised(home(the_plan()), days).all(Proposed) == []


def test_hard_effort_proposes_nothing() -> None:
    assert practised(home(the_plan()), 4, "hard").all(Proposed) == []


def test_a_session_made_easier_is_not_clean() -> None:
    it = home(plan(planned("press"), planned("tandem", form="half", hand=Hand.HOVERING)))
    practised(it, 2)
    practised(it, 1, "easier")
    assert [bout.quality for bout in it.bouts if bout.exercise == "tandem"] == [Quality.CLEAN] * 6
    assert it.all(Proposed) == []


def test_a_near_fall_begins_the_count_anew() -> None:
    it = practised(home(the_plan()), 2)
    it.row(CARER, Control.MORE)
    it.press(CARER, "fell")
    it.press(CARER, "saved")
    assert it.all(FallReported) and it.client.runs == ()
    it.press(THERAPIST, "seen")
    it.lift()
    it.until(it.now.replace(hour=0) + DAY)
    practised(it, 2)
    assert it.all(Proposed) == []
    assert len(practised(it, 1).all(Proposed)) == 1


def test_who_practises_less_than_the_rule_wants_gets_no_step_up() -> None:
    missed = tuple(Past(MONDAY.date() - timedelta(days=ago), Ending.NOT_READY, 0, 2) for ago in (13, 12, 11, 10, 7, 6))
    assert practised(home(the_plan(), past=missed), 3).all(Proposed) == []


def test_a_warm_up_is_never_made_harder() -> None:
    it = practised(home(plan(planned("press", form="gentle"))), 4)
    assert len(it.client.runs) == 3 and it.all(Proposed) == []


def test_steps_that_rise_propose_a_step_back_and_no_step_up() -> None:
    it = broken()
    (record,) = it.all(Proposed)
    assert record.direction is Direction.BACK and record.step == ""
    assert "next" not in choices(it) and {"stay", "back", "week"} == set(choices(it))
    assert "proposal-evidence-back" in [line.key for line in cards(it)[0].words]


def test_while_another_therapist_covers_both_get_it() -> None:
    cover = Cover(OTHER, MONDAY, MONDAY + 14 * DAY)
    it = practised(home(the_plan(), cover=cover), 3)
    assert len(cards(it)) == len(cards(it, OTHER)) == 1


# --- the answer -----------------------------------------------------------------------------------------------


def test_next_step_makes_a_new_version_of_the_plan_for_both_sides_with_who_and_why() -> None:
    it = proposed()
    people = with_therapists(it)
    after = answer(people, "next")
    assert after.plan is not None and after.plan.version == 2 and after.proposal is None
    old, new = the_plan().exercises[1], after.plan.exercises[1]
    assert new == replace(old, target=60)
    assert after.plan.exercises[0] == the_plan().exercises[0]
    passed = next(effect.event for effect in people.all(Pass) if isinstance(effect.event, Prescribed))
    assert passed.by == THERAPIST and passed.reason == "steadier"
    assert people.keys(CLIENT)[:2] == ["plan-changed", "plan-reason-steadier"]


def test_a_step_back_closes_the_range_to_what_is_planned() -> None:
    it = practised(home(the_plan(hardest="long", hand_hardest=Hand.NONE)), 3, "not_quite", "q1", "step")
    people = with_therapists(it)
    after = answer(people, "back")
    assert after.plan is not None
    item = after.plan.exercises[1]
    assert (item.form, item.hand, item.hardest, item.hand_hardest) == ("half", Hand.FINGERTIPS, "half", Hand.FINGERTIPS)
    assert "plan-reason-easier" in people.keys(CLIENT)


def test_what_was_practised_under_the_old_dose_says_nothing_about_the_new_one() -> None:
    people = with_therapists(proposed())
    after = answer(people, "next")
    assert [run for run in after.runs if run.exercise == "tandem"] == []
    assert [run for run in after.runs if run.exercise == "press"]


def test_stay_keeps_the_plan_and_asks_again_only_after_as_many_clean_sessions() -> None:
    it = proposed()
    it.press(THERAPIST, "stay")
    assert answered(it) == [ProposalEnd.STAY] and it.client.proposal is None
    assert practised(it, 2).all(Proposed)[1:] == []
    assert len(practised(it, 1).all(Proposed)) == 2


def test_asked_in_a_week_it_is_proposed_again_with_new_evidence() -> None:
    it = proposed()
    it.press(THERAPIST, "week")
    assert answered(it) == [ProposalEnd.LATER] and choices(it) == []
    asked = it.now
    practised(it, 2)
    practised(it, 2)
    assert len(cards(it)) == 2  # the proposal and its answer
    it.until(asked + 7 * DAY)
    assert choices(it) == ["next", "stay", "back", "week"] and cards(it)[-1].put is Put.NEW
    days = [dict(line.params)["day"] for line in cards(it)[-1].words if line.key == "proposal-day"]
    assert days == ["2026-11-06", "2026-11-09", "2026-11-10"]


def test_asked_in_a_week_it_is_withdrawn_if_it_no_longer_holds() -> None:
    it = proposed()
    it.press(THERAPIST, "week")
    practised(it, 1, "not_quite", "q1", "step")
    assert answered(it) == [ProposalEnd.LATER, ProposalEnd.NO_LONGER_MET] and it.client.proposal is None
    assert cards(it)[-1].put is Put.IN_PLACE


def test_what_the_new_plan_would_contradict_is_told_and_not_done() -> None:
    it = proposed()
    short = replace(it.client.plan or the_plan(), minutes=1)
    it.client = replace(it.client, plan=short)
    it.press(THERAPIST, "next")
    assert it.replies[-1] is not None and it.replies[-1].key == "proposal-refused"
    assert it.client.plan == short and it.client.proposal is not None and answered(it) == []


def test_where_the_library_has_no_harder_and_no_easier_form_that_is_said_and_nothing_is_done() -> None:
    it = proposed()
    tandem = it.rules.exercises["tandem"]
    only = replace(tandem.form("half"), target=45, hands=(Hand.HOVERING,))
    it.rules = replace(it.rules, exercises={**it.rules.exercises, "tandem": replace(tandem, forms=(only,), usual="half")})
    it.laws = Laws(it.rules)
    was = it.client
    for choice, line in (("next", "proposal-no-harder"), ("back", "proposal-no-easier")):
        it.send(THERAPIST, Press("c1", was.proposal.id if was.proposal else "", "proposal", choice))
        assert it.client == was and it.replies[-1] is not None and it.replies[-1].key == line


def test_an_exercise_at_the_top_of_the_library_is_not_proposed() -> None:
    top = plan(planned("press"), planned("tandem", form="long", target=90, hand=Hand.NONE))
    it = practised(home(top), 4)
    assert [run.clean for run in it.client.runs if run.exercise == "tandem"] == [2, 2, 2] and it.all(Proposed) == []


# --- withdrawn ------------------------------------------------------------------------------------------------


def test_a_red_flag_withdraws_the_proposal() -> None:
    it = proposed()
    it.row(CLIENT, Control.SOMETHING_WRONG)
    assert answered(it) == [ProposalEnd.FLAG] and it.client.proposal is None and choices(it) == []


def test_another_plan_withdraws_the_proposal_and_its_old_button_changes_nothing() -> None:
    it = proposed()
    press = it.phone(THERAPIST).cards[CARD].buttons[0].press
    new = replace(the_plan(), version=2)
    it.do(Prescribed(it.now, new, THERAPIST))
    assert answered(it) == [ProposalEnd.PLAN_CHANGED] and choices(it) == []
    it.send(THERAPIST, press)
    assert it.replies[-1] is not None and it.replies[-1].key == "proposal-over"
    assert it.client.plan == new


def test_another_therapist_or_a_discharge_withdraws_the_proposal() -> None:
    for end, changes in (
        (ProposalEnd.THERAPIST_CHANGED, {"people": replace(proposed().client.people, therapist=OTHER)}),
        (ProposalEnd.DISCHARGED, {"discharged_at": MONDAY}),
    ):
        it = proposed()
        it.client = replace(it.client, **changes)
        it.laws = None
        it.row(CLIENT, Control.MORE)
        assert answered(it) == [end] and it.client.proposal is None
        assert choices(it) == []


def test_who_sees_to_the_client_no_more_hears_nothing_of_the_answer() -> None:
    it = practised(home(the_plan(), cover=Cover(OTHER, MONDAY, MONDAY + 3 * DAY)), 3)
    was = cards(it, OTHER)
    it.now = MONDAY + 5 * DAY
    it.press(THERAPIST, "stay")
    assert cards(it, OTHER) == was and choices(it, OTHER) == []


@pytest.mark.parametrize("choice", ["next", "stay", "back", "week"])
def test_an_answer_after_the_content_lost_the_exercise_changes_nothing(choice: str) -> None:
    it = proposed()
    it.rules = replace(it.rules, exercises={"press": it.rules.exercises["press"]})
    was = it.client.plan
    it.press(THERAPIST, choice)
    assert it.client.plan == was and answered(it) == [ProposalEnd.PLAN_CHANGED]
    assert it.replies[-1] is not None and it.replies[-1].key == "proposal-over"


def test_a_session_that_is_not_clean_withdraws_a_proposal_that_still_waits() -> None:
    it = practised(proposed(), 1, "not_quite", "q1", "step")
    assert answered(it) == [ProposalEnd.NO_LONGER_MET]


# --- who may answer -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("by", [CLIENT, CARER, CONTACT, OTHER, "nobody"])
def test_nobody_else_can_answer(by: str) -> None:
    it = proposed()
    was = it.client
    for choice in ("next", "stay", "back", "week"):
        it.send(by, Press("c1", was.proposal.id if was.proposal else "", "proposal", choice))
        assert it.client == was and it.replies[-1] is not None and it.replies[-1].key == "press-not-yours"


@pytest.mark.parametrize("choice", ["next", "stay", "back", "week"])
def test_the_first_of_two_therapists_counts_and_the_other_gets_one_line(choice: str) -> None:
    it = practised(home(the_plan(), cover=Cover(OTHER, MONDAY, MONDAY + 14 * DAY)), 3)
    press = next(button.press for button in it.phone(OTHER).cards[CARD].buttons if button.press.choice == choice)
    it.press(THERAPIST, choice)
    was = it.client
    assert choices(it, OTHER) == []
    it.send(OTHER, press)
    assert it.client == was and it.replies[-1] is not None and it.replies[-1].key == "proposal-over"


def test_a_choice_that_is_none_changes_nothing() -> None:
    it = proposed()
    was = it.client
    it.send(THERAPIST, Press("c1", was.proposal.id if was.proposal else "", "proposal", "sideways"))
    assert it.client == was and it.replies[-1] is not None and it.replies[-1].key == "press-stale"


# --- any life -------------------------------------------------------------------------------------------------

SOON = replace(RULES, progression=Progression(sessions_running=1, back_sessions=1, adherent_above_percent=0, ask_again_days=2))


def lived(seed: int) -> Home:
    """A month in which a step is proposed after any session, and therapists and others press what they like."""
    chance = random.Random(seed)
    it = home(the_plan(), SOON, cover=Cover(OTHER, MONDAY, MONDAY + 9 * DAY))
    for _ in range(20):
        practised(it, 1, *chance.choice(((), ("hard",), ("easier",), ("not_quite", "q2", "step"), ("unwell",))))
        if it.held:
            it.press(THERAPIST, "seen")
            it.lift()
        for _ in range(chance.randrange(3)):
            any_answer(it, chance)
    return it


def any_answer(it: Home, chance: random.Random) -> None:
    """Some proposal is answered, by whom it is for or by somebody else; what that passes on arrives."""
    proposal = it.client.proposal
    scope = proposal.id if proposal is not None else "p1"
    by, choice = chance.choice((THERAPIST, THERAPIST, OTHER, CARER)), chance.choice(("next", "stay", "back", "week"))
    it.send(by, Press("c1", scope, "proposal", choice))
    for passed in [effect.event for effect in it.last if isinstance(effect, Pass)]:
        assert isinstance(passed, Prescribed)
        it.do(passed)


def test_in_any_month_of_proposals_the_laws_hold_and_every_answer_is_given() -> None:
    seen: set[ProposalEnd] = set()
    for seed in range(12):
        seen.update(answered(lived(seed)))
    never = {ProposalEnd.THERAPIST_CHANGED, ProposalEnd.DISCHARGED, ProposalEnd.PLAN_CHANGED}
    assert seen == set(ProposalEnd) - never
