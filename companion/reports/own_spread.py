"""What a client's own spread from session to session allows to be noticed, in words for the therapist."""

from collections.abc import Iterable, Sequence

from companion.core.programme import Noticeable
from companion.core.words import Words, words
from companion.measures.conditions import LAST, MOST_EARLIER
from companion.measures.course import own_sessions
from companion.measures.dated import Dated
from companion.measures.spread import allows, day_to_day


def told(bouts: Iterable[Dated], table: Sequence[Noticeable]) -> Words:
    """By the sessions that early notice looks at: the log-SD, and in how many of 100 cases a fall would be noticed."""
    spread = day_to_day(own_sessions(bouts)[-(LAST + MOST_EARLIER) :])
    if spread is None:
        return words("spread-unknown")
    row = allows(spread, table)
    if row is None:
        return words("spread-beyond", spread=f"{spread:.2f}")
    return words("spread-allows", spread=f"{spread:.2f}", third=row.third, half=row.half, row=f"{row.log_sd:.2f}")
