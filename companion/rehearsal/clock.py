"""The rehearsal's clock. It stands still, and lets one loop go at a time.

    all quiet -> a parked loop that may go on is let go, the first in rank -> all quiet -> ... -> nobody may go on
    -> exactly one next cause: somebody's act, or a jump to the earliest moment a loop waits for

Whoever plays the rehearsal does the moving (`move_to`) and the letting go (`release`); loops only park. Chance is a
row of numbers made from a seed, so two rehearsals of one scenario are alike to the letter.
"""

import asyncio
import hashlib
from base64 import urlsafe_b64encode
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta

from companion.runtime.clock import RealClock

LOOPS = ("alarms", "making", "outbox", "drawing")
"""The loops of the runtime, in the order in which they are let go."""

UPDATES = "updates"
"""The update loop parks only when it can not fetch; it is let go last."""

RANK = (*LOOPS, UPDATES)
FAR_OFF = timedelta(days=365)


@dataclass(frozen=True, slots=True)
class Parked:
    """A loop that waits: for `event`, or for `until`, whichever is first. `gate` is what really holds it."""

    name: str
    event: asyncio.Event | None
    until: datetime | None
    gate: "asyncio.Future[None]"

    def may_go(self, now: datetime) -> bool:
        """Whether what it waits for has come."""
        return (self.event is not None and self.event.is_set()) or (self.until is not None and self.until <= now)


def _nobody() -> None:
    """No bell is connected."""


class RehearsalClock:
    """A `Clock` of the runtime. `bell` is rung whenever somebody parks."""

    def __init__(self, starts: datetime, seed: str, bell: Callable[[], None] = _nobody) -> None:
        self._now = starts
        self._seed = seed
        self._drawn = 0
        self._parked: list[Parked] = []
        self.bell = bell

    # what the app sees

    def now(self) -> datetime:
        return self._now

    async def park(self, name: str, event: asyncio.Event | None, until: datetime | None) -> None:
        parked = Parked(name, event, until, asyncio.get_running_loop().create_future())
        self._parked.append(parked)
        self.bell()
        try:
            await parked.gate
        finally:
            if parked in self._parked:
                self._parked.remove(parked)

    def wall(self, due: datetime) -> datetime:
        # A scheduler is really used: what is due fires at once, and what is not does not fire while we play.
        real = RealClock().now()
        return real if due <= self._now else real + FAR_OFF

    def look(self, due: datetime | None) -> datetime | None:
        # A look every half minute would be 40,000 jumps in a fortnight.
        return due

    def seed(self) -> int:
        return int.from_bytes(self._chance()[:4], "big") >> 1

    def token(self) -> str:
        return urlsafe_b64encode(self._chance()[:16]).rstrip(b"=").decode()

    # what the player does

    @property
    def parked(self) -> tuple[str, ...]:
        """The names of the loops that wait, in rank."""
        return tuple(parked.name for parked in sorted(self._parked, key=_rank))

    def release(self) -> str | None:
        """Let the first in rank go of those that may go on; its name, None if nobody may."""
        ready = [parked for parked in self._parked if parked.may_go(self._now)]
        if not ready:
            return None
        first = min(ready, key=_rank)
        self._parked.remove(first)
        first.gate.set_result(None)
        return first.name

    def next_until(self) -> datetime | None:
        """The earliest moment a loop waits for."""
        return min((parked.until for parked in self._parked if parked.until is not None), default=None)

    def move_to(self, moment: datetime) -> None:
        """Let time be `moment`. ValueError: time does not run backwards."""
        if moment < self._now:
            raise ValueError(f"time does not run backwards, from {self._now} to {moment}")
        self._now = moment

    def _chance(self) -> bytes:
        self._drawn += 1
        return hashlib.sha256(f"{self._seed}:{self._drawn}".encode()).digest()


def _rank(parked: Parked) -> int:
    return RANK.index(parked.name) if parked.name in RANK else len(RANK)
