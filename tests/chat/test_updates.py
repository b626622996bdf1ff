"""The update loop loses nothing, is held up by nothing, and says so when it can not go on."""

import asyncio
import random

import pytest
from telegram import InlineKeyboardButton, InlineKeyboardMarkup

from companion.chat.updates import Updates
from companion.chat.wire import Wire, connect
from companion.errors import UsedWrong
from companion.rehearsal.server import Fault, FaultKind, Phone, RehearsalServer
from companion.runtime.transport import Inbound, InGone, InOther, InText, ReplyText
from tests.chat.hands import Keeper, SteppingClock, fetching, until_quiet
from tests.rehearsal.server.hands import VOICE, picture

pytestmark = pytest.mark.filterwarnings("ignore::telegram.warnings.PTBDeprecationWarning")


@pytest.fixture
def keeper() -> Keeper:
    return Keeper()


def texts(keeper: Keeper) -> list[str]:
    return [inbound.what.text for inbound in keeper.kept if isinstance(inbound.what, InText)]


async def test_what_waits_is_handled_in_order_and_then_confirmed(
    server: RehearsalServer, wire: Wire, phone: Phone, keeper: Keeper, clock: SteppingClock
) -> None:
    for number in range(120):
        phone.type(str(number))
    async with fetching(server, wire, keeper, clock):
        assert texts(keeper) == [str(number) for number in range(120)]
        assert server.updates.unconfirmed == []
    assert len({inbound.key for inbound in keeper.kept}) == 120


async def test_only_what_is_named_is_asked_for(
    server: RehearsalServer, wire: Wire, phone: Phone, keeper: Keeper, clock: SteppingClock
) -> None:
    async with fetching(server, wire, keeper, clock):
        assert server.updates.allowed == ["callback_query", "edited_message", "message", "my_chat_member"]


async def test_everything_a_person_can_do_comes_in(
    server: RehearsalServer, wire: Wire, phone: Phone, keeper: Keeper, clock: SteppingClock
) -> None:
    async with fetching(server, wire, keeper, clock):
        phone.type("hello")
        phone.edit(phone.messages[-1].message_id, "hello there")
        phone.send_photo(picture())
        phone.send_voice(VOICE)
        phone.block()
        phone.unblock()
        await server.wait_quiet()
    file_ids = [message.media.file_id for message in phone.messages if message.media is not None]
    assert [inbound.what for inbound in keeper.kept] == [
        InText("hello"),
        InOther("edited"),
        InOther("photo", file_ids[0]),
        InOther("voice", file_ids[1]),
        InGone(),
        InGone(back=True),
    ]


async def test_a_press_is_answered_with_the_words_of_the_reply(
    server: RehearsalServer, wire: Wire, phone: Phone, keeper: Keeper, clock: SteppingClock
) -> None:
    keeper.reply = ReplyText("Thank you.")
    await wire.send_message(phone.user_id, "hello", reply_markup=inline("Ready"))
    async with fetching(server, wire, keeper, clock):
        phone.press("Ready")
        await server.wait_quiet()
    assert [toast for _, toast, _ in phone.toasts] == ["Thank you."]


async def test_words_too_long_for_an_answer_are_cut_rather_than_lost(
    server: RehearsalServer, wire: Wire, phone: Phone, keeper: Keeper, clock: SteppingClock
) -> None:
    keeper.reply = ReplyText("x" * 201)  # 0 to 200 characters: the platform's public manual, answerCallbackQuery
    await wire.send_message(phone.user_id, "hello", reply_markup=inline("Ready"))
    async with fetching(server, wire, keeper, clock):
        phone.press("Ready")
        await server.wait_quiet()
    assert [toast for _, toast, _ in phone.toasts] == ["x" * 200]


async def test_a_press_without_words_is_answered_too(
    server: RehearsalServer, wire: Wire, phone: Phone, keeper: Keeper, clock: SteppingClock
) -> None:
    await wire.send_message(phone.user_id, "hello", reply_markup=inline("Ready"))
    async with fetching(server, wire, keeper, clock):
        phone.press("Ready")
        await server.wait_quiet()
    assert [(call.method, call.code) for call in server.calls][-1] == ("answercallbackquery", 200)
    assert phone.toasts == []


@pytest.mark.parametrize("kind", ["500", "cut", "accepted_then_lost", "garbage"])
async def test_an_answer_that_fails_changes_nothing(
    server: RehearsalServer, wire: Wire, phone: Phone, keeper: Keeper, clock: SteppingClock, kind: FaultKind
) -> None:
    await wire.send_message(phone.user_id, "hello", reply_markup=inline("Ready"))
    server.faults.order(Fault(kind=kind, method="answerCallbackQuery"))
    async with fetching(server, wire, keeper, clock):
        phone.press("Ready")
        phone.type("and on")
        await server.wait_quiet()
    assert (len(keeper.kept), texts(keeper), server.faults.open) == (2, ["and on"], [])


async def test_the_number_moves_only_after_the_commit(
    server: RehearsalServer, wire: Wire, phone: Phone, keeper: Keeper, clock: SteppingClock
) -> None:
    """Killed in the middle of an update, the next process gets it again, and those after it."""
    committing, stuck = asyncio.Event(), asyncio.Event()

    async def receive(inbound: Inbound) -> ReplyText | None:
        if inbound.what == InText("2"):
            committing.set()
            await stuck.wait()
        return await keeper.receive(inbound)

    for words in ("1", "2", "3"):
        phone.type(words)
    running = asyncio.create_task(Updates(wire, receive, keeper.note, clock).run())
    await committing.wait()
    running.cancel()
    await asyncio.gather(running, return_exceptions=True)
    assert texts(keeper) == ["1"]
    async with fetching(server, wire, keeper, clock):
        assert texts(keeper) == ["1", "1", "2", "3"]
    assert keeper.kept[0].key == keeper.kept[1].key


async def test_stopping_ends_after_the_update_under_way(
    server: RehearsalServer, wire: Wire, phone: Phone, keeper: Keeper, clock: SteppingClock
) -> None:
    async def receive(inbound: Inbound) -> ReplyText | None:
        updates.stop()
        await asyncio.sleep(0)
        return await keeper.receive(inbound)

    updates = Updates(wire, receive, keeper.note, clock)
    phone.type("1")
    phone.type("2")
    await updates.run()
    assert texts(keeper) == ["1"]


@pytest.mark.parametrize(
    "bad",
    [
        {"message": None},
        {"message": {"message_id": 1}},
        {"callback_query": {"id": 5}},
        {"message": {"message_id": 2**70, "chat": {"id": 1001, "type": "private"}, "from": {"id": 1001}}},
        {"update_id": None, "message": {}},
        {"update_id": 2**40},
        {"update_id": 2**64},
        {"update_id": "5"},
        {"update_id": -3},
    ],
)
async def test_an_update_that_can_not_be_read_holds_up_nobody(
    server: RehearsalServer, wire: Wire, phone: Phone, keeper: Keeper, clock: SteppingClock, bad: dict[str, object]
) -> None:
    phone.type("before")
    server.inject_update(bad)
    phone.type("after")
    async with fetching(server, wire, keeper, clock):
        assert texts(keeper) == ["before", "after"]
        server.inject_update(bad)
        await server.wait_quiet()  # it is confirmed even when nothing comes after it
        phone.type("later")
        await server.wait_quiet()
    assert texts(keeper) == ["before", "after", "later"]


async def test_an_update_without_a_number_does_not_spin(
    server: RehearsalServer, wire: Wire, phone: Phone, keeper: Keeper, clock: SteppingClock
) -> None:
    """Before any number is known there is none to confirm it with: it waits for the next one, a second at a time."""
    server.inject_update({"update_id": None})
    updates = Updates(wire, keeper.receive, keeper.note, clock)
    running = asyncio.create_task(updates.run())
    await clock.after_waits(3)
    phone.type("hello")
    await server.wait_quiet()
    updates.stop()
    await running
    assert set(clock.waits) == {("updates", 1.0)}
    assert texts(keeper) == ["hello"]


async def test_a_date_outside_all_calendars_loses_no_words(
    server: RehearsalServer, wire: Wire, phone: Phone, keeper: Keeper, clock: SteppingClock
) -> None:
    chat = {"id": 1001, "type": "private"}
    told = {"message_id": 9, "date": 10**17, "chat": chat, "from": {"id": 1001}, "text": "I fell"}
    server.inject_update({"message": told})
    async with fetching(server, wire, keeper, clock):
        assert texts(keeper) == ["I fell"]


async def test_an_update_that_fails_once_is_tried_again(
    server: RehearsalServer, wire: Wire, phone: Phone, keeper: Keeper, clock: SteppingClock
) -> None:
    keeper.breaks = [OSError("busy")]
    phone.type("I fell")
    async with fetching(server, wire, keeper, clock):
        assert texts(keeper) == ["I fell"]
    assert keeper.noted == []


async def test_an_update_that_always_fails_is_set_aside_with_a_note_and_without_its_words(
    server: RehearsalServer,
    wire: Wire,
    phone: Phone,
    keeper: Keeper,
    clock: SteppingClock,
    caplog: pytest.LogCaptureFixture,
) -> None:
    keeper.breaks = [OverflowError("private words")] * 2
    number = phone.type("private words")
    phone.type("after")
    async with fetching(server, wire, keeper, clock):
        assert texts(keeper) == ["after"]
    assert keeper.noted == [number + 1]
    assert f"Update {number} is set aside" in caplog.text
    assert "OverflowError" in caplog.text
    assert "private words" not in caplog.text


async def test_while_the_database_can_not_be_written_nothing_is_confirmed(
    server: RehearsalServer, wire: Wire, phone: Phone, keeper: Keeper, clock: SteppingClock
) -> None:
    keeper.breaks = [OSError("disk full")] * 6
    keeper.note_breaks = [OSError("disk full")] * 3
    phone.type("1")
    phone.type("2")
    async with fetching(server, wire, keeper, clock):
        assert texts(keeper) == ["1", "2"]
    assert keeper.noted == []
    assert clock.waits == [("updates", 1.0), ("updates", 2.0), ("updates", 4.0)]


async def test_the_bot_leaves_a_group(
    server: RehearsalServer, wire: Wire, phone: Phone, keeper: Keeper, clock: SteppingClock
) -> None:
    async with fetching(server, wire, keeper, clock):
        server.add_group_event(-7, phone, "bot added")
        await server.wait_quiet()
        assert not server.bot_is_in(-7)
        server.add_group_event(-8, phone, "message", text="hello")
        await server.wait_quiet()
    assert keeper.kept == []


@pytest.mark.parametrize("kind", ["500", "502", "garbage", "cut"])
async def test_a_network_that_is_lost_is_waited_for_longer_each_time(
    server: RehearsalServer, wire: Wire, phone: Phone, keeper: Keeper, clock: SteppingClock, kind: FaultKind
) -> None:
    server.faults.order(Fault(kind=kind, method="getUpdates", times=7))
    phone.type("hello")
    async with fetching(server, wire, keeper, clock):
        assert texts(keeper) == ["hello"]
    assert clock.waits == [("updates", wait) for wait in (1.0, 2.0, 4.0, 8.0, 16.0, 30.0, 30.0)]


async def test_after_a_good_fetch_the_waits_begin_anew(
    server: RehearsalServer, wire: Wire, phone: Phone, keeper: Keeper, clock: SteppingClock
) -> None:
    async with fetching(server, wire, keeper, clock):
        for _ in range(2):
            server.faults.order(Fault(kind="500", method="getUpdates", times=2))
            phone.type("hello")
            await server.wait_quiet()
    assert clock.waits == [("updates", wait) for wait in (1.0, 2.0, 1.0, 2.0)]


async def test_a_flood_is_waited_for_as_long_as_the_platform_says(
    server: RehearsalServer, wire: Wire, phone: Phone, keeper: Keeper, clock: SteppingClock
) -> None:
    server.faults.order(Fault(kind="429", method="getUpdates", retry_after=17))
    phone.type("hello")
    async with fetching(server, wire, keeper, clock):
        assert texts(keeper) == ["hello"]
    assert clock.waits == [("updates", 17.0)]


async def test_a_second_program_that_fetches_ends_the_first_with_a_sentence(
    server: RehearsalServer, wire: Wire, phone: Phone, keeper: Keeper, clock: SteppingClock
) -> None:
    running = asyncio.create_task(Updates(wire, keeper.receive, keeper.note, clock).run())
    await server.wait_quiet()
    other = connect(server.token, server.base_url)
    await other.fetch(None, 0, [])
    with pytest.raises(UsedWrong, match="Another program fetches this bot's messages"):
        await running
    await other.shutdown()


async def test_a_webhook_is_told_as_what_it_is(
    server: RehearsalServer, wire: Wire, keeper: Keeper, clock: SteppingClock
) -> None:
    await wire.set_webhook("https://example.org/hook")
    with pytest.raises(UsedWrong, match="Delete the webhook first"):
        await Updates(wire, keeper.receive, keeper.note, clock).run()


async def test_numbers_dealt_anew_after_an_idle_week_lose_nothing(
    server: RehearsalServer, wire: Wire, phone: Phone, keeper: Keeper, clock: SteppingClock
) -> None:
    async with fetching(server, wire, keeper, clock) as updates:
        phone.type("before")
        await server.wait_quiet()
        clock.move_on(8 * 86_400)
        assert updates._poll is not None
        # The held poll comes to its end, as every one does after some seconds, and has brought nothing.
        assert server.updates._held is not None
        server.updates._held.set_result(None)
        await server.wait_change()
        await server.wait_quiet()
        server.updates.next_number = 1_000
        phone.type("after")
        await server.wait_quiet()
    assert texts(keeper) == ["before", "after"]


@pytest.mark.parametrize("seed", range(6))
async def test_whatever_fails_and_whenever_it_is_killed_each_message_counts_once(
    server: RehearsalServer, wire: Wire, phone: Phone, clock: SteppingClock, seed: int
) -> None:
    """As the journal does it: what has a key that was handled before changes nothing."""
    chance = random.Random(seed)
    faults: tuple[FaultKind, ...] = ("500", "502", "429", "garbage", "cut", "accepted_then_lost")
    counted: dict[str, str] = {}

    async def receive(inbound: Inbound) -> ReplyText | None:
        for _ in range(chance.randrange(3)):
            await asyncio.sleep(0)
        if chance.random() < 0.1:
            raise OSError("busy")
        assert isinstance(inbound.what, InText)
        if inbound.key not in counted:
            counted[inbound.key] = inbound.what.text
        return None

    async def note(number: int) -> None:
        raise OSError("disk full")

    for life in range(20):
        for number in range(chance.randrange(8)):
            phone.type(f"{life}.{number}")
        server.faults.order(Fault(kind=chance.choice(faults), method="getUpdates", times=chance.randrange(1, 3)))
        mortal = connect(server.token, server.base_url)
        running = asyncio.create_task(Updates(mortal, receive, note, clock).run())
        for _ in range(chance.randrange(600)):
            await asyncio.sleep(0)
        running.cancel()
        await asyncio.gather(running, return_exceptions=True)
        await mortal.shutdown()
    server.faults.cancel_all()
    updates = Updates(wire, receive, note, clock)
    running = asyncio.create_task(updates.run())
    await until_quiet(server, running)
    updates.stop()
    await running
    assert list(counted.values()) == [message.text for message in phone.messages[1:]]


def inline(label: str) -> InlineKeyboardMarkup:
    """One button under a message."""
    return InlineKeyboardMarkup([[InlineKeyboardButton(label, callback_data="1|c1|s1|q1|a")]])


async def test_the_bot_s_name_is_learnt_before_anything_is_handled(
    server: RehearsalServer, wire: Wire, phone: Phone, keeper: Keeper, clock: SteppingClock
) -> None:
    learnt: list[tuple[str, int]] = []
    phone.type("hello")
    server.faults.order(Fault(kind="500", method="getMe"))
    async with fetching(server, wire, keeper, clock, lambda name: learnt.append((name, len(keeper.kept)))):
        assert texts(keeper) == ["hello"]
        phone.type("again")
        await server.wait_quiet()
    assert learnt == [("rehearsal_bot", 0)]
    assert len(clock.waits) == 1, "the first attempt failed"
