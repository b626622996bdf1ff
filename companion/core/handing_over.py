"""The therapist gives a client to a colleague, for good or for a time with start and end."""

from companion.core.dialogues import HandingOver
from companion.core.events import Facts, Found, Pressed
from companion.core.person_turn import PersonTurn


def begin(turn: PersonTurn, facts: Facts, cover: bool) -> None:
    """Who shall see to this client?"""


def found(turn: PersonTurn, event: Found) -> None:
    """The colleagues on this bot."""


def pressed(turn: PersonTurn, event: Pressed, dialogue: HandingOver) -> None:
    """A button of the hand-over."""
