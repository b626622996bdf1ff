"""Who sees to a client: hand-over and cover, what the phones hear, and what a former therapist can still do (nothing)."""

from dataclasses import replace
from datetime import time, timedelta
from typing import Any

import pytest

from companion.core.care import seeing
from companion.core.duty import Duty, Hours
from companion.core.effects import Pass, Say, TakeBack
from companion.core.events import Assigned, Control, CoverAgreed, DutySet, HandedOver, Left, Press, Released
from companion.core.observations import TherapistChanged
from tests.core.home import Home, home
from tests.core.practice import CARER, CLIENT, CONTACT, MONDAY, PEOPLE, STRANGER, THERAPIST, ZONE, full_plan

NEW = "t2"
WEEK = timedelta(days=7)


def handed_over(it: Home | None = None) -> Home:
    it = it or home(full_plan())
    it.do(HandedOver(it.now, THERAPIST, NEW, "Dee"))
    return it


def covered(start: timedelta = timedelta(0), length: timedelta = WEEK, it: Home | None = None) -> Home:
    it = it or home(full_plan())
    it.do(CoverAgreed(it.now, THERAPIST, NEW, "Dee", it.now + start, it.now + start + length))
    return it


def wrong(**more: Any) -> Home:
    it = home(full_plan(), **more)
    it.row(CLIENT, Control.SOMETHING_WRONG)
    return it


def passed(it: Home) -> list[tuple[str, str]]:
    return [(effect.to.id, effect.event.kind) for effect in it.last if isinstance(effect, Pass)]


def titles(it: Home, who: str) -> list[str]:
    return [say.words[0].key for say in it.phone(who).said if say.words[0].key.startswith("alert-")]


def changes(it: Home) -> list[tuple[str, str]]:
    return [(seen.what, seen.by) for seen in it.all(TherapistChanged)]


# --- hand-over ----------------------------------------------------------------------------------------------------


def test_after_a_hand_over_the_new_therapist_sees_the_client_and_the_old_one_nothing() -> None:
    it = handed_over()
    assert passed(it) == [(THERAPIST, "released"), (NEW, "assigned")] and seeing(it.client, it.now) == (NEW,)
    assert it.keys(CLIENT) == it.keys(CARER) == ["therapist-now"]
    assert it.keys(NEW)[0] == "handed-over-to" and it.keys(THERAPIST) == ["handed-over-from"]
    assert [button.press.choice for button in it.phone(NEW).buttons()] == ["open"]
    assert {effect.to for effect in it.last if isinstance(effect, TakeBack)} == {THERAPIST}
    assert changes(it) == [("handed_over", NEW)]


def test_every_button_that_a_former_therapist_ever_had_changes_nothing_and_is_answered_in_one_line() -> None:
    it = wrong()
    it.press(THERAPIST, "lift")
    old = [press for who, press in it.ever if who == THERAPIST]
    handed_over(it)
    was = it.client
    for press in [*old, Press("c1", "page", "page", "open"), Press("c1", "page", "discharge", "sure")]:
        it.send(THERAPIST, press)
        assert it.client == was and not [effect for effect in it.last if isinstance(effect, Say)]
        assert it.replies[-1] is not None


def test_an_open_flag_goes_to_the_new_therapist_to_be_seen_anew_and_the_old_one_hears_no_more_of_it() -> None:
    it = wrong()
    it.press(THERAPIST, "seen")
    it.now += timedelta(hours=2)
    handed_over(it)
    assert titles(it, NEW) == ["alert-handed-over"] and it.hold.acknowledged_at is None and it.hold.raised_at == MONDAY
    heard = len(it.phone(THERAPIST).said)
    it.wait(600)
    assert titles(it, NEW)[-1] == "alert-again" and len(it.phone(THERAPIST).said) == heard
    it.press(NEW, "lift")
    it.press(NEW, "spoke")
    assert not it.held


def test_only_the_own_therapist_hands_over() -> None:
    it = home(full_plan())
    for by in (STRANGER, CARER, CONTACT, NEW):
        was = it.client
        it.do(HandedOver(it.now, by, NEW, "Dee"))
        it.do(CoverAgreed(it.now, by, NEW, "Dee", it.now, it.now + WEEK))
        assert it.client == was and not passed(it)


def test_a_contact_who_becomes_the_therapist_is_no_next_contact_any_more() -> None:
    it = home(full_plan())
    it.do(HandedOver(it.now, THERAPIST, CONTACT, "Dov"))
    assert it.client.people.contacts == () and it.client.people.therapist == CONTACT


def test_a_therapist_who_is_also_a_next_contact_keeps_that_part() -> None:
    it = home(full_plan(), people=replace(PEOPLE, contacts=(THERAPIST, CONTACT)))
    handed_over(it)
    assert passed(it) == [(NEW, "assigned")] and THERAPIST in it.client.joined


def test_a_session_goes_on_through_a_hand_over_and_home_hears_of_it_afterwards() -> None:
    it = home(full_plan()).start().check().reach(".hold")
    handed_over(it)
    assert not it.over and not it.keys(CLIENT) and not it.keys(CARER)
    it.finish()
    assert "therapist-now" in it.heard(CLIENT) and "therapist-now" in it.heard(CARER)


def test_a_cover_that_ended_within_a_session_is_not_told_as_if_it_had_just_begun() -> None:
    it = home(full_plan()).start().check().reach(".hold")
    covered(length=timedelta(seconds=1), it=it)
    it.finish()
    assert "cover-now" not in it.heard(CLIENT) and it.heard(CLIENT).count("cover-back") == 1


# --- cover --------------------------------------------------------------------------------------------------------


def test_a_cover_begins_and_ends_by_itself_and_everybody_hears_of_both() -> None:
    it = covered(start=timedelta(days=1), length=timedelta(days=2))
    assert seeing(it.client, it.now) == (THERAPIST,) and not passed(it) and it.keys(THERAPIST) == ["cover-agreed"]
    it.until(MONDAY + timedelta(days=1))
    assert passed(it) == [(NEW, "assigned")] and it.keys(CLIENT) == it.keys(CARER) == ["cover-now"]
    assert seeing(it.client, it.now) == (THERAPIST, NEW)
    it.until(MONDAY + timedelta(days=3))
    assert passed(it) == [(NEW, "released")] and it.keys(CLIENT) == ["cover-back"]
    assert it.keys(THERAPIST) == ["cover-over"] and seeing(it.client, it.now) == (THERAPIST,)
    assert changes(it) == [("cover_began", NEW), ("cover_ended", NEW)] and it.client.cover is None


def test_a_cover_that_begins_now_begins_at_once() -> None:
    it = covered()
    assert passed(it) == [(NEW, "assigned")] and it.keys(NEW)[0] == "cover-to"


def test_an_open_flag_is_shown_to_who_covers_and_is_the_therapists_again_where_only_they_had_seen_it() -> None:
    it = covered(length=timedelta(hours=1), it=wrong())
    assert titles(it, NEW) == ["alert-handed-over"]
    it.press(NEW, "seen")
    before = len(titles(it, THERAPIST))
    it.until(MONDAY + timedelta(hours=1))
    assert titles(it, THERAPIST)[before:] == ["alert-handed-over"] and it.hold.acknowledged_at is None


def test_a_flag_that_the_therapist_has_seen_stays_seen_when_a_cover_ends() -> None:
    it = covered(length=timedelta(hours=1), it=wrong())
    it.press(THERAPIST, "seen")
    it.press(NEW, "seen")
    it.until(MONDAY + timedelta(hours=1))
    assert it.hold.acknowledged_at is not None and it.hold.seen_by == (THERAPIST,)


def test_a_new_cover_takes_the_place_of_the_old_and_an_end_that_is_not_ahead_ends_it() -> None:
    it = covered()
    it.do(CoverAgreed(it.now, THERAPIST, "t3", "Eva", it.now, it.now + WEEK))
    assert passed(it) == [(NEW, "released"), ("t3", "assigned")] and seeing(it.client, it.now) == (THERAPIST, "t3")
    it.do(CoverAgreed(it.now, THERAPIST, THERAPIST, "Cleo", it.now, it.now))
    assert passed(it) == [("t3", "released")] and it.client.cover is None
    it.do(CoverAgreed(it.now, THERAPIST, THERAPIST, "Cleo", it.now, it.now))
    assert it.keys(THERAPIST) == ["cover-none"]


def test_who_covers_and_leaves_the_chat_is_told_to_the_therapist() -> None:
    it = covered()
    it.do(Left(it.now, NEW))
    assert it.keys(THERAPIST) == ["cover-left"] and NEW not in it.client.joined


def test_a_cover_that_went_by_while_the_companion_was_away_is_over_and_nobody_is_told_that_it_began() -> None:
    it = covered(start=timedelta(days=1), length=timedelta(days=1))
    it.away(5 * 86400)
    assert it.client.cover is None and "cover-now" not in it.heard(CLIENT)
    assert not [event for event in passed(it) if event[1] == "assigned"]


def test_a_hand_over_to_who_covers_ends_the_cover_and_keeps_them() -> None:
    it = covered()
    handed_over(it)
    assert it.client.cover is None and seeing(it.client, it.now) == (NEW,) and ("t2", "released") not in passed(it)


# --- hours --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("by", [STRANGER, CONTACT, NEW])
def test_only_who_sees_to_the_client_sets_hours_for_them(by: str) -> None:
    it = home(full_plan())
    was = it.client
    it.do(DutySet(it.now, Duty(by, ZONE, None, "t9"), "Ivo"))
    assert it.client == was


def test_the_hours_of_a_former_therapist_are_forgotten() -> None:
    it = home(full_plan())
    it.do(DutySet(it.now, Duty(THERAPIST, ZONE, None, "t9"), "Ivo"))
    handed_over(it)
    assert it.client.duties == ()


def test_what_a_phone_is_told_is_that_it_was_assigned_and_released() -> None:
    it = handed_over()
    events = [effect.event for effect in it.last if isinstance(effect, Pass)]
    assert [type(event) for event in events] == [Released, Assigned]


def test_nobody_at_home_is_told_of_it_in_the_night() -> None:
    it = covered(start=timedelta(hours=16), length=timedelta(days=1))  # midnight to midnight
    it.until(MONDAY + timedelta(hours=23, minutes=59))
    assert seeing(it.client, it.now) == (THERAPIST, NEW) and "cover-now" not in it.heard(CLIENT)
    assert [say.silent for say in it.phone(NEW).said] == [True]
    it.until(MONDAY + timedelta(days=1))
    assert it.keys(CLIENT) == it.keys(CARER) == ["cover-now"]
    it.until(MONDAY + timedelta(days=2))
    assert it.heard(CLIENT)[-1] == it.heard(CARER)[-1] == "cover-back"


def test_a_deputy_who_covered_for_a_time_is_still_told_afterwards() -> None:
    it = home(full_plan())
    it.do(DutySet(it.now, Duty(THERAPIST, ZONE, Hours((5,), time(9), time(10)), NEW), "Dee"))
    covered(length=timedelta(hours=1), it=it)
    it.until(MONDAY + timedelta(hours=2))
    assert it.client.cover is None
    it.row(CLIENT, Control.SOMETHING_WRONG)
    assert titles(it, NEW) == ["alert-title"] and "told-not" not in it.keys(CLIENT)


def test_what_a_therapist_hears_of_their_going_is_not_taken_back_with_the_rest() -> None:
    over = covered(length=timedelta(hours=1))
    over.until(over.now + timedelta(hours=1))
    for it, who, line in ((handed_over(), THERAPIST, "handed-over-from"), (over, NEW, "cover-over-to")):
        taken = [place for place, one in enumerate(it.last) if isinstance(one, TakeBack) and one.to == who]
        said = [place for place, one in enumerate(it.last) if isinstance(one, Say) and one.words[0].key == line]
        assert taken and said and max(taken) < min(said)
