"""The alarm loop: whoever must be looked at by now, the live ones first.

The next moment is read off the rows, so nothing can be forgotten. The scheduler holds a single job, planned for the
earliest of them, whose body only sets this loop's event; the work is done here. A plan only moves earlier: whatever
commits an earlier moment sets the event too, and the loop reads and plans anew.
"""

import asyncio
import logging
from datetime import UTC, datetime

from apscheduler.schedulers.asyncio import AsyncIOScheduler

from companion.core.events import Woke
from companion.runtime.handler import ASIDE, Handler
from companion.store import Wake

log = logging.getLogger(__name__)

MOST_UNSENT_REMINDERS = 60
"""With so many reminders written down and not sent, no further one is taken."""

LIVE = (0,)
JOB = "next-alarm"


class Alarms:
    """The loop that wakes clients and persons. `turn` is held while it works."""

    name = "alarms"

    def __init__(self, handler: Handler) -> None:
        self.event = asyncio.Event()
        self.turn = asyncio.Lock()
        self._handler = handler
        self._store = handler.store
        self._clock = handler.clock
        self.scheduler = AsyncIOScheduler(timezone=UTC)
        self._planned: datetime | None = None
        self._held_off = self._passed_on = False

    def notice(self, wake_at: datetime | None) -> None:
        """A row was written that must be looked at by `wake_at`."""
        if wake_at is not None and (self._planned is None or wake_at < self._planned):
            self.event.set()

    def eased(self) -> None:
        """A reminder has gone out; the next one may be taken, if they were held off."""
        if self._held_off:
            self.event.set()

    async def run(self) -> None:
        """Wake for ever."""
        self.scheduler.start()
        try:
            until: datetime | None = self._clock.now()
            while True:
                await self._clock.park(self.name, self.event, until)
                async with self.turn:
                    until = await self._turn()
        finally:
            self.scheduler.shutdown(wait=False)

    async def _turn(self) -> datetime | None:
        """Handle the first that is due, or plan the next. Until when to wait."""
        self.event.clear()
        self._planned = None
        now = self._clock.now()
        wake, next_at = await self._look(now)
        if wake is not None:
            await self._wake(wake, now)
            return now
        if self._passed_on:
            await self._handler.drain()
            return now
        self.plan(next_at)
        return self._clock.look(next_at)

    async def _look(self, now: datetime) -> tuple[Wake | None, datetime | None]:
        """The first that is due now and may be taken; without one, when the next will be."""
        async with self._store.reading() as reading:
            wake = await reading.next_wake(now)
            self._held_off = self._passed_on = False
            if wake is None:
                self._passed_on = await reading.anything_passed_on()
                return None, await reading.earliest_wake()
            if wake.wake_class not in LIVE and await reading.unsent_reminders() >= MOST_UNSENT_REMINDERS:
                self._held_off = True
                return None, await reading.earliest_wake(LIVE)
            return wake, None

    async def _wake(self, wake: Wake, now: datetime) -> None:
        subject = wake.subject
        key = f"wake:{subject.aggregate}:{subject.id}:{wake.version}"
        decision = await self._handler.handle(subject, Woke(now, self._clock.seed()), key)
        if decision is None:
            # It went wrong, or is in the journal already though it still stands: either way not at once again.
            async with self._store.writing() as tx:
                await tx.postpone(subject, now + ASIDE)

    def plan(self, due: datetime | None) -> None:
        """Let the scheduler ring at `due` and at no other moment."""
        self._planned = due
        if due is None:
            if self.scheduler.get_job(JOB) is not None:
                self.scheduler.remove_job(JOB)
            return
        self.scheduler.add_job(
            self._ring,
            "date",
            run_date=self._clock.wall(due),
            id=JOB,
            replace_existing=True,
            misfire_grace_time=None,
            coalesce=True,
        )

    async def _ring(self) -> None:
        self.event.set()
