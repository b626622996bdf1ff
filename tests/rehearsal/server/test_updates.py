"""Updates stay until they are confirmed, and only one may poll."""

import asyncio
from typing import Any

import httpx
import pytest

from companion.rehearsal.server import Limits, Phone, RehearsalServer
from companion.rehearsal.server.updates import Ask
from tests.rehearsal.server.hands import Bot, HandClock, buttons


def texts(updates: list[dict[str, Any]]) -> list[str]:
    return [update["message"]["text"] for update in updates]


async def test_an_update_comes_again_until_a_higher_offset_confirms_it(bot: Bot, phone: Phone) -> None:
    first, second = phone.type("one"), phone.type("two")
    assert texts(await bot.do("getUpdates")) == ["one", "two"]
    assert texts(await bot.do("getUpdates", offset=first)) == ["one", "two"]
    assert texts(await bot.do("getUpdates", offset=first + 1)) == ["two"]
    assert texts(await bot.do("getUpdates")) == ["two"]
    assert await bot.do("getUpdates", offset=second + 1) == []


async def test_numbers_rise_by_one(phone: Phone) -> None:
    assert phone.type("two") - phone.type("three") == -1


async def test_a_negative_offset_keeps_only_the_newest(bot: Bot, phone: Phone) -> None:
    for word in ("one", "two", "three"):
        phone.type(word)
    assert texts(await bot.do("getUpdates", offset=-2)) == ["two", "three"]
    assert texts(await bot.do("getUpdates")) == ["two", "three"]


async def test_the_limit_is_kept_and_the_rest_comes_next(bot: Bot, phone: Phone) -> None:
    first = phone.type("one")
    phone.type("two")
    assert texts(await bot.do("getUpdates", limit=1)) == ["one"]
    assert texts(await bot.do("getUpdates", limit=1, offset=first + 1)) == ["two"]


@pytest.mark.parametrize(("asked", "given"), [(0, 1), (-5, 1), (1000, 100)])
async def test_a_limit_out_of_range_is_clamped(bot: Bot, phone: Phone, asked: int, given: int) -> None:
    for number in range(101):
        phone.type(str(number))
    assert len(await bot.do("getUpdates", limit=asked)) == given


async def test_a_held_poll_is_answered_by_the_next_act(bot: Bot, phone: Phone) -> None:
    async with bot.polling() as poll:
        phone.type("now")
        assert texts((await poll)["result"]) == ["now"]


async def test_a_poll_whose_time_is_over_is_answered_with_nothing(bot: Bot, phone: Phone) -> None:
    async def never_hangs_up() -> None:
        await asyncio.Event().wait()

    assert await bot.server.updates.poll(Ask(timeout=0.001), never_hangs_up) == []


async def test_a_second_poller_ends_the_first_with_a_conflict(bot: Bot, phone: Phone) -> None:
    async with bot.polling() as first, bot.polling() as second:
        ended = await first
        assert ended["error_code"] == 409
        assert ended["description"].startswith("Conflict: terminated by other getUpdates request")
        phone.type("still here")
        assert texts((await second)["result"]) == ["still here"]


async def test_a_client_that_hangs_up_is_no_longer_held(bot: Bot, phone: Phone) -> None:
    async with bot.polling():
        assert bot.server.quiet
    while bot.server.updates.held:
        await bot.server.wait_change()
    phone.type("kept")
    assert texts(await bot.do("getUpdates")) == ["kept"]


async def test_only_the_kinds_named_come_and_what_waited_before_stays(bot: Bot, phone: Phone) -> None:
    await bot.do("sendMessage", chat_id=1001, text="Ready?", reply_markup=buttons("Yes I am"))
    phone.type("before")
    await bot.do("getUpdates", allowed_updates=["callback_query"])
    phone.type("not wanted")
    phone.press("Yes I am")
    kinds = [sorted(update)[0] for update in await bot.do("getUpdates")]
    assert kinds == ["message", "callback_query"]
    await bot.do("getUpdates", allowed_updates=[])
    phone.type("wanted again")
    assert len(await bot.do("getUpdates")) == 3


async def test_a_press_that_nobody_fetches_is_dropped_after_150_seconds(bot: Bot, phone: Phone, clock: HandClock) -> None:
    await bot.do("sendMessage", chat_id=1001, text="Ready?", reply_markup=buttons("Go on"))
    phone.press("Go on")
    phone.type("and a message")
    clock.move_on(149)
    assert len(await bot.do("getUpdates")) == 2
    clock.move_on(1)
    assert texts(await bot.do("getUpdates")) == ["and a message"]


async def test_a_message_that_nobody_fetches_is_dropped_after_a_day(bot: Bot, phone: Phone, clock: HandClock) -> None:
    phone.type("hello")
    clock.move_on(24 * 3600 - 1)
    assert len(await bot.do("getUpdates")) == 1
    clock.move_on(1)
    assert await bot.do("getUpdates") == []


async def test_lives_can_be_switched_off(bot: Bot, phone: Phone, clock: HandClock) -> None:
    bot.server.limits = Limits(message_life=None)
    phone.type("hello")
    clock.move_on(30 * 24 * 3600)
    assert texts(await bot.do("getUpdates")) == ["hello"]


async def test_a_malformed_update_is_served_as_it_is(bot: Bot, phone: Phone) -> None:
    broken = {"update_id": None, "message": {"date": 10**30, "text": 7}}
    number = bot.server.inject_update(broken)
    last = phone.type("after it")
    assert (await bot.do("getUpdates"))[0] == broken
    assert (number, last) == (number, number + 1)
    assert texts(await bot.do("getUpdates", offset=last)) == ["after it"]


async def test_an_injected_update_without_a_number_gets_the_next(bot: Bot, phone: Phone) -> None:
    number = bot.server.inject_update({"poll": {}})
    assert await bot.do("getUpdates") == [{"update_id": number, "poll": {}}]


async def test_after_an_idle_week_numbers_start_anew_and_nothing_is_lost(bot: Bot, phone: Phone) -> None:
    last = phone.type("old")
    await bot.do("getUpdates", offset=last + 1)
    bot.server.updates.next_number = 5000
    phone.type("new")
    assert texts(await bot.do("getUpdates", offset=last + 1)) == ["new"]
    assert await bot.do("getUpdates", offset=5001) == []


async def test_a_webhook_rules_polling_out_until_it_is_deleted(bot: Bot, phone: Phone) -> None:
    async with bot.polling() as poll:
        await bot.do("setWebhook", url="https://bot.example/hook", allowed_updates=["message"])
        assert (await poll)["description"] == "Conflict: terminated by setWebhook request"
    phone.type("waits")
    assert (await bot.refused("getUpdates")).startswith("409 Conflict: can't use getUpdates")
    info = await bot.do("getWebhookInfo")
    assert (info["url"], info["pending_update_count"], info["allowed_updates"]) == (
        "https://bot.example/hook",
        1,
        ["message"],
    )
    await bot.do("deleteWebhook", drop_pending_updates=True)
    assert await bot.do("getUpdates") == []
    assert (await bot.do("getWebhookInfo"))["url"] == ""


async def test_a_webhook_must_be_https(bot: Bot) -> None:
    assert (await bot.refused("setWebhook", url="http://bot.example")).startswith("400 Bad Request: bad webhook")


async def test_quiet_means_polling_with_all_confirmed(bot: Bot, phone: Phone) -> None:
    seen = [bot.server.quiet]
    async with bot.polling() as poll:
        seen.append(bot.server.quiet)
        number = phone.type("hello")
        seen.append(bot.server.quiet)
        await poll
        seen.append(bot.server.quiet)
    async with bot.polling(offset=number + 1):
        seen.append(bot.server.quiet)
    assert seen == [False, True, False, False, True]


async def test_quiet_means_that_no_other_request_is_in_progress(bot: Bot, phone: Phone) -> None:
    async with bot.polling():
        bot.server.latency = lambda: 0.01
        sending = asyncio.create_task(bot.do("sendMessage", chat_id=1001, text="hi"))
        while bot.server.idle:
            await bot.server.wait_change()
        assert not bot.server.quiet
        await sending
        await bot.server.wait_quiet()
        assert phone.messages[-1].text == "hi"


async def test_stopping_ends_a_held_poll_at_once(clock: HandClock) -> None:
    server = RehearsalServer(now=clock)
    await server.start()
    async with httpx.AsyncClient(verify=False) as http, Bot(server, http).polling() as poll:
        await server.stop()
        with pytest.raises(httpx.TransportError):
            await poll
