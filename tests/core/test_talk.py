"""What is said beside a session: typed words, the menu, help, joining."""

from companion.core.events import Control, Joined, Left, Press
from companion.core.observations import OwnWords, Reporter
from tests.core.home import home
from tests.core.practice import CARER, CLIENT, MONDAY, STRANGER, THERAPIST, full_plan, plan, planned


def test_typed_words_are_kept_for_the_therapist_and_answered_with_the_emergency_words_beside() -> None:
    it = home(full_plan())
    for by, who in ((CLIENT, Reporter.CLIENT), (CARER, Reporter.CARER)):
        it.write(by, "  my shoes are new  ")
        assert it.keys(by)[:2] == ["typed-kept", "typed-emergency"]
        assert it.all(OwnWords)[-1] == OwnWords(MONDAY, who, "my shoes are new")


def test_something_that_is_not_words_is_answered_and_not_kept() -> None:
    it = home(full_plan())
    it.write(CLIENT, "   ")
    assert it.keys(CLIENT)[:2] == ["typed-other", "typed-emergency"] and it.all(OwnWords) == []


def test_very_long_words_are_kept_to_their_first_1000_characters() -> None:
    it = home(full_plan())
    it.write(CLIENT, "a" * 5000)
    assert len(it.all(OwnWords)[0].text) == 1000


def test_typed_words_in_a_session_bring_the_question_back_with_fresh_buttons() -> None:
    it = home(full_plan()).start()
    it.write(CLIENT, "hello?")
    assert it.keys(CLIENT)[:3] == ["typed-kept", "typed-emergency", "how-are-you"]
    it.press(CLIENT, "same")
    assert it.at == "place"


def test_words_of_others_reach_nobody() -> None:
    it = home(full_plan())
    for by in (STRANGER, THERAPIST):
        it.write(by, "hello")
        assert it.keys(by) == ["typed-therapist"] and it.all(OwnWords) == []


def test_the_menu_has_at_most_three_choices_and_a_fall_is_one_of_them() -> None:
    it = home(full_plan())
    for by in (CLIENT, CARER):
        it.row(by, Control.MORE)
        choices = [button.press.choice for button in it.phone(by).buttons()]
        assert len(choices) <= 3 and "fell" in choices


def test_help_says_that_nobody_watches_and_whom_to_call() -> None:
    it = home(full_plan())
    for by in (CLIENT, CARER):
        it.send(by, Press(it.client.id, "menu", "more", "help"))
        assert {"typed-emergency", "help-not-watched"} <= set(it.keys(by))


def test_who_presses_start_again_is_shown_where_they_are() -> None:
    it = home(plan(planned("together"))).start()
    it.do(Joined(it.now, CLIENT, again=True))
    assert it.keys(CLIENT)[0] == "how-are-you"


def test_a_carer_who_blocks_the_companion_is_told_to_the_therapist_and_may_come_back() -> None:
    it = home(full_plan())
    it.do(Left(it.now, CARER))
    assert it.keys(THERAPIST) == ["left-therapist"] and CARER not in it.client.joined
    it.do(Left(it.now, CARER, back=True))
    assert CARER in it.client.joined
