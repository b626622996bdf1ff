"""How much memory the bot's process takes with 10,000 clients, and with 10.

    [CLIENTS=10000] [LIVE=300] [SECONDS=20] .venv/bin/pytest -qs tests/benchmarks/memory.py

The real process, with 300 of them in a session, after it has reminded some hundred others and answered as many. Resident
memory as the system counts it, now and at its highest.
"""

import asyncio
import re
from dataclasses import dataclass
from datetime import timedelta
from itertools import chain
from pathlib import Path

from companion.rehearsal.server import RehearsalServer
from companion.runtime.clock import RealClock
from tests.benchmarks.table import Line, number, show
from tests.crowd import can_press, home, phones, press, reminded_at, resting, write
from tests.playing import CONTENT
from tests.process import Companion

FEW = 10
RATE = 30
NOW = RealClock().now


@dataclass(frozen=True, slots=True)
class Taken:
    """Megabytes (of a million bytes) after the start, at the end, and the most."""

    started: float
    now: float
    most: float


async def taken(clients: int, live: int, seconds: int, database: Path) -> Taken:
    """Let it work for so many seconds with so many clients, of whom so many practise."""
    now, rules = NOW(), CONTENT.library.rules("112")
    practising = (resting(home(one, now), rules, now - timedelta(seconds=one % 60)) for one in range(live))
    others = (reminded_at(home(one, now), now) for one in range(live, clients))
    await write(database, chain(practising, others), rules)
    server = RehearsalServer(now=NOW)
    await server.start()
    known = phones(server, clients)
    companion = Companion(server, database, {"COMPANION_RATE": str(RATE)})
    async with companion.at_work():
        started = _megabytes(companion.pid, "VmRSS")
        answered: set[int] = set()
        for _ in range(seconds):
            await asyncio.sleep(1)
            for phone in known.values():
                if phone.user_id not in answered and can_press(phone, "not_today"):
                    answered.add(phone.user_id)
                    press(phone, "not_today")
        result = Taken(started, _megabytes(companion.pid, "VmRSS"), _megabytes(companion.pid, "VmHWM"))
    await server.stop()
    return result


def _megabytes(pid: int, name: str) -> float:
    status = Path(f"/proc/{pid}/status").read_text(encoding="ascii")
    found = re.search(rf"^{name}:\s+(\d+) kB$", status, re.MULTILINE)
    assert found is not None, name
    return int(found[1]) * 1024 / 1e6


async def test_memory_with_many_clients(tmp_path: Path) -> None:
    clients, live, seconds = number("CLIENTS", 10_000), number("LIVE", 300), number("SECONDS", 20)
    few = await taken(FEW, 0, seconds, tmp_path / "few.sqlite3")
    many = await taken(clients, live, seconds, tmp_path / "many.sqlite3")
    lines = [
        Line("after the start, MB", many.started, few.started),
        Line(f"after {seconds} s of work, MB", many.now, few.now, "under 120"),
        Line("the most, MB", many.most, few.most),
    ]
    show("resident memory of the bot's process", f"{clients} clients, {live} live", f"{FEW} clients", lines)
