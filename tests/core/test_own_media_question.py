"""The client is asked about what was recorded for them: at a good moment, one question at a time; and changes their mind."""

from datetime import datetime, timedelta

import pytest

from companion.core.care import Consent, Pause
from companion.core.effects import Say, TakeBack
from companion.core.events import (
    Consented,
    Control,
    Joined,
    Press,
    Woke,
)
from companion.core.media import Recorded
from companion.core.own_media import agreed
from companion.core.programme import Quiet
from tests.core.home import Home
from tests.core.practice import (
    CARER,
    CLIENT,
    CONTACT,
    MONDAY,
    RULES,
    STRANGER,
    THERAPIST,
)
from tests.core.recorded import CLIP, NIGHT, PHOTO, VOICE, asks, both, give, here, question, whats

# --- asked ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("media", [VOICE, PHOTO, CLIP])
def test_the_client_is_asked_with_the_file_itself_and_two_answers_that_say_what_they_mean(media: Recorded) -> None:
    it = give(here(), media)
    (say,) = asks(it)
    assert [line.key for line in say.words] == ["set-up-title", "own-made", "own-ask"] and say.media == media
    assert [button.label.key for button in say.buttons] == ["b-own-use", "b-own-leave-out"]
    assert agreed(it.client) == () and it.keys(THERAPIST) == ["media-given", "media-when-now"]
    assert it.keys(CARER) == []


def test_only_once_the_client_has_agreed_is_it_used_and_the_therapist_hears_of_it_without_a_sound() -> None:
    it = give(here(), beside=True)
    assert agreed(it.client) == ()
    it.now += timedelta(minutes=1)
    it.press(CLIENT, "use")
    (own,) = agreed(it.client)
    assert (own.exercise, own.media, own.beside, own.by, own.kept_at) == ("tandem", PHOTO, True, THERAPIST, it.now)
    assert it.keys(CLIENT) == ["set-up-title", "own-used", "own-used-change"] and it.keys(THERAPIST) == ["media-agreed"]
    assert [say.silent for say in it.last if isinstance(say, Say) and say.to == THERAPIST] == [True]
    assert question(it) == [] and whats(it)[1:] == [(CLIENT, "tandem", "photo", "agreed")]


def test_what_the_client_declines_is_forgotten_and_the_therapist_hears_of_it_without_a_sound() -> None:
    it = give(here())
    it.press(CLIENT, "leave_out")
    assert it.client.own_media == () and it.keys(CLIENT) == ["set-up-title", "own-left-out"]
    assert it.keys(THERAPIST) == ["media-declined-by-client"]
    assert whats(it) == [(THERAPIST, "tandem", "photo", "given"), (CLIENT, "tandem", "photo", "declined")]


@pytest.mark.parametrize("choice", ["use", "leave_out"])
def test_a_second_press_changes_nothing_and_is_answered(choice: str) -> None:
    it = give(here())
    other = "leave_out" if choice == "use" else "use"
    presses = {button.press.choice: button.press for button in it.phone(CLIENT).cards["own"].buttons}
    it.press(CLIENT, choice)
    was, told = it.client, len(it.records)
    for again in (choice, other):
        it.send(CLIENT, presses[again])
        assert it.client == was and len(it.records) == told
        assert it.replies[-1] is not None and it.replies[-1].key == "press-over"


@pytest.mark.parametrize("by", [CARER, THERAPIST, CONTACT, STRANGER, "c2"])
def test_nobody_but_the_client_answers(by: str) -> None:
    it = give(here())
    was = it.client
    for button in it.phone(CLIENT).cards["own"].buttons:
        it.send(by, button.press)
        assert it.client == was and it.replies[-1] is not None and it.replies[-1].key == "press-not-yours"


def test_words_typed_in_place_of_an_answer_decide_nothing() -> None:
    it = give(here())
    it.write(CLIENT, "use it")
    assert agreed(it.client) == () and question(it) == ["use", "leave_out"]


def test_one_question_stands_at_a_time_and_the_next_follows_its_answer() -> None:
    it = give(give(give(here(), PHOTO), VOICE, "toes"), CLIP, "press")
    assert asks(it) == [] and "media-when-answered" in it.keys(THERAPIST)
    assert it.phone(CLIENT).cards["own"].media == PHOTO
    it.press(CLIENT, "use")
    assert [say.media for say in asks(it)] == [VOICE]
    it.press(CLIENT, "leave_out")
    assert [say.media for say in asks(it)] == [CLIP]
    it.press(CLIENT, "use")
    assert asks(it) == [] and [own.exercise for own in agreed(it.client)] == ["tandem", "press"]


# --- at a good moment -----------------------------------------------------------------------------------------


def test_in_a_session_nothing_is_asked_and_after_it_it_is() -> None:
    it = here().start().check()
    give(it)
    assert asks(it) == [] and "media-when-session" in it.keys(THERAPIST)
    it.row(CLIENT, Control.ENOUGH)
    assert len(asks(it)) == 1


def test_a_question_that_stands_when_a_session_starts_is_answered_after_it() -> None:
    it = give(here()).start().check().reach(".hold")
    for choice in ("use", "leave_out"):
        press = next(button.press for button in it.phone(CLIENT).cards["own"].buttons if button.press.choice == choice)
        was = it.client
        it.send(CLIENT, press)
        assert it.client == was and it.keys(CLIENT) == []
        assert it.replies[-1] is not None and it.replies[-1].key == "own-not-now"
    it.row(CLIENT, Control.ENOUGH)
    it.press(CLIENT, "use")
    assert len(agreed(it.client)) == 1


@pytest.mark.parametrize(
    ("at", "quiet", "asked"),
    [
        (NIGHT, None, MONDAY + timedelta(days=1)),
        (MONDAY.replace(hour=12), Quiet(MONDAY.time().replace(12), MONDAY.time().replace(14)), MONDAY.replace(hour=14)),
        (NIGHT, Quiet(NIGHT.time().replace(20), NIGHT.time().replace(10)), MONDAY.replace(hour=10) + timedelta(days=1)),
    ],
)
def test_at_night_and_in_the_quiet_hours_nothing_is_asked_and_after_them_it_is(
    at: datetime, quiet: Quiet | None, asked: datetime
) -> None:
    it = here(quiet=quiet, off_day=MONDAY.date())
    it.now = at
    give(it)
    assert asks(it) == [] and "media-when-day" in it.keys(THERAPIST)
    it.until(asked - timedelta(seconds=1))
    assert question(it) == []
    it.until(asked)
    assert question(it) == ["use", "leave_out"]


def test_a_session_that_ends_at_night_puts_the_question_off_to_the_morning() -> None:
    it = here().start().check()
    give(it)
    it.now = NIGHT
    it.row(CLIENT, Control.ENOUGH)
    assert asks(it) == [] and question(it) == []
    it.until(MONDAY + timedelta(days=1))
    assert question(it) == ["use", "leave_out"]


def test_a_companion_that_was_away_all_day_does_not_ask_at_night() -> None:
    it = here()
    it.now = NIGHT
    give(it)
    it.now = NIGHT + timedelta(days=1)
    it.do(Woke(it.now))
    assert question(it) == []
    it.until(MONDAY + timedelta(days=2))
    assert question(it) == ["use", "leave_out"]


def test_while_everything_is_stopped_nothing_is_asked_and_once_it_is_lifted_it_is() -> None:
    it = here()
    it.row(CLIENT, Control.SOMETHING_WRONG)
    give(it)
    assert asks(it) == [] and "media-when-lifted" in it.keys(THERAPIST)
    it.wait(86400)
    assert question(it) == []
    it.lift()
    assert len(asks(it)) == 1


def test_a_red_flag_takes_a_question_back_and_it_is_asked_again_after_it() -> None:
    it = give(here())
    old = it.phone(CLIENT).cards["own"].buttons
    it.row(CLIENT, Control.SOMETHING_WRONG)
    assert question(it) == [] and TakeBack("media") in it.last
    for button in old:
        was = it.client.own_media
        if button.press.choice == "use":
            it.send(CLIENT, button.press)
            assert it.client.own_media == was and it.replies[-1] is not None and it.replies[-1].key == "held"
    it.lift()
    assert [say.media for say in asks(it)] == [PHOTO]


def test_on_a_pause_nothing_is_asked_until_the_client_is_back() -> None:
    it = give(here(pause=Pause("holiday", MONDAY)))
    assert asks(it) == [] and "media-when-back" in it.keys(THERAPIST)
    it.send(CLIENT, Press("c1", "menu", "pause", "back"))
    assert len(asks(it)) == 1


def test_who_is_not_in_the_chat_or_has_newer_words_to_agree_to_is_asked_once_that_is_done() -> None:
    it = give(here(joined=(CARER, THERAPIST)))
    assert asks(it) == [] and "media-when-joined" in it.keys(THERAPIST)
    it.do(Joined(it.now, CLIENT))
    assert len(asks(it)) == 1
    it = give(here(consent=Consent("first", MONDAY)))
    assert asks(it) == []
    it.do(Consented(it.now, CLIENT, RULES.consent.version))
    assert len(asks(it)) == 1


def test_a_restart_between_given_and_asked_forgets_nobody() -> None:
    it = here()
    it.now = NIGHT
    give(it)
    again = Home(it.client, now=it.now)
    again.until(MONDAY + timedelta(days=1))
    assert question(again) == ["use", "leave_out"]


# --- behind More ----------------------------------------------------------------------------------------------


def listed(it: Home) -> list[str]:
    it.row(CLIENT, Control.MORE)
    for choice in ("else", "week", "own"):
        it.press(CLIENT, choice)
    return [button.press.choice for button in it.phone(CLIENT).cards["menu"].buttons]


def test_only_who_has_any_finds_it_behind_more() -> None:
    it = here()
    it.send(CLIENT, Press("c1", "menu", "else", "week"))
    assert [button.press.choice for button in it.phone(CLIENT).cards["menu"].buttons] == ["goal", "sees"]
    it = both()
    it.send(CLIENT, Press("c1", "menu", "else", "week"))
    assert [button.press.choice for button in it.phone(CLIENT).cards["menu"].buttons] == ["goal", "sees", "own"]


def test_the_client_takes_out_what_is_used_and_the_therapist_hears_of_it() -> None:
    it = both()
    assert listed(it) == ["leave_out", "n1"] and it.keys(CLIENT) == ["own-item", "own-item-kept"]
    press = it.phone(CLIENT).cards["menu"].buttons[0].press
    it.send(CLIENT, press)
    assert agreed(it.client) == () and it.keys(CLIENT) == ["own-left-out"] and question(it) == ["use", "leave_out"]
    assert it.keys(THERAPIST) == ["media-removed-by-client"] and whats(it)[-1] == (CLIENT, "tandem", "photo", "removed")
    was = it.client
    it.send(CLIENT, press)
    assert it.client == was and it.keys(CLIENT) == ["own-item", "own-item-waiting"]


def test_a_question_that_scrolled_away_is_asked_again_with_its_file() -> None:
    it = both()
    listed(it)
    it.press(CLIENT, "n1")
    assert it.keys(CLIENT) == ["own-item", "own-item-waiting"]
    it.press(CLIENT, "show")
    assert [say.media for say in asks(it)] == [VOICE]
    it.press(CLIENT, "use")
    assert len(agreed(it.client)) == 2


def test_one_asked_for_again_takes_the_place_of_the_question_that_stands_and_neither_is_lost() -> None:
    it = give(give(here(), PHOTO), VOICE, "toes")
    listed(it)
    it.press(CLIENT, "n1")
    it.press(CLIENT, "show")
    assert [say.media for say in asks(it)] == [VOICE]
    it.press(CLIENT, "leave_out")
    assert [say.media for say in asks(it)] == [PHOTO]


def test_behind_more_nothing_is_asked_while_everything_is_stopped_but_it_can_be_taken_out() -> None:
    it = both()
    it.row(CLIENT, Control.SOMETHING_WRONG)
    used, waits = it.client.own_media
    it.send(CLIENT, Press("c1", "menu", waits.id, "show"))
    assert asks(it) == [] and it.keys(CLIENT) == ["held"]
    it.send(CLIENT, Press("c1", "menu", used.id, "leave_out"))
    assert it.client.own_media == (waits,)


def test_when_all_is_taken_out_an_old_button_of_the_list_says_so() -> None:
    it = both()
    for own in it.client.own_media:
        it.send(CLIENT, Press("c1", "menu", own.id, "leave_out"))
    it.send(CLIENT, Press("c1", "menu", "own", "n1"))
    assert it.keys(CLIENT) == ["own-none"] and question(it) == []
