"""Ten thousand reminders due in one second, each once; against APScheduler with one job a client.

    [CLIENTS=10000] .venv/bin/pytest -qs tests/benchmarks/burst.py

The companion runs as a process of its own without a rate, against the platform without one: what is measured is whether
everybody is reminded, and how fast alarms, database and sender are. The scheduler's jobs do nothing but count; they have
its default settings, then no grace time.
"""

import asyncio
import logging
import sys
from collections import Counter
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from apscheduler.schedulers.asyncio import AsyncIOScheduler

from companion.rehearsal.server import Limits, RehearsalServer
from companion.runtime.clock import RealClock
from tests.benchmarks.table import Line, number, percentile, show
from tests.crowd import home, phones, reminded_at, user_of, write
from tests.playing import CONTENT

AHEAD_S = 5.0
STUCK_S = 20.0
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
class Ran:
    """How many ran once, how many more than once, and how late, in seconds."""

    once: int
    more: int
    late: list[float]


async def companion_reminds(clients: int, folder: Path) -> Ran:
    """The companion's reminders as they were taken by the platform."""
    database = folder / "companion.sqlite3"
    due = NOW() + timedelta(seconds=20 + clients / 500)
    await write(database, (reminded_at(home(one, due), due) for one in range(clients)), CONTENT.library.rules("112"))
    server = RehearsalServer(now=NOW, limits=Limits.without_rates())
    await server.start()
    phones(server, clients)
    arguments = (server.token, server.base_url, str(database), str(UNLIMITED))
    with (folder / "companion.log").open("wb") as log:
        process = await asyncio.create_subprocess_exec(sys.executable, "-c", WITHOUT_RATE, *arguments, stderr=log)
    assert NOW() < due, "writing the clients down took longer than thought"
    times: list[datetime] = []
    users: Counter[int] = Counter()
    looked_at, still = 0, 0.0
    while len(users) < clients and still < STUCK_S:
        await asyncio.sleep(0.5)
        new = [entry for entry in server.entries[looked_at:] if entry.way == "out"]
        looked_at = len(server.entries)
        still = 0.0 if new or NOW() < due else still + 0.5
        times += [entry.at for entry in new]
        users.update(entry.user_id for entry in new)
    # One that is sent twice would be sent soon after.
    await asyncio.sleep(2)
    users.update(entry.user_id for entry in server.entries[looked_at:] if entry.way == "out")
    process.terminate()
    await process.wait()
    await server.stop()
    known = {user_of(one) for one in range(clients)}
    once = sum(users[user] == 1 for user in known)
    return Ran(once, sum(users[user] > 1 for user in known), [(at - due).total_seconds() for at in times])


async def scheduler_runs(clients: int, **settings: object) -> Ran:
    """One job a client, all at the same moment."""
    logging.getLogger("apscheduler").setLevel(logging.CRITICAL)
    scheduler = AsyncIOScheduler(timezone=UTC)
    ran: Counter[int] = Counter()
    late: list[float] = []

    async def remind(one: int) -> None:
        ran[one] += 1
        late.append((NOW() - due).total_seconds())

    scheduler.start(paused=True)
    due = NOW() + timedelta(seconds=AHEAD_S + clients / 500)
    for one in range(clients):
        scheduler.add_job(remind, "date", run_date=due, args=(one,), **settings)
    assert NOW() < due, "planning the jobs took longer than thought"
    scheduler.resume()
    await asyncio.sleep((due - NOW()).total_seconds() + STUCK_S)
    scheduler.shutdown(wait=False)
    return Ran(sum(often == 1 for often in ran.values()), sum(often > 1 for often in ran.values()), late)


async def test_everybody_is_reminded_once(tmp_path: Path) -> None:
    clients = number("CLIENTS", 10_000)
    ours = await companion_reminds(clients, tmp_path)
    usual = await scheduler_runs(clients)
    patient = await scheduler_runs(clients, misfire_grace_time=None)
    for name, other in (("default settings", usual), ("no grace time", patient)):
        lines = [
            Line("ran once", ours.once, other.once, str(clients)),
            Line("ran more than once", ours.more, other.more, "0"),
            Line("late p50, s", percentile(ours.late, 50), percentile(other.late, 50)),
            Line("last, s after it was due", max(ours.late, default=float("nan")), max(other.late, default=float("nan"))),
        ]
        show(f"{clients} reminders due in one second", "companion, sent", f"APScheduler, {name}, counted", lines)
    assert (ours.once, ours.more) == (clients, 0)
