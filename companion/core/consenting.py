"""The client's consent, on the client's own phone: plain words, one screen at a time, recorded with version and time."""

from companion.core.dialogues import Consenting
from companion.core.events import Joined, Pressed
from companion.core.person_turn import PersonTurn


def joined(turn: PersonTurn, event: Joined) -> None:
    """The client's phone is in the chat."""


def pressed(turn: PersonTurn, event: Pressed, dialogue: Consenting) -> None:
    """A button of the consent."""
