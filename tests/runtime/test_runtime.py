"""Stopping, crashing and starting again."""

import asyncio
from dataclasses import replace
from datetime import timedelta

import pytest

from companion.core import client as clients
from companion.core.effects import Put, Subject, TakeBack, Urgency
from companion.core.events import Event, Lost, Typed, Why
from companion.core.media import Medium, Recorded, SoundCheck
from companion.core.programme import Rules
from companion.runtime.pace import Limits
from companion.runtime.runtime import LoopBroken
from companion.runtime.transport import File, Op, Outcome, Outgoing, Receipt, Unreachable
from companion.store import OutboxRow, OutboxState
from companion.store.errors import DatabaseUnusable
from companion.store.transactions import Tx
from tests.runtime.hands import Platform, World, at, message


class PowerCut(BaseException):
    """The machine stops: nothing after this is done."""


async def cut_on_the_wire(world: World, *rows: OutboxRow) -> tuple[World, list[int]]:
    """Write messages down, let the power go while the last is on the wire; the world after it, not yet started."""
    send = world.platform.send

    async def cut(outgoing: Outgoing) -> Outcome:
        if len(world.platform.sent) == len(rows) - 1:
            raise PowerCut
        return await send(outgoing)

    world.platform.send = cut  # type: ignore[method-assign]
    ids = await world.say(*rows)
    moving = asyncio.create_task(world.clock.move(at(1)))
    with pytest.raises(LoopBroken):
        await world.runtime.broken()
    moving.cancel()
    await world.runtime.stop()
    assert (await world.row(ids[-1])).state is OutboxState.ON_WIRE
    after = World(world.store, Limits())
    after.clock.set(at(60))
    return after, ids


async def lost(world: World, row_id: int) -> Why | None:
    async with world.store.reading() as reading:
        row = await reading.journal(f"sent:{row_id}")
    return row.event.why if row is not None and isinstance(row.event, Lost) else None


async def test_news_that_was_on_the_wire_at_a_power_cut_is_told_as_unknown_and_not_repeated(world: World) -> None:
    after, [row_id] = await cut_on_the_wire(world, replace(message("go"), tag="s1:4"))
    await after.runtime.start()
    await after.clock.move(at(300))
    assert after.platform.sent == []
    assert await lost(after, row_id) is Why.UNKNOWN
    await after.runtime.stop()


async def test_a_change_that_was_on_the_wire_at_a_power_cut_is_made_again(world: World) -> None:
    screen = replace(message("screen"), card="session")
    change = replace(message("changed"), card="session", put=Put.IN_PLACE)
    after, _ = await cut_on_the_wire(world, screen, change)
    await after.runtime.start()
    await after.clock.move(at(300))
    assert [(sent.out.op, sent.out.text) for sent in after.platform.sent] == [(Op.EDIT, "changed")]
    await after.runtime.stop()


async def test_a_picture_that_was_put_in_place_at_a_power_cut_is_put_there_again(world: World) -> None:
    picture = Recorded(Medium.PHOTO, "AgAC")
    screen = replace(message("how are you"), card="session")
    changed = replace(message("place"), card="session", put=Put.IN_PLACE, tag="s1:4", media=picture, media_key="place")
    after, [_, row_id] = await cut_on_the_wire(world, screen, changed)
    await after.runtime.start()
    await after.clock.move(at(300))
    [sent] = after.platform.sent
    assert (sent.out.op, sent.out.text, sent.out.file) == (Op.SWAP, "place", File(Medium.PHOTO, "AgAC"))
    assert await lost(after, row_id) is None
    await after.runtime.stop()


async def test_a_voice_note_that_was_on_the_wire_at_a_power_cut_is_told_as_unknown_and_not_repeated(world: World) -> None:
    async with world.store.writing() as tx:
        key, _ = await tx.want(SoundCheck((), 10, 3), "en", "", at(0))
        await tx.set_made(key, b"ogg")
    voice = replace(message("listen"), card="session", tag="s1:4", media=SoundCheck((), 10, 3), media_key=key)
    after, [row_id] = await cut_on_the_wire(world, voice)
    await after.runtime.start()
    await after.clock.move(at(300))
    assert after.platform.sent == []
    assert await lost(after, row_id) is Why.UNKNOWN
    await after.runtime.stop()


async def test_an_alert_that_was_on_the_wire_at_a_power_cut_is_repeated(world: World) -> None:
    alert = message("alert", "tess", Urgency.ALERT)
    after, _ = await cut_on_the_wire(world, alert, replace(alert, person_id="ben"))
    await after.runtime.start()
    await after.clock.move(at(300))
    assert [sent.out.chat_id for sent in after.platform.sent] == [12]
    await after.runtime.stop()


async def test_a_reminder_that_was_on_the_wire_at_a_power_cut_is_not_repeated(world: World) -> None:
    after, [row_id] = await cut_on_the_wire(world, message("reminder", urgency=Urgency.REMINDER))
    await after.runtime.start()
    await after.clock.move(at(300))
    assert after.platform.sent == []
    assert (await after.row(row_id)).state is OutboxState.LOST
    await after.runtime.stop()


async def test_what_waited_at_a_power_cut_is_sent_after_it(world: World) -> None:
    after, _ = await cut_on_the_wire(world, message("first"))
    await after.say(message("second", "cem"))
    await after.runtime.start()
    await after.clock.move(at(61))
    assert "second" in after.platform.texts()
    await after.runtime.stop()


async def stop_session(world: World) -> None:
    """An event of Ada's takes back everything of her session."""
    await world.runtime.handler.handle(
        Subject("client", "c1"), Typed(world.clock.now(), "ada", ""), f"stop:{world.clock.seed()}"
    )


@pytest.fixture
def stops(monkeypatch: pytest.MonkeyPatch) -> None:
    def step(client: clients.Client, event: Event, rules: Rules) -> clients.Decision:
        return clients.Decision(client, (TakeBack("session"),) if isinstance(event, Typed) else ())

    monkeypatch.setattr(clients, "step", step)


@pytest.mark.usefixtures("stops")
async def test_what_was_taken_back_while_on_the_wire_is_not_tried_again(world: World) -> None:
    asked = []

    async def stopped_meanwhile(outgoing: Outgoing) -> Outcome:
        asked.append(outgoing.text)
        await stop_session(world)
        return Unreachable()

    world.platform.send = stopped_meanwhile  # type: ignore[method-assign]
    [row_id] = await world.say(message("next exercise"))
    await world.clock.move(at(60))
    assert asked == ["next exercise"]
    assert (await world.row(row_id)).state is OutboxState.LOST


@pytest.mark.usefixtures("stops")
async def test_what_was_taken_back_while_on_the_wire_and_was_accepted_counts_as_sent(world: World) -> None:
    async def stopped_meanwhile(outgoing: Outgoing) -> Outcome:
        await stop_session(world)
        return Receipt(101, world.clock.now())

    world.platform.send = stopped_meanwhile  # type: ignore[method-assign]
    [row_id] = await world.say(message("next exercise"))
    await world.clock.move(at(60))
    assert (await world.row(row_id)).state is OutboxState.SENT


async def test_what_takes_back_its_own_topic_when_it_arrives_counts_as_sent(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    def step(client: clients.Client, event: Event, rules: Rules) -> clients.Decision:
        return clients.Decision(client, (TakeBack("session"),))

    monkeypatch.setattr(clients, "step", step)
    row_id, other = await world.say(replace(message("go"), tag="s1:4"), message("later"))
    await world.clock.move(at(60))
    assert (await world.row(row_id)).state is OutboxState.SENT
    assert (await world.row(other)).state is OutboxState.TAKEN_BACK


@pytest.mark.usefixtures("stops")
async def test_what_another_topic_or_client_takes_back_does_not_touch_what_is_on_the_wire(world: World) -> None:
    async def stopped_meanwhile(outgoing: Outgoing) -> Outcome:
        await stop_session(world)
        return Unreachable()

    rows = (replace(message("alert"), topic="alert"), message("other client", "cem"))
    ids = []
    for row in rows:
        world.platform.send = stopped_meanwhile  # type: ignore[method-assign]
        ids += await world.say(row)
        await world.clock.quiet()
        world.platform.send = Platform(world.clock).send  # type: ignore[method-assign]
        await world.clock.move(world.clock.now() + timedelta(seconds=60))
    assert [(await world.row(row_id)).state for row_id in ids] == [OutboxState.SENT] * 2


@pytest.mark.usefixtures("stops")
async def test_what_was_taken_back_while_on_the_wire_is_not_tried_again_after_a_power_cut(world: World) -> None:
    async def stopped_then_cut(outgoing: Outgoing) -> Outcome:
        await stop_session(world)
        raise PowerCut

    world.platform.send = stopped_then_cut  # type: ignore[method-assign]
    await world.say(replace(message("screen"), card="session", put=Put.IN_PLACE))
    moving = asyncio.create_task(world.clock.quiet())
    with pytest.raises(LoopBroken):
        await world.runtime.broken()
    moving.cancel()
    after = World(world.store, Limits())
    await after.runtime.start()
    await after.clock.move(at(300))
    assert after.platform.sent == []
    await after.runtime.stop()


async def test_stopping_waits_for_the_request_on_the_wire_so_that_its_end_is_known(world: World) -> None:
    asked, answer = asyncio.Event(), asyncio.Event()

    async def slow(outgoing: Outgoing) -> Outcome:
        asked.set()
        await answer.wait()
        return Receipt(101, world.clock.now())

    world.platform.send = slow  # type: ignore[method-assign]
    [row_id] = await world.say(message("x"))
    moving = asyncio.create_task(world.clock.quiet())
    await asked.wait()
    stopping = asyncio.create_task(world.runtime.stop())
    await asyncio.sleep(0)
    assert not stopping.done()
    answer.set()
    async with asyncio.timeout(10):
        await stopping
    moving.cancel()
    assert (await world.row(row_id)).state is OutboxState.SENT


async def test_a_cut_leaves_a_request_on_the_wire_where_it_is(world: World) -> None:
    asked = asyncio.Event()

    async def endless(outgoing: Outgoing) -> Outcome:
        asked.set()
        await asyncio.Event().wait()
        raise AssertionError("never")

    world.platform.send = endless  # type: ignore[method-assign]
    [row_id] = await world.say(message("x"))
    moving = asyncio.create_task(world.clock.quiet())
    await asked.wait()
    async with asyncio.timeout(10):
        await world.runtime.cut()
    moving.cancel()
    assert (await world.row(row_id)).state is OutboxState.ON_WIRE


async def test_a_loop_that_breaks_is_loud(world: World, caplog: pytest.LogCaptureFixture) -> None:
    await cut_on_the_wire(world, message("x"))
    assert "the loop outbox ended: PowerCut" in caplog.text


async def test_one_message_that_can_not_be_handled_does_not_stop_the_others(
    world: World, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def no_layout(labels: tuple[str, ...]) -> tuple[tuple[str, ...], ...]:
        if labels:
            raise IndexError("no such row")
        return ()

    monkeypatch.setattr("companion.runtime.envelope._layout", no_layout)
    rows = await world.say(replace(message("one", "ben"), fixed_row=("Enough",), tag="t"), message("two", "cem"))
    await world.clock.move(at(5))
    assert world.platform.texts() == ["two"]
    assert await lost(world, rows[0]) is Why.UNDELIVERABLE
    assert f"message {rows[0]} went wrong" in caplog.text


async def test_a_database_that_fails_while_sending_is_loud_and_loses_nothing(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    async def failing(tx: Tx, row_id: int) -> bool:
        raise DatabaseUnusable("the disk is full")

    with monkeypatch.context() as broken:
        broken.setattr(Tx, "set_on_wire", failing)
        [row_id] = await world.say(message("alert", "tess", Urgency.ALERT))
        moving = asyncio.create_task(world.clock.quiet())
        with pytest.raises(LoopBroken):
            await world.runtime.broken()
        moving.cancel()
    await world.runtime.stop()
    assert (await world.row(row_id)).state is OutboxState.WAITING
    await world.runtime.start()
    await world.clock.move(at(1))
    assert world.platform.texts() == ["alert"]
