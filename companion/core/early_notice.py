"""Early notice of getting worse: what the care makes of an assessment of its records. It is no red flag and stops nothing."""

from companion.core.events import Assessed
from companion.core.turn import Turn


def assessed(turn: Turn, event: Assessed) -> None:
    """The records were assessed."""
