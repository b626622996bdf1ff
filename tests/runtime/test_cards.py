"""What changes in place, what is sent new instead, and what becomes of buttons."""

from dataclasses import replace
from datetime import UTC, datetime

from companion.core.effects import Put, Urgency
from companion.core.events import Press
from companion.core.media import Medium
from companion.runtime.transport import File, Inbound, InText, NotThere, Op, Outgoing, Unknown
from companion.store import CardRow, OutboxState
from tests.runtime.hands import World, at, message

READY = ("Ready", Press("c1", "s1", "3", "ready"))
SCREEN = replace(message("screen"), card="session", buttons=(READY,))
CHANGED = replace(message("changed"), card="session", put=Put.IN_PLACE)
CLEARS = replace(message(""), card="session", clears=True)


def ops(world: World) -> list[tuple[Op, str, int | None]]:
    return [(sent.out.op, sent.out.text, sent.out.message_id) for sent in world.platform.sent]


async def card(world: World) -> CardRow | None:
    async with world.store.reading() as reading:
        return await reading.card("ada", "session")


async def types(world: World, text: str, message_id: int) -> None:
    """Ada types something."""
    await world.runtime.handler.receive(Inbound(f"tg:1:11:{message_id}", 11, 11, InText(text), message_id))


async def test_a_card_that_stands_last_changes_in_place(world: World) -> None:
    await world.say(SCREEN, CHANGED)
    await world.clock.move(at(5))
    assert ops(world) == [(Op.TEXT, "screen", None), (Op.EDIT, "changed", 101)]
    assert await card(world) == CardRow("ada", "session", 101, has_buttons=False, editable=True)


async def test_a_card_that_never_was_is_sent_new(world: World) -> None:
    await world.say(CHANGED)
    await world.clock.move(at(5))
    assert ops(world) == [(Op.TEXT, "changed", None)]


async def test_a_card_scrolled_away_by_a_message_of_ours_is_sent_new_and_the_old_one_loses_its_buttons(
    world: World,
) -> None:
    await world.say(SCREEN, message("in between"), CHANGED)
    await world.clock.move(at(10))
    assert ops(world) == [
        (Op.TEXT, "screen", None),
        (Op.TEXT, "in between", None),
        (Op.TEXT, "changed", None),
        (Op.CLEAR, "", 101),
    ]
    assert await card(world) == CardRow("ada", "session", 103, has_buttons=False, editable=True)


async def test_a_card_scrolled_away_by_their_own_words_is_sent_new(world: World) -> None:
    await world.say(SCREEN)
    await world.clock.move(at(5))
    await types(world, "hello", 555)
    await world.clock.move(at(20))
    await world.say(CHANGED)
    await world.clock.move(at(30))
    assert ops(world)[-2:] == [(Op.TEXT, "changed", None), (Op.CLEAR, "", 101)]


async def test_a_card_that_was_deleted_is_sent_new_once(world: World) -> None:
    world.platform.judge = lambda out: NotThere() if out.op is Op.EDIT else None
    [_, row_id] = await world.say(SCREEN, CHANGED)
    await world.clock.move(at(10))
    assert ops(world) == [
        (Op.TEXT, "screen", None),
        (Op.EDIT, "changed", 101),
        (Op.TEXT, "changed", None),
    ]
    assert (await world.row(row_id)).state is OutboxState.SENT


async def test_a_new_message_on_a_card_takes_the_buttons_off_the_old_one(world: World) -> None:
    await world.say(SCREEN, replace(SCREEN, text="next", put=Put.NEW))
    await world.clock.move(at(5))
    assert ops(world) == [(Op.TEXT, "screen", None), (Op.TEXT, "next", None), (Op.CLEAR, "", 101)]
    assert await card(world) == CardRow("ada", "session", 102, has_buttons=True, editable=True)


async def test_an_old_card_without_buttons_is_left_alone(world: World) -> None:
    await world.say(replace(SCREEN, buttons=()), replace(SCREEN, text="next"))
    await world.clock.move(at(5))
    assert [op for op, _, _ in ops(world)] == [Op.TEXT, Op.TEXT]


async def test_the_buttons_of_an_old_card_go_even_when_the_session_is_taken_back(world: World) -> None:
    await world.say(SCREEN, replace(SCREEN, text="next"))
    await world.clock.move(at(0.05))
    async with world.store.writing() as tx:
        await tx.take_back("c1", "session")
    await world.clock.move(at(5))
    assert ops(world)[-1] == (Op.CLEAR, "", 101)


async def test_clearing_takes_the_buttons_off_the_card_and_leaves_its_words(world: World) -> None:
    ids = await world.say(SCREEN, CLEARS)
    await world.clock.move(at(5))
    assert ops(world) == [(Op.TEXT, "screen", None), (Op.CLEAR, "", 101)]
    assert await card(world) == CardRow("ada", "session", 101, has_buttons=False, editable=True)
    assert [(await world.row(row_id)).state for row_id in ids] == [OutboxState.SENT] * 2


async def test_clearing_where_there_are_no_buttons_asks_nothing_of_the_platform(world: World) -> None:
    [row_id] = await world.say(CLEARS)
    await world.clock.move(at(5))
    assert world.platform.sent == []
    assert (await world.row(row_id)).state is OutboxState.SENT


async def test_clearing_a_message_that_is_gone_is_done(world: World) -> None:
    world.platform.judge = lambda out: NotThere() if out.op is Op.CLEAR else None
    [_, row_id] = await world.say(SCREEN, CLEARS)
    await world.clock.move(at(5))
    assert (await world.row(row_id)).state is OutboxState.SENT


async def test_a_change_whose_end_is_unknown_is_made_again(world: World) -> None:
    def silent_once(out: Outgoing) -> Unknown | None:
        return Unknown() if out.op is Op.EDIT and len(world.platform.sent) == 2 else None

    world.platform.judge = silent_once
    await world.say(SCREEN, replace(CHANGED, tag="s1:4"))
    await world.clock.move(at(10))
    assert ops(world)[1:] == [(Op.EDIT, "changed", 101)] * 2


async def test_a_change_carries_its_buttons(world: World) -> None:
    await world.say(SCREEN, replace(CHANGED, buttons=(READY,)))
    await world.clock.move(at(5))
    assert world.platform.sent[-1].out.rows == (READY,)


async def test_a_picture_carries_its_words_and_is_no_card(world: World) -> None:
    await world.say(replace(message("week", "tess", Urgency.REPORT), photo=b"png"))
    await world.clock.move(at(5))
    [sent] = world.platform.sent
    assert (sent.out.op, sent.out.text, sent.out.file) == (Op.FILE, "week", File(Medium.PHOTO, b"png"))


async def test_the_moment_of_a_receipt_is_neither_before_the_request_nor_after_its_answer(world: World) -> None:
    receipt = world.platform.receipt
    world.platform.judge = lambda out: replace(receipt(out), at=datetime(2020, 1, 1, tzinfo=UTC))
    [row_id] = await world.say(message("x"))
    await world.clock.quiet()
    assert (await world.row(row_id)).sent_at == at(0)
    world.platform.judge = lambda out: replace(receipt(out), at=datetime(2030, 1, 1, tzinfo=UTC))
    [row_id] = await world.say(message("x"))
    await world.clock.move(at(1))
    assert (await world.row(row_id)).sent_at == world.platform.sent[-1].at


async def test_a_message_that_laid_the_fixed_row_can_not_be_changed_and_is_sent_new(world: World) -> None:
    await world.say(replace(SCREEN, buttons=(), fixed_row=("Enough",)), CHANGED)
    await world.clock.move(at(5))
    assert [op for op, _, _ in ops(world)] == [Op.TEXT, Op.TEXT]
