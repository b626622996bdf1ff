"""Time and chance, the only place that has them. Everything else is handed a `Clock`.

Every wait of ours is `Clock.park`, so that a rehearsal may let time stand still, let one loop go at a time and
jump from one moment to the next.
"""

import asyncio
import secrets
from datetime import UTC, datetime, timedelta
from typing import Protocol

LOOK_S = 30
"""The alarms look again after so many seconds even if nothing told them to."""

LONGEST_WAIT_S = 30.0
"""A wait is cut into pieces of so many seconds at most: the machine's clock may be set while we wait."""


class Clock(Protocol):
    """What time it is, how to wait, and what chance gives. All instants are aware and UTC."""

    def now(self) -> datetime:
        """The present moment."""
        ...

    async def park(self, name: str, event: asyncio.Event | None, until: datetime | None) -> None:
        """Wait until `event` is set or `until` is reached, whichever is first; at once if either already is.

        `name` is the loop that waits. The caller clears the event. None means that this cause never comes.
        """
        ...

    def wall(self, due: datetime) -> datetime:
        """The moment on the machine's own clock at which a scheduler should fire for `due`."""
        ...

    def look(self, due: datetime | None) -> datetime | None:
        """Until when the alarms wait when the next one is at `due` (None: there is none)."""
        ...

    def seed(self) -> int:
        """Chance for one event: 0 to 2**31 - 1. It is journaled with the event."""
        ...

    def token(self) -> str:
        """A fresh payload for a start link: 128 bits in characters of `A-Za-z0-9_-`."""
        ...


class RealClock:
    """The machine's clock and the machine's chance."""

    def now(self) -> datetime:
        return datetime.now(UTC)

    async def park(self, name: str, event: asyncio.Event | None, until: datetime | None) -> None:
        signal = event if event is not None else asyncio.Event()
        # A wait that ends at once must still let the others run.
        await asyncio.sleep(0)
        while not signal.is_set():
            left = LONGEST_WAIT_S if until is None else (until - self.now()).total_seconds()
            if left <= 0:
                return
            try:
                async with asyncio.timeout(min(left, LONGEST_WAIT_S)):
                    await signal.wait()
            except TimeoutError:
                continue

    def wall(self, due: datetime) -> datetime:
        return due

    def look(self, due: datetime | None) -> datetime | None:
        # The scheduler fires at `due`; this look is for the day on which it does not.
        return self.now() + timedelta(seconds=LOOK_S)

    def seed(self) -> int:
        return secrets.randbits(31)

    def token(self) -> str:
        return secrets.token_urlsafe(16)
