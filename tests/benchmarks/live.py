"""How late stop, relax and answers are with 300 live sessions and 9,000 reminders that are due at once.

    [SESSIONS=300] [REMINDERS=9000] [SECONDS=60] [HURRY=0] .venv/bin/pytest -qs tests/benchmarks/live.py

The real process against the loopback platform at 30 requests a second, then a plain bot of python-telegram-bot with the
library's own limiter, against the same, with the same people. The sessions are anywhere in a bout when it begins, and go as
sessions usually do (60 s holds, 20 s to get into place, 60 s rests), or in a HURRY (30, 10, 30 s); people take 2 to 6 s to
answer. Every six seconds somebody presses "Something is wrong", one in five of them in the middle of practice.
"""

import asyncio
import gc
from collections import Counter
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from random import Random

from companion.core.steps import Phase
from companion.rehearsal.server import Phone, RehearsalServer
from companion.runtime.clock import RealClock
from tests.benchmarks.other import plain_bot
from tests.benchmarks.practice import KINDS, Practice
from tests.benchmarks.table import Line, busiest_second, number, percentile, show
from tests.crowd import Pace, home, phones, reminded_at, says, timing, user_of, write
from tests.playing import CONTENT
from tests.process import Companion

RATE = 30
SETTLES_S = 10.0
STOP_EVERY_S = 6.0
GOALS = {"stop": 0.1, "relax": 0.1, "answer": 0.25}
PACE = Pace(30, 10, 30) if number("HURRY", 0) else Pace()
ENDS = {Phase.INTO_PLACE: "go", Phase.HOLD: "relax"}
WHAT_FOLLOWS = {Phase.REST: "set_up", Phase.INTO_PLACE: "go", Phase.HOLD: "time"}
NOW = RealClock().now


@dataclass(frozen=True, slots=True)
class Size:
    """How much, and for how long."""

    sessions: int
    reminders: int
    seconds: int


@dataclass(frozen=True, slots=True)
class Seen:
    """What the people saw, and what the platform was asked."""

    practice: Practice
    reminders: int
    requests_a_second: float
    busiest: int
    refused: Counter[str]


async def companion_at_work(size: Size, folder: Path) -> Seen:
    """The real process."""
    rules = CONTENT.library.rules("112")
    # Writing it all down, and starting, takes some seconds.
    begins = NOW() + timedelta(seconds=30)
    sessions = [
        timing(home(number, begins, PACE), rules, phase, begins + timedelta(seconds=left_s - seconds))
        for number, (phase, seconds, left_s) in enumerate(anywhere_in_a_bout(size.sessions))
    ]
    due = [reminded_at(home(size.sessions + number, begins), begins) for number in range(size.reminders)]
    database = folder / "companion.sqlite3"
    await write(database, [*sessions, *due], rules)
    async with platform(size) as (server, known), Companion(server, database, {"COMPANION_RATE": str(RATE)}).at_work():
        assert NOW() < begins, "writing it all down took longer than thought"
        await asyncio.sleep((begins - NOW()).total_seconds())
        return await watched(size, practising(size, server, known, begins))


async def plain_bot_at_work(size: Size) -> Seen:
    """The other one."""
    async with platform(size) as (server, known):
        sessions = [
            (user_of(number), left_s, WHAT_FOLLOWS[phase])
            for number, (phase, _, left_s) in enumerate(anywhere_in_a_bout(size.sessions))
        ]
        orders = {
            "token": server.token,
            "api": server.base_url,
            "rate": RATE,
            "reminders": [user_of(size.sessions + number) for number in range(size.reminders)],
            "sessions": sessions,
            "hold_s": PACE.hold_s,
            "into_place_s": PACE.into_place_s,
            "rest_s": PACE.rest_s,
            "into_place": says("into-place", seconds=PACE.into_place_s),
            "go": says("hold-now", seconds=PACE.hold_s),
            "time": says("time"),
        }
        async with plain_bot(orders):
            while not server.updates.held:
                await server.wait_change()
            return await watched(size, practising(size, server, known, NOW()))


def anywhere_in_a_bout(sessions: int) -> list[tuple[Phase, float, float]]:
    """For each session the clock that runs, its seconds, and how many of them are left: evenly over a whole bout."""
    chance = Random(1)
    lengths = ((Phase.REST, PACE.rest_s), (Phase.INTO_PLACE, PACE.into_place_s), (Phase.HOLD, PACE.hold_s))
    found = []
    for _ in range(sessions):
        at = chance.uniform(0, sum(seconds for _, seconds in lengths))
        for phase, seconds in lengths:
            if at < seconds:
                found.append((phase, float(seconds), seconds - at))
                break
            at -= seconds
    return found


@asynccontextmanager
async def platform(size: Size) -> AsyncIterator[tuple[RehearsalServer, dict[str, Phone]]]:
    """The platform, with all its limits, and everybody's phone."""
    server = RehearsalServer(now=NOW)
    await server.start()
    try:
        yield server, phones(server, size.sessions + size.reminders)
    finally:
        await server.stop()


def practising(size: Size, server: RehearsalServer, known: dict[str, Phone], begins: datetime) -> Practice:
    """The people: who practises, and who does not. What ends the clocks that run when it begins is expected."""
    practice = Practice(server, PACE, Random(2))
    everybody = [known[f"c{one}"] for one in range(size.sessions + size.reminders)]
    practice.watch(everybody[: size.sessions], everybody[size.sessions :])
    for phone, (phase, _, left_s) in zip(everybody, anywhere_in_a_bout(size.sessions), strict=False):
        if phase in ENDS:
            practice.expect(ENDS[phase], phone, begins + timedelta(seconds=left_s))
    return practice


async def watched(size: Size, practice: Practice) -> Seen:
    """Let the people live, and see what they see. What was made for them is no garbage: to look for some would hold them up."""
    gc.collect()
    gc.freeze()
    server = practice.server
    living = asyncio.create_task(practice.live(STOP_EVERY_S))
    await asyncio.sleep(SETTLES_S)
    practice.measure()
    began, before = NOW(), len(server.calls)
    await asyncio.sleep(size.seconds)
    practice.end()
    living.cancel()
    # What answers a press is outside every limit.
    calls = [call for call in server.calls[before:] if call.chat_id is not None and call.method != "answercallbackquery"]
    new = [entry.text for entry in server.entries if entry.way == "out" and entry.kind == "text"]
    reminded = sum(text.startswith(says("reminder")) for text in new)
    refused = Counter(call.method for call in calls if call.code == 429)
    taken = [call.at.timestamp() for call in calls if call.code == 200]
    return Seen(practice, reminded, len(calls) / (NOW() - began).total_seconds(), busiest_second(taken), refused)


def told(ours: Seen, other: Seen, size: Size) -> None:
    """Print the table."""
    lines = []
    for kind in KINDS:
        a, b = ours.practice.late[kind], other.practice.late[kind]
        counted = f"{kind}: how many, and still awaited"
        lines.append(Line(counted, f"{len(a)}, {ours.practice.open[kind]}", f"{len(b)}, {other.practice.open[kind]}"))
        goal = f"p99 {GOALS[kind]} s" if kind in GOALS else ""
        lines += [Line(f"{kind}: late p50, s", percentile(a, 50), percentile(b, 50))]
        lines += [Line(f"{kind}: late p99, s", percentile(a, 99), percentile(b, 99), goal)]
        lines += [Line(f"{kind}: latest, s", max(a, default=float("nan")), max(b, default=float("nan")))]
    lines.append(Line("holds that ended with a question", ours.practice.lost, other.practice.lost, "0"))
    lines.append(Line("reminders taken meanwhile", ours.reminders, other.reminders))
    lines.append(Line("requests a second", ours.requests_a_second, other.requests_a_second))
    lines.append(Line("busiest second", ours.busiest, other.busiest, "30"))
    lines.append(Line("refused (429)", ours.refused.total(), other.refused.total(), "0"))
    pace = f"{PACE.hold_s} s holds"
    title = f"{size.sessions} live sessions ({pace}), {size.reminders} reminders due, {RATE}/s, {size.seconds} s"
    show(title, "companion", "plain bot", lines)


async def test_live_sessions_and_many_reminders(tmp_path: Path) -> None:
    size = Size(number("SESSIONS", 300), number("REMINDERS", 9_000), number("SECONDS", 60))
    ours = await companion_at_work(size, tmp_path)
    other = await plain_bot_at_work(size)
    told(ours, other, size)
    assert not ours.refused
