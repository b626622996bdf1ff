"""Messages as the bot gets them: the public manual's Message object."""

from datetime import datetime
from typing import Any

from .chats import Chat, PhoneMessage, PrivateChat, Rows
from .platform import Platform


def message_wire(platform: Platform, chat: Chat, message: PhoneMessage) -> dict[str, Any]:
    """The Message object of `message` as it stands now."""
    wire: dict[str, Any] = {
        "message_id": message.message_id,
        "from": _sender(platform, chat, message),
        "chat": chat.wire(),
        "date": seconds(message.at),
    }
    if message.edited_at is not None:
        wire["edit_date"] = seconds(message.edited_at)
    if message.media is not None:
        wire[message.kind] = message.media.wire()
    if message.media is not None and message.kind == "animation":  # for programs from before there were any
        wire["document"] = message.media.wire_as_document()
    if message.text:
        wire["text"] = message.text
        wire.update(_commands_in(message.text))
    if message.caption:
        wire["caption"] = message.caption
    if message.buttons:
        wire["reply_markup"] = {"inline_keyboard": buttons_wire(message.buttons)}
    return wire


def vanished_wire(chat: Chat, message_id: int) -> dict[str, Any]:
    """The InaccessibleMessage object: a message that is no longer there is dated 0."""
    return {"message_id": message_id, "chat": chat.wire(), "date": 0}


def buttons_wire(rows: Rows) -> list[list[dict[str, str]]]:
    """The rows of an InlineKeyboardMarkup."""
    return [
        [
            {"text": button.label, "url": button.url}
            if button.url is not None
            else {"text": button.label, "callback_data": button.data or ""}
            for button in row
        ]
        for row in rows
    ]


def seconds(at: datetime) -> int:
    """The platform's dates are whole seconds since 1970."""
    return int(at.timestamp())


def _sender(platform: Platform, chat: Chat, message: PhoneMessage) -> dict[str, Any]:
    if message.from_bot:
        return platform.bot
    if message.sender is not None:
        return message.sender
    assert isinstance(chat, PrivateChat)
    return chat.user()


def _commands_in(text: str) -> dict[str, Any]:
    """The entity of a command at the beginning; offsets are in UTF-16 units, and a command is ASCII."""
    word = text.split(maxsplit=1)[0]
    if word.startswith("/") and len(word) > 1 and word.isascii():
        return {"entities": [{"type": "bot_command", "offset": 0, "length": len(word)}]}
    return {}
