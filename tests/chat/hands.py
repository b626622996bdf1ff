"""A clock that steps instead of waiting, and somebody who receives what comes in and keeps it."""

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import UTC, datetime, timedelta

from companion.chat.updates import Meet, Updates
from companion.chat.wire import Wire
from companion.rehearsal.server import RehearsalServer
from companion.runtime.transport import Inbound, ReplyText

START = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


class SteppingClock:
    """Stands still; a wait steps to its end at once and is written down."""

    def __init__(self) -> None:
        self.at = START
        self.waits: list[tuple[str, float]] = []
        self._waited = asyncio.Event()

    def now(self) -> datetime:
        return self.at

    def move_on(self, seconds: float) -> None:
        self.at += timedelta(seconds=seconds)

    async def park(self, name: str, event: asyncio.Event | None, until: datetime | None) -> None:
        await asyncio.sleep(0)
        if event is not None and event.is_set():
            return
        assert until is not None, "in these tests nobody waits for ever"
        self.waits.append((name, (until - self.at).total_seconds()))
        self.at = max(self.at, until)
        self._waited.set()

    async def after_waits(self, number: int) -> None:
        """Returns when so many waits are over."""
        while len(self.waits) < number:
            await self._waited.wait()
            self._waited.clear()

    def wall(self, due: datetime) -> datetime:
        return due

    def look(self, due: datetime | None) -> datetime | None:
        return due

    def seed(self) -> int:
        return 0

    def token(self) -> str:
        return "token"


class Keeper:
    """Keeps what came in. `breaks` are the exceptions to raise first, one a call; `reply` answers a press."""

    def __init__(self) -> None:
        self.kept: list[Inbound] = []
        self.noted: list[int] = []
        self.breaks: list[Exception] = []
        self.note_breaks: list[Exception] = []
        self.reply: ReplyText | None = None
        self.calls = 0

    async def receive(self, inbound: Inbound) -> ReplyText | None:
        self.calls += 1
        if self.breaks:
            raise self.breaks.pop(0)
        self.kept.append(inbound)
        return self.reply

    async def note(self, number: int) -> None:
        if self.note_breaks:
            raise self.note_breaks.pop(0)
        self.noted.append(number)


@asynccontextmanager
async def fetching(
    server: RehearsalServer, wire: Wire, keeper: Keeper, clock: SteppingClock, meet: Meet | None = None
) -> AsyncIterator[Updates]:
    """The loop at work, from its first held poll on."""
    updates = Updates(wire, keeper.receive, keeper.note, clock, meet)
    running = asyncio.create_task(updates.run())
    try:
        await until_quiet(server, running)
        yield updates
    finally:
        updates.stop()
        await running


async def until_quiet(server: RehearsalServer, running: "asyncio.Task[None]") -> None:
    """Returns when the server is quiet, or when the loop has ended."""
    quiet = asyncio.create_task(server.wait_quiet())
    await asyncio.wait({quiet, running}, return_when=asyncio.FIRST_COMPLETED)
    quiet.cancel()
