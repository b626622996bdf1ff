"""The therapist enters what was measured at a review: one screen a measure."""

from companion.core.events import Facts
from companion.core.person_turn import PersonTurn


def begin(turn: PersonTurn, facts: Facts) -> None:
    """The client's page was asked for it."""
