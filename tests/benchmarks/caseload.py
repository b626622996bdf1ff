"""A therapist with 500 clients asks for their list.

    [OTHERS=2000] [TIMES=40] .venv/bin/pytest -qs tests/benchmarks/caseload.py

On the bot are the clients of other therapists too. Measured is the whole event, from "My clients" until the page is written
down to be sent and all is committed on the disk. Beside it: every client is loaded, and the list is worked out and sorted.
"""

from dataclasses import replace
from datetime import datetime
from pathlib import Path
from time import perf_counter

from companion.chat.doors import StartLinks
from companion.core.care import Client, People, seeing
from companion.core.caseload import look
from companion.core.effects import PAGE, Subject
from companion.core.events import Control, Controlled
from companion.core.person import Part, Person
from companion.core.programme import Rules
from companion.runtime.client_rows import add_client
from companion.runtime.clock import RealClock
from companion.runtime.handler import Handler
from companion.runtime.routing import PERSON_WAKE_CLASS
from companion.store import Store
from companion.store.lists import CASELOAD
from tests.benchmarks.table import Line, number, percentile, show
from tests.crowd import home
from tests.playing import CONTENT
from tests.store.test_plans import plan

THEIRS = 500
OF_OTHERS = 100
BUSY = "busy"
CLOCK = RealClock()
GOAL_S = 0.2


async def crowd(store: Store, rules: Rules, others: int) -> None:
    """One therapist with 500 clients, and others with 100 each."""
    now = CLOCK.now()
    whose = [BUSY] * THEIRS + [f"t{place // OF_OTHERS}" for place in range(others)]
    for first in range(0, len(whose), 500):
        async with store.writing() as tx:
            for place, therapist in enumerate(whose[first : first + 500], start=first):
                await add_client(tx, _client(place, therapist, now), rules, now)
    theirs = tuple(f"c{place}" for place in range(THEIRS))
    busy = Person(BUSY, Part.THERAPIST, "Tess", "Etc/GMT", theirs, user_id=90)
    async with store.writing() as tx:
        await tx.add_person(busy, None, PERSON_WAKE_CLASS)


def _client(place: int, therapist: str, now: datetime) -> Client:
    client = home(place, now)
    return replace(client, people=People(client.id, therapist, names=((client.id, client.name), (therapist, "Tess"))))


async def asked(handler: Handler, times: int) -> list[float]:
    """Seconds of each "My clients"."""
    taken = []
    for turn in range(times):
        began = perf_counter()
        event = Controlled(CLOCK.now(), BUSY, Control.CASELOAD)
        decision = await handler.handle(Subject("person", BUSY), event, f"tg:{turn}:90:{turn}")
        taken.append(perf_counter() - began)
        assert decision is not None
    return taken


async def scanned(store: Store, rules: Rules, times: int) -> list[float]:
    """Seconds of each list that is worked out from all clients."""
    taken = []
    for _ in range(times):
        began, now = perf_counter(), CLOCK.now()
        async with store.reading() as reading:
            theirs = [client for client in await reading.clients() if BUSY in seeing(client, now)]
        page = sorted(theirs, key=lambda client: (-look(client, now, rules).rank, client.name))[:PAGE]
        taken.append(perf_counter() - began)
        assert len(theirs) == THEIRS and len(page) == PAGE
    return taken


async def test_a_therapist_with_500_clients_sees_their_list(tmp_path: Path) -> None:
    times, others = number("TIMES", 40), number("OTHERS", 2_000)
    rules, database = CONTENT.library.rules("112"), tmp_path / "companion.sqlite3"
    store = await Store.open(database)
    try:
        await crowd(store, rules, others)
        handler = Handler(store, rules, CONTENT.texts, StartLinks("invented_bot"), CLOCK, {})
        ours, naive = await asked(handler, times), await scanned(store, rules, max(3, times // 10))
        async with store.reading() as reading:
            assert (await reading.caseload(BUSY)).total == THEIRS
            waiting = await reading.waiting(times + 1, CLOCK.now())
    finally:
        await store.close()
    assert [row.person_id for row in waiting] == [BUSY] * times
    lines = [
        Line(f"list of {THEIRS} clients, p50, s", percentile(ours, 50), percentile(naive, 50)),
        Line("the same, p99, s", percentile(ours, 99), percentile(naive, 99), f"{GOAL_S} s"),
    ]
    show(f"{THEIRS} clients of one therapist, {others} of others", "from the index", "every client loaded", lines)
    steps = plan(database, CASELOAD)
    print("query plan:", "; ".join(steps))
    assert percentile(ours, 99) < GOAL_S
    assert not any(step.startswith("SCAN") for step in steps)
