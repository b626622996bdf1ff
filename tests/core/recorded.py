"""A client's home in which a therapist records: giving a file, and what the client is asked about it."""

from typing import Any

from companion.core.effects import Say
from companion.core.events import MediaGiven
from companion.core.media import Medium, Recorded
from companion.core.observations import MediaDecided
from tests.core.home import Home, home
from tests.core.practice import CLIENT, MONDAY, THERAPIST, plan, planned

VOICE = Recorded(Medium.VOICE, "voice-file")
PHOTO = Recorded(Medium.PHOTO, "photo-file")
CLIP = Recorded(Medium.VIDEO, "clip-file")
NIGHT = MONDAY.replace(hour=23)
DEE = "t2"


def here(**more: Any) -> Home:
    return home(plan(planned("press"), planned("tandem"), planned("toes")), **more)


def give(it: Home, media: Recorded = PHOTO, exercise: str = "tandem", by: str = THERAPIST, beside: bool = False) -> Home:
    it.do(MediaGiven(it.now, by, exercise, media, beside))
    return it


def asks(it: Home) -> list[Say]:
    """The questions that the last thing that happened put to the client."""
    return [
        say for say in it.last if isinstance(say, Say) and say.to == CLIENT and "own-ask" in [line.key for line in say.words]
    ]


def question(it: Home) -> list[str]:
    """The answers that stand under a question on the client's phone."""
    card = it.phone(CLIENT).cards.get("own")
    return [button.press.choice for button in card.buttons] if card is not None else []


def whats(it: Home) -> list[tuple[str, str, str, str]]:
    return [(one.by, one.exercise, one.medium, one.what) for one in it.all(MediaDecided)]


def both(**more: Any) -> Home:
    """One that is used, and a question that stands."""
    it = give(here(**more))
    it.press(CLIENT, "use")
    return give(it, VOICE, "toes")
