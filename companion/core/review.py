"""What a therapist measured at a review reaches the care, and is recorded."""

from companion.core.events import ReviewDone
from companion.core.turn import Turn


def done(turn: Turn, event: ReviewDone) -> None:
    """A therapist who sees to the client measured something."""
