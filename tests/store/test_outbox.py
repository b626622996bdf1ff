"""What waits to be said: in which order it goes, what holds it back, what can still be taken back."""

from dataclasses import replace
from datetime import timedelta

import pytest

from companion.core.effects import Urgency
from companion.core.events import Press
from companion.core.media import Medium, SignsPicture
from companion.store import CardRow, OutboxState, Store
from tests.store.people import LATER, NOW, message, say

SOON = NOW + timedelta(seconds=5)


async def ids_waiting(store: Store, without: tuple[str, ...] = (), limit: int = 100) -> list[int]:
    async with store.reading() as r:
        return [row.id for row in await r.waiting(limit, NOW, without)]


async def state_of(store: Store, row: int) -> OutboxState:
    async with store.reading() as r:
        found = await r.outbox(row)
    assert found is not None
    return found.state


async def put_on_wire(store: Store, row: int) -> None:
    async with store.writing() as tx:
        assert await tx.set_on_wire(row)


async def test_a_message_is_read_as_it_was_written(home: Store) -> None:
    full = message(
        urgency=Urgency.ALERT,
        topic="alert",
        text="Ring 999. \U0001f6d1 Åse",
        buttons=(("Ready", Press("c1", "s1", "7", "ready")), ("Not yet", Press("c1", "s1", "7", "wait"))),
        fixed_row=("Something is wrong", "Enough", "More"),
        card="flag",
        silent=True,
        not_after=LATER,
        tag="s1:7",
        photo=b"\x89PNG\x00",
        message_id=2**53,
        clears=True,
        copy_of=2**53,
        copy_from="karl",
        secret=True,
        media=SignsPicture(("eyes", "face")),
        media_key="the signs",
    )
    [row] = await say(home, full)
    async with home.reading() as r:
        found = await r.outbox(row)
        assert await r.outbox(row + 1) is None
    assert found is not None and found.id == row > 0
    assert replace(found, id=0) == full


async def test_messages_go_by_urgency_and_then_as_they_were_written(home: Store) -> None:
    urgencies = [Urgency.REPORT, Urgency.LIVE, Urgency.REMINDER, Urgency.ALERT, Urgency.LIVE, Urgency.ANSWER]
    a, b, c, d, e, f = await say(home, *(message(urgency=urgency) for urgency in urgencies))
    assert await ids_waiting(home) == [d, b, e, f, c, a]
    assert await ids_waiting(home, limit=2) == [d, b]


async def test_what_is_on_the_wire_sent_or_lost_waits_no_more(home: Store) -> None:
    a, b, c, d = await say(home, *[message()] * 4)
    for row in (a, b, c):
        await put_on_wire(home, row)
    async with home.writing() as tx:
        await tx.set_sent(b, 77, NOW)
        await tx.set_lost(c)
    assert await ids_waiting(home) == [d]
    async with home.reading() as r:
        assert [row.id for row in await r.on_wire()] == [a]


async def test_a_message_put_back_waits_again_and_its_attempts_are_counted(home: Store) -> None:
    [row] = await say(home, message())
    for attempts in (1, 2):
        await put_on_wire(home, row)
        async with home.writing() as tx:
            await tx.set_waiting(row)
        async with home.reading() as r:
            [found] = await r.waiting(1, NOW)
        assert found.attempts == attempts


async def test_nothing_goes_to_those_who_are_left_out(home: Store) -> None:
    a, b, c = await say(home, message("alva"), message("karl"), message("tora"))
    assert await ids_waiting(home, without=("alva", "tora")) == [b]
    assert await ids_waiting(home, without=()) == [a, b, c]


async def test_a_message_that_must_wait_holds_back_its_own_class_and_lower_ones_to_that_person(home: Store) -> None:
    alert, before, held, behind, lower, other = await say(
        home,
        message(urgency=Urgency.ALERT),
        message(),
        message(try_after=SOON),
        message(),
        message(urgency=Urgency.REMINDER),
        message("karl"),
    )
    assert await ids_waiting(home) == [alert, before, other]
    async with home.reading() as r:
        assert [row.id for row in await r.waiting(100, SOON)] == [alert, before, held, behind, other, lower]


async def test_the_next_try_is_the_earliest_that_is_still_ahead(home: Store) -> None:
    moments = [NOW - timedelta(seconds=1), NOW, NOW + timedelta(seconds=9), NOW + timedelta(seconds=4), None]
    rows = await say(home, *(message(try_after=moment) for moment in moments))
    async with home.reading() as r:
        assert await r.next_try(NOW) == NOW + timedelta(seconds=4)
        assert await r.next_try(LATER) is None
    await put_on_wire(home, rows[3])
    async with home.reading() as r:
        assert await r.next_try(NOW) == NOW + timedelta(seconds=9)


async def test_only_what_waits_is_taken_back(home: Store) -> None:
    waiting, on_wire, sent = await say(home, *[message()] * 3)
    for row in (on_wire, sent):
        await put_on_wire(home, row)
    async with home.writing() as tx:
        await tx.set_sent(sent, 5, NOW)
        assert await tx.take_back("c1", "session") == 1
    assert [await state_of(home, row) for row in (waiting, on_wire, sent)] == [
        OutboxState.TAKEN_BACK,
        OutboxState.ON_WIRE,
        OutboxState.SENT,
    ]
    assert await ids_waiting(home) == []


async def test_taking_back_leaves_other_topics_clients_and_persons_alone(home: Store) -> None:
    mine, other_topic, other_client, other_person, about_nobody = await say(
        home,
        message(),
        message(topic="alert"),
        message(client_id="c2"),
        message("karl"),
        message(client_id=None),
    )
    async with home.writing() as tx:
        assert await tx.take_back("c1", "session", "alva") == 1
    assert await ids_waiting(home) == [other_topic, other_client, other_person, about_nobody]
    async with home.writing() as tx:
        assert await tx.take_back("c1", "session") == 1
    assert await ids_waiting(home) == [other_topic, other_client, about_nobody]
    assert await state_of(home, mine) is OutboxState.TAKEN_BACK


async def test_what_was_taken_back_does_not_go_on_the_wire(home: Store) -> None:
    [row] = await say(home, message())
    async with home.writing() as tx:
        await tx.take_back("c1", "session")
        assert not await tx.set_on_wire(row)
    assert await state_of(home, row) is OutboxState.TAKEN_BACK


async def test_what_is_said_after_taking_back_in_the_same_event_is_said(home: Store) -> None:
    async with home.writing() as tx:
        old = await tx.put_outbox(message())
        assert await tx.take_back("c1", "session") == 1
        new = await tx.put_outbox(message())
    assert old < new
    assert await ids_waiting(home) == [new]


async def test_reminders_count_as_unsent_while_they_wait_or_are_on_the_wire(home: Store) -> None:
    a, b, c, _, _ = await say(home, *[message(urgency=Urgency.REMINDER)] * 4, message())
    await put_on_wire(home, a)
    await put_on_wire(home, b)
    async with home.writing() as tx:
        await tx.set_sent(b, 5, NOW)
    async with home.reading() as r:
        assert await r.unsent_reminders() == 3
    async with home.writing() as tx:
        await tx.take_back("c1", "session")
    async with home.reading() as r:
        assert await r.unsent_reminders() == 1
    assert await state_of(home, c) is OutboxState.TAKEN_BACK


async def test_a_card_shows_the_newest_message_put_on_it(home: Store) -> None:
    first = CardRow("alva", "session", 5, has_buttons=True, editable=True)
    second = CardRow("alva", "session", 9, has_buttons=False, editable=False, form=Medium.PHOTO, media="the signs")
    elsewhere = CardRow("karl", "session", 6, has_buttons=True, editable=True)
    async with home.writing() as tx:
        assert await tx.card("alva", "session") is None
        for card in (first, elsewhere, second):
            await tx.set_card(card)
        assert await tx.card("alva", "session") == second
    async with home.reading() as r:
        assert await r.card("karl", "session") == elsewhere
        assert await r.card("alva", "flag") is None


@pytest.mark.parametrize("order", [(5, 9, 7), (9, 7, 5), (5, 7, 9)])
async def test_the_last_message_is_the_newest_whatever_came_in_late(home: Store, order: tuple[int, ...]) -> None:
    async with home.writing() as tx:
        assert await tx.last_message("alva") is None
        for number in order:
            await tx.set_last_message("alva", number)
    async with home.reading() as r:
        assert await r.last_message("alva") == 9
        assert await r.last_message("karl") is None


@pytest.mark.parametrize("end", ["sent", "lost", "taken back"])
async def test_neither_words_nor_picture_of_a_secret_message_outlive_it(home: Store, end: str) -> None:
    secret = message(text="https://door.example/?start=payload", photo=b"payload", secret=True)
    [hidden, open_] = await say(home, secret, replace(secret, secret=False))
    async with home.writing() as tx:
        if end == "taken back":
            assert await tx.take_back("c1", "session") == 2
        for row in (hidden, open_):
            if end == "sent":
                await tx.set_sent(row, 5, NOW)
            elif end == "lost":
                await tx.set_lost(row)
    async with home.reading() as r:
        rows = [await r.outbox(row) for row in (hidden, open_)]
    assert [(row.text, row.photo) for row in rows if row] == [("", None), (secret.text, b"payload")]


async def test_a_secret_message_keeps_its_words_while_it_is_tried_again(home: Store) -> None:
    [row] = await say(home, message(text="payload", secret=True))
    await put_on_wire(home, row)
    async with home.writing() as tx:
        await tx.set_waiting(row, LATER)
    async with home.reading() as r:
        found = await r.outbox(row)
    assert found is not None and found.text == "payload"
