"""Who is woken, when, and in which order."""

import asyncio
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta

import pytest

from companion.core import client as clients
from companion.core.effects import Effect, Say, Subject, Urgency, words
from companion.core.events import Event, Typed, Woke
from companion.core.programme import Rules
from companion.runtime.alarms import JOB, MOST_UNSENT_REMINDERS, Alarms
from companion.runtime.clock import RealClock
from companion.runtime.handler import Handler
from tests.runtime.hands import CARE_OF_ADA, CONTROLS, RULES, START, Knockers, Spelled, World, at


@dataclass
class Sleepers:
    """Stands in for the rules of care: notes who was woken, and says when they want to be woken next."""

    woken: list[tuple[str, float]] = field(default_factory=list)
    next_at: dict[str, datetime] = field(default_factory=dict)
    rang: asyncio.Event = field(default_factory=asyncio.Event)
    says: Callable[[str], tuple[Effect, ...]] = lambda client_id: ()

    def step(self, client: clients.Client, event: Event, rules: Rules) -> clients.Decision:
        if not isinstance(event, Woke):
            return clients.Decision(client, ())
        if client.name == "Broken":
            raise ValueError("it wakes nobody")
        self.woken.append((client.id, (event.at - START).total_seconds()))
        self.rang.set()
        return clients.Decision(client, self.says(client.id))

    def wake_at(self, client: clients.Client, rules: Rules) -> datetime | None:
        return self.next_at.get(client.id)

    def ids(self) -> list[str]:
        return [client_id for client_id, _ in self.woken]


@pytest.fixture
def sleepers(monkeypatch: pytest.MonkeyPatch) -> Sleepers:
    made = Sleepers()
    monkeypatch.setattr(clients, "step", made.step)
    monkeypatch.setattr(clients, "wake_at", made.wake_at)
    return made


async def asleep(world: World, *rows: tuple[str, float, int]) -> None:
    """Write clients down: id, the second at which they want to be woken, and the class."""
    async with world.store.writing() as tx:
        for client_id, second, wake_class in rows:
            await tx.add_client(replace(CARE_OF_ADA, id=client_id), at(second), wake_class)
    world.runtime.wake()


async def test_each_is_woken_at_its_own_moment(world: World, sleepers: Sleepers) -> None:
    await asleep(world, ("b", 20, 0), ("a", 10, 0), ("c", 30, 1))
    await world.clock.move(at(25))
    assert sleepers.woken == [("a", 10), ("b", 20)]
    await world.clock.move(at(60))
    assert sleepers.woken[2:] == [("c", 30)]


async def test_of_those_due_the_live_ones_come_first_then_the_earliest(world: World, sleepers: Sleepers) -> None:
    await asleep(world, ("report", 1, 2), ("reminder 2", 3, 1), ("reminder 1", 2, 1), ("live 2", 9, 0), ("live 1", 8, 0))
    world.clock.set(at(100))
    await world.clock.move(at(100))
    assert sleepers.ids() == ["live 1", "live 2", "reminder 1", "reminder 2", "report"]


async def test_live_ones_are_looked_for_after_every_reminder(world: World, sleepers: Sleepers) -> None:
    def a_slow_reminder(client_id: str) -> tuple[Effect, ...]:
        if client_id == "r1":
            world.clock.set(at(11))
        return ()

    sleepers.says = a_slow_reminder
    await asleep(world, ("r1", 10, 1), ("r2", 10, 1), ("live", 10.5, 0))
    await world.clock.move(at(10))
    assert sleepers.ids() == ["r1", "live", "r2"]


async def test_an_alarm_of_the_same_row_has_a_new_key_each_time(world: World, sleepers: Sleepers) -> None:
    sleepers.next_at["a"] = at(20)
    await asleep(world, ("a", 10, 0))
    await world.clock.move(at(15))
    sleepers.next_at.clear()
    await world.clock.move(at(60))
    assert sleepers.woken == [("a", 10), ("a", 20)]
    async with world.store.reading() as reading:
        assert await reading.journal("wake:client:a:1") is not None
        assert await reading.journal("wake:client:a:2") is not None


async def test_a_commit_that_wants_an_earlier_moment_is_heard(world: World, sleepers: Sleepers) -> None:
    await asleep(world, ("far", 1000, 0), ("a", 2000, 0))
    await world.clock.move(at(5))
    sleepers.next_at["a"] = at(7)
    await world.runtime.handler.handle(Subject("client", "a"), Typed(at(5), "ada", ""), "k")
    await world.clock.quiet()
    assert world.clock.next_at() == at(7)
    sleepers.next_at.clear()
    await world.clock.move(at(8))
    assert sleepers.woken == [("a", 7)]


async def test_no_reminder_is_taken_while_sixty_wait_to_be_sent(world: World, sleepers: Sleepers) -> None:
    def a_reminder(client_id: str) -> tuple[Effect, ...]:
        reminder = Say("ada", (words(client_id),), urgency=Urgency.REMINDER, topic="reminder")
        return (reminder,) if client_id != "live" else ()

    sleepers.says = a_reminder
    sleepers.next_at["live"] = at(40)
    await asleep(world, ("live", 30, 0), *((f"r{n:03}", 10, 1) for n in range(100)))
    world.clock.set(at(10))
    await world.clock.move(at(10))
    assert len(sleepers.woken) == MOST_UNSENT_REMINDERS + len(world.platform.sent)
    # Ada's chat takes one a second: as one goes out, one is taken; and the live one is woken in between.
    await world.clock.move(at(20))
    assert len(sleepers.woken) == MOST_UNSENT_REMINDERS + len(world.platform.sent)
    await world.clock.move(at(30))
    assert ("live", 30) in sleepers.woken
    sleepers.next_at.clear()
    await world.clock.move(at(200))
    assert len(world.platform.sent) == len([one for one in sleepers.ids() if one != "live"]) == 100


async def test_one_that_can_not_be_woken_is_put_off_and_stops_nobody(
    world: World, sleepers: Sleepers, caplog: pytest.LogCaptureFixture
) -> None:
    async with world.store.writing() as tx:
        await tx.add_client(replace(CARE_OF_ADA, id="broken", name="Broken"), at(1), 0)
        await tx.add_client(replace(CARE_OF_ADA, id="fine"), at(2), 0)
    world.runtime.wake()
    await world.clock.move(at(50))
    assert sleepers.woken == [("fine", 2)]
    assert "wake:client:broken:1" in caplog.text
    assert world.clock.next_at() == at(61)
    await world.clock.move(at(130))
    assert caplog.text.count("set aside") == 3


async def test_an_alarm_that_is_handled_and_still_stands_is_put_off(
    world: World, sleepers: Sleepers, caplog: pytest.LogCaptureFixture
) -> None:
    sleepers.next_at["a"] = at(1)
    await asleep(world, ("a", 1, 0))
    await world.clock.move(at(50))
    assert sleepers.woken == [("a", 1)]
    assert "still stands" in caplog.text
    await world.clock.move(at(62))
    assert sleepers.ids() == ["a", "a"]


async def test_an_alarm_whose_key_was_handled_before_is_put_off(world: World, sleepers: Sleepers) -> None:
    async with world.store.writing() as tx:
        await tx.journal("wake:client:a:1", Subject("client", "a"), Woke(START), ())
    await asleep(world, ("a", 1, 0))
    await world.clock.move(at(50))
    assert sleepers.woken == []
    await world.clock.move(at(62))
    assert sleepers.ids() == ["a"]


async def test_on_the_real_clock_the_scheduler_rings_when_the_next_alarm_is_due(world: World, sleepers: Sleepers) -> None:
    """Nothing else would: without the scheduler the loop looks again after 30 seconds only."""
    await world.runtime.stop()
    clock = RealClock()
    alarms = Alarms(Handler(world.store, RULES, Spelled(), Knockers(), clock, CONTROLS))
    due = clock.now() + timedelta(milliseconds=200)
    async with world.store.writing() as tx:
        await tx.add_client(replace(CARE_OF_ADA, id="a"), due, 0)
    running = asyncio.create_task(alarms.run())
    try:
        async with asyncio.timeout(10):
            await sleepers.rang.wait()
    finally:
        async with alarms.turn:
            running.cancel()
        await asyncio.gather(running, return_exceptions=True)
    assert sleepers.ids() == ["a"]
    assert START + timedelta(seconds=sleepers.woken[0][1]) >= due


async def test_on_the_real_clock_a_job_planned_in_the_past_still_rings(world: World) -> None:
    alarms = Alarms(Handler(world.store, RULES, Spelled(), Knockers(), RealClock(), CONTROLS))
    alarms.scheduler.start()
    alarms.plan(datetime(2020, 1, 1, tzinfo=UTC))
    async with asyncio.timeout(10):
        await alarms.event.wait()
    alarms.plan(datetime(2100, 1, 1, tzinfo=UTC))
    alarms.plan(datetime(2099, 1, 1, tzinfo=UTC))
    assert [job.id for job in alarms.scheduler.get_jobs()] == [JOB]
    alarms.plan(None)
    assert alarms.scheduler.get_jobs() == []
    alarms.scheduler.shutdown(wait=False)


async def test_what_another_process_passed_on_is_handled_when_the_alarms_look(world: World) -> None:
    async with world.store.writing() as tx:
        passed = await tx.put_pass(Subject("client", "c1"), Typed(START, "ada", "hello"))
    world.runtime.wake()
    await world.clock.move(at(1))
    async with world.store.reading() as reading:
        assert not await reading.anything_passed_on()
        assert await reading.journal(f"pass:{passed}") is not None
    assert world.platform.texts() != []
