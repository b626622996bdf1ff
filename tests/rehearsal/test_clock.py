"""The rehearsal's clock: time that stands still, and one loop at a time."""

import asyncio
from datetime import UTC, datetime, timedelta

import pytest

from companion.rehearsal.clock import RehearsalClock
from companion.runtime.clock import Clock, RealClock

START = datetime(2026, 11, 2, 7, 0, tzinfo=UTC)


def clock() -> RehearsalClock:
    return RehearsalClock(START, "seed")


async def let_all_run() -> None:
    for _ in range(5):
        await asyncio.sleep(0)


async def parks(on: RehearsalClock, name: str, log: list[str], event: asyncio.Event | None, until: datetime | None) -> None:
    await on.park(name, event, until)
    log.append(name)


async def test_time_stands_still_until_it_is_moved() -> None:
    still = clock()
    await let_all_run()
    assert still.now() == START
    still.move_to(START + timedelta(days=3))
    assert still.now() == START + timedelta(days=3)


def test_time_does_not_run_backwards() -> None:
    with pytest.raises(ValueError, match="backwards"):
        clock().move_to(START - timedelta(seconds=1))


async def test_loops_are_let_go_one_at_a_time_in_rank_whoever_parked_first() -> None:
    still, log = clock(), list[str]()
    names = ("updates", "outbox", "drawing", "alarms")
    tasks = [asyncio.create_task(parks(still, name, log, None, START)) for name in names]
    await let_all_run()
    assert log == [], "nobody goes on before being let go, though the moment is reached"
    for count, name in enumerate(("alarms", "outbox", "drawing", "updates"), start=1):
        assert still.release() == name
        await let_all_run()
        assert len(log) == count and log[-1] == name
    assert still.release() is None
    await asyncio.gather(*tasks)


async def test_an_event_lets_a_loop_go_before_its_moment() -> None:
    still, log, event = clock(), list[str](), asyncio.Event()
    task = asyncio.create_task(parks(still, "outbox", log, event, START + timedelta(hours=1)))
    await let_all_run()
    assert still.release() is None
    event.set()
    assert still.release() == "outbox"
    await task


async def test_the_next_moment_is_the_earliest_that_anybody_waits_for() -> None:
    still, log = clock(), list[str]()
    moments = {"alarms": START + timedelta(hours=2), "outbox": START + timedelta(hours=1), "drawing": None}
    tasks = [asyncio.create_task(parks(still, name, log, None, until)) for name, until in moments.items()]
    await let_all_run()
    assert still.next_until() == START + timedelta(hours=1)
    for task in tasks:
        task.cancel()
    await asyncio.gather(*tasks, return_exceptions=True)
    assert still.parked == (), "a loop that is ended waits no more"


async def test_the_bell_rings_when_somebody_parks() -> None:
    still, rung = clock(), list[int]()
    still.bell = lambda: rung.append(1)
    task = asyncio.create_task(still.park("alarms", None, None))
    await let_all_run()
    assert rung == [1]
    task.cancel()


def test_chance_is_the_same_for_the_same_seed_and_no_two_draws_are_alike() -> None:
    one, other, third = RehearsalClock(START, "a"), RehearsalClock(START, "a"), RehearsalClock(START, "b")
    drawn = [one.seed() for _ in range(200)]
    assert drawn == [other.seed() for _ in range(200)]
    assert drawn != [third.seed() for _ in range(200)]
    assert len(set(drawn)) == 200
    assert all(0 <= seed < 2**31 for seed in drawn)


def test_a_token_fits_a_start_link() -> None:
    still = clock()
    tokens = {still.token() for _ in range(100)}
    assert len(tokens) == 100
    assert all(len(token) == 22 and set(token) <= set(_LINK) for token in tokens)


_LINK = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_-"


def test_a_scheduler_fires_what_is_due_and_nothing_else_while_we_play() -> None:
    still = clock()
    real = RealClock().now()
    assert abs(still.wall(START) - real) < timedelta(minutes=1)
    assert still.wall(START + timedelta(seconds=1)) > real + timedelta(days=300)


def test_it_is_a_clock_of_the_runtime() -> None:
    as_clock: Clock = clock()
    assert as_clock.look(START) == START and as_clock.look(None) is None
