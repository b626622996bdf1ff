"""The short style: a set-up is a picture and one line. A visit may begin it; the client changes it at any time.

Only set-ups are shortened. What keeps somebody safe (the check, the place, emergency words, red flags) is always whole.
"""

from companion.core.baseline import Baseline
from companion.core.effects import Button, Words, words
from companion.core.turn import Turn

READS_LITTLE = ("short_words", "pictures_only")
"""How somebody reads for whom a visit begins the short style."""

CHOICES = ("short_words", "all_words")


def visited(turn: Turn, before: Baseline | None, now: Baseline) -> None:
    """A visit that finds another way of reading sets the style; one that finds the same leaves what the client chose."""
    if before is None or before.reading != now.reading:
        turn.set(short_words=now.reading in READS_LITTLE)


def other_style(turn: Turn) -> Button:
    """The button to the style that this client does not have."""
    short = turn.client.short_words
    return turn.button("b-all-words" if short else "b-short-words", "menu", "style", CHOICES[short])


def choose(turn: Turn, choice: str) -> tuple[Words, ...]:
    """The client chose a style, one of `CHOICES`; what is said of it. A session under way goes on as it began."""
    short = choice == "short_words"
    turn.set(short_words=short)
    later = (words("style-next-time"),) if turn.client.session is not None else ()
    return (words("style-short" if short else "style-all"), *later)
