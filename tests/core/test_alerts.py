"""Red flags: the order of words, who is told when, what was told, and that only the therapist lifts a stop."""

from dataclasses import replace
from datetime import timedelta

import pytest

from companion.core.care import People
from companion.core.effects import Say, TakeBack, Urgency
from companion.core.events import ChartDue, Control, Press
from companion.core.observations import DayClosed, Ending, FlagAcknowledged, FlagLifted, FlagRaised, Quality
from companion.core.programme import Level
from tests.core.home import Home, home
from tests.core.practice import CARER, CLIENT, CONTACT, MONDAY, NINE, PEOPLE, STRANGER, THERAPIST, full_plan, plan, planned


def wrong(by: str = CLIENT) -> Home:
    """A client at home, no session, and somebody pressed "Something is wrong"."""
    it = home(full_plan())
    it.row(by, Control.SOMETHING_WRONG)
    return it


def alerts_to(it: Home, who: str) -> list[str]:
    return [say.words[0].key for say in it.phone(who).said if say.words[0].key.startswith("alert-")]


# --- the first moment ---------------------------------------------------------------------------------------------


def test_emergency_words_come_before_any_question_on_both_phones() -> None:
    for by, other in ((CLIENT, CARER), (CARER, CLIENT)):
        it = wrong(by)
        said = [effect for effect in it.last if isinstance(effect, Say)]
        assert [say.to for say in said[:2]] == [CLIENT, CARER]
        assert not any(say.buttons for say in said[:2]) and all(say.urgency is Urgency.ALERT for say in said)
        question = next(say for say in said if "flag-ask-what" in [line.key for line in say.words])
        assert question.to == by and said.index(question) > 1
        assert "told" in it.keys(other), "the other phone hears who was told"


def test_everything_of_the_session_is_taken_back() -> None:
    it = home(full_plan()).start()
    it.row(CLIENT, Control.SOMETHING_WRONG)
    assert {effect.topic for effect in it.last if isinstance(effect, TakeBack)} >= {"session", "closing", "reminder"}
    assert it.ended[0].ending is Ending.STOPPED and it.over
    assert not it.phone(CLIENT).cards["session"].buttons and not it.phone(CARER).cards.get("carer", Say(CARER, ())).buttons


def test_the_therapist_gets_everything_known_and_can_lift() -> None:
    it = home(full_plan(blood_thinner=True)).start().check().finish()
    it.row(CARER, Control.SOMETHING_WRONG)
    keys = it.keys(THERAPIST)
    assert keys[0] == "alert-title" and {"alert-when", "alert-told", "alert-blood-thinner", "alert-past"} <= set(keys)
    assert [button.press.choice for button in it.phone(THERAPIST).buttons()] == ["seen", "lift"]


def test_i_felt_unwell_ends_the_session_as_a_flag_and_the_bout_as_unwell() -> None:
    it = home(plan(planned("together"))).start().check().reach(".how")
    it.press(CLIENT, "unwell")
    assert it.hold.facts == ("felt_unwell",) and it.hold.level is Level.URGENT
    assert it.bouts[0].quality is Quality.UNWELL and it.ended[0].ending is Ending.STOPPED


def test_a_sign_in_the_check_is_an_emergency_and_names_the_sign() -> None:
    it = home(full_plan(), sessions=0).start()
    it.press(CLIENT, "same")
    it.press(CLIENT, "different")
    assert it.hold.facts == ("sign.face",) and it.hold.level is Level.EMERGENCY


# --- held until lifted --------------------------------------------------------------------------------------------


def test_while_held_nobody_practises_and_nobody_is_reminded() -> None:
    it = wrong()
    it.until(NINE + timedelta(days=3))
    assert "reminder" not in it.heard(CLIENT)
    it.row(CLIENT, Control.MORE)
    it.press(CLIENT, "practise")
    assert it.keys(CLIENT) == ["held"] and it.over
    assert {closed.ending for closed in it.all(DayClosed)} == {Ending.HELD}


def test_a_reminder_that_already_stands_there_starts_nothing_under_a_flag() -> None:
    it = home(full_plan())
    it.until(NINE)
    offer = it.phone(CLIENT).buttons()[0].press
    it.row(CLIENT, Control.SOMETHING_WRONG)
    it.send(CLIENT, offer)
    assert it.over and it.keys(CLIENT) == ["held"]


def test_the_therapist_lifts_with_a_reason_and_that_day_stays_off() -> None:
    it = wrong().lift()
    assert not it.held and [lifted.reason for lifted in it.all(FlagLifted)] == ["spoke"]
    assert "flag-lifted" in it.keys(CLIENT) and "flag-lifted" in it.keys(CARER)
    it.row(CLIENT, Control.MORE)
    it.press(CLIENT, "practise")
    assert it.keys(CLIENT) == ["off-today"]
    it.until(NINE + timedelta(days=1))
    assert it.heard(CLIENT).count("reminder") == 1
    it.press(CLIENT, "start")
    assert it.at == "check.balance", "after a flag the check is sign by sign"


def test_only_the_therapist_lifts() -> None:
    """Also not with the reasons that the therapist looks at just now."""
    it = wrong()
    seen = it.copy()
    seen.press(THERAPIST, "lift")
    flag = it.hold.id
    lifting = (Press("c1", flag, "alert", "lift"), Press("c1", flag, "lift", "spoke"), Press("c1", flag, "lift", "mistake"))
    for now in (it, seen):
        for by in (CLIENT, CARER, CONTACT, STRANGER):
            for press in lifting:
                now.send(by, press)
                assert now.held


def test_a_therapist_who_keeps_the_stop_keeps_it() -> None:
    it = wrong()
    it.press(THERAPIST, "lift")
    it.press(THERAPIST, "keep")
    assert [button.press.choice for button in it.phone(THERAPIST).buttons()] == ["reached", "not_reached", "lift"]


def test_nobody_lifts_what_they_have_not_seen() -> None:
    """The client falls while the therapist looks at the reasons to lift."""
    it = wrong()
    it.press(THERAPIST, "lift")
    reason = next(button.press for button in it.phone(THERAPIST).buttons() if button.press.choice == "spoke")
    it.row(CLIENT, Control.MORE)
    it.press(CLIENT, "fell")
    it.send(THERAPIST, reason)
    assert "alert-update" in it.keys(THERAPIST)
    it.lift()
    assert not it.held


def test_a_mistake_is_kept_beside_the_flag_and_makes_lifting_one_tap() -> None:
    it = wrong()
    it.press(CLIENT, "mistake")
    assert "alert-mistake" in it.keys(THERAPIST) and "flag-mistake-today" in it.keys(CLIENT)
    it.press(THERAPIST, "mistake")
    assert [lifted.reason for lifted in it.all(FlagLifted)] == ["mistake"] and it.client.off_day == MONDAY.date()


def test_a_mistake_is_no_mistake_any_more_when_more_is_told() -> None:
    it = wrong()
    it.press(CLIENT, "mistake")
    it.row(CLIENT, Control.SOMETHING_WRONG)
    assert not it.hold.mistake


def test_a_day_that_was_held_when_practice_was_due_counts_as_held_though_it_was_lifted_later() -> None:
    it = wrong()
    it.until(NINE + timedelta(days=1, hours=1))
    it.lift()
    it.until(NINE + timedelta(days=2))
    assert [closed.ending for closed in it.all(DayClosed)] == [Ending.HELD, Ending.HELD]


def test_a_lift_after_midnight_says_that_practice_goes_on() -> None:
    it = wrong()
    it.until(NINE + timedelta(days=1))
    it.lift()
    assert "flag-lifted-goes-on" in it.keys(CLIENT)


# --- who is told, and when ----------------------------------------------------------------------------------------


def test_an_alert_is_repeated_until_the_therapist_has_seen_it() -> None:
    it = wrong()
    began = it.now
    times = []
    for _ in range(6):
        before = len(alerts_to(it, THERAPIST))
        while len(alerts_to(it, THERAPIST)) == before:
            it.until(it.wake)
            assert it.now - began < timedelta(days=1), "it is not said again"
        times.append(int((it.now - began).total_seconds()))
    assert times == [600, 1200, 2400, 3600, 7200, 10800]
    it.press(THERAPIST, "seen")
    heard = len(alerts_to(it, THERAPIST))
    it.wait(86400)
    assert len(alerts_to(it, THERAPIST)) == heard and len(it.all(FlagAcknowledged)) == 1


def test_the_next_contact_is_told_after_the_minutes_that_content_sets_and_home_hears_who() -> None:
    it = wrong()
    it.wait(299)
    assert alerts_to(it, CONTACT) == []
    it.wait(1)
    assert alerts_to(it, CONTACT) == ["alert-contact"] and it.keys(CLIENT) == ["told"] and it.keys(CARER) == ["told"]
    assert [button.press.choice for button in it.phone(CONTACT).buttons()] == ["seen"]


def test_contacts_are_told_one_after_the_other() -> None:
    people = People(CLIENT, THERAPIST, CARER, (CONTACT, "x2"), PEOPLE.names)
    it = home(full_plan(), people=people, joined=(CLIENT, CARER, THERAPIST, CONTACT, "x2"))
    it.row(CLIENT, Control.SOMETHING_WRONG)
    it.wait(1199)
    assert alerts_to(it, "x2") == []
    it.wait(1)
    assert alerts_to(it, "x2") == ["alert-contact"]


def test_a_therapist_who_can_not_be_reached_is_not_said_to_know_and_the_next_contact_is_told_at_once() -> None:
    it = home(full_plan(), joined=(CLIENT, CARER, CONTACT))
    it.row(CLIENT, Control.SOMETHING_WRONG)
    assert "told-not" in it.keys(CLIENT) and "told" not in it.keys(CLIENT)
    it.wait(1)
    assert alerts_to(it, CONTACT) == ["alert-contact-alone"]


def test_a_contact_who_never_joined_is_passed_over() -> None:
    people = People(CLIENT, THERAPIST, CARER, ("x2", CONTACT), PEOPLE.names)
    it = home(full_plan(), people=people, joined=(CLIENT, CARER, THERAPIST, CONTACT))
    it.row(CLIENT, Control.SOMETHING_WRONG)
    it.wait(300)
    assert alerts_to(it, CONTACT) == ["alert-contact"] and alerts_to(it, "x2") == []


def test_with_the_weekly_chart_the_decision_that_waits_comes_with_its_buttons() -> None:
    it = wrong()
    it.press(THERAPIST, "seen")
    it.do(ChartDue(it.now, THERAPIST, it.now.date() - timedelta(days=6), it.now.date()))
    assert "alert-waiting" in it.keys(THERAPIST)
    assert "lift" in [button.press.choice for button in it.phone(THERAPIST).buttons()]


def test_a_contact_who_has_seen_it_does_not_silence_the_therapists_alerts() -> None:
    it = wrong()
    it.wait(900)
    it.press(CONTACT, "seen")
    assert "flag-seen" in it.keys(CLIENT)
    before = len(alerts_to(it, THERAPIST))
    it.wait(3600)
    assert len(alerts_to(it, THERAPIST)) > before
    assert "alert-contact-saw" in it.keys(THERAPIST), "the therapist reads who has seen it meanwhile"


def test_pressing_again_never_puts_off_who_is_told_next() -> None:
    it = wrong()
    for _ in range(3):
        it.wait(290)
        it.row(CLIENT, Control.SOMETHING_WRONG)
    it.until(MONDAY + timedelta(seconds=900))
    assert alerts_to(it, CONTACT) == ["alert-contact"]


def test_each_press_of_something_wrong_is_answered_with_the_emergency_words() -> None:
    it = wrong()
    it.row(CLIENT, Control.SOMETHING_WRONG)
    assert it.keys(CLIENT)[0] == "emergency-stop" and it.keys(THERAPIST)[0] == "alert-title"


def test_what_is_told_after_the_alert_was_seen_is_alerted_anew_until_it_is_seen() -> None:
    it = wrong()
    it.press(THERAPIST, "seen")
    it.press(CLIENT, "unwell")
    assert it.hold.acknowledged_at is None
    assert [button.press.choice for button in it.phone(THERAPIST).buttons()] == ["seen", "lift"]
    before = len(alerts_to(it, THERAPIST))
    it.wait(600)
    assert len(alerts_to(it, THERAPIST)) == before + 1


def test_what_is_told_anew_reaches_a_contact_who_had_seen_the_old() -> None:
    it = wrong()
    it.wait(900)
    it.press(CONTACT, "seen")
    it.row(CARER, Control.MORE)
    it.press(CARER, "fell")
    it.wait(1)
    assert len(alerts_to(it, CONTACT)) >= 2


def test_an_alert_nobody_has_seen_is_never_too_late() -> None:
    it = wrong()
    it.away(5 * 86400)
    assert it.keys(THERAPIST).count("alert-again") == 1 and "alert-contact" in it.keys(CONTACT)
    assert it.wake > it.now


def test_the_same_answer_twice_is_told_once() -> None:
    it = wrong()
    answer = next(button.press for button in it.phone(CLIENT).buttons() if button.press.choice == "unwell")
    it.send(CLIENT, answer)
    raised, alerted = len(it.all(FlagRaised)), len(alerts_to(it, THERAPIST))
    it.send(CLIENT, answer)
    assert (len(it.all(FlagRaised)), len(alerts_to(it, THERAPIST))) == (raised, alerted)


def test_a_button_of_a_lifted_flag_changes_nothing() -> None:
    it = wrong()
    seen = next(button.press for button in it.phone(THERAPIST).buttons() if button.press.choice == "seen")
    it.lift()
    was = it.client
    it.send(THERAPIST, seen)
    assert it.client == was and it.replies[-1] is not None and it.replies[-1].key == "press-over"


@pytest.mark.parametrize("by", [CLIENT, CARER])
def test_i_fell_is_never_too_late_to_say(by: str) -> None:
    """A button of an old flag that says so raises a new one, instead of being told that it is over."""
    it = wrong(by)
    fell = next(button.press for button in it.phone(by).buttons() if button.press.choice == "fell")
    it.lift()
    it.send(by, fell)
    assert it.held and "fall" in it.hold.facts and it.keys(CLIENT)[0].startswith(("emergency", "helper"))


def test_a_flag_without_a_plan_or_a_carer_is_a_flag_all_the_same() -> None:
    it = home(None, people=People(CLIENT, THERAPIST), joined=(CLIENT, THERAPIST))
    it.row(CLIENT, Control.SOMETHING_WRONG)
    assert it.wake == MONDAY + timedelta(seconds=600)


def test_facts_that_trip_no_rule_are_held_as_urgent() -> None:
    it = home(full_plan())
    it.rules = replace(it.rules, flags=())
    it.row(CLIENT, Control.SOMETHING_WRONG)
    assert (it.hold.rule, it.hold.level) == ("unlisted", Level.URGENT)
