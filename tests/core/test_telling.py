"""Own words to the therapist, passed on and not read at once; and the client's goal."""

import pytest

from companion.core.effects import PassOn
from companion.core.events import Control, Left, Typed
from companion.core.observations import GoalSet, OwnWords, Reporter
from companion.core.programme import Clock
from tests.core.home import Home, home
from tests.core.practice import CARER, CLIENT, MONDAY, THERAPIST, full_plan, plan, planned


def telling() -> Home:
    it = home(full_plan())
    it.row(CLIENT, Control.MORE)
    it.press(CLIENT, "else")
    it.press(CLIENT, "tell")
    return it


def send(it: Home, form: str, message_id: int | None = 41, by: str = CLIENT) -> None:
    it.do(Typed(it.now, by, "", form, message_id))


def test_before_anything_is_told_the_client_hears_that_it_is_not_read_at_once_and_whom_to_call() -> None:
    assert telling().keys(CLIENT) == ["tell-how", "tell-not-read", "typed-emergency"]


def test_words_are_passed_on_at_once_as_own_words_and_recorded() -> None:
    it = telling()
    it.write(CLIENT, "my knee is stiff")
    assert it.keys(THERAPIST) == ["tell-therapist"]
    line = it.phone(THERAPIST).said[-1].words[0]
    assert dict(line.params)["text"] == "my knee is stiff"
    assert it.keys(CLIENT) == ["tell-passed", "tell-not-read", "typed-emergency"]
    assert it.all(OwnWords) == [OwnWords(MONDAY, Reporter.CLIENT, "my knee is stiff")]


def test_several_messages_in_a_row_are_passed_on_one_by_one_until_that_is_all() -> None:
    it = telling()
    for text in ("one", "two", "three"):
        it.write(CLIENT, text)
        it.wait(600)
    assert it.heard(THERAPIST).count("tell-therapist") == 3
    it.press(CLIENT, "done")
    it.write(CLIENT, "four")
    assert it.heard(THERAPIST).count("tell-therapist") == 3 and it.keys(CLIENT)[0] == "typed-kept"


def test_half_an_hour_after_the_last_words_they_are_only_kept() -> None:
    it = telling()
    it.wait(it.rules.patience.writing_s + 1)
    it.write(CLIENT, "late")
    assert it.keys(THERAPIST) == [] and it.all(OwnWords)[-1].text == "late"


def test_a_voice_note_or_a_photo_without_a_caption_is_announced_and_copied() -> None:
    for form in ("voice", "photo"):
        it = telling()
        send(it, form)
        assert it.keys(THERAPIST) == ["tell-therapist-form"]
        assert [one for one in it.last if isinstance(one, PassOn)] == [PassOn(THERAPIST, CLIENT, 41)]
        assert it.all(OwnWords) == [OwnWords(MONDAY, Reporter.CLIENT, "", form)]


def test_a_voice_note_is_passed_on_without_the_menu_too() -> None:
    it = home(full_plan())
    send(it, "voice")
    assert it.keys(THERAPIST) == ["tell-therapist-form"] and it.keys(CLIENT)[0] == "tell-passed"


def test_what_can_not_be_passed_on_is_said_so() -> None:
    it = telling()
    for form in ("sticker", "edited", "location"):
        send(it, form)
        assert it.keys(CLIENT)[0] == "typed-other" and it.keys(THERAPIST) == []


def test_in_a_session_words_bring_the_question_back_and_reach_nobody_at_once() -> None:
    it = home(plan(planned("press"), planned("together"))).start()
    it.write(CLIENT, "wait")
    assert it.keys(THERAPIST) == [] and it.keys(CLIENT)[-1] == "sign-row"


def test_the_menu_in_a_session_says_how_to_end_it_and_asks_for_no_words() -> None:
    it = home(full_plan()).start()
    it.row(CLIENT, Control.MORE)
    it.press(CLIENT, "else")
    it.press(CLIENT, "tell")
    assert it.keys(CLIENT)[0] == "menu-in-session" and it.client.writing is None


def test_a_therapist_who_is_not_in_the_chat_is_not_said_to_have_got_it() -> None:
    it = telling()
    it.do(Left(it.now, THERAPIST))
    it.write(CLIENT, "hello")
    assert it.keys(THERAPIST) == [] and it.keys(CLIENT)[0] == "tell-kept"
    assert it.all(OwnWords)[-1].text == "hello"


def test_words_of_the_carer_are_not_the_clients() -> None:
    it = telling()
    it.write(CARER, "hello")
    assert it.keys(THERAPIST) == [] and it.all(OwnWords)[-1].by is Reporter.CARER


def test_a_goal_is_kept_in_the_clients_own_words_and_shown_in_the_week() -> None:
    it = home(full_plan())
    it.row(CLIENT, Control.MORE)
    for choice in ("else", "week", "goal"):
        it.press(CLIENT, choice)
    assert it.keys(CLIENT) == ["goal-ask", "goal-how"]
    it.write(CLIENT, "  walk to  the sea ")
    assert it.client.goal == "walk to the sea" and it.all(GoalSet) == [GoalSet(MONDAY, "walk to the sea")]
    assert it.all(OwnWords) == [] and it.client.writing is None
    it.row(CLIENT, Control.MORE)
    it.press(CLIENT, "else")
    it.press(CLIENT, "week")
    assert "goal-is" in it.keys(CLIENT)


def test_a_very_long_goal_is_kept_to_its_beginning() -> None:
    it = home(full_plan())
    it.row(CLIENT, Control.MORE)
    for choice in ("else", "week", "goal"):
        it.press(CLIENT, choice)
    it.write(CLIENT, "a" * 5000)
    assert len(it.client.goal) == 150


def test_the_goal_is_said_back_at_the_end_of_every_third_session() -> None:
    said = []
    for sessions in (2, 3, 4):
        it = home(plan(planned("press")), goal="walk to the sea", sessions=sessions).start().check().finish()
        said.append("goal-is" in it.heard(CLIENT))
    assert said == [True, False, False]
    assert "goal-is" not in home(plan(planned("press")), sessions=2).start().check().finish().heard(CLIENT)


# --- a voice note or a picture in a session -----------------------------------------------------------------------


def in_session() -> Home:
    it = home(plan(planned("together"), planned("together", clock=Clock.SOUND))).start().check()
    it.wait(60)
    return it


@pytest.mark.parametrize("form", ["voice", "photo"])
def test_a_voice_answer_in_a_session_is_passed_on_never_guessed_at_and_the_question_comes_again(form: str) -> None:
    it = in_session()
    at, old = it.at, it.phone(CLIENT).cards["session"].buttons
    send(it, form)
    assert it.at == at and it.all(OwnWords)[-1] == OwnWords(it.now, Reporter.CLIENT, "", form)
    assert it.keys(THERAPIST) == ["tell-therapist-form"]
    assert [effect.message_id for effect in it.last if isinstance(effect, PassOn)] == [41]
    assert it.keys(CLIENT)[:3] == ["tell-in-session", "typed-emergency", "set-up-title"]
    assert it.phone(CLIENT).cards["session"].buttons == old
    assert it.client.writing is None, "the next words are not taken for more of it"


def test_somebody_in_a_stance_gets_nothing_to_press_for_a_voice_note() -> None:
    it = in_session().reach(".hold")
    send(it, "voice")
    said = it.phone(CLIENT).said[-1]
    assert it.keys(CLIENT) == ["tell-in-session", "typed-emergency"] and not said.buttons and said.silent


def test_while_a_sound_plays_nothing_to_press_comes_but_what_stands_under_it() -> None:
    it = home(plan(planned("together", clock=Clock.SOUND))).start().check().reach(".note")
    for what in ("voice", ""):
        send(it, what)
        assert not it.phone(CLIENT).said[-1].buttons and it.phone(CLIENT).said[-1].silent
    it.wait(111)
    send(it, "voice")
    assert it.keys(CLIENT)[-1] == "sound-then" and it.phone(CLIENT).said[-1].buttons
    it.press(CLIENT, "clean")
    assert it.bouts[-1].practised_s == 60.0


def test_nothing_is_passed_on_twice_and_what_the_carer_sends_in_a_session_is_not() -> None:
    it = in_session()
    send(it, "voice", by=CARER)
    assert "tell-therapist-form" not in it.heard(THERAPIST)
    send(it, "voice", message_id=None)
    assert "tell-therapist-form" not in it.heard(THERAPIST) and "typed-other" in it.keys(CLIENT)
