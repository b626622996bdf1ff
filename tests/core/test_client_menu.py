"""What a client finds behind More: few choices, never deep, and an old button still does what it says."""

from collections.abc import Iterator
from typing import Any

from companion.core.events import Control, Press
from companion.core.observations import ConsentAnswer, ConsentNoted, Ending
from tests.core.home import Home, home
from tests.core.practice import CARER, CLIENT, MONDAY, NINE, THERAPIST, full_plan

DEEPEST = 3


def menu(*choices: str, **more: Any) -> Home:
    it = home(full_plan(), **more)
    it.row(CLIENT, Control.MORE)
    for choice in choices:
        it.press(CLIENT, choice)
    return it


def screens(path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], list[str]]]:
    """Every screen of the menu by the choices that lead there, with its own choices."""
    it = menu(*path)
    card = it.phone(CLIENT).cards.get("menu")
    there = [button.press.choice for button in card.buttons] if card is not None and it.over and not it.held else []
    yield path, there
    if len(path) < DEEPEST:
        for choice in there:
            yield from screens((*path, choice))


def test_no_screen_of_the_menu_has_more_than_3_choices_and_everything_is_at_most_3_deep() -> None:
    reached = dict(screens())
    assert {("fell",), ("practise",), ("else", "tell"), ("else", "week"), ("else", "rest", "pause"), ("else", "rest", "help"),
            ("else", "rest", "leave"), ("else", "week", "goal"), ("else", "week", "sees")} <= reached.keys()  # fmt: skip
    assert all(len(there) <= 3 for there in reached.values())


def test_screens_change_in_place_and_only_the_first_makes_a_sound() -> None:
    it = menu("else", "rest", "pause")
    assert [say.put.value for say in it.phone(CLIENT).said if say.card == "menu"] == ["new", "in_place", "in_place", "in_place"]


def test_a_fall_is_one_tap_behind_more_at_any_time() -> None:
    assert menu("fell").held


def test_a_second_press_of_any_button_of_the_menu_is_answered_and_loses_nothing() -> None:
    for path, there in list(screens()):
        for choice in there:
            it = menu(*path)
            (press,) = [one.press for one in it.phone(CLIENT).buttons() if one.press.choice == choice]
            it.send(CLIENT, press)
            records = len(it.records)
            was = it.client
            it.send(CLIENT, press)
            assert it.client == was and len(it.records) == records, (path, choice)
            assert it.last, (path, choice)


def test_what_the_carer_may_see_can_be_changed_and_is_recorded_once() -> None:
    it = menu("else", "week", "sees", "sees_none", carer_sees=("sessions",))
    assert it.client.carer_sees == () and [one.answer for one in it.all(ConsentNoted)] == [ConsentAnswer.AGREED]
    it.send(CLIENT, Press("c1", "menu", "sees", "sees_none"))
    assert len(it.all(ConsentNoted)) == 1


def test_leaving_says_what_is_kept_and_asks_once_more() -> None:
    it = menu("else", "rest", "leave")
    assert it.keys(CLIENT) == ["leave-what", "leave-kept", "leave-told"] and it.client.consent is not None
    it.press(CLIENT, "stay")
    assert it.client.consent is not None and it.keys(CLIENT) == ["stayed"]


def test_who_leaves_is_reminded_no_more_and_the_therapist_and_the_carer_are_told() -> None:
    it = menu("else", "rest", "leave", "leave")
    assert it.client.consent is None and it.client.refused_at == MONDAY
    assert it.keys(THERAPIST) == ["left-for-good-therapist"] and it.keys(CARER) == ["left-for-good-carer"]
    assert it.all(ConsentNoted)[-1].answer is ConsentAnswer.WITHDRAWN
    it.until(NINE.replace(day=20))
    assert "reminder" not in it.heard(CLIENT) and "reminder-carer" not in it.heard(CARER)


def test_who_left_can_still_say_that_something_is_wrong() -> None:
    it = menu("else", "rest", "leave", "leave")
    it.row(CLIENT, Control.SOMETHING_WRONG)
    assert it.held and it.keys(CLIENT)[0] == "emergency-stop"


def test_leaving_in_a_session_ends_it_and_does_not_lose_it() -> None:
    it = home(full_plan()).start().check()
    it.row(CLIENT, Control.MORE)
    for choice in ("else", "rest", "leave", "leave"):
        it.press(CLIENT, choice)
    assert it.over and it.ended[-1].ending is Ending.PARTLY and it.client.consent is None


def test_leaving_under_a_red_flag_leaves_the_flag_open() -> None:
    it = home(full_plan())
    it.row(CLIENT, Control.SOMETHING_WRONG)
    it.send(CLIENT, Press("c1", "menu", "leave", "leave"))
    assert it.held and it.client.consent is None


def test_the_menu_before_consent_leads_to_the_consent_but_a_fall_and_help_work() -> None:
    for choice in ("tell", "week"):
        it = menu("else", choice, consent=None)
        assert it.client.writing is None and it.keys(CLIENT) == []
    assert menu("fell", consent=None).held
    assert "help-client" in menu("else", "rest", "help", consent=None).keys(CLIENT)


def test_the_buttons_of_an_old_menu_still_do_what_they_say() -> None:
    it = home(full_plan())
    it.send(CLIENT, Press("c1", "menu", "more", "help"))
    assert "help-client" in it.keys(CLIENT)
    it.send(CLIENT, Press("c1", "menu", "more", "practise"))
    assert not it.over


def test_who_never_agreed_can_leave_too_and_that_is_written_down_once() -> None:
    it = menu("else", "rest", "leave", "leave", consent=None)
    assert it.client.refused_at == MONDAY and len(it.all(ConsentNoted)) == 1
    it.send(CLIENT, Press("c1", "menu", "leave", "leave"))
    assert len(it.all(ConsentNoted)) == 1 and it.keys(CLIENT)[0] == "left-for-good"
