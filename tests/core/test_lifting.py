"""What therapists, deputies and contacts do with an alert: acknowledge, note a call, write words, lift."""

from dataclasses import replace
from datetime import time, timedelta
from typing import Any

import pytest

from companion.core.care import Cover
from companion.core.duty import Duty, Hours
from companion.core.effects import Pass, Say
from companion.core.events import Assigned, Control, DutySet, Left, Press, Released, Typed, Why
from companion.core.events import Lost as Undelivered
from companion.core.observations import CallNoted, FlagAcknowledged, FlagLifted
from tests.core.home import Home, home
from tests.core.practice import CARER, CLIENT, CONTACT, MONDAY, NAMES, PEOPLE, STRANGER, THERAPIST, ZONE, full_plan
from tests.core.practice import client as made

DEPUTY, COVER = "t2", "t3"
EVENING = MONDAY + timedelta(hours=12)
HOURS = Hours((0, 1, 2, 3, 4), time(9), time(17))
ALL_NAMES = (*NAMES, (DEPUTY, "Dee"), (COVER, "Eva"))


def wrong(by: str = CLIENT, **more: Any) -> Home:
    it = home(full_plan(), **more)
    it.row(by, Control.SOMETHING_WRONG)
    return it


def evening(deputy: str | None = DEPUTY) -> Home:
    """20:00 on a Monday; the therapist works nine to five."""
    it = Home(made(full_plan(), looked_at=EVENING, reported_at=EVENING), now=EVENING)
    it.do(DutySet(EVENING, Duty(THERAPIST, ZONE, HOURS, deputy), "Dee"))
    it.row(CLIENT, Control.SOMETHING_WRONG)
    return it


def covered() -> Home:
    """The client has a second therapist for a time."""
    cover = Cover(COVER, MONDAY - timedelta(days=1), MONDAY + timedelta(days=7), begun=True)
    joined = (CLIENT, CARER, THERAPIST, CONTACT, COVER)
    people = PEOPLE.__class__(CLIENT, THERAPIST, CARER, (CONTACT,), ALL_NAMES)
    return wrong(cover=cover, joined=joined, people=people)


def titles(it: Home, who: str) -> list[str]:
    return [say.words[0].key for say in it.phone(who).said if say.words[0].key.startswith("alert-")]


def passed(it: Home, kind: type) -> list[str]:
    return [effect.to.id for effect in it.last if isinstance(effect, Pass) and isinstance(effect.event, kind)]


def choices(it: Home, who: str) -> list[str]:
    return [button.press.choice for button in it.phone(who).buttons()]


# --- what an alert tells ------------------------------------------------------------------------------------------


def test_an_alert_tells_the_exercise_and_the_second_of_the_hold() -> None:
    it = home(full_plan()).start().check().reach(".hold")
    it.now += timedelta(seconds=17)
    it.row(CARER, Control.SOMETHING_WRONG)
    line = next(line for say in it.last if isinstance(say, Say) for line in say.words if line.key == "alert-during-hold")
    assert dict(line.params)["second"] == "17" and it.hold.during is not None and it.hold.during.exercise == "together"


def test_an_alert_in_the_check_says_that_no_bout_ran_and_outside_a_session_says_nothing_of_it() -> None:
    it = home(full_plan()).start()
    it.row(CLIENT, Control.SOMETHING_WRONG)
    assert "alert-during-check" in it.keys(THERAPIST)
    assert not [key for key in wrong().keys(THERAPIST) if key.startswith("alert-during")]


def test_everything_pressed_is_told_with_when_and_by_whom_and_two_falls_are_two_lines() -> None:
    it = home(full_plan())
    for _ in range(2):
        it.row(CARER, Control.MORE)
        it.press(CARER, "fell")
        it.press(CARER, "up")
        it.wait(300)
    told = [(one.fact, one.by, (one.at - MONDAY).total_seconds()) for one in it.hold.told if one.fact == "fall"]
    assert told == [("fall", CARER, 0), ("fall", CARER, 300)]
    newest = it.phone(THERAPIST).cards["alert-c1"].words
    facts = [
        value.key
        for line in newest
        if line.key == "alert-told"
        for value in dict(line.params).values()
        if not isinstance(value, str)
    ]
    assert facts.count("fact-fall") == 2


def test_of_very_many_presses_the_first_and_the_last_are_kept() -> None:
    it = wrong()
    for _ in range(40):
        it.row(CLIENT, Control.SOMETHING_WRONG)
    assert len(it.hold.told) == 15 and it.hold.told[0].at == MONDAY


# --- calls --------------------------------------------------------------------------------------------------------


def test_a_call_is_noted_once_a_button_and_says_who_called_where_nobody_answered() -> None:
    it = wrong()
    it.press(THERAPIST, "seen")
    button = next(one.press for one in it.phone(THERAPIST).buttons() if one.press.choice == "not_reached")
    it.send(THERAPIST, button)
    assert it.keys(CLIENT) == it.keys(CARER) == ["flag-called", "flag-called-near"]
    it.send(THERAPIST, button)
    assert [note.answer for note in it.all(CallNoted)] == ["not_reached"]
    it.press(THERAPIST, "not_reached")
    it.press(THERAPIST, "reached")
    assert [note.answer for note in it.all(CallNoted)] == ["not_reached", "not_reached", "reached"]
    assert it.held, "a call lifts nothing"


def test_a_call_noted_on_an_older_card_acknowledges_too() -> None:
    it = wrong()
    it.send(THERAPIST, Press("c1", it.hold.id, "0", "reached"))
    assert it.hold.acknowledged_at is not None and len(it.all(FlagAcknowledged)) == 1


def test_what_a_contact_found_reaches_the_therapist() -> None:
    it = wrong()
    it.wait(300)
    it.press(CONTACT, "seen")
    assert choices(it, CONTACT) == ["with_them", "reached", "not_reached"]
    it.press(CONTACT, "with_them")
    assert {"alert-update", "alert-call-with-them"} <= set(it.keys(THERAPIST)) and it.hold.acknowledged_at is None


def test_a_contacts_own_words_reach_the_therapist_while_a_flag_is_open() -> None:
    it = home(full_plan())
    it.do(Typed(it.now, CONTACT, "hello"))
    assert not it.last
    it.row(CLIENT, Control.SOMETHING_WRONG)
    it.wait(300)
    it.do(Typed(it.now, CONTACT, "I am at the door"))
    line = next(line for say in it.last if isinstance(say, Say) for line in say.words if line.key == "alert-own-words")
    assert dict(line.params)["text"] == "I am at the door"


# --- out of hours -------------------------------------------------------------------------------------------------


def test_out_of_hours_the_client_hears_at_once_that_the_therapist_is_off_and_who_stands_in() -> None:
    it = evening()
    assert it.keys(CLIENT)[0] == "emergency-stop" and {"told-off-duty", "told"} <= set(it.keys(CLIENT))
    assert "told-late" not in it.keys(CLIENT)
    assert titles(it, DEPUTY) == ["alert-title"] and titles(it, THERAPIST) == ["alert-title"]
    assert "alert-as-deputy" in it.keys(DEPUTY) and passed(it, Assigned) == [DEPUTY]


def test_without_a_deputy_the_client_hears_that_it_may_be_seen_late() -> None:
    it = evening(None)
    assert {"told-off-duty", "told-late"} <= set(it.keys(CLIENT)) and "told-late" in it.keys(CARER)


def test_in_working_hours_nobody_hears_of_hours_and_no_deputy_is_told() -> None:
    it = home(full_plan())
    it.until(MONDAY + timedelta(hours=2))
    it.do(DutySet(it.now, Duty(THERAPIST, ZONE, HOURS, DEPUTY), "Dee"))
    it.row(CLIENT, Control.SOMETHING_WRONG)
    assert "told-off-duty" not in it.keys(CLIENT) and titles(it, DEPUTY) == []


def test_a_flag_that_is_not_seen_by_the_end_of_work_reaches_the_deputy_and_home_hears_of_it() -> None:
    it = home(full_plan())
    it.do(DutySet(it.now, Duty(THERAPIST, ZONE, HOURS, DEPUTY), "Dee"))
    it.until(MONDAY + timedelta(hours=8, minutes=55))
    it.row(CLIENT, Control.SOMETHING_WRONG)
    assert titles(it, DEPUTY) == []
    it.wait(600)
    assert titles(it, DEPUTY) == ["alert-again"] and "told" in it.heard(CLIENT)


def test_a_deputy_acknowledges_and_calls_but_never_lifts_and_the_therapist_is_asked_when_back_at_work() -> None:
    it = evening()
    it.press(DEPUTY, "seen")
    assert choices(it, DEPUTY) == ["reached", "not_reached"] and it.hold.contact_saw == DEPUTY
    for press in (Press("c1", it.hold.id, "alert", "lift"), Press("c1", it.hold.id, "lift", "spoke")):
        it.send(DEPUTY, press)
        assert it.held and it.replies[-1] is not None and it.replies[-1].key == "press-not-yours"
    it.press(DEPUTY, "not_reached")
    before = len(titles(it, THERAPIST))
    it.until(EVENING + timedelta(hours=12, minutes=59))
    assert len(titles(it, THERAPIST)) == before, "nobody is woken for what the deputy has in hand"
    it.until(EVENING + timedelta(hours=13))
    assert titles(it, THERAPIST)[-1] == "alert-again"


def test_a_deputy_sees_the_client_only_while_the_flag_is_open() -> None:
    it = evening()
    press = Press("c1", it.hold.id, "alert", "seen")
    it.lift()
    assert passed(it, Released) == [DEPUTY]
    it.send(DEPUTY, press)
    assert it.replies[-1] is not None and it.replies[-1].key == "press-over"


def test_who_is_deputy_no_more_is_released_from_the_open_flag() -> None:
    it = evening()
    it.do(DutySet(it.now, Duty(THERAPIST, ZONE, HOURS, None)))
    assert passed(it, Released) == [DEPUTY]
    it.send(DEPUTY, Press("c1", it.hold.id, "alert", "seen"))
    assert it.replies[-1] is not None and it.replies[-1].key == "press-not-yours"


# --- what can not be delivered ------------------------------------------------------------------------------------


def test_an_alert_that_can_not_be_delivered_is_said_at_home_and_the_next_contact_is_told_at_once() -> None:
    it = wrong()
    it.do(Undelivered(it.now, f"{it.hold.id}:{THERAPIST}", Why.UNDELIVERABLE))
    assert it.keys(CLIENT) == it.keys(CARER) == ["told-not"]
    it.wait(0)
    assert titles(it, CONTACT) == ["alert-contact-alone"]


def test_a_contact_who_can_not_be_reached_is_passed_over_at_once() -> None:
    people = PEOPLE.__class__(CLIENT, THERAPIST, CARER, (CONTACT, "x2"), NAMES)
    it = wrong(people=people, joined=(CLIENT, CARER, THERAPIST, CONTACT, "x2"))
    it.wait(300)
    assert titles(it, CONTACT) == ["alert-contact"] and titles(it, "x2") == []
    it.do(Undelivered(it.now, f"{it.hold.id}:{CONTACT}", Why.UNDELIVERABLE))
    it.wait(0)
    assert titles(it, "x2") == ["alert-contact"]


def test_an_alert_that_gets_through_after_all_counts_as_delivered() -> None:
    it = wrong()
    it.receipts = False
    it.do(Undelivered(it.now, f"{it.hold.id}:{THERAPIST}", Why.UNDELIVERABLE))
    it.receipts = True
    it.wait(600)
    assert it.hold.lost == ()


# --- a cover ------------------------------------------------------------------------------------------------------


def test_both_therapists_get_the_alert_and_either_acknowledges_and_lifts() -> None:
    it = covered()
    assert titles(it, COVER) == titles(it, THERAPIST) == ["alert-title"]
    assert [line.key for say in it.last if isinstance(say, Say) and say.to == CARER for line in say.words].count("told") == 2
    it.press(COVER, "seen")
    assert it.phone(THERAPIST).cards["alert-c1"].words[0].key == "alert-seen-by"
    it.press(COVER, "lift")
    it.press(COVER, "spoke")
    assert not it.held and [lifted.by for lifted in it.all(FlagLifted)] == [COVER]
    assert it.phone(THERAPIST).cards["alert-c1"].words[0].key == "lifted-by"


def test_a_therapist_who_has_not_seen_what_was_added_does_not_lift_though_the_other_has() -> None:
    it = covered()
    it.press(COVER, "lift")
    reason = next(one.press for one in it.phone(COVER).buttons() if one.press.choice == "spoke")
    it.row(CLIENT, Control.MORE)
    it.press(CLIENT, "fell")
    it.press(THERAPIST, "seen")
    it.send(COVER, reason)
    assert it.held and "alert-update" in it.keys(COVER)


def test_after_the_cover_the_colleague_has_no_say() -> None:
    it = covered()
    press = Press("c1", it.hold.id, "alert", "seen")
    it.until(MONDAY + timedelta(days=7))
    for by in (COVER, STRANGER):
        it.send(by, press)
        assert it.replies[-1] is not None and it.replies[-1].key == "press-not-yours"


def test_a_deputy_who_turns_out_not_to_be_in_the_chat_is_not_said_to_know() -> None:
    it = evening()
    it.do(Left(it.now, DEPUTY))
    assert it.keys(CLIENT) == it.keys(CARER) == ["told-not"] and it.hold.lost == (DEPUTY,)
    it.do(Left(it.now, DEPUTY))
    assert not it.keys(CLIENT), "it is said once"


@pytest.mark.parametrize("reason", ["spoke", "visited", "doctor", "mistake"])
def test_each_reason_lifts_and_is_recorded(reason: str) -> None:
    it = wrong().lift(reason)
    assert not it.held and [lifted.reason for lifted in it.all(FlagLifted)] == [reason]


def test_a_flag_from_before_reports_were_written_down_still_tells_its_facts() -> None:
    it = wrong()
    it.client = replace(it.client, hold=replace(it.hold, told=()))
    it.wait(600)
    assert {"alert-by", "alert-fact"} <= set(it.keys(THERAPIST))


def test_of_many_words_of_a_contact_the_newest_are_kept_and_every_one_is_passed_on() -> None:
    it = wrong()
    for number in range(40):
        it.do(Typed(it.now, CONTACT, f"word {number}"))
        assert "alert-own-words" in it.keys(THERAPIST)
    assert len(it.hold.calls) == 13 and it.hold.calls[-1].text == "word 39"
