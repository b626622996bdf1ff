"""A client library that this project does not use calls every method, and every answer parses into its types."""

from collections.abc import AsyncIterator
from typing import Any

import pytest
from aiogram import Bot as Judge
from aiogram.client.session.aiohttp import AiohttpSession
from aiogram.client.session.middlewares.base import BaseRequestMiddleware, NextRequestMiddlewareType
from aiogram.client.telegram import TelegramAPIServer
from aiogram.exceptions import (
    ClientDecodeError,
    TelegramBadRequest,
    TelegramConflictError,
    TelegramForbiddenError,
    TelegramNetworkError,
    TelegramRetryAfter,
    TelegramServerError,
    TelegramUnauthorizedError,
)
from aiogram.methods import TelegramMethod
from aiogram.methods.base import Response, TelegramType
from aiogram.types import (
    BotCommand,
    BufferedInputFile,
    ChatMemberMember,
    InaccessibleMessage,
    InlineKeyboardButton,
    InlineKeyboardMarkup,
    InputMediaPhoto,
    InputMediaVideo,
    KeyboardButton,
    Message,
    ReplyKeyboardMarkup,
)
from pydantic import BaseModel

from companion.rehearsal.server import OFFERED, Fault, FaultKind, Limits, Phone, RehearsalServer
from tests.rehearsal.server.hands import CLIP, START, VOICE, picture

READY = InlineKeyboardMarkup(inline_keyboard=[[InlineKeyboardButton(text="Ready", callback_data="r")]])
ROW = ReplyKeyboardMarkup(keyboard=[[KeyboardButton(text="Enough")]], is_persistent=True)


class Look(BaseRequestMiddleware):
    """Notes which methods are called and which fields of the answers the judge's types do not know."""

    def __init__(self) -> None:
        self.called: set[str] = set()
        self.unknown: list[str] = []

    async def __call__(
        self,
        make_request: NextRequestMiddlewareType[TelegramType],
        bot: Judge,
        method: TelegramMethod[TelegramType],
    ) -> Response[TelegramType]:
        self.called.add(method.__api_method__)
        answer = await make_request(bot, method)
        self.unknown += unknown_fields(answer)
        return answer


def unknown_fields(found: Any, where: str = "") -> list[str]:
    """The names of all fields, however deep, that the library's types do not have."""
    if isinstance(found, list):
        return [name for each in found for name in unknown_fields(each, where)]
    if not isinstance(found, BaseModel):
        return []
    here = f"{where}{type(found).__name__}."
    deeper = [unknown_fields(getattr(found, name), here) for name in type(found).model_fields]
    return [here + name for name in found.model_extra or {}] + [name for names in deeper for name in names]


@pytest.fixture
async def judge(server: RehearsalServer, phone: Phone) -> AsyncIterator[Judge]:
    session = AiohttpSession(api=TelegramAPIServer.from_base(server.base_url))
    async with Judge(server.token, session=session) as judge:
        yield judge


def plain(found: Any) -> Any:
    """The fields alone: the judge's objects also compare which client they came from."""
    if isinstance(found, list):
        return [plain(each) for each in found]
    return found.model_dump(exclude_none=True) if isinstance(found, BaseModel) else found


def photo_file() -> BufferedInputFile:
    return BufferedInputFile(picture(), "feet.png")


async def about_the_bot(judge: Judge) -> None:
    me = await judge.get_me()
    assert (me.is_bot, me.username) == (True, "rehearsal_bot")
    command = BotCommand(command="start", description="Begin")
    assert await judge.set_my_commands([command])
    assert plain(await judge.get_my_commands()) == plain([command])
    assert await judge.set_webhook("https://bot.example/hook")
    assert (await judge.get_webhook_info()).url == "https://bot.example/hook"
    assert await judge.delete_webhook(drop_pending_updates=True)


async def about_chats(judge: Judge, server: RehearsalServer, phone: Phone) -> None:
    full = await judge.get_chat(1001)
    assert (full.type, full.first_name, full.username) == ("private", "Ada", "ada_invented")
    assert await judge.send_chat_action(1001, "typing")
    server.add_group_event(-500, phone, "bot added", title="Invented group")
    server.add_group_event(-500, phone, "message", text="hello")
    added, said = await judge.get_updates()
    assert added.my_chat_member is not None and said.message is not None
    assert isinstance(added.my_chat_member.new_chat_member, ChatMemberMember)
    assert (await judge.get_chat(-500)).title == "Invented group"
    assert (await judge.send_message(-500, "Only private chats.")).chat.type == "group"
    assert await judge.leave_chat(-500)


async def sending(judge: Judge) -> None:
    text = await judge.send_message(1001, "Ready?", reply_markup=READY)
    assert (text.text, text.date, plain(text.reply_markup)) == ("Ready?", START, plain(READY))
    assert (await judge.send_message(1001, "Welcome", reply_markup=ROW)).reply_markup is None
    photo = await judge.send_photo(1001, photo_file(), caption="Feet", disable_notification=True)
    assert photo.photo is not None and photo.photo[-1].width == 40
    voice = await judge.send_voice(1001, BufferedInputFile(VOICE, "a.oga"), duration=60, reply_markup=READY)
    assert voice.voice is not None and voice.voice.duration == 60
    again = await judge.send_voice(1001, voice.voice.file_id)
    assert again.voice == voice.voice
    clip = await judge.send_video(1001, BufferedInputFile(CLIP, "a.mp4"), duration=8, caption="Steps")
    assert clip.video is not None and (clip.video.duration, clip.caption) == (8, "Steps")
    silent = await judge.send_animation(1001, BufferedInputFile(CLIP, "a.mp4"), duration=8)
    assert silent.animation is not None and silent.document is not None
    assert silent.document.file_id == silent.animation.file_id
    document = await judge.send_document(1001, BufferedInputFile(b"%PDF-1.7", "week.pdf"))
    assert document.document is not None and document.document.file_name == "week.pdf"
    path = (await judge.get_file(document.document.file_id)).file_path
    assert path is not None
    fetched = await judge.download_file(path)
    assert fetched is not None and fetched.read() == b"%PDF-1.7"


async def copying(judge: Judge, server: RehearsalServer, phone: Phone) -> None:
    other = server.add_phone(1002, "Ben")
    other.start()
    phone.send_voice(VOICE, seconds=4)
    voice = phone.messages[-1]
    copied = await judge.copy_message(1002, 1001, voice.message_id, disable_notification=True)
    there = other.message(copied.message_id)
    assert (there.kind, there.file, there.from_bot, there.silent) == ("voice", VOICE, True, True)
    phone.send_photo(picture(), caption="my chair")
    mine = phone.messages[-1].message_id
    kept, named = [await judge.copy_message(1002, 1001, mine, caption=caption) for caption in (None, "From Ada")]
    assert [other.message(copy.message_id).caption for copy in (kept, named)] == ["my chair", "From Ada"]
    phone.delete(mine)
    with pytest.raises(TelegramBadRequest, match="message to copy not found"):
        await judge.copy_message(1002, 1001, mine)
    await judge.get_updates(offset=-1)


async def editing(judge: Judge) -> None:
    sent = await judge.send_message(1001, "30")
    where: dict[str, Any] = {"chat_id": 1001, "message_id": sent.message_id}
    edited = await judge.edit_message_text("15", **where, reply_markup=READY)
    assert isinstance(edited, Message) and edited.text == "15" and plain(edited.reply_markup) == plain(READY)
    assert edited.edit_date == int(START.timestamp())
    bare = await judge.edit_message_reply_markup(**where)
    assert isinstance(bare, Message) and bare.reply_markup is None
    shown = await judge.edit_message_media(InputMediaPhoto(media=photo_file(), caption="Feet"), **where)
    assert isinstance(shown, Message) and shown.photo and shown.caption == "Feet"
    moving = await judge.edit_message_media(InputMediaVideo(media=BufferedInputFile(CLIP, "a.mp4")), **where)
    assert isinstance(moving, Message) and moving.video and not moving.caption
    told = await judge.edit_message_caption(**where, caption="Hand on")
    assert isinstance(told, Message) and told.caption == "Hand on"
    assert await judge.delete_message(**where)


async def what_people_do(judge: Judge, phone: Phone) -> None:
    sent = await judge.send_message(1001, "Ready?", reply_markup=READY)
    phone.type("hello")
    phone.edit(phone.messages[-1].message_id, "hello there")
    phone.send_photo(picture(), caption="my chair")
    phone.send_voice(VOICE)
    phone.send_video(CLIP)
    phone.press("Ready")
    phone.delete(sent.message_id)
    phone.stale_press(sent.message_id, "r")
    phone.block()
    phone.start("again")
    updates = await judge.get_updates(offset=-10, timeout=0)
    assert len({update.update_id for update in updates}) == 10
    press, stale = (update.callback_query for update in updates if update.callback_query)
    assert press is not None and stale is not None
    assert press.message is not None and press.message.message_id == sent.message_id
    assert isinstance(stale.message, InaccessibleMessage)
    assert await judge.answer_callback_query(press.id, "Noted")


async def test_every_method_is_called_and_every_answer_parses(judge: Judge, server: RehearsalServer, phone: Phone) -> None:
    look = Look()
    judge.session.middleware(look)
    await about_the_bot(judge)
    await about_chats(judge, server, phone)
    await sending(judge)
    await copying(judge, server, phone)
    await editing(judge)
    await what_people_do(judge, phone)
    assert sorted(look.called) == sorted(OFFERED)
    assert look.unknown == []


async def test_every_fault_is_an_error_that_the_judge_knows(judge: Judge, server: RehearsalServer) -> None:
    expected: dict[FaultKind, type[Exception]] = {
        "500": TelegramServerError,
        "502": ClientDecodeError,
        "garbage": ClientDecodeError,
        "429": TelegramRetryAfter,
        "cut": TelegramNetworkError,
        "accepted_then_lost": TelegramNetworkError,
    }
    for kind, error in expected.items():
        server.faults.order(Fault(kind=kind, method="sendMessage"))
        with pytest.raises(error):
            await judge.send_message(1001, "hi")


async def test_every_refusal_is_an_error_that_the_judge_knows(judge: Judge, server: RehearsalServer, phone: Phone) -> None:
    with pytest.raises(TelegramBadRequest, match="chat not found"):
        await judge.send_message(4, "hi")
    phone.block()
    with pytest.raises(TelegramForbiddenError):
        await judge.send_message(1001, "hi")
    phone.unblock()
    server.limits = Limits(chat_burst=0)
    with pytest.raises(TelegramRetryAfter):
        await judge.send_message(1001, "hi")
    await judge.set_webhook("https://bot.example/hook")
    with pytest.raises(TelegramConflictError):
        await judge.get_updates()
    with pytest.raises(TelegramUnauthorizedError):
        await Judge("1000001:other", session=judge.session).get_me()
