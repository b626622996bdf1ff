"""From a press to the answer that the platform took, when nothing else happens.

    [PRESSES=300] .venv/bin/pytest -qs tests/benchmarks/idle.py

Fifty people in a session stand before a set-up and press "Make it easier" and "As planned" by turns, one of them every
150 ms; the answer is the change of the message. The plain bot of python-telegram-bot does the same without a database.
"""

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from companion.rehearsal.server import Button, Phone, RehearsalServer
from companion.runtime.clock import RealClock
from tests.benchmarks.other import plain_bot
from tests.benchmarks.table import Line, number, percentile, show
from tests.crowd import choice_of, home, phones, resting, user_of, write
from tests.playing import CONTENT
from tests.process import Companion, until

PEOPLE = 50
EVERY_S = 0.15
RATE = 30
SETTLED_S = 3
TOGGLES = ("easier", "as_planned")
NOW = RealClock().now


@dataclass(frozen=True, slots=True)
class Toggle:
    """A button that changes its message, and stands under it again."""

    message_id: int
    button: Button


async def pressed(server: RehearsalServer, presses: int) -> tuple[list[float], list[float]]:
    """Seconds from each press to the change of its message, and to the platform's own answer to the press."""
    people = [server.phones[user_of(one)] for one in range(PEOPLE)]
    await until(server, lambda: all(_toggle(phone) for phone in people))
    await asyncio.sleep(SETTLED_S)
    changes, replies = [], []
    for turn in range(presses):
        toggle = _toggle(people[turn % PEOPLE])
        assert toggle is not None
        entries, calls, at = len(server.entries), len(server.calls), NOW()
        people[turn % PEOPLE].press(toggle.button.label, toggle.message_id)
        changes.append((await _changed(server, entries) - at).total_seconds())
        replies.append((await _replied(server, calls) - at).total_seconds())
        await asyncio.sleep(EVERY_S)
    return changes, replies


def _toggle(phone: Phone) -> Toggle | None:
    """What may be pressed on that phone."""
    for message in reversed(phone.messages):
        for button in (one for row in message.buttons for one in row if choice_of(one.data) in TOGGLES):
            return Toggle(message.message_id, button)
    return None


async def _changed(server: RehearsalServer, since: int) -> datetime:
    """When a message was changed."""

    def times() -> list[datetime]:
        return [entry.at for entry in server.entries[since:] if entry.way == "out" and entry.kind == "edit"]

    await until(server, lambda: bool(times()))
    return times()[0]


async def _replied(server: RehearsalServer, since: int) -> datetime:
    """When a press was answered."""

    def times() -> list[datetime]:
        return [call.at for call in server.calls[since:] if call.method == "answercallbackquery"]

    await until(server, lambda: bool(times()))
    return times()[0]


@asynccontextmanager
async def platform() -> AsyncIterator[RehearsalServer]:
    """The platform, with all its limits, and everybody's phone."""
    server = RehearsalServer(now=NOW)
    await server.start()
    try:
        phones(server, PEOPLE)
        yield server
    finally:
        await server.stop()


async def test_press_to_answer_when_idle(tmp_path: Path) -> None:
    presses = number("PRESSES", 300)
    rules, now = CONTENT.library.rules("112"), NOW()
    ended = now - timedelta(seconds=60)
    database = tmp_path / "companion.sqlite3"
    await write(database, (resting(home(one, now), rules, ended) for one in range(PEOPLE)), rules)
    async with platform() as server, Companion(server, database, {"COMPANION_RATE": str(RATE)}).at_work():
        ours, our_replies = await pressed(server, presses)

    async with platform() as server:
        menus = [user_of(one) for one in range(PEOPLE)]
        orders = {"token": server.token, "api": server.base_url, "rate": RATE, "reminders": [], "sessions": []}
        async with plain_bot({**orders, "menus": menus}):
            others, other_replies = await pressed(server, presses)
    lines = [
        Line("press to answer p50, s", percentile(ours, 50), percentile(others, 50)),
        Line("press to answer p99, s", percentile(ours, 99), percentile(others, 99), "0.1"),
        Line("press to answer, longest, s", max(ours), max(others)),
        Line("press to its reply p99, s", percentile(our_replies, 99), percentile(other_replies, 99)),
    ]
    show(f"{presses} presses, one at a time", "companion", "plain bot, no database", lines)
