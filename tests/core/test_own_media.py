"""What a therapist recorded for one client: given by whom, kept for what, used once agreed to, forgotten when it must be."""

from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest

from companion.core.care import Cover
from companion.core.effects import ClearButtons, Say, TakeBack
from companion.core.events import (
    CoverAgreed,
    HandedOver,
    Lost,
    MediaRemoved,
    Prescribed,
    Press,
    Why,
)
from companion.core.media import OwnMedia
from companion.core.observations import MediaDecided
from companion.core.own_media import agreed
from companion.core.programme import Planned
from tests.core.home import home
from tests.core.practice import (
    CARER,
    CLIENT,
    CONTACT,
    MONDAY,
    STRANGER,
    THERAPIST,
    full_plan,
    plan,
    planned,
)
from tests.core.recorded import CLIP, DEE, NIGHT, PHOTO, VOICE, asks, both, give, here, question, whats

# --- one for an exercise --------------------------------------------------------------------------------------


def test_what_was_agreed_before_stays_until_the_client_agrees_to_the_new_one() -> None:
    it = give(here())
    it.press(CLIENT, "use")
    give(it, VOICE)
    assert [own.media for own in agreed(it.client)] == [PHOTO]
    it.press(CLIENT, "leave_out")
    assert [own.media for own in it.client.own_media] == [PHOTO]
    give(it, CLIP)
    it.press(CLIENT, "use")
    assert [own.media for own in it.client.own_media] == [CLIP]


def test_a_new_one_takes_the_place_of_one_that_nobody_answered_and_its_question() -> None:
    it = give(here())
    old = it.phone(CLIENT).cards["own"].buttons[0].press
    give(it, VOICE)
    assert [own.media for own in it.client.own_media] == [VOICE] and [say.media for say in asks(it)] == [VOICE]
    it.send(CLIENT, old)
    assert agreed(it.client) == ()


def test_the_therapist_takes_out_what_waits_and_what_is_used() -> None:
    it = give(here())
    it.press(CLIENT, "use")
    give(it, VOICE)
    kept, waits = it.client.own_media
    it.do(MediaRemoved(it.now, THERAPIST, waits.id))
    assert agreed(it.client) == (kept,) and question(it) == [] and ClearButtons(CLIENT, "own", "talk") in it.last
    it.do(MediaRemoved(it.now, THERAPIST, kept.id))
    assert agreed(it.client) == () and it.keys(THERAPIST) == ["media-removed"] and it.keys(CLIENT) == []
    it.do(MediaRemoved(it.now, THERAPIST, kept.id))
    assert it.keys(THERAPIST) == ["media-gone"] and whats(it)[-1] == (THERAPIST, "tandem", "photo", "removed")


# --- by whom --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("by", [STRANGER, DEE, CLIENT, CARER, CONTACT])
def test_nothing_is_kept_of_anybody_who_does_not_see_to_the_client(by: str) -> None:
    it = give(here(), by=by)
    assert it.client.own_media == () and asks(it) == [] and it.all(MediaDecided) == []
    own = OwnMedia("m9", "tandem", PHOTO, False, THERAPIST, MONDAY, kept_at=MONDAY)
    it = here(own_media=(own,))
    it.do(MediaRemoved(it.now, by, "m9"))
    assert it.client.own_media == (own,)


def test_who_covers_may_and_who_covered_may_no_more() -> None:
    it = here(cover=Cover(DEE, MONDAY, MONDAY + timedelta(hours=1), begun=True))
    give(it, by=DEE)
    it.press(CLIENT, "use")
    assert {say.to for say in it.last if isinstance(say, Say)} == {CLIENT, THERAPIST, DEE}
    it.wait(3700)
    give(it, VOICE, by=DEE)
    assert [own.media for own in it.client.own_media] == [PHOTO] and it.keys(DEE) == ["not-your-client"]
    it.do(CoverAgreed(it.now, THERAPIST, THERAPIST, "Cleo", it.now, it.now))
    assert len(agreed(it.client)) == 1


def test_after_a_hand_over_what_was_agreed_stays_and_the_new_therapist_sees_to_it() -> None:
    it = give(here())
    it.press(CLIENT, "use")
    it.do(HandedOver(it.now, THERAPIST, DEE, "Dee"))
    give(it, VOICE)
    assert [own.media for own in it.client.own_media] == [PHOTO] and it.keys(THERAPIST) == ["not-your-client"]
    it.do(MediaRemoved(it.now, DEE, it.client.own_media[0].id))
    assert it.client.own_media == ()


def test_an_exercise_that_is_not_in_the_plan_is_refused_with_the_reason() -> None:
    for exercise in ("together", "unheard of"):
        it = give(here(), exercise=exercise)
        assert it.client.own_media == () and it.keys(THERAPIST) == ["media-not-in-plan"]


def test_what_waits_for_an_exercise_that_left_the_plan_is_not_asked_about_until_it_is_back() -> None:
    it = here()
    it.now = NIGHT
    give(it)
    it.do(Prescribed(it.now, replace(plan(planned("press")), version=2), THERAPIST))
    it.until(MONDAY + timedelta(days=1, hours=2))
    assert question(it) == []
    it.do(Prescribed(it.now, replace(plan(planned("press"), planned("tandem")), version=3), THERAPIST))
    assert question(it) == ["use", "leave_out"]


@pytest.mark.parametrize("new", [planned("tandem", form="half"), planned("toes")])
def test_what_was_recorded_for_a_form_that_the_plan_has_no_more_is_not_used_and_the_therapist_hears_of_it(new: Planned) -> None:
    it = give(here())
    it.press(CLIENT, "use")
    it.do(Prescribed(it.now, replace(plan(planned("press"), new), version=2), THERAPIST))
    assert agreed(it.client) == () and len(it.client.own_media) == 1
    assert "media-set-aside" in it.keys(THERAPIST)
    it.send(CLIENT, Press("c1", "menu", "own", "n0"))
    assert it.keys(CLIENT) == ["own-item", "own-item-aside"]
    it.do(Prescribed(it.now, replace(plan(planned("press"), planned("tandem")), version=3), THERAPIST))
    assert len(agreed(it.client)) == 1 and "media-set-aside" not in it.keys(THERAPIST)


def test_what_waits_is_not_asked_about_once_the_plan_has_another_form() -> None:
    it = here()
    it.now = NIGHT
    give(it)
    it.do(Prescribed(it.now, replace(plan(planned("press"), planned("tandem", form="half")), version=2), THERAPIST))
    it.until(MONDAY + timedelta(days=1, hours=2))
    assert question(it) == []


# --- forgotten ------------------------------------------------------------------------------------------------


def test_a_client_who_leaves_takes_the_files_with_them() -> None:
    it = both()
    it.send(CLIENT, Press("c1", "menu", "leave", "leave"))
    assert it.client.own_media == () and question(it) == [] and TakeBack("media") in it.last


def test_a_discharge_forgets_the_files() -> None:
    it = both()
    it.send(THERAPIST, Press("c1", "page", "discharge", "sure"))
    assert it.client.discharged_at is not None and it.client.own_media == () and question(it) == []
    give(it)
    assert it.client.own_media == () and it.keys(THERAPIST) == ["media-discharged"]


@pytest.mark.parametrize(("more", "line"), [({"consent": None}, "media-no-consent"), ({"plan": None}, "media-no-plan")])
def test_without_consent_or_plan_nothing_is_kept(more: dict[str, Any], line: str) -> None:
    it = here()
    it.client = replace(it.client, **more)
    give(it)
    assert it.client.own_media == () and it.keys(THERAPIST) == [line]


def test_a_question_that_can_not_be_delivered_is_given_up_and_the_therapist_hears_of_it() -> None:
    it = give(here())
    tag = asks(it)[0].tag
    assert tag is not None and tag == it.client.own_media[0].id
    for why in (Why.UNKNOWN, Why.EXPIRED):
        it.do(Lost(it.now, tag, why))
        assert len(it.client.own_media) == 1
    it.do(Lost(it.now, tag, Why.UNDELIVERABLE))
    assert it.client.own_media == () and it.keys(THERAPIST) == ["media-undelivered"]
    it = give(here())
    it.press(CLIENT, "use")
    it.do(Lost(it.now, tag, Why.UNDELIVERABLE))
    assert len(agreed(it.client)) == 1


# --- used -----------------------------------------------------------------------------------------------------


def test_a_session_shows_what_was_agreed_to_and_nothing_that_waits() -> None:
    it = both().start().check().finish(("clean", "n3"))
    sent = [say.media for say in it.phone(CLIENT).said if say.topic == "session"]
    assert PHOTO in sent and VOICE not in sent


def test_a_session_under_way_goes_on_with_what_it_began_with_and_the_next_one_has_the_standard_picture() -> None:
    it = both().start().check()
    it.do(MediaRemoved(it.now, THERAPIST, it.client.own_media[0].id))
    it.finish(("clean", "n3"))
    assert PHOTO in [say.media for say in it.phone(CLIENT).said if say.topic == "session"]
    it.phone(CLIENT).said.clear()
    it.until(MONDAY + timedelta(days=1, hours=1))
    it.press(CLIENT, "start")
    it.check().finish(("clean", "n3"))
    assert PHOTO not in [say.media for say in it.phone(CLIENT).said]


def test_what_another_client_has_never_comes_here() -> None:
    it, other = both(), home(full_plan())
    for button in it.phone(CLIENT).cards["own"].buttons:
        other.send(CLIENT, button.press)
        other.send(CLIENT, replace(button.press, client="c2"))
    assert other.client.own_media == () and not [say for say in other.phone(CLIENT).said if say.media in (PHOTO, VOICE)]
