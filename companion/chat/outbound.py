"""What goes out: one request at a time to the platform, and every way it can end, told as an `Outcome`."""

import logging
from datetime import datetime, timedelta
from typing import assert_never

from telegram import (
    InlineKeyboardButton,
    InlineKeyboardMarkup,
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
from companion.chat.wire import Wire, was_not_sent
from companion.runtime.clock import Clock
from companion.runtime.transport import (
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
)
SHUT_OUT = ("chat not found", "user not found", "peer_id_invalid", "user is deactivated")
SECOND = timedelta(seconds=1)


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
            return Receipt(taken.message_id, self._taken_at(began, taken))
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
            case Op.PHOTO:
                assert outgoing.photo is not None, "a photo has a picture"
                return await self._wire.send_photo(
                    chat_id,
                    outgoing.photo,
                    outgoing.text or None,
                    reply_markup=_under(outgoing),
                    disable_notification=silent,
                    filename="picture.png",
                )
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
            case Op.CLEAR:
                return await self._wire.edit_message_reply_markup(chat_id, outgoing.message_id)
            case _:
                assert_never(outgoing.op)

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


def _fixed(outgoing: Outgoing) -> ReplyKeyboardMarkup | None:
    if not outgoing.fixed_row:
        return None
    rows = [[KeyboardButton(label) for label in row] for row in outgoing.fixed_row]
    return ReplyKeyboardMarkup(rows, resize_keyboard=True, is_persistent=True)


def _seconds(error: RetryAfter) -> float:
    after = error.retry_after
    return after.total_seconds() if isinstance(after, timedelta) else float(after)
