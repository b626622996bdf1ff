"""How much of the allowed rate is used while much waits, and whether any second sees one request too many.

    [SECONDS=40] [JITTER_MS=20] .venv/bin/pytest -qs tests/benchmarks/rate.py

Reminders to many chats wait; 30 requests a second are allowed; the platform answers up to 20 ms late, by chance. It counts
and refuses nothing, so that the worst second of both is seen.
"""

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from pathlib import Path
from random import Random

from companion.rehearsal.server import Limits, RehearsalServer
from companion.runtime.clock import RealClock
from tests.benchmarks.other import plain_bot
from tests.benchmarks.table import Line, busiest_second, number, show
from tests.crowd import home, phones, reminded_at, user_of, write
from tests.playing import CONTENT
from tests.process import Companion

RATE = 30
SETTLED_S = 2
NOW = RealClock().now


@dataclass(frozen=True, slots=True)
class Used:
    """Of the allowed requests, which share; the most in any one second."""

    share: float
    busiest: int


async def counted(server: RehearsalServer, seconds: int) -> Used:
    """Count for so many seconds, once it runs."""
    while not any(call.chat_id for call in server.calls):
        await server.wait_change()
    await asyncio.sleep(SETTLED_S)
    began = NOW()
    await asyncio.sleep(seconds)
    ended = NOW()
    times = [call.at.timestamp() for call in server.calls if call.chat_id is not None and began <= call.at < ended]
    every = [call.at.timestamp() for call in server.calls if call.chat_id is not None]
    return Used(len(times) / (ended - began).total_seconds() / RATE, busiest_second(every))


async def test_share_of_the_allowed_rate(tmp_path: Path) -> None:
    seconds, jitter_ms = number("SECONDS", 40), number("JITTER_MS", 20)
    waiting = RATE * (seconds + 3 * SETTLED_S)
    chance = Random(3)
    database, now = tmp_path / "companion.sqlite3", NOW()
    await write(database, (reminded_at(home(one, now), now) for one in range(waiting)), CONTENT.library.rules("112"))

    @asynccontextmanager
    async def platform() -> AsyncIterator[RehearsalServer]:
        server = RehearsalServer(now=NOW, limits=Limits.without_rates())
        server.latency = lambda: chance.uniform(0, jitter_ms / 1000)
        await server.start()
        try:
            phones(server, waiting)
            yield server
        finally:
            await server.stop()

    async with platform() as server, Companion(server, database, {"COMPANION_RATE": str(RATE)}).at_work():
        ours = await counted(server, seconds)
    async with platform() as server:
        reminders = [user_of(one) for one in range(waiting)]
        orders = {"token": server.token, "api": server.base_url, "rate": RATE, "reminders": reminders, "sessions": []}
        async with plain_bot(orders):
            other = await counted(server, seconds)
    lines = [
        Line("share of the allowed rate", ours.share, other.share, "0.98"),
        Line("busiest second, requests", ours.busiest, other.busiest, "at most 30"),
    ]
    show(f"{RATE}/s allowed, answers up to {jitter_ms} ms late, {seconds} s", "companion", "plain bot", lines)
