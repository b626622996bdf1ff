"""The therapist's weekly digest: when it is due, and what it asks for."""

from datetime import datetime

from companion.core.person_turn import PersonTurn
from companion.core.phone import Person


def due(person: Person) -> datetime | None:
    """When the next digest is due; None if none is wanted."""
    return None


def woke(turn: PersonTurn) -> None:
    """The digest may be due."""
