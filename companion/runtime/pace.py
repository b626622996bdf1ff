"""How fast the sender may go: evenly spaced slots for the bot, a bucket a chat, and what a refusal pauses.

The platform does not publish its limits; these are well inside what it is known to bear. Nothing here waits: it only
says from when on something may go.
"""

from collections import deque
from collections.abc import Hashable
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

LONG_AGO = datetime(1970, 1, 1, tzinfo=UTC)

SECOND = timedelta(seconds=1)

SPARE = 1.018
"""The slots of one second are spread over so many, so that they seldom have to wait for what `Pace` says of answers."""

CATCH_UP = 6
"""Lost so many slots or fewer, they are made up for, at twice the pace; a longer gap is an idle one."""

LONGEST_PAUSE = timedelta(seconds=5)
"""After a lost network we try again at least this often."""

AT_REST = 2_000
"""With more chats than this in memory, those at rest are forgotten."""


@dataclass(frozen=True, slots=True)
class Limits:
    """Requests a second in all; a chat's bucket and its refill a second; edits of a chat in a window of seconds."""

    per_second: float = 25.0
    chat_burst: int = 3
    chat_per_second: float = 1.0
    edits: int = 20
    edits_window_s: float = 60.0


@dataclass(slots=True)
class _Chat:
    """`full_at` is when the bucket is full again; `edits` are the newest edits, oldest first."""

    full_at: datetime = LONG_AGO
    paused_until: datetime = LONG_AGO
    edits: deque[datetime] = field(default_factory=deque)


def back_off(attempts: int, most: timedelta = timedelta(seconds=8)) -> timedelta:
    """How long to wait after the n-th attempt (from 1): 1, 2, 4 ... seconds, at most `most`."""
    return min(timedelta(seconds=2 ** min(attempts - 1, 16)), most)


class Pace:
    """Keeps the limits of one bot. A chat is named by anything hashable.

    The platform counts a request somewhere between its start and the end of its answer, nobody here knows where. So with a
    rate of 30 a second, none starts before a second has passed since the answer to the 30th before it. Then no second
    counts more, however long requests travel and however late answers come; and the slots, which are evenly spaced, lose
    nothing by it while a request takes less than what they have to spare.
    """

    def __init__(self, limits: Limits) -> None:
        self._limits = limits
        self._gap = timedelta(seconds=SPARE) / limits.per_second
        self._started = LONG_AGO
        self._ends: deque[datetime] = deque(maxlen=max(1, int(limits.per_second)))
        self._refill = timedelta(seconds=1 / limits.chat_per_second)
        self._reserve = self._refill * (limits.chat_burst - 1)
        self._window = timedelta(seconds=limits.edits_window_s)
        self._slot = LONG_AGO
        self._all_paused_until = LONG_AGO
        self._failures = 0
        self._chats: dict[Hashable, _Chat] = {}

    def slot(self) -> datetime:
        """From when on the next request may start, whomever it is for."""
        slot = max(self._slot, self._all_paused_until, self._started + self._gap / 2)
        if len(self._ends) == self._ends.maxlen:
            slot = max(slot, self._ends[0] + SECOND)
        return slot

    def ready(self, chat: Hashable, *, edit: bool, spare_edits: int = 0) -> datetime:
        """From when on a request for this chat may start. An edit leaves `spare_edits` of the window unused."""
        known = self._chats.get(chat)
        if known is None:
            return LONG_AGO
        ready = max(known.paused_until, known.full_at - self._reserve)
        allowed = self._limits.edits - spare_edits
        if edit and len(known.edits) >= allowed:
            ready = max(ready, known.edits[-allowed] + self._window)
        return ready

    def took(self, chat: Hashable, *, edit: bool, now: datetime) -> None:
        """A request for this chat starts now."""
        idle = now - self._slot > CATCH_UP * self._gap
        self._slot = (now if idle else self._slot) + self._gap
        self._started = now
        self._ends.append(now)
        known = self._chat(chat, now)
        known.full_at = max(known.full_at, now) + self._refill
        if edit:
            known.edits.append(now)
            if len(known.edits) > self._limits.edits:
                known.edits.popleft()

    def ended(self, now: datetime) -> None:
        """The request that started last is answered, or given up."""
        self._ends[-1] = now

    def refused(self, chat: Hashable, after_s: float, *, everywhere: bool, now: datetime) -> None:
        """Too many requests: the chat pauses. A second chat refused within a first one's pause pauses all."""
        until = now + timedelta(seconds=after_s)
        second = any(other.paused_until > now for name, other in self._chats.items() if name != chat)
        known = self._chat(chat, now)
        known.paused_until = max(known.paused_until, until)
        if everywhere or second:
            self._all_paused_until = max(self._all_paused_until, until)

    def unreachable(self, now: datetime) -> None:
        """The network is down: all wait, longer each time, but never long."""
        self._failures += 1
        self._all_paused_until = max(self._all_paused_until, now + back_off(self._failures, LONGEST_PAUSE))

    def reached(self) -> None:
        """The platform answered, whatever it said."""
        self._failures = 0

    def remembered(self) -> int:
        """How many chats are in memory."""
        return len(self._chats)

    def _chat(self, chat: Hashable, now: datetime) -> _Chat:
        if len(self._chats) > AT_REST:
            self._forget(now)
        return self._chats.setdefault(chat, _Chat())

    def _forget(self, now: datetime) -> None:
        since = now - self._window
        self._chats = {
            name: chat
            for name, chat in self._chats.items()
            if chat.full_at > now or chat.paused_until > now or (chat.edits and chat.edits[-1] > since)
        }
