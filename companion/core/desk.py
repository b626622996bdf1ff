"""The therapist's desk: the caseload on one screen, and the therapist's own settings."""

from companion.core.dialogues import Setting
from companion.core.effects import words
from companion.core.events import Controlled, Found, Pressed
from companion.core.person_turn import PersonTurn


def controlled(turn: PersonTurn, event: Controlled) -> None:
    """A control of the therapist's fixed row."""
    turn.say(words("typed-therapist"))


def pressed(turn: PersonTurn, event: Pressed) -> None:
    """A button of the desk."""


def found(turn: PersonTurn, event: Found) -> None:
    """The caseload was looked up."""


def setting_pressed(turn: PersonTurn, event: Pressed, dialogue: Setting) -> None:
    """A button of the settings."""
