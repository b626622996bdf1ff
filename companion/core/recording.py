"""The therapist records a voice cue, a photo or a clip for an exercise of one client."""

from companion.core.events import Facts
from companion.core.person_turn import PersonTurn


def begin(turn: PersonTurn, facts: Facts) -> None:
    """The client's page was asked for it."""
