"""The rates: 30 a second for all, 3 and then 1 a second in a chat, 20 edits of a chat in any minute."""

from collections.abc import AsyncIterator

import httpx
import pytest

from companion.rehearsal.server import Limits, RehearsalServer
from tests.rehearsal.server.hands import Bot, HandClock


@pytest.fixture
async def hurried(clock: HandClock) -> AsyncIterator[Bot]:
    """A bot on a server with the usual rates and 40 people."""
    server = RehearsalServer(now=clock)
    for user_id in range(1, 41):
        server.add_phone(user_id, f"Person {user_id}").start()
    await server.start()
    async with httpx.AsyncClient(verify=False) as http:
        yield Bot(server, http)
    await server.stop()


async def wait_asked(bot: Bot, method: str, **parameters: object) -> int:
    """Seconds of the 429; 0 if it went through."""
    answer = await bot.ask(method, **parameters)
    if answer["ok"]:
        return 0
    assert answer["error_code"] == 429, answer
    seconds = answer["parameters"]["retry_after"]
    assert answer["description"] == f"Too Many Requests: retry after {seconds}"
    assert isinstance(seconds, int)
    return seconds


async def test_a_chat_takes_three_at_once_and_then_one_a_second(hurried: Bot, clock: HandClock) -> None:
    waits = [await wait_asked(hurried, "sendMessage", chat_id=1, text="x") for _ in range(4)]
    assert waits == [0, 0, 0, 1]
    assert await wait_asked(hurried, "sendMessage", chat_id=2, text="x") == 0
    clock.move_on(0.99)
    assert await wait_asked(hurried, "sendMessage", chat_id=1, text="x") == 1
    clock.move_on(0.01)
    waits = [await wait_asked(hurried, "sendMessage", chat_id=1, text="x") for _ in range(2)]
    assert waits == [0, 1]
    clock.move_on(60)
    waits = [await wait_asked(hurried, "sendMessage", chat_id=1, text="x") for _ in range(4)]
    assert waits == [0, 0, 0, 1]


async def test_all_together_take_30_in_any_second(hurried: Bot, clock: HandClock) -> None:
    waits = [await wait_asked(hurried, "sendMessage", chat_id=chat, text="x") for chat in range(1, 32)]
    assert waits == [0] * 30 + [1]
    clock.move_on(0.999)
    assert await wait_asked(hurried, "sendMessage", chat_id=31, text="x") == 1
    clock.move_on(0.001)
    assert await wait_asked(hurried, "sendMessage", chat_id=31, text="x") == 0


async def test_a_chat_takes_20_edits_in_any_60_seconds(hurried: Bot, clock: HandClock) -> None:
    sent = await hurried.do("sendMessage", chat_id=1, text="go")
    where = {"chat_id": 1, "message_id": sent["message_id"]}
    for number in range(20):
        clock.move_on(1)
        assert await wait_asked(hurried, "editMessageText", **where, text=str(number)) == 0
    assert await wait_asked(hurried, "editMessageText", **where, text="one more") == 41
    assert await wait_asked(hurried, "sendMessage", chat_id=1, text="a new message is no edit") == 0
    clock.move_on(40.5)
    assert await wait_asked(hurried, "editMessageText", **where, text="one more") == 1
    clock.move_on(0.5)
    assert await wait_asked(hurried, "editMessageText", **where, text="one more") == 0


async def test_a_countdown_every_5_seconds_is_within_the_rates(hurried: Bot, clock: HandClock) -> None:
    sent = await hurried.do("sendMessage", chat_id=1, text="60")
    for left in range(295, 0, -5):
        clock.move_on(5)
        where = {"chat_id": 1, "message_id": sent["message_id"]}
        assert await wait_asked(hurried, "editMessageText", **where, text=str(left)) == 0


async def test_answers_to_presses_are_outside_every_rate(hurried: Bot) -> None:
    for _ in range(40):
        refused = await hurried.refused("answerCallbackQuery", callback_query_id="none")
        assert refused.startswith("400 Bad Request: query is too old")


async def test_a_refused_request_costs_nothing(hurried: Bot, clock: HandClock) -> None:
    for _ in range(50):
        await hurried.ask("sendMessage", chat_id=1, text="x")
    clock.move_on(1)
    assert await wait_asked(hurried, "sendMessage", chat_id=1, text="x") == 0


async def test_rates_can_be_switched_off(hurried: Bot) -> None:
    hurried.server.limits = Limits.without_rates()
    waits = [await wait_asked(hurried, "sendMessage", chat_id=1, text="x") for _ in range(40)]
    assert waits == [0] * 40


async def test_rates_switched_on_again_begin_afresh(hurried: Bot) -> None:
    hurried.server.limits = Limits.without_rates()
    for _ in range(9):
        await hurried.do("sendMessage", chat_id=1, text="x")
    hurried.server.limits = Limits()
    waits = [await wait_asked(hurried, "sendMessage", chat_id=1, text="x") for _ in range(4)]
    assert waits == [0, 0, 0, 1]
