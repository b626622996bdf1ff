"""Ten thousand reminders due in one second, each once; against APScheduler with one job a client.

    [CLIENTS=10000] .venv/bin/pytest -qs tests/benchmarks/burst.py

Both are processes of their own, run without a rate, against the platform without one: what is measured is whether
everybody is reminded, and how fast alarms, database and sender are. The scheduler's jobs, with its default settings, send
the same reminder with python-telegram-bot, and keep nothing.
"""

import asyncio
import sys
from collections import Counter
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from companion.rehearsal.server import Limits, RehearsalServer
from companion.runtime.clock import RealClock
from tests.benchmarks.other import plain_bot
from tests.benchmarks.table import Line, number, percentile, show
from tests.crowd import home, phones, reminded_at, user_of, write
from tests.playing import CONTENT

AHEAD_S = 5.0
STUCK_S = 10.0
SENT_AGAIN_S = 2.0
UNLIMITED = 100_000.0
NOW = RealClock().now
WITHOUT_RATE = """
import asyncio, sys
from pathlib import Path
from companion.app import Setup, run
token, api, database, rate = sys.argv[1:]
asyncio.run(run(Setup(token, api, Path(database), "112", rate=float(rate))))
"""


@dataclass(frozen=True, slots=True)
class Reminded:
    """How many were reminded once, how many more than once, and how late, in seconds."""

    once: int
    more: int
    late: list[float]


def due_for(clients: int) -> datetime:
    """A moment far enough ahead for everything to be ready."""
    return NOW() + timedelta(seconds=AHEAD_S + clients / 1000)


@asynccontextmanager
async def platform(clients: int) -> AsyncIterator[RehearsalServer]:
    """The platform without rates, and everybody's phone."""
    server = RehearsalServer(now=NOW, limits=Limits.without_rates())
    await server.start()
    try:
        phones(server, clients)
        yield server
    finally:
        await server.stop()


async def reminded(server: RehearsalServer, clients: int, due: datetime) -> Reminded:
    """What comes to the phones, until everybody has something, or nothing comes any more."""
    times: list[datetime] = []
    users: Counter[int] = Counter()
    looked_at, still = 0, 0.0

    def look() -> bool:
        nonlocal looked_at
        new = [entry for entry in server.entries[looked_at:] if entry.way == "out"]
        looked_at = len(server.entries)
        times.extend(entry.at for entry in new)
        users.update(entry.user_id for entry in new)
        return bool(new)

    while len(users) < clients and still < STUCK_S:
        await asyncio.sleep(0.5)
        still = 0.0 if look() or NOW() < due else still + 0.5
    # One that is sent twice would be sent soon after.
    await asyncio.sleep(SENT_AGAIN_S)
    look()
    often = [users[user_of(one)] for one in range(clients)]
    late = [(at - due).total_seconds() for at in times]
    return Reminded(sum(one == 1 for one in often), sum(one > 1 for one in often), late)


async def by_the_companion(clients: int, folder: Path) -> Reminded:
    database, due = folder / "companion.sqlite3", due_for(clients)
    await write(database, (reminded_at(home(one, due), due) for one in range(clients)), CONTENT.library.rules("112"))
    async with platform(clients) as server:
        arguments = (server.token, server.base_url, str(database), str(UNLIMITED))
        process = await asyncio.create_subprocess_exec(sys.executable, "-c", WITHOUT_RATE, *arguments)
        assert NOW() < due, "writing the clients down took longer than thought"
        try:
            return await reminded(server, clients, due)
        finally:
            process.terminate()
            await process.wait()


async def by_the_scheduler(clients: int) -> Reminded:
    async with platform(clients) as server:
        due, chats = due_for(clients), [user_of(one) for one in range(clients)]
        orders = {"token": server.token, "api": server.base_url, "rate": 0, "reminders": [], "sessions": []}
        async with plain_bot({**orders, "scheduled": chats, "due": due.timestamp()}):
            return await reminded(server, clients, due)


async def test_everybody_is_reminded_once(tmp_path: Path) -> None:
    clients = number("CLIENTS", 10_000)
    ours = await by_the_companion(clients, tmp_path)
    other = await by_the_scheduler(clients)
    lines = [
        Line("reminded once", ours.once, other.once, str(clients)),
        Line("reminded more than once", ours.more, other.more, "0"),
        Line("late p50, s", percentile(ours.late, 50), percentile(other.late, 50)),
        Line("last, s after it was due", max(ours.late, default=-1.0), max(other.late, default=-1.0)),
    ]
    show(f"{clients} reminders due in one second", "companion", "APScheduler, a job a client", lines)
    assert (ours.once, ours.more) == (clients, 0)
