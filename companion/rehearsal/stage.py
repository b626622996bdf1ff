"""The stage: the real app and the loopback platform, joined on the rehearsal's clock, and when all is quiet.

Quiet is: no request is in progress but the held fetch, nothing waits to be fetched or confirmed (so everything before is
committed), every loop is parked, and no loop may go on. While the network is down the update loop is parked instead.
"""

import asyncio
from collections.abc import Callable
from pathlib import Path

from companion import app
from companion.app import App, Content, Enrolled, Setup
from companion.content.enrolment import Enrolment
from companion.errors import CompanionError
from companion.rehearsal.clock import LOOPS, UPDATES, RehearsalClock
from companion.rehearsal.made_once import MadeOnce
from companion.rehearsal.server import RehearsalServer
from companion.runtime.handler import Watcher

EMERGENCY_NUMBER = "112"
PATIENCE_S = 60.0
"""So many real seconds nothing may come to rest before a rehearsal counts as stuck."""


class Stuck(CompanionError):
    """The rehearsal did not come to rest."""


class Stage:
    """One app on one platform. `open`, then `settle` after each cause, `close` at the end."""

    def __init__(
        self, clock: RehearsalClock, database: Path, content: Content, latency: Callable[[], float] | None = None
    ) -> None:
        self.clock = clock
        self.database = database
        self.content = content
        self.server = RehearsalServer(clock.now, latency=latency)
        clock.bell = self.server.changed.ring
        self.patience_s = PATIENCE_S
        self._app: App | None = None
        self._ended: asyncio.Task[None] | None = None
        self._watchers: list[Watcher] = []

    async def open(self, enrolment: Enrolment, watcher: Watcher) -> Enrolled:
        """Start the platform and the app, and enrol the people."""
        self._watchers.append(watcher)
        await self.server.start()
        opened = await App.open(self._setup(), self.clock, self.content)
        enrolled = await app.enrol(opened.store, enrolment, opened.content, self.clock)
        await self._start(opened)
        return enrolled

    async def close(self) -> None:
        """Stop the app in order, and the platform."""
        if self._app is not None:
            stopped, self._app = self._app, None
            await self._forget_end()
            await self._stop(stopped)
        await self.server.stop()

    async def expect_charts(self) -> None:
        """Weeks will be drawn. All stand still while one is, so what draws them loads beside the playing."""
        assert self._app is not None, "open it first"
        await self._app.expect_charts()

    @property
    def on(self) -> bool:
        """Whether the app has power."""
        return self._app is not None

    async def cut_power(self) -> None:
        """The app is gone in the middle of whatever it does."""
        assert self._app is not None, "the power is cut already"
        cut, self._app = self._app, None
        await self._forget_end()
        await cut.cut()

    async def restore_power(self) -> None:
        """A new app on the same database."""
        assert self._app is None, "there is power"
        await self._start(await App.open(self._setup(), self.clock, self.content))

    async def set_network(self, up: bool) -> None:
        """Let the app reach the platform, or not."""
        if up:
            await self.server.plug_in()
        else:
            self.server.unplug()

    async def settle(self) -> None:
        """Let everything come to rest at this moment. Raises Stuck, or what the app ended with."""
        while True:
            try:
                async with asyncio.timeout(self.patience_s):
                    while not self._at_rest():
                        await self.server.wait_change()
            except TimeoutError:
                raise Stuck(f"The rehearsal is stuck at {self.clock.now()}: {self._restless()}.") from None
            if self.clock.release() is None:
                return

    def _setup(self) -> Setup:
        where = (self.server.token, self.server.base_url, self.database)
        return Setup(*where, EMERGENCY_NUMBER, durable=False, speaks=False, assessor=MadeOnce)

    async def _start(self, opened: App) -> None:
        opened.runtime.handler.watchers.extend(self._watchers)
        self._app = opened
        await opened.start()
        self._ended = asyncio.create_task(opened.ended())
        self._ended.add_done_callback(lambda _: self.server.changed.ring())

    async def _stop(self, stopped: App) -> None:
        stopping = asyncio.create_task(stopped.stop())
        try:
            async with asyncio.timeout(self.patience_s):
                # Whoever is told to end may be parked, and nothing rings when they are told.
                while not stopping.done():
                    self.clock.release()
                    await asyncio.wait({stopping}, timeout=0.01)
        except TimeoutError:
            # What is stuck does not stop in order either.
            stopping.cancel()
            await stopped.cut()
            return
        stopping.result()

    async def _forget_end(self) -> None:
        if self._ended is not None:
            self._ended.cancel()
            # Why it ended, if it did, was told when the stage came to rest.
            await asyncio.gather(self._ended, return_exceptions=True)
            self._ended = None

    def _at_rest(self) -> bool:
        if self._ended is not None and self._ended.done():
            self._ended.result()
            raise Stuck(f"The app ended by itself at {self.clock.now()}.")
        if self._app is None or not self.server.idle:
            return self.server.idle
        parked = self.clock.parked
        return (self.server.quiet or UPDATES in parked) and all(loop in parked for loop in LOOPS)

    def _restless(self) -> str:
        """What is not at rest, for the one who has to find out why."""
        server, parked = self.server, self.clock.parked
        told = [f"the loop {loop} is not parked" for loop in LOOPS if loop not in parked]
        if not server.idle:
            told.append("a request is in progress")
        if not server.updates.held and UPDATES not in parked:
            told.append("nobody fetches updates")
        if server.updates.unconfirmed:
            told.append(f"{len(server.updates.unconfirmed)} updates are not confirmed")
        return ", ".join(told) or "nothing that is known"
