"""A person's phone: what is on it, and what its owner can do with it. Nobody can press what is not there."""

import re
from datetime import datetime
from typing import Any

from .chats import Button, PhoneMessage, PrivateChat
from .files import FileKind
from .platform import Platform
from .wire import message_wire, seconds, vanished_wire

PAYLOAD = re.compile(r"[A-Za-z0-9_-]*")


class NotOnThePhone(Exception):
    """What somebody wanted to press, change or read is not on that phone now."""


class Phone:
    """One person's phone. Its acts return the number of the update that they caused."""

    def __init__(self, platform: Platform, chat: PrivateChat) -> None:
        self._platform = platform
        self._chat = chat

    @property
    def user_id(self) -> int:
        """The user's id, which is also the chat's."""
        return self._chat.chat_id

    @property
    def first_name(self) -> str:
        return self._chat.first_name

    def user(self) -> dict[str, Any]:
        """The person as the bot is told of them."""
        return self._chat.user()

    @property
    def messages(self) -> list[PhoneMessage]:
        """What is in the chat now, oldest first."""
        return list(self._chat.messages.values())

    @property
    def fixed_row(self) -> tuple[tuple[str, ...], ...]:
        """The labels of the reply keyboard by row; () if there is none."""
        return self._chat.keyboard.rows if self._chat.keyboard is not None else ()

    @property
    def fixed_row_stays(self) -> bool:
        """Whether the keyboard was sent to stay (`is_persistent`)."""
        return self._chat.keyboard is not None and self._chat.keyboard.persistent

    @property
    def toasts(self) -> list[tuple[datetime, str, bool]]:
        """The answers to presses that showed words: when, what, whether as an alert."""
        return list(self._chat.toasts)

    @property
    def started(self) -> bool:
        return self._chat.started

    @property
    def blocked(self) -> bool:
        return self._chat.blocked

    def message(self, message_id: int) -> PhoneMessage:
        """The message with that id; NotOnThePhone if it is not there."""
        found = self._chat.messages.get(message_id)
        if found is None:
            raise NotOnThePhone(f"{self.first_name}: no message {message_id}. {self.what_is_on_it()}")
        return found

    def what_is_on_it(self) -> str:
        """The buttons that can be pressed now, in words, for an error or a transcript."""
        inline = [
            f"{m.message_id}: {' / '.join(b.label for row in m.buttons for b in row)}" for m in self.messages if m.buttons
        ]
        row = " / ".join(label for labels in self.fixed_row for label in labels)
        return f"On the phone now: {'; '.join(inline) or 'no buttons'}. Fixed row: {row or 'none'}."

    def start(self, payload: str = "") -> int:
        """Opens the bot's chat, by a link if it has a `payload`, and presses Start; lifts a block."""
        longest = self._platform.limits.start_payload
        if not PAYLOAD.fullmatch(payload) or (longest is not None and len(payload) > longest):
            raise ValueError(f"a start link carries up to {longest} of A-Z a-z 0-9 _ -, not {payload!r}")
        if self._chat.blocked:
            self.unblock()
        self._chat.started = True
        return self._say(PhoneMessage(0, self._platform.now(), False, text=f"/start {payload}".strip()))

    def type(self, text: str) -> int:
        """Types and sends a text."""
        self._must_be_open()
        longest = self._platform.limits.text
        if not text.strip() or (longest is not None and len(text) > longest):
            raise ValueError(f"a person sends 1 to {longest} characters")
        return self._say(PhoneMessage(0, self._platform.now(), False, text=text.strip()))

    def send_photo(self, content: bytes, caption: str = "") -> int:
        """Sends a picture."""
        return self._send("photo", content, caption, 0)

    def send_voice(self, content: bytes, seconds: int = 3) -> int:
        """Sends a voice note of that length."""
        return self._send("voice", content, "", seconds)

    def send_video(self, content: bytes, seconds: int = 3, caption: str = "") -> int:
        """Sends a clip of that length."""
        return self._send("video", content, caption, seconds)

    def edit(self, message_id: int, text: str) -> int:
        """Changes a text that this person sent."""
        self._must_be_open()
        message = self.message(message_id)
        if message.from_bot or message.kind != "text":
            raise NotOnThePhone(f"{self.first_name}: message {message_id} is no text of their own")
        message.text = text
        self._platform.edited(self._chat, message, "in")
        wire = message_wire(self._platform, self._chat, message)
        return self._platform.updates.add("edited_message", wire, self._platform.limits.message_life)

    def delete(self, message_id: int) -> None:
        """Takes a message away, here and for the bot, which is not told."""
        self._platform.delete(self._chat, self.message(message_id), "in")

    def press(self, label: str, message_id: int | None = None) -> int:
        """Presses what says `label`: under that message, else under the newest that has it, else in the fixed
        row.
        """
        self._must_be_open()
        candidates = [self.message(message_id)] if message_id is not None else self._chat.messages.values()
        for message in reversed(list(candidates)):
            for button in (button for row in message.buttons for button in row if button.label == label):
                return self._press(message, button)
        if message_id is None and any(label in row for row in self.fixed_row):
            return self.press_fixed(label)
        where = "" if message_id is None else f" under message {message_id}"
        raise NotOnThePhone(f"{self.first_name}: nothing says {label!r}{where}. {self.what_is_on_it()}")

    def press_fixed(self, label: str) -> int:
        """Presses a key of the fixed row, which sends its label as a text."""
        self._must_be_open()
        keyboard = self._chat.keyboard
        if keyboard is None or not any(label in row for row in keyboard.rows):
            raise NotOnThePhone(f"{self.first_name}: {label!r} is not in the fixed row. {self.what_is_on_it()}")
        if keyboard.once:
            self._chat.drop_keyboard()
        return self._say(PhoneMessage(0, self._platform.now(), False, text=label))

    def stale_press(self, message_id: int, data: str) -> int:
        """A press on a button that is there no longer, as a slow phone or a doubled tap sends it."""
        message = self._chat.messages.get(message_id)
        buttons = [button for row in message.buttons for button in row] if message is not None else []
        label = next((button.label for button in buttons if button.data == data), "(an old button)")
        return self._callback(message_id, label, data)

    def block(self) -> int:
        """Blocks the bot."""
        self._chat.blocked = True
        return self._membership("member", "kicked")

    def unblock(self) -> int:
        """Lifts the block."""
        self._chat.blocked = False
        return self._membership("kicked", "member")

    def _must_be_open(self) -> None:
        if not self._chat.started:
            raise NotOnThePhone(f"{self.first_name} has not pressed Start yet")
        if self._chat.blocked:
            raise NotOnThePhone(f"{self.first_name} has blocked the bot")

    def _send(self, kind: FileKind, content: bytes, caption: str, length: int) -> int:
        self._must_be_open()
        media = self._platform.files.store(kind, content, self._platform.limits, seconds=length)
        return self._say(PhoneMessage(0, self._platform.now(), False, kind=media.kind, caption=caption, media=media))

    def _say(self, message: PhoneMessage) -> int:
        message.message_id = self._platform.next_message_id()
        self._platform.arrived(self._chat, message)
        wire = message_wire(self._platform, self._chat, message)
        return self._platform.updates.add("message", wire, self._platform.limits.message_life)

    def _press(self, message: PhoneMessage, button: Button) -> int:
        if button.data is None:
            raise NotOnThePhone(f"{self.first_name}: {button.label!r} opens a link and tells the bot nothing")
        return self._callback(message.message_id, button.label, button.data)

    def _callback(self, message_id: int, label: str, data: str) -> int:
        platform, message = self._platform, self._chat.messages.get(message_id)
        platform.pressed(self._chat, message_id, label, data)
        wire: dict[str, Any] = {
            "id": platform.expect_answer(self.user_id),
            "from": self._chat.user(),
            "message": vanished_wire(self._chat, message_id)
            if message is None
            else message_wire(platform, self._chat, message),
            "chat_instance": str(-7_310_000_000_000_000_000 - self.user_id),
            "data": data,
        }
        return platform.updates.add("callback_query", wire, platform.limits.press_life)

    def _membership(self, old: str, new: str) -> int:
        body = {
            "chat": self._chat.wire(),
            "from": self._chat.user(),
            "date": seconds(self._platform.now()),
            "old_chat_member": member_wire(self._platform, old),
            "new_chat_member": member_wire(self._platform, new),
        }
        return self._platform.updates.add("my_chat_member", body, self._platform.limits.message_life)


def member_wire(platform: Platform, status: str) -> dict[str, Any]:
    """The bot as a ChatMember; somebody kicked is so until a date, 0 for ever."""
    until = {"until_date": 0} if status == "kicked" else {}
    return {"user": platform.bot, "status": status, **until}
