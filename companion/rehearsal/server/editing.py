"""The methods that change or take away a message that is already there.

What may become what, from the public manual: a text may become a picture, a clip or a document by editMessageMedia and
these each other, none of them a text again, a voice note nothing else, and nothing a voice note.
"""

from dataclasses import replace
from datetime import timedelta
from typing import Any, get_args

from .chats import Chat, PhoneMessage, Rows
from .files import FileKind
from .markup import inline_of
from .parameters import Parameters
from .platform import Platform
from .refusals import bad_request, not_modified
from .sending import caption_of, media_of, text_of
from .wire import message_wire

SHOWN: tuple[FileKind, ...] = tuple(kind for kind in get_args(FileKind) if kind != "voice")
"""What a message can become."""


def edit_message_text(platform: Platform, parameters: Parameters) -> dict[str, Any]:
    """editMessageText: without buttons in the request the old ones go."""
    chat, message = _target(platform, parameters)
    if message.kind != "text":
        raise bad_request("there is no text in the message to edit")
    text = text_of(parameters, platform.limits)
    return _change(platform, chat, message, replace(message, text=text, buttons=_buttons(platform, parameters)))


def edit_message_caption(platform: Platform, parameters: Parameters) -> dict[str, Any]:
    """editMessageCaption."""
    chat, message = _target(platform, parameters)
    if message.kind == "text":
        raise bad_request("there is no caption in the message to edit")
    caption = caption_of(parameters, platform.limits)
    return _change(platform, chat, message, replace(message, caption=caption, buttons=_buttons(platform, parameters)))


def edit_message_reply_markup(platform: Platform, parameters: Parameters) -> dict[str, Any]:
    """editMessageReplyMarkup."""
    chat, message = _target(platform, parameters)
    return _change(platform, chat, message, replace(message, buttons=_buttons(platform, parameters)))


def edit_message_media(platform: Platform, parameters: Parameters) -> dict[str, Any]:
    """editMessageMedia, for pictures, clips and documents."""
    chat, message = _target(platform, parameters)
    if message.kind == "voice":
        raise bad_request("message can't be edited")
    described = parameters.structure("media")
    if not isinstance(described, dict):
        raise bad_request("can't parse InputMedia: an object is expected")
    kind = next((kind for kind in SHOWN if kind == described.get("type")), None)
    if kind is None:
        raise bad_request(f"can't parse InputMedia: media of the type {described.get('type')!r} can't be in an edited message")
    inner = Parameters(described, parameters.files)
    media = media_of(platform, inner, kind, inner.text("media"))
    changed = replace(
        message,
        kind=media.kind,
        text="",
        caption=caption_of(inner, platform.limits),
        media=media,
        buttons=_buttons(platform, parameters),
    )
    return _change(platform, chat, message, changed)


def delete_message(platform: Platform, parameters: Parameters) -> bool:
    """deleteMessage: the bot's own and, in a private chat, the person's, for 48 hours."""
    chat = platform.known(parameters.chat_id)
    message = chat.messages.get(parameters.integer("message_id"))
    if message is None:
        raise bad_request("message to delete not found")
    life = platform.limits.delete_life
    if life is not None and platform.now() - message.at > timedelta(seconds=life):
        raise bad_request("message can't be deleted for everyone")
    platform.delete(chat, message, "out")
    return True


def _buttons(platform: Platform, parameters: Parameters) -> Rows:
    return inline_of(parameters, platform.limits)


def _target(platform: Platform, parameters: Parameters) -> tuple[Chat, PhoneMessage]:
    chat = platform.reach(parameters.chat_id)
    if not parameters.has("message_id"):
        raise bad_request("message identifier is not specified")
    message = chat.messages.get(parameters.integer("message_id"))
    if message is None:
        raise bad_request("message to edit not found")
    if not message.from_bot or not message.editable:
        raise bad_request("message can't be edited")
    return chat, message


def _change(platform: Platform, chat: Chat, message: PhoneMessage, changed: PhoneMessage) -> dict[str, Any]:
    """Lays the changed fields onto the object that the phone holds."""
    if changed == message:
        raise not_modified()
    message.kind, message.text, message.caption = changed.kind, changed.text, changed.caption
    message.media, message.buttons = changed.media, changed.buttons
    platform.edited(chat, message, "out")
    return message_wire(platform, chat, message)
