"""The machine's own clock."""

import asyncio
from datetime import UTC, timedelta
from re import fullmatch

from companion.runtime.clock import LOOK_S, RealClock


async def test_a_wait_ends_when_its_event_is_set() -> None:
    clock, event = RealClock(), asyncio.Event()
    waiting = asyncio.create_task(clock.park("alarms", event, None))
    await asyncio.sleep(0)
    assert not waiting.done()
    event.set()
    async with asyncio.timeout(10):
        await waiting


async def test_a_wait_ends_when_its_moment_is_reached_and_not_before() -> None:
    clock = RealClock()
    until = clock.now() + timedelta(milliseconds=30)
    async with asyncio.timeout(10):
        await clock.park("outbox", asyncio.Event(), until)
    assert clock.now() >= until


async def test_a_wait_whose_cause_is_there_already_ends_at_once() -> None:
    clock, event = RealClock(), asyncio.Event()
    event.set()
    async with asyncio.timeout(10):
        await clock.park("outbox", event, None)
        await clock.park("outbox", None, clock.now() - timedelta(days=1))


async def test_a_wait_that_ends_at_once_still_lets_others_run() -> None:
    clock, ran = RealClock(), asyncio.Event()
    asyncio.get_running_loop().call_soon(ran.set)
    await clock.park("outbox", None, clock.now())
    assert ran.is_set()


def test_instants_are_utc_and_the_alarms_look_again_after_a_while() -> None:
    clock = RealClock()
    assert clock.now().tzinfo is UTC
    look = clock.look(None)
    assert look is not None
    assert timedelta() < look - clock.now() <= timedelta(seconds=LOOK_S)
    assert clock.wall(look) == look


def test_chance_differs_and_a_token_fits_a_start_link() -> None:
    clock = RealClock()
    assert len({clock.seed() for _ in range(50)}) > 40
    assert all(0 <= clock.seed() < 2**31 for _ in range(50))
    tokens = {clock.token() for _ in range(50)}
    assert len(tokens) == 50
    assert all(fullmatch(r"[A-Za-z0-9_-]{22,64}", token) for token in tokens)
