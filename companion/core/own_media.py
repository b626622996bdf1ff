"""What a therapist recorded for one client: agreed to by the client, used, replaced, removed."""

from companion.core.events import MediaGiven
from companion.core.turn import Turn


def given(turn: Turn, event: MediaGiven) -> None:
    """A therapist recorded something for an exercise of this client."""
