"""The therapist prescribes: exercises from the library, dose, clock, hand, range, days; what contradicts itself is refused."""

from companion.core.dialogues import Prescribing
from companion.core.events import Facts, Pressed, Typed
from companion.core.person_turn import PersonTurn


def begin(turn: PersonTurn, facts: Facts) -> None:
    """A first plan, or a change of the one there is."""


def pressed(turn: PersonTurn, event: Pressed, dialogue: Prescribing) -> None:
    """A button of the plan."""


def typed(turn: PersonTurn, event: Typed, dialogue: Prescribing) -> bool:
    """Words typed while the dialogue is open; whether it had asked for words."""
    return False
