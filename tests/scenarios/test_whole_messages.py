"""What clients and carers read in any scenario, message by message, keeps the rules of whole messages."""

import re

import pytest

from companion.content.folders import content_dir
from companion.content.plain_messages import FOR_HELPER, Line, broken_together
from companion.content.plain_words import FOR_THE_THERAPIST, is_button
from companion.content.texts import Texts
from tests.scenarios.playing import ALL, Rehearsals

HOME = ("client", "carer")
TEXTS = Texts(content_dir() / "texts")
BUTTONS = [
    (key, re.compile(re.escape(reading).replace("\0", ".+"), re.DOTALL))
    for key, source in TEXTS.keys("en").items()
    if is_button(key) and source.path.name not in FOR_THE_THERAPIST
    for reading in TEXTS.readings(key, "en", filler="\0")
]


def answer(label: str) -> Line:
    """A button with the key of its words; the most exact where several fit."""
    found = [(len(pattern.pattern), key) for key, pattern in BUTTONS if pattern.fullmatch(label)]
    assert found, f"nobody wrote the button {label!r}"
    return max(found)[1], label


def lines_of(text: str) -> list[Line]:
    """The lines of a message; of keys, only the one that begins the helper's part can be told."""
    return [(FOR_HELPER if line == "For your helper:" else "", line) for line in text.splitlines()]


@pytest.mark.parametrize("name", ALL)
def test_each_message_of_a_scenario_asks_one_thing_with_few_answers_that_are_not_alike(
    name: str, rehearsals: Rehearsals
) -> None:
    sent = [line for line in rehearsals.lines(name) if line.way == "out" and line.phone in HOME and line.text]
    assert len(sent) > 10
    for line in sent:
        # names, dates and somebody's own words have no grade
        broken = list(broken_together(lines_of(line.text), [answer(label) for label in line.buttons], own_words=True))
        assert broken == [], line
