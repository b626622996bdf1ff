"""Answers on the carer's phone: where the client has no hand or eye for a phone, who answers first counts."""

import pytest

from companion.core.effects import Put, Say
from companion.core.events import Control
from companion.core.observations import Bounds, Quality, Reporter
from companion.core.programme import Clock, Planned, Supervision
from tests.core.home import Home, home
from tests.core.practice import CARER, CLIENT, THERAPIST, alone, plan, planned

SOUND = planned("together", clock=Clock.SOUND)
CARERS = planned("together", clock=Clock.CARER)


def answering(item: Planned = SOUND, **more: object) -> Home:
    """After the note or the carer's clock, with the question on both phones."""
    it = home(plan(item, planned("press"), **more)).start().check()
    it.reach(".note" if item.clock is Clock.SOUND else ".how")
    it.wait(100 if item.clock is Clock.SOUND else 1)
    return it


def card(it: Home, who: str) -> Say:
    return it.phone(who).cards["session" if who == CLIENT else "carer"]


def choices(it: Home, who: str) -> list[str]:
    return [button.press.choice for button in card(it, who).buttons]


@pytest.mark.parametrize("item", [SOUND, CARERS], ids=["sound", "carer"])
def test_the_carer_may_answer_and_is_the_one_who_reported(item: Planned) -> None:
    it = answering(item)
    assert choices(it, CLIENT) == choices(it, CARER) == ["clean", "not_quite", "unwell"]
    it.press(CARER, "clean")
    assert (it.bouts[-1].quality, it.bouts[-1].reporter, it.bouts[-1].practised_s) == (Quality.CLEAN, Reporter.CARER, 60.0)
    assert it.keys(CLIENT)[0] == "also-helper-answered" and it.keys(CARER) == ["also-thanks"] and not choices(it, CARER)


@pytest.mark.parametrize("item", [SOUND, CARERS], ids=["sound", "carer"])
def test_where_the_client_answers_first_the_carers_card_says_so(item: Planned) -> None:
    it = answering(item)
    old = card(it, CARER).buttons[0].press
    it.press(CLIENT, "clean")
    assert it.keys(CARER) == ["also-answered"] and it.bouts[-1].reporter is Reporter.CLIENT
    was = it.client
    it.send(CARER, old)
    assert it.client == was and it.replies[-1] is not None and it.replies[-1].key == "press-stale"


def test_the_two_may_take_turns_and_the_carers_part_is_told() -> None:
    it = answering()
    it.press(CLIENT, "not_quite")
    assert choices(it, CARER) == choices(it, CLIENT) and choices(it, CARER)[-1] == "unheard"
    it.press(CARER, "step")
    assert it.keys(CLIENT)[0] == "also-helper-answered"
    it.press(CLIENT, "q2")
    assert (it.bouts[-1].first_break, it.bouts[-1].reporter) == (Bounds(15, 30), Reporter.CARER)


def test_the_carers_card_makes_no_sound_and_speaks_of_them() -> None:
    it = answering()
    shown = card(it, CARER)
    assert shown.silent and shown.put is Put.IN_PLACE
    assert [button.label.key for button in shown.buttons] == ["b-clean", "b-not-quite", "b-unwell.carer"]
    assert [line.key for line in shown.words] == ["also-carer", "sound-then"]
    it.press(CARER, "not_quite")
    it.press(CARER, "step")
    assert card(it, CARER).words[-1].key == "ask-when.carer"


def test_on_the_carers_clock_the_question_stands_below_what_they_say_aloud() -> None:
    it = answering(CARERS)
    assert [line.key for line in card(it, CARER).words] == ["carer-time", "carer-say-down", "also-carer", "ask-how"]


def test_with_eyes_closed_what_the_carer_does_stays_on_their_phone() -> None:
    it = home(plan(planned("dark", clock=Clock.SOUND), eyes_closed=True)).start().check().reach(".note")
    assert card(it, CARER).words[0].key == "form-dark-shut.carer"


def test_the_carer_tells_that_they_felt_unwell_and_everything_stops() -> None:
    it = answering()
    it.press(CARER, "unwell")
    assert it.held and it.hold.by == CARER and it.bouts[-1].quality is Quality.UNWELL


def test_the_carer_tells_that_nothing_was_heard() -> None:
    it = answering()
    it.press(CARER, "not_quite")
    it.press(CARER, "unheard")
    assert it.at == "sound-again.ready" and [bout.exercise for bout in it.bouts] == ["press"]


def test_a_lost_clock_may_be_told_of_by_the_carer_too() -> None:
    it = home(plan(CARERS)).start().check().reach(".hold")
    it.away(90)
    assert it.at.endswith(".lost")
    it.press(CARER, "broke")
    assert (it.bouts[-1].reporter, it.bouts[-1].practised_s) == (Reporter.CARER, None)


def test_a_carer_who_was_not_shown_to_be_there_answers_nothing() -> None:
    free = home(plan(SOUND, supervision=Supervision.WHEN_FORM_NEEDS)).start().check().reach(".note")
    shared = home(plan(SOUND), **alone(shared_phone=True, briefed=((CLIENT, "1"),))).start().check().reach(".note")
    for it in (free, shared):
        assert "also-carer" not in it.heard(CARER) + it.heard(CLIENT)
        press = it.phone(CLIENT).cards["session"].buttons[0].press
        was = it.client
        for other in (CARER, THERAPIST):
            it.send(other, press)
            assert it.client == was


def test_of_a_note_that_did_not_come_the_carer_is_asked_nothing() -> None:
    it = home(plan(SOUND)).start().check().reach(".note")
    it.lose()
    assert it.at.endswith(".no-note") and not choices(it, CARER)


def test_a_carer_who_left_answers_nothing_more() -> None:
    it = answering()
    press = card(it, CARER).buttons[0].press
    it.row(CARER, Control.HAD_TO_LEAVE)
    was = it.client
    it.send(CARER, press)
    assert it.client == was


def test_silence_is_still_followed_up_and_the_carer_can_answer_it() -> None:
    it = answering()
    it.wait(110 + it.rules.patience.carer_nudge_s)
    assert "nudge-carer" in it.heard(CARER)
    it.press(CARER, "clean")
    assert it.keys(CARER) == ["also-thanks"], "who answers is not told that somebody did"


def test_on_the_clients_own_screen_the_client_alone_answers() -> None:
    it = home(plan(planned("together"))).start().check().reach(".how")
    assert "also-carer" not in it.heard(CARER)
