"""What waits for the bot: updates with the platform's offset, life and long-poll rules.

An update stays until a getUpdates with a higher offset confirms it, or until it has waited too long. At most
one long poll is held; a second one ends the first with a 409.
"""

import asyncio
from collections import deque
from collections.abc import Callable, Coroutine
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from .changes import Changes
from .refusals import Refusal, conflict

UNASKED = frozenset({"chat_member", "message_reaction", "message_reaction_count"})
"""Kinds that come only to a bot that names them."""

FIRST_UPDATE = 731_204_001
FUTURE = 10
LONGEST_POLL = 50


@dataclass(frozen=True)
class Waiting:
    """One update: `number` is what an offset is compared with, `wire` is what the bot gets."""

    number: int
    wire: dict[str, Any]
    dies_at: datetime | None


@dataclass(frozen=True)
class Ask:
    """A getUpdates. `timeout` in real seconds: a poll is the network's, not the rehearsal clock's."""

    offset: int = 0
    limit: int = 100
    timeout: float = 0.0


class UpdateQueue:
    """The updates of one bot."""

    def __init__(self, now: Callable[[], datetime], changes: Changes) -> None:
        self._now = now
        self._changes = changes
        self._waiting: deque[Waiting] = deque()
        self._held: asyncio.Future[None] | None = None
        self._allowed: frozenset[str] | None = None
        self.next_number = FIRST_UPDATE

    @property
    def held(self) -> bool:
        """Whether a long poll is open and nothing has woken it."""
        return self._held is not None and not self._held.done()

    @property
    def unconfirmed(self) -> list[Waiting]:
        """What the bot has not confirmed and what is not too old."""
        at = self._now()
        if any(update.dies_at is not None and update.dies_at <= at for update in self._waiting):
            self._waiting = deque(u for u in self._waiting if u.dies_at is None or u.dies_at > at)
        return list(self._waiting)

    @property
    def allowed(self) -> list[str] | None:
        """The kinds that the bot named last; None: the platform's default."""
        return None if self._allowed is None else sorted(self._allowed)

    def allow(self, kinds: list[str]) -> None:
        """From now on only these kinds; an empty list means the default. What already waits stays."""
        self._allowed = frozenset(kinds) or None

    def add(self, kind: str, body: dict[str, Any], life: float | None) -> int:
        """An update of `kind` that lives `life` seconds; its number.

        A kind that the bot does not want gets a number and is dropped.
        """
        number = self._take_number()
        wanted = kind in self._allowed if self._allowed is not None else kind not in UNASKED
        if wanted:
            self._put(Waiting(number, {"update_id": number, kind: body}, self._death(life)))
        return number

    def inject(self, raw: dict[str, Any], life: float | None) -> int:
        """Puts `raw` in the queue as it is, however malformed; only a missing update_id is filled in.

        Returns the queue's own number.
        """
        claimed = raw.get("update_id")
        if isinstance(claimed, int) and self.next_number <= claimed < 2**31:
            self.next_number = claimed
        number = self._take_number()
        self._put(Waiting(number, raw if "update_id" in raw else {"update_id": number, **raw}, self._death(life)))
        return number

    def confirm(self, offset: int) -> None:
        """Forgets all below `offset`; a negative one keeps only that many of the newest.

        One far beyond any number given is ignored: after an idle week numbers start anew, and the bot's
        offset is of the old ones.
        """
        if offset < 0:
            while len(self._waiting) > -offset:
                self._waiting.popleft()
        elif offset <= self.next_number + FUTURE:
            while self._waiting and self._waiting[0].number < offset:
                self._waiting.popleft()
        self._changes.ring()

    def forget_all(self) -> None:
        self._waiting.clear()
        self._changes.ring()

    def end_poll(self, refusal: Refusal) -> None:
        """Ends the held poll, if there is one, with `refusal`."""
        if self._held is not None and not self._held.done():
            self._held.set_exception(refusal)

    async def poll(self, ask: Ask, gone: Callable[[], Coroutine[Any, Any, None]]) -> list[dict[str, Any]]:
        """Answers a getUpdates: at once if something waits, else held.

        `gone()` returns when the client has hung up.
        """
        self.end_poll(conflict("terminated by other getUpdates request; make sure that only one bot instance is running"))
        self.confirm(ask.offset)
        if not self.unconfirmed and ask.timeout > 0:
            await self._hold(ask.timeout, gone)
        return [update.wire for update in self.unconfirmed[: ask.limit]]

    async def _hold(self, timeout: float, gone: Callable[[], Coroutine[Any, Any, None]]) -> None:
        held: asyncio.Future[None] = asyncio.get_running_loop().create_future()
        hung_up = asyncio.ensure_future(gone())
        self._held = held
        self._changes.ring()
        try:
            await asyncio.wait({held, hung_up}, timeout=timeout, return_when=asyncio.FIRST_COMPLETED)
            if held.done():
                held.result()
        finally:
            hung_up.cancel()
            if self._held is held:
                self._held = None
            self._changes.ring()

    def _take_number(self) -> int:
        number = self.next_number
        self.next_number += 1
        return number

    def _death(self, life: float | None) -> datetime | None:
        return None if life is None else self._now() + timedelta(seconds=life)

    def _put(self, update: Waiting) -> None:
        self._waiting.append(update)
        if self._held is not None and not self._held.done():
            self._held.set_result(None)
        self._changes.ring()
