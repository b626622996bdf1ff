"""What goes out: one request at a time to the platform, and every way it can end, told as an `Outcome`."""

import logging
from datetime import datetime, timedelta
from typing import assert_never

from telegram import (
    InlineKeyboardButton,
    InlineKeyboardMarkup,
    InputMediaPhoto,
    InputMediaVideo,
    KeyboardButton,
    LinkPreviewOptions,
    Message,
    MessageId,
    ReplyKeyboardMarkup,
)
from telegram.error import (
    BadRequest,
    ChatMigrated,
    Conflict,
    Forbidden,
    InvalidToken,
    NetworkError,
    RetryAfter,
    TelegramError,
)

from companion.chat.buttons import encode
from companion.chat.sound_length import seconds_of
from companion.chat.wire import Wire, was_not_sent
from companion.core.media import Medium
from companion.runtime.clock import Clock
from companion.runtime.transport import (
    File,
    FileUnknown,
    NotThere,
    NoWay,
    Op,
    Outcome,
    Outgoing,
    Receipt,
    TryLater,
    Undeliverable,
    Unknown,
    Unreachable,
)

log = logging.getLogger(__name__)

NO_PREVIEW = LinkPreviewOptions(is_disabled=True)
# The platform says these in words only; client libraries tell them apart by reading, and so do we.
UNCHANGED = "message is not modified"
GONE = (
    "message to edit not found",
    "message to copy not found",
    "message can't be copied",
    "message can't be edited",
    "message_id_invalid",
    "there is no text in the message to edit",
    "there is no caption in the message to edit",
)
NO_SUCH_FILE = ("wrong file identifier", "wrong remote file identifier", "can't use file of type")
SHUT_OUT = ("chat not found", "user not found", "peer_id_invalid", "user is deactivated")
SECOND = timedelta(seconds=1)
PICTURE, SOUND, CLIP = "picture.png", "sound.ogg", "clip.mp4"
"""What files are called. The platform goes by the ending."""


class Telegram:
    """The `Transport` of the runtime, on the platform's Bot API."""

    def __init__(self, wire: Wire, clock: Clock) -> None:
        self._wire = wire
        self._clock = clock

    async def send(self, outgoing: Outgoing) -> Outcome:
        """Send and say how it went. Never raises."""
        began = self._clock.now()
        try:
            taken = await self._ask(outgoing)
        except TelegramError as error:
            return self._outcome(outgoing, error)
        except Exception as error:  # the answer was no answer: what became of the message, nobody knows
            log.error("The answer to a message could not be read: %s", type(error).__name__)
            return Unknown()
        if isinstance(taken, Message):
            return Receipt(taken.message_id, self._taken_at(began, taken), _file_id(outgoing.file, taken))
        if isinstance(taken, MessageId):
            return Receipt(taken.message_id, self._clock.now())
        return Receipt(outgoing.message_id or 0, self._clock.now())

    async def _ask(self, outgoing: Outgoing) -> Message | MessageId | bool:
        chat_id, silent = outgoing.chat_id, outgoing.silent
        match outgoing.op:
            case Op.TEXT:
                return await self._wire.send_message(
                    chat_id,
                    outgoing.text,
                    reply_markup=_under(outgoing) or _fixed(outgoing),
                    disable_notification=silent,
                    link_preview_options=NO_PREVIEW,
                )
            case Op.FILE:
                return await self._send_file(outgoing)
            case Op.COPY:
                assert outgoing.from_chat is not None and outgoing.message_id is not None, "a copy has an original"
                return await self._wire.copy_message(
                    chat_id, outgoing.from_chat, outgoing.message_id, disable_notification=silent
                )
            case Op.EDIT:
                return await self._wire.edit_message_text(
                    outgoing.text,
                    chat_id,
                    outgoing.message_id,
                    reply_markup=_under(outgoing),
                    link_preview_options=NO_PREVIEW,
                )
            case Op.CAPTION:
                return await self._wire.edit_message_caption(
                    chat_id, outgoing.message_id, caption=outgoing.text or None, reply_markup=_under(outgoing)
                )
            case Op.SWAP:
                return await self._wire.edit_message_media(
                    _shown(outgoing), chat_id, outgoing.message_id, reply_markup=_under(outgoing)
                )
            case Op.CLEAR:
                return await self._wire.edit_message_reply_markup(chat_id, outgoing.message_id)
            case _:
                assert_never(outgoing.op)

    async def _send_file(self, outgoing: Outgoing) -> Message:
        file, chat_id, caption = outgoing.file, outgoing.chat_id, outgoing.text or None
        assert file is not None, "there is a file to send"
        under, silent = _under(outgoing), outgoing.silent
        match file.medium:
            case Medium.PHOTO:
                return await self._wire.send_photo(
                    chat_id, file.content, caption, reply_markup=under, disable_notification=silent, filename=PICTURE
                )
            case Medium.VOICE:
                return await self._wire.send_voice(
                    chat_id,
                    file.content,
                    caption=caption,
                    reply_markup=under,
                    disable_notification=silent,
                    filename=SOUND,
                    duration=seconds_of(file.content) if isinstance(file.content, bytes) else None,
                )
            case Medium.VIDEO:
                return await self._wire.send_video(
                    chat_id, file.content, caption=caption, reply_markup=under, disable_notification=silent, filename=CLIP
                )
            case Medium.DOCUMENT:
                return await self._wire.send_document(
                    chat_id, file.content, caption=caption, reply_markup=under, disable_notification=silent, filename=file.name
                )
            case _:
                assert_never(file.medium)

    def _taken_at(self, began: datetime, taken: Message) -> datetime:
        """When the platform took it.

        Its own date tells whole seconds of its own clock, ours when the answer had come. So: by the end of
        the second that it names, but not before we began nor after the answer, whichever clock is wrong.
        """
        named = taken.edit_date or taken.date
        return min(self._clock.now(), max(began, named + SECOND))

    def _outcome(self, outgoing: Outgoing, error: TelegramError) -> Outcome:
        match error:
            case RetryAfter():
                return TryLater(_seconds(error))
            case Forbidden():
                return Undeliverable(NoWay.BLOCKED)
            case BadRequest() | ChatMigrated() | Conflict():
                return self._refused(outgoing, error.message.lower())
            case InvalidToken():
                # Whoever fetches the updates says so and ends the program; the message waits for the next start.
                return Unreachable()
            case NetworkError() if was_not_sent(error):
                return Unreachable()
            case _:
                return Unknown()

    def _refused(self, outgoing: Outgoing, why: str) -> Outcome:
        if UNCHANGED in why:
            return Receipt(outgoing.message_id or 0, self._clock.now())
        if outgoing.file is not None and isinstance(outgoing.file.content, str) and any(told in why for told in NO_SUCH_FILE):
            return FileUnknown()
        if outgoing.message_id is not None and any(told in why for told in GONE):
            return NotThere()
        # of a copy it may be the other chat that is meant
        if outgoing.op is not Op.COPY and any(told in why for told in SHUT_OUT):
            return Undeliverable(NoWay.BLOCKED)
        log.error("The platform refused a message (%s): %s", outgoing.op, why)
        return Undeliverable(NoWay.REFUSED)


def _under(outgoing: Outgoing) -> InlineKeyboardMarkup | None:
    if not outgoing.rows:
        return None
    return InlineKeyboardMarkup([[InlineKeyboardButton(label, callback_data=encode(press))] for label, press in outgoing.rows])


def _shown(outgoing: Outgoing) -> InputMediaPhoto | InputMediaVideo:
    """What a message becomes: a picture or a clip, for nothing becomes a sound."""
    file, caption = outgoing.file, outgoing.text or None
    assert file is not None and file.medium in (Medium.PHOTO, Medium.VIDEO), "a picture or a clip"
    if file.medium is Medium.PHOTO:
        return InputMediaPhoto(file.content, caption, filename=PICTURE)
    return InputMediaVideo(file.content, caption, filename=CLIP)


def _file_id(file: File | None, taken: Message) -> str:
    """The platform's id of the file that it took; of a picture, the largest of its sizes."""
    if file is None:
        return ""
    match file.medium:
        case Medium.PHOTO:
            return taken.photo[-1].file_id if taken.photo else ""
        case Medium.VOICE:
            return taken.voice.file_id if taken.voice else ""
        case Medium.VIDEO:
            return taken.video.file_id if taken.video else ""
        case Medium.DOCUMENT:
            return taken.document.file_id if taken.document else ""
        case _:
            assert_never(file.medium)


def _fixed(outgoing: Outgoing) -> ReplyKeyboardMarkup | None:
    if not outgoing.fixed_row:
        return None
    rows = [[KeyboardButton(label) for label in row] for row in outgoing.fixed_row]
    return ReplyKeyboardMarkup(rows, resize_keyboard=True, is_persistent=True)


def _seconds(error: RetryAfter) -> float:
    after = error.retry_after
    return after.total_seconds() if isinstance(after, timedelta) else float(after)
