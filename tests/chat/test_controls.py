"""A control is known by every label it ever had, in every language, and by its command."""

from companion.chat.controls import COMMANDS, RETIRED, ROW, controls
from companion.core.effects import Words
from companion.core.events import Control
from companion.core.person import ROWS


class Shouting:
    """A renderer whose texts are their keys."""

    def text(self, words: Words, language: str) -> str:
        return f"{language.upper()} {words.key}"


def test_every_label_of_every_fixed_row_is_a_control() -> None:
    assert {key for row in ROWS.values() for key in row} == set(ROW)


def test_a_label_is_known_as_it_was_laid_and_in_small_letters() -> None:
    known = controls(Shouting(), ["en", "de"])
    for label in ("EN row-enough", "en row-enough", "DE row-enough", "de row-enough"):
        assert known[label] is Control.ENOUGH


def test_every_control_has_a_command() -> None:
    assert set(COMMANDS.values()) == set(Control) == set(ROW.values())
    assert COMMANDS.items() <= controls(Shouting(), ["en"]).items()
    assert RETIRED.items() <= controls(Shouting(), ["en"]).items()
