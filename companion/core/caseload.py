"""Who needs a look first, and why, read off a client's state. What a therapist's list of clients is sorted by."""

from dataclasses import dataclass
from datetime import datetime

from companion.core.care import Client


@dataclass(frozen=True, slots=True)
class Look:
    """How much a client needs a look (a higher `rank` comes first, 0 needs none) and why: texts by key, gravest first."""

    rank: int = 0
    reasons: tuple[str, ...] = ()


def look(client: Client, at: datetime) -> Look:
    """What a therapist's list says of this client at `at`."""
    return Look()
