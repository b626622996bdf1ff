"""A plan reaches client and carer in words with the reason, at the right moment; its last day ends it kindly."""

from dataclasses import replace
from datetime import date, datetime, time, timedelta
from typing import Any

import pytest

from companion.core.care import Pause
from companion.core.effects import Pass, Say, TakeBack
from companion.core.events import Consented, Control, Joined, Opened, Prescribed
from companion.core.observations import PlanPrescribed
from companion.core.plan_news import for_client
from companion.core.programme import CheckStyle, Clock, Hand, Plan, Planned, Practice, Quiet, Supervision
from companion.core.starting import start_session
from companion.core.turn import Turn
from tests.core.home import Home, home
from tests.core.practice import CARER, CLIENT, EXERCISES, NINE, RULES, STRANGER, THERAPIST, plan, planned

OLD = plan(planned("press"), planned("together"), planned("tandem"))
TITLE = ["plan-changed", "plan-reason-steadier"]


def newer(of: Plan = OLD, **more: Any) -> Plan:
    return replace(of, version=of.version + 1, **more)


def prescribed(it: Home, new: Plan, reason: str = "steadier", by: str | None = THERAPIST) -> Home:
    it.do(Prescribed(it.now, new, by, reason))
    return it


def messages(it: Home, to: str) -> list[list[str]]:
    """What the last event said to somebody, message by message."""
    return [[line.key for line in say.words] for say in it.last if isinstance(say, Say) and say.to == to]


def changed(*items: Planned, **more: Any) -> Home:
    """Ann, idle, whose plan was changed to these exercises."""
    return prescribed(home(OLD), newer(plan(*items), **more))


# --- when they are told ---------------------------------------------------------------------------------------------


def test_a_change_is_told_at_once_to_who_is_idle_one_idea_a_message_with_the_reason_first() -> None:
    it = changed(planned("press"), planned("together", target=45), planned("tandem", hand=Hand.FINGERTIPS))
    assert messages(it, CLIENT) == [TITLE, ["plan-hold"], ["plan-new-hand"]]
    assert messages(it, CARER) == [["plan-changed-carer", "plan-screens-tell"]]
    assert "plan-told-now" in it.keys(THERAPIST)
    sounds = [say.silent for say in it.last if isinstance(say, Say) and say.to == CLIENT]
    assert sounds == [False, True, True], "one sound for one piece of news"


def test_a_session_under_way_ends_on_the_old_plan_and_the_change_is_said_after_the_closing() -> None:
    it = home(OLD).start().check().reach(".hold")
    heard = len(it.phone(CLIENT).said)
    prescribed(it, newer(plan(planned("press"))))
    assert len(it.phone(CLIENT).said) == heard and "plan-told-session" in it.keys(THERAPIST)
    it.finish()
    assert [bout.exercise for bout in it.bouts] == ["press", "together", "tandem", "tandem"]
    said = messages(it, CLIENT)
    assert said[0][0].startswith("closing") and said[1] == TITLE and said[-1] == ["plan-no-more"]


def test_under_a_red_flag_a_plan_is_taken_and_waits_until_the_flag_is_lifted() -> None:
    it = home(OLD)
    it.row(CLIENT, Control.SOMETHING_WRONG)
    prescribed(it, newer(minutes=15))
    assert it.held and it.client.plan is not None and it.client.plan.version == 2
    assert "plan-told-lifted" in it.keys(THERAPIST) and messages(it, CLIENT) == []
    it.lift()
    assert "plan-changed" in it.heard(CLIENT) and "plan-minutes" in it.heard(CLIENT)


def test_on_a_pause_a_plan_is_taken_and_waits_until_the_client_is_back() -> None:
    pause = Pause("holiday", NINE, (NINE + timedelta(days=3)).date())
    it = prescribed(home(OLD, pause=pause), newer(minutes=15))
    assert "plan-told-back" in it.keys(THERAPIST) and messages(it, CLIENT) == []
    it.until(NINE + timedelta(days=3, hours=1))
    assert "plan-changed" in it.heard(CLIENT)


def test_a_first_plan_is_told_once_the_client_has_joined_and_agreed() -> None:
    it = home(None, consent=None, joined=(THERAPIST,))
    prescribed(it, plan(planned("press"), planned("together")), reason="")
    assert "plan-told-joined" in it.keys(THERAPIST) and messages(it, CLIENT) == []
    it.do(Joined(it.now, CLIENT))
    assert "plan-ready" not in it.heard(CLIENT)
    it.do(Consented(it.now, CLIENT, RULES.consent.version))
    assert messages(it, CLIENT)[-1] == ["plan-ready", "plan-days", "plan-times"]


def test_two_changes_before_either_is_told_are_told_as_one_against_what_the_client_knows() -> None:
    it = home(OLD)
    it.row(CLIENT, Control.SOMETHING_WRONG)
    prescribed(it, newer(plan(planned("press"), planned("together"))))
    prescribed(it, replace(OLD, version=3, minutes=15), "asked")
    it.lift()
    told = it.heard(CLIENT)
    assert told.count("plan-changed") == 1 and "plan-reason-asked" in told and "plan-no-more" not in told


def test_a_plan_that_came_in_a_file_is_told_without_a_reason_and_a_first_one_not_at_all() -> None:
    it = prescribed(home(None), OLD, "", by=None)
    assert messages(it, CLIENT) == []
    prescribed(it, newer(minutes=15), "", by=None)
    assert messages(it, CLIENT) == [["plan-changed"], ["plan-minutes"]]


def test_what_was_not_sent_yet_of_an_older_change_is_taken_back() -> None:
    it = changed(planned("press"))
    prescribed(it, replace(OLD, version=3))
    assert TakeBack("plan") in it.last


# --- what is written down, and what is refused ----------------------------------------------------------------------


def test_who_prescribed_which_version_and_why_is_recorded() -> None:
    it = changed(planned("press"))
    assert it.all(PlanPrescribed) == [PlanPrescribed(it.now, 2, THERAPIST, "steadier", it.client.plan)]
    assert it.client.previous == OLD


@pytest.mark.parametrize(
    "new",
    [
        replace(OLD, version=1),
        replace(OLD, version=3),
        newer(plan(planned("press"), planned("dark"))),
        newer(plan(planned("together"))),
    ],
)
def test_an_outdated_plan_or_one_that_contradicts_itself_goes_back_to_the_therapist(new: Plan) -> None:
    it = prescribed(home(OLD), new)
    assert it.client.plan == OLD and messages(it, CLIENT) == []
    (back,) = [effect for effect in it.last if isinstance(effect, Pass)]
    assert back.to.id == THERAPIST and isinstance(back.event, Opened)
    assert back.event.facts.meant == new and back.event.facts.plan == OLD


def test_a_plan_from_somebody_who_does_not_see_to_the_client_changes_nothing() -> None:
    it = prescribed(home(OLD), newer(minutes=15), by=STRANGER)
    assert it.client.plan == OLD and it.keys(STRANGER) == ["plan-not-theirs"] and it.all(PlanPrescribed) == []


def test_a_new_plan_opens_the_care_of_a_discharged_client_again() -> None:
    it = prescribed(home(OLD, discharged_at=NINE - timedelta(days=9)), newer(minutes=15))
    assert it.client.discharged_at is None


# --- what is new ----------------------------------------------------------------------------------------------------


def ideas(before: Plan, now: Plan) -> list[str]:
    return [line.key for lines in for_client(before, now, "", "Cleo", EXERCISES)[1:] for line in lines]


@pytest.mark.parametrize(
    ("now", "key"),
    [
        (newer(practice=Practice(tuple(range(7)), (time(9),))), "plan-every-day"),
        (newer(practice=Practice((1,), (time(16),))), "plan-days"),
        (newer(plan(*OLD.exercises, planned("rise"))), "plan-new-exercise"),
        (newer(plan(*OLD.exercises[:2])), "plan-no-more"),
        (newer(plan(*OLD.exercises[:2], planned("tandem", form="gap"))), "plan-new-form"),
        (newer(plan(*OLD.exercises[:2], planned("tandem", weaker_target=30))), "plan-hold-sides"),
        (newer(plan(planned("press", target=8), *OLD.exercises[1:])), "plan-count"),
        (newer(plan(*OLD.exercises[:2], planned("tandem", clock=Clock.CARER))), "plan-clock-carer"),
        (newer(plan(*OLD.exercises[:2], planned("tandem", clock=Clock.SOUND))), "plan-clock-sound"),
        (newer(check=CheckStyle.SIGN_BY_SIGN), "plan-each-sign"),
        (newer(place=replace(OLD.place, support="rail")), "plan-place"),
    ],
)
def test_each_thing_that_the_client_will_notice_is_said(now: Plan, key: str) -> None:
    assert ideas(OLD, now)[0] == key and len(for_client(OLD, now, "", "Cleo", EXERCISES)) == 2


def test_more_supervision_is_said_and_less_is_not() -> None:
    some = replace(OLD, supervision=Supervision.WHEN_FORM_NEEDS)
    assert ideas(some, newer()) == ["plan-helper-always"] and ideas(OLD, newer(some)) == []


def test_what_only_the_therapist_sees_is_no_news() -> None:
    open_now = plan(*OLD.exercises[:2], planned("tandem", hand_hardest=Hand.NONE, hardest="long"))
    assert ideas(OLD, newer(open_now, review_on=date(2027, 1, 1), rest_s=90)) == []


def test_more_than_three_new_things_are_not_listed_but_left_to_the_screens() -> None:
    much = newer(plan(planned("press"), planned("rise"), planned("sit"), planned("toes")))
    assert ideas(OLD, much) == ["plan-much-new", "plan-screens-tell"]


def test_the_carer_hears_of_a_clock_that_is_theirs_now() -> None:
    it = changed(planned("press"), planned("together", clock=Clock.CARER))
    assert messages(it, CARER) == [["plan-changed-carer", "plan-carer-clock", "plan-screens-tell"]]


# --- its last day ---------------------------------------------------------------------------------------------------

LAST = NINE.date() + timedelta(days=1)
DAY_AFTER = datetime.combine(LAST + timedelta(days=1), time(9), NINE.tzinfo)


def ending(**more: Any) -> Home:
    return home(replace(OLD, ends_on=LAST), **more)


def test_after_its_last_day_nobody_is_reminded_and_client_carer_and_therapist_are_told_once() -> None:
    it = ending()
    it.until(DAY_AFTER - timedelta(seconds=1))
    reminders = it.heard(CLIENT).count("reminder")
    assert reminders == 2 and "plan-over" not in it.heard(CLIENT)
    it.until(DAY_AFTER + timedelta(days=30))
    assert it.heard(CLIENT).count("reminder") == 2
    assert it.heard(CLIENT).count("plan-over") == it.heard(CARER).count("plan-over-carer") == 1
    assert it.heard(THERAPIST).count("plan-ended") == 1


def test_the_end_of_a_plan_is_told_out_of_the_quiet_hours() -> None:
    it = ending(quiet=Quiet(time(20), time(10)))
    it.until(DAY_AFTER + timedelta(minutes=59))
    assert "plan-over" not in it.heard(CLIENT)
    it.until(DAY_AFTER + timedelta(minutes=60))
    assert "plan-over" in it.heard(CLIENT)


def test_the_end_of_a_plan_waits_for_a_session_and_for_a_red_flag() -> None:
    it = ending()
    it.row(CLIENT, Control.SOMETHING_WRONG)
    it.until(DAY_AFTER + timedelta(days=2))
    assert "plan-over" not in it.heard(CLIENT) and "plan-ended" not in it.heard(THERAPIST)
    it.lift()
    it.wait(1)
    assert "plan-over" in it.heard(CLIENT) and "plan-ended" in it.heard(THERAPIST)


def test_no_session_starts_on_a_plan_that_is_over() -> None:
    it = ending()
    it.now = DAY_AFTER + timedelta(hours=1)
    turn = Turn(it.client, it.now, 0, RULES)
    start_session(turn)
    assert turn.client.session is None
    assert [line.key for say in turn.effects if isinstance(say, Say) for line in say.words] == ["plan-over", "plan-over-next"]


def test_the_last_day_itself_is_practised() -> None:
    it = ending()
    it.until(NINE + timedelta(days=1))
    it.press(CLIENT, "start")
    assert not it.over


def test_a_new_plan_after_the_end_reminds_again() -> None:
    it = ending()
    it.until(DAY_AFTER)
    prescribed(it, newer())
    it.until(DAY_AFTER + timedelta(days=1))
    assert it.heard(CLIENT).count("reminder") == 3


def test_a_plan_that_is_over_is_told_of_once_even_where_a_visit_changes_it() -> None:
    it = ending()
    it.until(DAY_AFTER)
    prescribed(it, replace(it.client.plan or OLD, version=2, minutes=25), "visit", by=None)
    it.until(DAY_AFTER + timedelta(days=3))
    assert it.heard(CLIENT).count("plan-over") == it.heard(THERAPIST).count("plan-ended") == 1
    assert "plan-changed" not in it.heard(CLIENT), "what is new in it is nothing to act on"


def test_a_plan_that_would_be_over_already_goes_back_to_the_therapist() -> None:
    it = prescribed(home(OLD), newer(ends_on=NINE.date() - timedelta(days=1)))
    assert it.client.plan == OLD


def test_every_state_of_a_plan_that_ends_wakes_later_than_now() -> None:
    it = ending()
    for _ in range(40):
        if it.next_wake is None:
            break
        it.until(it.wake)
        assert it.next_wake is None or it.next_wake > it.now
