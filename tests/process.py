"""`companion run` as a process of its own against the loopback platform in the test's: started, killed, started again."""

import asyncio
import os
import signal
import sys
from asyncio.subprocess import Process
from collections.abc import AsyncIterator, Callable, Mapping
from contextlib import asynccontextmanager
from dataclasses import dataclass
from pathlib import Path

from companion.rehearsal.server import Fault, FaultKind, RehearsalServer

PATIENCE_S = 60.0
"""Real seconds after which what never comes is told, on a machine however busy."""

SHOWN = 30
"""So many of the last messages are told where something was waited for in vain."""

Told = Callable[[str, int | None], bool]
"""A request that has just arrived: its method in small letters and its chat. Whether it suffers the fault."""


@dataclass(frozen=True, kw_only=True)
class Tap(Fault):
    """Tells of each request at the very moment at which it arrives, before anything is done for it."""

    told: Told
    kind: FaultKind = "cut"

    def hits(self, method: str, chat_id: int | None) -> bool:
        return self.told(method, chat_id)


async def until(server: RehearsalServer, there: Callable[[], bool], patience_s: float = PATIENCE_S) -> None:
    """Wait until something is so, looking whenever the platform changed. TimeoutError with the end of what was said."""
    try:
        async with asyncio.timeout(patience_s):
            while not there():
                await server.wait_change()
    except TimeoutError:
        last = [f"{entry.at:%H:%M:%S.%f} {entry.user_id} {entry.way} {entry.kind} {entry.text!r}" for entry in server.entries]
        raise TimeoutError("\n".join(["waited in vain; the last on the phones:", *last[-SHOWN:]])) from None


class Companion:
    """The real process on one database. What it logs is in `log`."""

    def __init__(self, server: RehearsalServer, database: Path, settings: Mapping[str, str] | None = None) -> None:
        self.log = database.with_suffix(".log")
        self._server = server
        self._settings = {
            "COMPANION_TELEGRAM_TOKEN": server.token,
            "COMPANION_TELEGRAM_API": server.base_url,
            "COMPANION_DATABASE": str(database),
            "COMPANION_EMERGENCY_NUMBER": "112",
            **(settings or {}),
        }
        self._process: Process | None = None
        self._polls = 0
        self._killed = False
        self._tap = Tap(told=self._arrived)

    @property
    def pid(self) -> int:
        """The number of the process."""
        assert self._process is not None, "start it first"
        return self._process.pid

    @property
    def running(self) -> bool:
        """Whether it was started and has not ended."""
        return self._process is not None and self._process.returncode is None

    async def start(self) -> None:
        """Start it, and wait until it fetches, or a test has killed it. AssertionError with its log if it ends by itself."""
        if not any(order is self._tap for order, _ in self._server.faults.open):
            self._server.faults.order(self._tap)
        kept = {name: value for name, value in os.environ.items() if not name.startswith("COMPANION_")}
        self._polls, self._killed = 0, False
        with self.log.open("ab") as log:
            self._process = await asyncio.create_subprocess_exec(
                sys.executable, "-m", "companion.cli", "run", env={**kept, **self._settings}, stdout=log, stderr=log
            )
        ended = asyncio.create_task(self._process.wait())
        ended.add_done_callback(lambda _: self._server.changed.ring())
        await until(self._server, lambda: self._polls > 0 or ended.done())
        assert self._killed or not ended.done(), self.log.read_text(encoding="utf-8")[-2000:]

    @asynccontextmanager
    async def at_work(self) -> AsyncIterator[None]:
        """It runs meanwhile, and is ended in order; where something goes wrong, at once."""
        try:
            await self.start()
            yield
            await self.stop()
        finally:
            if self.running:
                self.kill()
                await self.gone()

    def kill(self) -> bool:
        """Kill it at this very moment, wherever it is. True, so that a `Tap` can do it."""
        self._killed = True
        os.kill(self.pid, signal.SIGKILL)
        return True

    async def gone(self) -> None:
        """Wait until it is no more, and its fetch has ended too."""
        assert self._process is not None, "start it first"
        await self._process.wait()
        await until(self._server, lambda: not self._server.updates.held)

    async def stop(self) -> None:
        """End it in order, as the operator does. AssertionError if it does not say that all was well."""
        assert self._process is not None, "start it first"
        if self._process.returncode is None:
            self._process.terminate()
        code = await asyncio.wait_for(self._process.wait(), PATIENCE_S)
        assert code == 0, self.log.read_text(encoding="utf-8")[-2000:]

    def _arrived(self, method: str, chat_id: int | None) -> bool:
        self._polls += method == "getupdates"
        return False
