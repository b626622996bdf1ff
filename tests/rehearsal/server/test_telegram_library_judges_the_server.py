"""The library that the real bot uses finds the answers it expects, and its own error for each refusal."""

import json
from collections.abc import AsyncIterator
from typing import Any

import pytest
from telegram import (
    Bot,
    InlineKeyboardButton,
    InlineKeyboardMarkup,
    InputMediaPhoto,
    InputMediaVideo,
    Message,
    ReplyKeyboardMarkup,
    TelegramObject,
)
from telegram.error import (
    BadRequest,
    Conflict,
    Forbidden,
    InvalidToken,
    NetworkError,
    RetryAfter,
    TelegramError,
    TimedOut,
)
from telegram.request import HTTPXRequest

from companion.rehearsal.server import Fault, FaultKind, Limits, Phone, RehearsalServer
from tests.rehearsal.server.hands import CLIP, START, VOICE, picture

# The library tells at every reading that some lengths of time will be of another type in its next version.
pytestmark = pytest.mark.filterwarnings("ignore::telegram.warnings.PTBDeprecationWarning")

READY = InlineKeyboardMarkup([[InlineKeyboardButton("Ready", callback_data="r")]])


def bot_of(server: RehearsalServer, token: str) -> Bot:
    return Bot(
        token,
        base_url=f"{server.base_url}/bot",
        base_file_url=f"{server.base_url}/file/bot",
        request=HTTPXRequest(read_timeout=1),
        get_updates_request=HTTPXRequest(read_timeout=1),
    )


@pytest.fixture
async def judge(server: RehearsalServer, phone: Phone) -> AsyncIterator[Bot]:
    async with bot_of(server, server.token) as judge:
        yield judge


def unknown_to_the_library(found: Any) -> dict[str, Any]:
    """What was in the answer and in none of the library's fields, by class."""
    if isinstance(found, (list, tuple)):
        return {name: rest for each in found for name, rest in unknown_to_the_library(each).items()}
    if not isinstance(found, TelegramObject):
        return {}
    names = {name for kind in type(found).__mro__ for name in getattr(kind, "__slots__", ())}
    deeper = [unknown_to_the_library(getattr(found, name, None)) for name in names if not name.startswith("_")]
    here = {type(found).__name__: dict(found.api_kwargs)} if found.api_kwargs else {}
    return {name: rest for each in [here, *deeper] for name, rest in each.items()}


async def test_sent_messages_come_back_whole(judge: Bot, phone: Phone) -> None:
    text = await judge.send_message(1001, "Ready?", reply_markup=READY)
    photo = await judge.send_photo(1001, picture(), caption="Feet", filename="feet.png")
    voice = await judge.send_voice(1001, VOICE, duration=60)
    clip = await judge.send_video(1001, CLIP, duration=8)
    silent = await judge.send_animation(1001, CLIP, duration=8)
    assert clip.video is not None and silent.animation is not None and silent.document is not None
    document = await judge.send_document(1001, b"%PDF-1.7", filename="week.pdf")
    row = await judge.send_message(1001, "Welcome", reply_markup=ReplyKeyboardMarkup([["Enough"]], is_persistent=True))
    assert (text.text, text.date, text.reply_markup, text.chat.id) == ("Ready?", START, READY, 1001)
    assert (photo.photo[-1].height, photo.caption) == (30, "Feet")
    assert voice.voice is not None and voice.voice.duration is not None
    assert document.document is not None and document.document.file_name == "week.pdf"
    file = await judge.get_file(document.document.file_id)
    assert bytes(await file.download_as_bytearray()) == b"%PDF-1.7"
    assert phone.fixed_row == (("Enough",),)
    assert unknown_to_the_library([text, photo, voice, clip, silent, document, row]) == {}


async def test_edited_messages_come_back_whole(judge: Bot, phone: Phone) -> None:
    sent = await judge.send_message(1001, "30")
    edited = await judge.edit_message_text("15", 1001, sent.message_id, reply_markup=READY)
    shown = await judge.edit_message_media(
        InputMediaPhoto(picture(), caption="Feet"), 1001, sent.message_id, reply_markup=READY
    )
    again = await judge.edit_message_media(InputMediaVideo(CLIP), 1001, sent.message_id, reply_markup=READY)
    bare = await judge.edit_message_reply_markup(1001, sent.message_id)
    assert isinstance(edited, Message) and (edited.text, edited.edit_date) == ("15", START)
    assert isinstance(shown, Message) and shown.photo
    assert isinstance(bare, Message) and bare.reply_markup is None
    assert isinstance(again, Message) and again.video is not None
    assert unknown_to_the_library([edited, shown, again, bare]) == {}
    assert await judge.delete_message(1001, sent.message_id)


async def test_updates_come_back_whole(judge: Bot, phone: Phone, server: RehearsalServer) -> None:
    sent = await judge.send_message(1001, "Ready?", reply_markup=READY)
    phone.start("code")
    phone.press("Ready")
    phone.delete(sent.message_id)
    phone.stale_press(sent.message_id, "r")
    phone.send_voice(VOICE)
    server.add_group_event(-500, phone, "bot added")
    started, pressed, stale, voice, added = await judge.get_updates(
        timeout=0, allowed_updates=["message", "callback_query", "my_chat_member"]
    )
    assert started.message is not None and started.message.entities[0].type == "bot_command"
    assert pressed.callback_query is not None and pressed.callback_query.data == "r"
    assert stale.callback_query is not None and stale.callback_query.message is not None
    assert not stale.callback_query.message.is_accessible
    assert voice.message is not None and voice.message.voice is not None
    assert added.my_chat_member is not None and added.my_chat_member.new_chat_member.status == "member"
    assert unknown_to_the_library([started, pressed, stale, voice, added]) == {}
    assert await judge.answer_callback_query(pressed.callback_query.id, "Noted")


async def test_chats_and_the_bot_come_back_whole(judge: Bot, phone: Phone) -> None:
    chat = await judge.get_chat(1001)
    assert (chat.first_name, judge.username) == ("Ada", "rehearsal_bot")
    assert await judge.set_my_commands([("start", "Begin")])
    assert (await judge.get_my_commands())[0].command == "start"
    assert (await judge.get_webhook_info()).url == ""
    assert unknown_to_the_library([chat, judge.bot]) == {}


@pytest.mark.parametrize(
    ("kind", "error"),
    [
        ("500", NetworkError),
        ("502", NetworkError),
        ("429", RetryAfter),
        ("garbage", TelegramError),
        ("cut", NetworkError),
        ("accepted_then_lost", NetworkError),
    ],
)
async def test_every_fault_is_the_librarys_own_error(
    judge: Bot, server: RehearsalServer, kind: FaultKind, error: type[TelegramError]
) -> None:
    server.faults.order(Fault(kind=kind, method="sendMessage"))
    with pytest.raises(error):
        await judge.send_message(1001, "hi")


async def test_a_slow_answer_is_timed_out(judge: Bot, server: RehearsalServer, phone: Phone) -> None:
    server.faults.order(Fault(kind="slow", method="sendMessage", seconds=3600))
    with pytest.raises(TimedOut):
        await judge.send_message(1001, "hi", read_timeout=0.05)
    assert phone.messages[-1].text == "hi"


async def test_every_refusal_is_the_librarys_own_error(judge: Bot, server: RehearsalServer, phone: Phone) -> None:
    sent = await judge.send_message(1001, "hi")
    with pytest.raises(BadRequest, match=r"(?i)message is not modified"):
        await judge.edit_message_text("hi", 1001, sent.message_id)
    with pytest.raises(BadRequest, match=r"(?i)chat not found"):
        await judge.send_message(4, "hi")
    phone.block()
    with pytest.raises(Forbidden, match="bot was blocked by the user"):
        await judge.send_message(1001, "hi")
    phone.unblock()
    server.limits = Limits(chat_burst=0)
    with pytest.raises(RetryAfter):
        await judge.send_message(1001, "hi")
    await judge.set_webhook("https://bot.example/hook")
    with pytest.raises(Conflict):
        await judge.get_updates()
    with pytest.raises(InvalidToken):
        await bot_of(server, "1000001:other").initialize()


def test_the_token_is_one_that_clients_accept() -> None:
    assert json.dumps(Bot("1000001:rehearsal-token").token) == '"1000001:rehearsal-token"'
