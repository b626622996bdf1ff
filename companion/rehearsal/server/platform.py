"""What the platform remembers, and the few things that can happen to it: a message posted, changed, taken
away.

Both sides act on it: the bot through the methods, people through their phones. Nothing here waits and nothing
is random, so what happened is told by the order of the calls alone.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from .changes import Changes
from .chats import Chat, GroupChat, Keyboard, PhoneMessage, PrivateChat
from .entries import Entry, Way
from .files import FileStore
from .limits import Limits, RateBook
from .markup import Inline, Markup, NoKeyboard
from .refusals import bad_request, forbidden
from .updates import UpdateQueue

FIRST_MESSAGE = 101
FIRST_PRESS = 4_295_008_611_730_112_001


@dataclass(frozen=True)
class Press:
    """A press that waits for its answer."""

    user_id: int
    at: datetime


@dataclass(frozen=True)
class Call:
    """One request of the bot as it was answered: the method's lower-case name, the chat named, the error code
    or 200.
    """

    at: datetime
    method: str
    chat_id: int | None
    code: int


class Platform:
    """The state of one bot's world."""

    def __init__(self, now: Callable[[], datetime], bot_id: int, bot_username: str, limits: Limits) -> None:
        self.now = now
        self.limits = limits
        self.bot: dict[str, Any] = {
            "id": bot_id,
            "is_bot": True,
            "first_name": "Rehearsal",
            "username": bot_username,
        }
        self.changes = Changes()
        self.updates = UpdateQueue(now, self.changes)
        self.rates = RateBook(now)
        self.files = FileStore()
        self.chats: dict[int, Chat] = {}
        self.entries: list[Entry] = []
        self.calls: list[Call] = []
        self.presses: dict[str, Press] = {}
        self.commands: dict[str, list[dict[str, str]]] = {}
        self.webhook = ""
        self._messages = FIRST_MESSAGE
        self._presses = FIRST_PRESS

    def known(self, chat_id: int | None) -> Chat:
        """A chat that the bot has ever heard of."""
        if not chat_id:
            raise bad_request("chat_id is empty")
        if chat_id not in self.chats:
            raise bad_request("chat not found")
        return self.chats[chat_id]

    def reach(self, chat_id: int | None) -> Chat:
        """A chat that the bot may write to now."""
        chat = self.known(chat_id)
        if isinstance(chat, PrivateChat) and not chat.started:
            raise forbidden("bot can't initiate conversation with a user")
        if isinstance(chat, PrivateChat) and chat.blocked:
            raise forbidden("bot was blocked by the user")
        if isinstance(chat, GroupChat) and not chat.bot_is_in:
            raise forbidden("bot is not a member of the group chat")
        return chat

    def next_message_id(self) -> int:
        """Message ids of a bot's private chats and basic groups are one count."""
        self._messages += 1
        return self._messages - 1

    def expect_answer(self, user_id: int) -> str:
        """Notes a press; the id that the bot must answer."""
        press_id = str(self._presses)
        self._presses += 1
        self.presses[press_id] = Press(user_id, self.now())
        return press_id

    def post(self, chat: Chat, message: PhoneMessage, markup: Markup | None) -> PhoneMessage:
        """A new message of the bot's, with what hangs on it."""
        if isinstance(markup, Inline):
            message.buttons = markup.rows
        elif markup is not None:
            message.editable = False
        if isinstance(chat, PrivateChat) and isinstance(markup, Keyboard):
            chat.keyboard, chat.keyboard_from = markup, message.message_id
        elif isinstance(chat, PrivateChat) and isinstance(markup, NoKeyboard):
            chat.drop_keyboard()
        chat.messages[message.message_id] = message
        rows = markup.rows if isinstance(markup, Keyboard) else message.labels
        self._record(
            chat,
            Entry(
                at=message.at,
                user_id=chat.chat_id,
                way="out",
                kind=message.kind,
                text=message.words,
                buttons=rows,
                silent=message.silent,
                message_id=message.message_id,
                file=message.file,
            ),
        )
        return message

    def arrived(self, chat: Chat, message: PhoneMessage) -> None:
        """A new message of a person's."""
        chat.messages[message.message_id] = message
        self._record(
            chat,
            Entry(
                at=message.at,
                user_id=chat.chat_id,
                way="in",
                kind=message.kind,
                text=message.words,
                message_id=message.message_id,
                file=message.file,
            ),
        )

    def edited(self, chat: Chat, message: PhoneMessage, way: Way) -> None:
        """Dates and records a change that was made to `message`."""
        message.edited_at = self.now()
        self._record(
            chat,
            Entry(
                at=message.edited_at,
                user_id=chat.chat_id,
                way=way,
                kind="edit",
                text=message.words,
                buttons=message.labels,
                silent=True,
                message_id=message.message_id,
                file=message.file,
            ),
        )

    def delete(self, chat: Chat, message: PhoneMessage, way: Way) -> None:
        """Takes `message` off both sides; a keyboard goes with the message that brought it."""
        message.deleted = True
        del chat.messages[message.message_id]
        if isinstance(chat, PrivateChat) and chat.keyboard_from == message.message_id:
            chat.drop_keyboard()
        self._record(
            chat,
            Entry(
                at=self.now(),
                user_id=chat.chat_id,
                way=way,
                kind="delete",
                text=message.words,
                silent=True,
                message_id=message.message_id,
            ),
        )

    def toast(self, chat: PrivateChat, text: str, alert: bool) -> None:
        """Words that show for a moment over the screen."""
        chat.toasts.append((self.now(), text, alert))
        self._record(chat, Entry(at=self.now(), user_id=chat.chat_id, way="out", kind="toast", text=text, silent=True))

    def pressed(self, chat: PrivateChat, message_id: int, label: str, data: str) -> None:
        """Records that a person pressed a button."""
        self._record(
            chat,
            Entry(
                at=self.now(),
                user_id=chat.chat_id,
                way="in",
                kind="press",
                text=label,
                message_id=message_id,
                data=data,
            ),
        )

    def _record(self, chat: Chat, entry: Entry) -> None:
        """Only what a phone of the rehearsal showed or did is told; a group has none."""
        if isinstance(chat, PrivateChat):
            self.entries.append(entry)
            self.changes.ring()
