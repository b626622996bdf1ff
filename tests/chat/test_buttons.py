"""Buttons carry a press there and back, within the platform's 64 bytes, and nothing else is taken for one."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.chat.buttons import NAMES, decode, encode
from companion.core.events import Press
from companion.core.how import How
from companion.core.script import compile_session
from companion.core.steps import Ask, Counted
from tests.core.practice import CARER, CLIENT, RULES, full_plan

IDS = st.text(st.characters(min_codepoint=33, max_codepoint=126, exclude_characters="|"), max_size=14)
PRESSES = st.builds(Press, IDS, IDS, IDS, IDS)


@given(PRESSES)
def test_a_press_comes_back_from_its_button_as_it_was(press: Press) -> None:
    data = encode(press)
    assert decode(data) == press
    # 64 bytes of callback data: the platform's public Bot API manual, InlineKeyboardButton.callback_data
    assert 1 <= len(data.encode()) <= 64


@given(PRESSES, PRESSES)
def test_two_presses_never_share_a_button(one: Press, other: Press) -> None:
    assert (encode(one) == encode(other)) == (one == other)


@given(st.one_of(st.text(max_size=80), st.none(), st.integers(), st.binary(), st.lists(st.text())))
def test_anything_else_is_no_press(data: object) -> None:
    press = decode(data)
    assert press is None or encode(press) == data


@pytest.mark.parametrize(
    "data",
    ["", "1", "1|a|b|c", "1|a|b|c|d|e", "2|a|b|c|d", "1|a b|c|d|e", "1|a|b|c|d\n", "1|ä|b|c|d", "|a|b|c|d"],
)
def test_almost_a_button_is_none(data: str) -> None:
    assert decode(data) is None


@pytest.mark.parametrize("choice", ["a|b", "a b", "ä", "x" * 60, "\n"])
def test_a_press_that_does_not_fit_is_refused_when_written(choice: str) -> None:
    with pytest.raises(ValueError, match="can not carry"):
        encode(Press("c1", "s1", "q1", choice))


NUMBERED = re.compile(r"\d*|[nq]\d+")
BESIDE_A_SESSION = {
    *("near_fall", "worry", "report", "how_it_goes", "left", "hurt", "not_hurt", "help_now", "can_wait", "saw_step", "shared"),
    *("remove_carer", "briefing", "next", "beside"),
    *("start", "later", "not_today", "practise", "fell", "help", "all_well", "happened", "seen", "lift", "spoke", "mistake"),
    *("keep", "unwell", "up", "down", "saved", "hit", "not_hit", "not_sure"),
}


def test_a_button_tells_nobody_what_was_asked_or_answered() -> None:
    """Every answer of a session of everything, and of every question beside it, leaves as a place or a number."""
    how = How("s1", "c1", "Ann", CLIENT, CARER, "112", False, RULES.signs, RULES.patience)
    script = compile_session(full_plan(eyes_closed=True), RULES.exercises, how)
    answers = {choice.id for step in script.steps if isinstance(step, Ask | Counted) for choice in step.choices}
    assert len(answers) > 35
    for name in answers | BESIDE_A_SESSION:
        *_, choice = encode(Press("c1", "s1", "1", name)).split("|")
        assert choice.startswith("~") or NUMBERED.fullmatch(choice), name


def test_a_place_once_shipped_keeps_its_meaning() -> None:
    assert {name: NAMES.index(name) for name in ("start", "same", "fell", "head")} == {
        "start": 0,
        "same": 3,
        "fell": 47,
        "head": 63,
    }
    assert len(set(NAMES)) == len(NAMES)
