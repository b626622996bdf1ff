"""The therapist makes a client in the chat and takes the baseline, by taps, with sensible defaults."""

from companion.core.dialogues import Enrolling
from companion.core.events import Facts, Pressed, Typed
from companion.core.person_turn import PersonTurn


def begin(turn: PersonTurn) -> None:
    """A new client."""


def again(turn: PersonTurn, facts: Facts) -> None:
    """The baseline of a client is taken anew."""


def pressed(turn: PersonTurn, event: Pressed, dialogue: Enrolling) -> None:
    """A button of the baseline."""


def typed(turn: PersonTurn, event: Typed, dialogue: Enrolling) -> bool:
    """Words typed while the dialogue is open; whether it had asked for words."""
    return False
