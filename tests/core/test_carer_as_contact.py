"""A carer who is the next contact too: told in a carer's words, asked what came of it, and done when the stop is lifted."""

from companion.core.care import People
from companion.core.events import Control
from companion.core.observations import CallNoted
from tests.core.home import Home, home
from tests.core.practice import CARER, CLIENT, PEOPLE, THERAPIST, full_plan

LONG = 16 * 60


def next_in_line(by: str = CLIENT) -> Home:
    """Something was pressed, the therapist has not answered, and it is the carer's turn."""
    it = home(full_plan(), people=People(CLIENT, THERAPIST, CARER, (CARER,), PEOPLE.names))
    it.row(by, Control.SOMETHING_WRONG)
    it.wait(LONG)
    return it


def alert(it: Home) -> list[str]:
    return [line.key for line in it.phone(CARER).cards["alert-c1"].words]


def test_the_carer_is_told_in_a_carers_words_what_happened_and_what_to_do() -> None:
    it = next_in_line()
    assert alert(it)[:2] == ["alert-contact-carer", "happened-pressed-wrong"]
    assert {"emergency-go", "emergency-call", "emergency-bot"} <= set(alert(it))


def test_a_carer_who_pressed_themselves_is_told_the_same() -> None:
    assert alert(next_in_line(CARER)) == alert(next_in_line())


def test_what_came_of_it_is_asked_and_noted_in_a_carers_words() -> None:
    it = next_in_line()
    it.press(CARER, "seen")
    assert alert(it) == ["alert-seen-carer", "alert-stays-carer"]
    labels = [button.label.key for button in it.phone(CARER).cards["alert-c1"].buttons]
    assert labels == ["b-call-with-them-carer", "b-call-reached-carer", "b-call-not-reached-carer"]
    it.press(CARER, "with_them")
    assert alert(it) == ["alert-call-noted-carer", "alert-stays-carer"]
    assert [(call.by, call.answer) for call in it.all(CallNoted)] == [(CARER, "with_them")]


def test_when_the_stop_is_lifted_the_carer_is_told_once_and_has_nothing_left_to_press() -> None:
    it = next_in_line()
    it.press(THERAPIST, "seen")
    it.press(THERAPIST, "lift")
    it.press(THERAPIST, "spoke")
    assert it.keys(CARER)[0] == "flag-lifted" and it.phone(CARER).cards["alert-c1"].buttons == ()
