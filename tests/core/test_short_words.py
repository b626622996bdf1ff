"""The short style: begun by what a visit finds, changed by the client at any time, and never while somebody stands."""

from dataclasses import replace
from typing import Any

import pytest

from companion.core.baseline import Baseline
from companion.core.events import BaselineTaken, Control, Press
from companion.core.showing import standing
from tests.core.home import Home, home
from tests.core.practice import CLIENT, MONDAY, THERAPIST, full_plan

FOUND = Baseline("left", "right", "none", "no", "one", "voice")


def help_screen(it: Home) -> Home:
    it.row(CLIENT, Control.MORE)
    for choice in ("else", "rest", "help"):
        it.press(CLIENT, choice)
    return it


def helped(**more: Any) -> Home:
    return help_screen(home(full_plan(), **more))


def visit(it: Home, reading: str) -> None:
    it.do(BaselineTaken(MONDAY, THERAPIST, replace(FOUND, reading=reading)))


@pytest.mark.parametrize(("reading", "short"), [("usual", False), ("short_words", True), ("pictures_only", True)])
def test_what_a_visit_finds_of_reading_sets_the_style(reading: str, short: bool) -> None:
    for before in (True, False):
        it = home(full_plan(), short_words=before)
        visit(it, reading)
        assert it.client.short_words is short


def test_a_visit_that_finds_the_same_reading_leaves_what_the_client_chose() -> None:
    it = home(full_plan())
    visit(it, "short_words")
    help_screen(it).press(CLIENT, "all_words")
    visit(it, "short_words")
    assert not it.client.short_words
    visit(it, "pictures_only")
    assert it.client.short_words


def test_the_client_changes_the_style_and_changes_it_back() -> None:
    it = home(full_plan())
    for choice, short, said in (("short_words", True, "style-short"), ("all_words", False, "style-all")):
        help_screen(it).press(CLIENT, choice)
        assert it.client.short_words is short and it.keys(CLIENT) == [said]


def test_the_second_press_of_a_style_is_answered_and_changes_nothing() -> None:
    it = helped()
    it.press(CLIENT, "short_words")
    was = it.client
    it.send(CLIENT, Press("c1", "menu", "style", "short_words"))
    assert it.client == was and it.keys(CLIENT) == ["style-short"]


def test_in_a_session_the_question_comes_again_and_the_session_goes_on_as_it_began() -> None:
    it = home(full_plan()).start()
    asked = it.client.session
    help_screen(it).press(CLIENT, "short_words")
    assert it.client.short_words and it.client.session == asked
    assert it.keys(CLIENT)[:2] == ["style-short", "style-next-time"] and "how-are-you" in it.heard(CLIENT)
    assert {"same", "different"} <= {button.press.choice for button in it.phone(CLIENT).buttons()}


def test_who_stands_is_shown_no_style_to_press() -> None:
    it = home(full_plan()).start().check().reach(".hold")
    assert it.client.session is not None and standing(it.client.session)
    help_screen(it)
    assert it.keys(CLIENT)[0] == "help-client"
    assert "short_words" not in [button.press.choice for button in it.phone(CLIENT).said[-1].buttons]


def test_before_the_consent_no_style_is_offered() -> None:
    it = helped(consent=None)
    assert it.keys(CLIENT)[0] == "help-client" and it.phone(CLIENT).said[-1].buttons == ()
