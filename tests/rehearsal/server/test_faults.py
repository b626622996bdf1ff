"""Faults happen when, how often and to whom they were ordered."""

import asyncio

import httpx
import pytest

from companion.rehearsal.server import Fault, FaultKind, Phone
from tests.rehearsal.server.hands import Bot, buttons


async def send(bot: Bot, chat_id: int = 1001, text: str = "hi") -> httpx.Response:
    return await bot.http.post(bot.url("sendMessage"), json={"chat_id": chat_id, "text": text})


def shown(phone: Phone) -> list[str]:
    return [message.text for message in phone.messages if message.from_bot]


@pytest.mark.parametrize("kind", ["500", "502"])
async def test_a_server_error_does_nothing_and_is_over_after_its_times(bot: Bot, phone: Phone, kind: FaultKind) -> None:
    bot.server.faults.order(Fault(kind=kind, times=2))
    assert [(await send(bot)).status_code for _ in range(3)] == [int(kind), int(kind), 200]
    assert shown(phone) == ["hi"]
    assert bot.server.faults.open == []


async def test_a_cut_connection_does_nothing(bot: Bot, phone: Phone) -> None:
    bot.server.faults.order(Fault(kind="cut"))
    with pytest.raises(httpx.TransportError):
        await send(bot)
    assert shown(phone) == []
    await send(bot)
    assert shown(phone) == ["hi"]


async def test_accepted_then_lost_is_done_and_never_told(bot: Bot, phone: Phone) -> None:
    bot.server.faults.order(Fault(kind="accepted_then_lost"))
    with pytest.raises(httpx.TransportError):
        await send(bot)
    assert shown(phone) == ["hi"]


async def test_slow_is_done_and_told_too_late_for_an_impatient_client(bot: Bot, phone: Phone) -> None:
    bot.server.faults.order(Fault(kind="slow", seconds=3600))
    with pytest.raises(httpx.ReadTimeout):
        await bot.http.post(bot.url("sendMessage"), json={"chat_id": 1001, "text": "hi"}, timeout=0.05)
    assert shown(phone) == ["hi"]
    while not bot.server.idle:
        await bot.server.wait_change()


async def test_slow_is_told_to_a_patient_client(bot: Bot, phone: Phone) -> None:
    bot.server.faults.order(Fault(kind="slow", seconds=0.01))
    assert (await send(bot)).json()["ok"]


async def test_a_flood_refusal_can_be_ordered(bot: Bot, phone: Phone) -> None:
    bot.server.faults.order(Fault(kind="429", retry_after=7))
    answer = (await send(bot)).json()
    assert (answer["error_code"], answer["parameters"]) == (429, {"retry_after": 7})
    assert shown(phone) == []


async def test_garbage_is_no_json(bot: Bot, phone: Phone) -> None:
    bot.server.faults.order(Fault(kind="garbage"))
    with pytest.raises(ValueError):
        (await send(bot)).json()


async def test_a_fault_for_one_method_and_chat_hits_nothing_else(bot: Bot, phone: Phone) -> None:
    bot.server.add_phone(1002, "Ben").start()
    bot.server.faults.order(Fault(kind="500", method="sendMessage", chat_id=1002))
    await bot.do("getMe")
    await bot.do("sendChatAction", chat_id=1002, action="typing")
    assert (await send(bot, 1001)).status_code == 200
    assert (await send(bot, 1002)).status_code == 500
    assert (await send(bot, 1002)).status_code == 200


async def test_an_answer_to_a_press_belongs_to_the_chat_of_the_press(bot: Bot, phone: Phone) -> None:
    await bot.do("sendMessage", chat_id=1001, text="Ready?", reply_markup=buttons("Ready"))
    phone.press("Ready")
    press = (await bot.do("getUpdates"))[-1]["callback_query"]["id"]
    bot.server.faults.order(Fault(kind="500", chat_id=1001))
    assert (await bot.refused("answerCallbackQuery", callback_query_id=press)).startswith("500")
    await bot.do("answerCallbackQuery", callback_query_id=press)
    assert (bot.server.calls[-1].method, bot.server.calls[-1].chat_id) == ("answercallbackquery", 1001)


async def test_a_fault_for_every_method_leaves_the_poll_alone(bot: Bot, phone: Phone) -> None:
    bot.server.faults.order(Fault(kind="500"))
    phone.type("hello")
    assert len(await bot.do("getUpdates")) == 1
    assert (await send(bot)).status_code == 500


async def test_a_poll_can_be_cut_and_its_updates_come_again(bot: Bot, phone: Phone) -> None:
    phone.type("hello")
    kinds: list[FaultKind] = ["accepted_then_lost", "cut"]
    for kind in kinds:
        bot.server.faults.order(Fault(kind=kind, method="getUpdates"))
        with pytest.raises(httpx.TransportError):
            await bot.ask("getUpdates")
    assert len(await bot.do("getUpdates")) == 1


async def test_faults_can_be_cancelled(bot: Bot, phone: Phone) -> None:
    bot.server.faults.order(Fault(kind="500", times=9))
    bot.server.faults.cancel_all()
    assert (await send(bot)).status_code == 200


async def test_while_the_network_is_down_nothing_gets_through_and_a_held_poll_ends(bot: Bot, phone: Phone) -> None:
    async with bot.polling() as poll:
        bot.server.network_down = True
        with pytest.raises(httpx.TransportError):
            await poll
    with pytest.raises(httpx.TransportError):
        await send(bot)
    phone.type("hello")
    bot.server.network_down = False
    await send(bot, text="back")
    assert (shown(phone), len(await bot.do("getUpdates"))) == (["back"], 1)


async def test_an_unplugged_server_refuses_every_connection_until_it_is_plugged_in(bot: Bot, phone: Phone) -> None:
    async with bot.polling() as poll:
        bot.server.unplug()
        with pytest.raises(httpx.TransportError):
            await poll
    with pytest.raises(httpx.ConnectError):
        await send(bot)
    phone.type("hello")
    await bot.server.plug_in()
    await send(bot, text="back")
    assert (shown(phone), len(await bot.do("getUpdates"))) == (["back"], 1)


async def test_an_answer_under_way_is_lost_when_the_network_goes_down(bot: Bot, phone: Phone) -> None:
    bot.server.latency = lambda: 0.01
    sending = asyncio.create_task(send(bot))
    while not shown(phone):
        await bot.server.wait_change()
    bot.server.network_down = True
    with pytest.raises(httpx.TransportError):
        await sending


async def test_latency_is_waited_before_each_answer(bot: Bot, phone: Phone) -> None:
    asked: list[float] = []

    def latency() -> float:
        asked.append(0.001)
        return asked[-1]

    bot.server.latency = latency
    await send(bot)
    await bot.do("getUpdates")
    assert len(asked) == 2


async def test_every_answered_call_is_noted_but_polls(bot: Bot, phone: Phone) -> None:
    await send(bot)
    await send(bot, 4)
    await bot.do("getUpdates")
    noted = [(call.method, call.chat_id, call.code) for call in bot.server.calls]
    assert noted == [("sendmessage", 1001, 200), ("sendmessage", 4, 400)]
