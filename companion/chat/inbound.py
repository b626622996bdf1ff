"""What comes in: a raw update of the platform, read strictly, becomes one `Inbound`.

Only private chats count. Nothing here trusts a field: an update may hold anything where a number should be.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import Any

from companion.chat.buttons import decode
from companion.runtime.transport import Inbound, InGone, InOther, InPress, InStart, InText

KINDS = ("message", "edited_message", "callback_query", "my_chat_member")
"""The updates that are asked for."""

UPDATE_IDS = range(1, 2**31)
# The platform's ids of people and chats have at most 52 significant bits; negative ones are groups.
IDS = range(-(2**52), 2**52)
# What a message may be besides text; anything else is a notice about the chat itself, and needs no answer.
FORMS = (
    "animation", "audio", "checklist", "contact", "dice", "document", "game", "invoice", "location",
    "paid_media", "photo", "poll", "sticker", "story", "venue", "video", "video_note", "voice",
)  # fmt: skip

FILE_ID = re.compile(r"[A-Za-z0-9_-]{1,256}")

Raw = Mapping[str, Any]


class BadUpdate(ValueError):
    """An update that is not what the platform's manual says. The text names the field, never what it held."""


@dataclass(frozen=True, slots=True)
class Group:
    """The bot was brought into a chat that is not private."""

    chat_id: int


@dataclass(frozen=True, slots=True)
class Came:
    """An update that counts. `callback` is the id under which a press wants its answer."""

    inbound: Inbound
    callback: str | None = None


def number_of(raw: object) -> int | None:
    """The update's id, by which it is confirmed; None if it has none that can be used."""
    number = raw.get("update_id") if isinstance(raw, Mapping) else None
    return number if type(number) is int and number in UPDATE_IDS else None


def read(raw: object) -> Came | Group | None:
    """What an update means; None if it is of no interest. Raises BadUpdate."""
    update = _mapping(raw, "update")
    number = number_of(update)
    if number is None:
        raise BadUpdate("update_id")
    if "callback_query" in update:
        return _press(number, _mapping(update["callback_query"], "callback_query"))
    if "my_chat_member" in update:
        return _member(number, _mapping(update["my_chat_member"], "my_chat_member"))
    for kind in ("message", "edited_message"):
        if kind in update:
            return _message(number, _mapping(update[kind], kind), edited=kind == "edited_message")
    return None


def _press(number: int, query: Raw) -> Came | Group | None:
    callback = query.get("id")
    if not isinstance(callback, str):
        raise BadUpdate("callback_query.id")
    if not isinstance(query.get("message"), Mapping):
        return None  # under a message sent by way of another chat; we never send such
    message = query["message"]
    chat_id, private = _chat(message)
    if not private:
        return Group(chat_id)
    press = decode(query.get("data"))
    what = InPress(press) if press is not None else InOther("button")
    # The message's date says when it was sent, not when its button was pressed; that, nobody tells.
    return Came(_inbound(number, query, message, what), callback)


def _message(number: int, message: Raw, edited: bool) -> Came | Group | None:
    chat_id, private = _chat(message)
    if not private:
        return Group(chat_id)
    text = message.get("text")
    what: InText | InStart | InOther
    if edited:
        what = InOther("edited")
    elif isinstance(text, str):
        what = _typed(_clean(text))
    elif form := next((form for form in FORMS if form in message), None):
        what = InOther(form, _file_id(message[form]))
    else:
        return None
    return Came(replace(_inbound(number, message, message, what), sent=_moment(message)))


def _member(number: int, change: Raw) -> Came | Group | None:
    chat_id, private = _chat(change)
    status = _mapping(change.get("new_chat_member"), "new_chat_member").get("status")
    if not private:
        return None if status in ("left", "kicked") else Group(chat_id)
    if status not in ("kicked", "member"):
        return None
    user_id = _id(_mapping(change.get("from"), "from").get("id"), "from.id")
    return Came(
        Inbound(
            key=f"tg:{number}:{chat_id}:0",
            user_id=user_id,
            chat_id=chat_id,
            what=InGone(back=status == "member"),
            sent=_moment(change),
        )
    )


def _typed(text: str) -> InText | InStart:
    """`/start` is taken apart here, for its form is the platform's; other commands are words."""
    command, _, rest = text.partition(" ")
    if not command.startswith("/"):
        return InText(text)
    # In a chat with several bots a command may carry the bot's name.
    command = command.partition("@")[0]
    return InStart(rest.strip()) if command == "/start" else InText(f"{command} {rest}".strip())


def _inbound(number: int, sender: Raw, message: Raw, what: InPress | InText | InStart | InOther) -> Inbound:
    chat_id, _ = _chat(message)
    user_id = _id(_mapping(sender.get("from"), "from").get("id"), "from.id")
    message_id = _id(message.get("message_id"), "message_id")
    return Inbound(f"tg:{number}:{chat_id}:{message_id}", user_id, chat_id, what, message_id)


def _moment(message: Raw) -> datetime | None:
    """When the platform took it. A date that no calendar has is no reason to lose the words."""
    seconds = message.get("edit_date", message.get("date"))
    if type(seconds) is not int:
        return None
    try:
        return datetime.fromtimestamp(seconds, UTC)
    except (OSError, OverflowError, ValueError):
        return None


def _file_id(content: object) -> str:
    """The platform's id of a file that was sent, of a picture the one of its largest size; empty if there is none."""
    if isinstance(content, list):  # a picture, in several sizes
        content = max((size for size in content if isinstance(size, Mapping)), key=_area, default=None)
    found = content.get("file_id") if isinstance(content, Mapping) else None
    return found if isinstance(found, str) and FILE_ID.fullmatch(found) else ""


def _area(size: Raw) -> int:
    width, height = size.get("width"), size.get("height")
    return width * height if type(width) is int and type(height) is int else 0


def _chat(message: Raw) -> tuple[int, bool]:
    chat = _mapping(message.get("chat"), "chat")
    return _id(chat.get("id"), "chat.id"), chat.get("type") == "private"


def _id(value: object, field: str) -> int:
    if type(value) is not int or value not in IDS:
        raise BadUpdate(field)
    return value


def _mapping(value: object, field: str) -> Raw:
    if not isinstance(value, Mapping):
        raise BadUpdate(field)
    return value


def _clean(text: str) -> str:
    """Half a surrogate pair and a zero byte are no characters that can be stored."""
    return text.encode("utf-8", "replace").decode("utf-8").replace("\x00", "")
