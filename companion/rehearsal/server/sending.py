"""The methods that put something new into a chat.

Parameters that change nothing that a phone of the rehearsal shows are ignored, as the platform ignores those it does not know.
"""

from typing import Any

from .chats import PhoneMessage
from .files import FileKind, StoredFile
from .limits import Limits
from .markup import markup_of
from .parameters import Parameters
from .platform import Platform
from .refusals import bad_request
from .wire import message_wire

ACTIONS = frozenset(
    {
        "typing",
        "upload_photo",
        "record_video",
        "upload_video",
        "record_voice",
        "upload_voice",
        "upload_document",
        "choose_sticker",
        "find_location",
        "record_video_note",
        "upload_video_note",
    }
)


def send_message(platform: Platform, parameters: Parameters) -> dict[str, Any]:
    """sendMessage."""
    chat = platform.reach(parameters.chat_id)
    message = PhoneMessage(
        message_id=0,
        at=platform.now(),
        from_bot=True,
        text=text_of(parameters, platform.limits),
        silent=parameters.flag("disable_notification"),
    )
    markup = markup_of(parameters, platform.limits)
    message.message_id = platform.next_message_id()
    return message_wire(platform, chat, platform.post(chat, message, markup))


def send_photo(platform: Platform, parameters: Parameters) -> dict[str, Any]:
    """sendPhoto."""
    return _send_media(platform, parameters, "photo")


def send_voice(platform: Platform, parameters: Parameters) -> dict[str, Any]:
    """sendVoice."""
    return _send_media(platform, parameters, "voice")


def send_video(platform: Platform, parameters: Parameters) -> dict[str, Any]:
    """sendVideo."""
    return _send_media(platform, parameters, "video")


def send_animation(platform: Platform, parameters: Parameters) -> dict[str, Any]:
    """sendAnimation: a clip without sound."""
    return _send_media(platform, parameters, "animation")


def send_document(platform: Platform, parameters: Parameters) -> dict[str, Any]:
    """sendDocument."""
    return _send_media(platform, parameters, "document")


def copy_message(platform: Platform, parameters: Parameters) -> dict[str, Any]:
    """copyMessage: what came or went in one chat stands anew in another, and nothing says where it is from."""
    chat = platform.reach(parameters.chat_id)
    source = platform.known(parameters.integer("from_chat_id"))
    original = source.messages.get(parameters.integer("message_id"))
    if original is None:
        raise bad_request("message to copy not found")
    newly = parameters.has("caption") and original.kind != "text"
    caption = caption_of(parameters, platform.limits) if newly else original.caption
    markup = markup_of(parameters, platform.limits)
    copy = PhoneMessage(
        message_id=platform.next_message_id(),
        at=platform.now(),
        from_bot=True,
        kind=original.kind,
        text=original.text,
        caption=caption,
        media=original.media,
        silent=parameters.flag("disable_notification"),
    )
    return {"message_id": platform.post(chat, copy, markup).message_id}


def send_chat_action(platform: Platform, parameters: Parameters) -> bool:
    """sendChatAction: checked and forgotten, for it leaves nothing on the phone."""
    platform.reach(parameters.chat_id)
    if parameters.text("action") not in ACTIONS:
        raise bad_request("wrong parameter action in request")
    return True


def text_of(parameters: Parameters, limits: Limits) -> str:
    """The text of a message: plain, not empty, not too long."""
    _refuse_marks(parameters, "entities")
    text = parameters.text("text")
    if not text:
        raise bad_request("message text is empty")
    if limits.text is not None and len(text) > limits.text:
        raise bad_request("message is too long")
    return text


def caption_of(parameters: Parameters, limits: Limits) -> str:
    """The caption: plain, may be empty, not too long."""
    _refuse_marks(parameters, "caption_entities")
    caption = parameters.text("caption")
    if limits.caption is not None and len(caption) > limits.caption:
        raise bad_request("message caption is too long")
    return caption


def media_of(platform: Platform, parameters: Parameters, kind: FileKind, value: str, field: str = "") -> StoredFile:
    """The file that `value` names: an id, or `attach://name` of an upload; or the upload in the part `field`
    itself.
    """
    part = value.removeprefix("attach://") if value.startswith("attach://") else field
    upload = parameters.files.get(part)
    if upload is not None:
        return platform.files.store(kind, upload.content, platform.limits, upload.name, parameters.integer("duration"))
    if not value:
        raise bad_request(f"there is no {kind} in the request")
    return platform.files.again(value, kind)


def _send_media(platform: Platform, parameters: Parameters, kind: FileKind) -> dict[str, Any]:
    chat = platform.reach(parameters.chat_id)
    caption = caption_of(parameters, platform.limits)
    markup = markup_of(parameters, platform.limits)
    media = media_of(platform, parameters, kind, parameters.text(kind), kind)
    message = PhoneMessage(
        message_id=platform.next_message_id(),
        at=platform.now(),
        from_bot=True,
        kind=media.kind,
        caption=caption,
        media=media,
        silent=parameters.flag("disable_notification"),
    )
    return message_wire(platform, chat, platform.post(chat, message, markup))


def _refuse_marks(parameters: Parameters, entities: str) -> None:
    """The rehearsal knows plain text only and says so instead of showing marks as words."""
    if parameters.text("parse_mode") or parameters.structure(entities):
        raise bad_request("unsupported parse_mode: the rehearsal shows plain text only")
