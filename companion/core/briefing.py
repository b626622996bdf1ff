"""The carer's briefing before the first supervised session, topic by topic, with a check question for each."""

from companion.core.dialogues import Briefing
from companion.core.events import Joined, Pressed
from companion.core.person_turn import PersonTurn


def joined(turn: PersonTurn, event: Joined) -> None:
    """The carer's phone is in the chat."""


def pressed(turn: PersonTurn, event: Pressed, dialogue: Briefing) -> None:
    """A button of the briefing."""
