"""Chats as the platform remembers them: their messages now, a phone's keyboard, who blocked the bot."""

from dataclasses import dataclass, field
from datetime import datetime
from typing import Any, Literal

from .files import StoredFile

MessageKind = Literal["text", "photo", "voice", "video", "animation", "document"]


@dataclass(frozen=True)
class Button:
    """A button under a message: what it says, what a press sends back; `url` instead of data for a link."""

    label: str
    data: str | None = None
    url: str | None = None


Rows = tuple[tuple[Button, ...], ...]


@dataclass(frozen=True)
class Keyboard:
    """A reply keyboard, the fixed row at the bottom of the screen: labels by row."""

    rows: tuple[tuple[str, ...], ...]
    persistent: bool = False
    resized: bool = False
    once: bool = False


@dataclass
class PhoneMessage:
    """One message as it stands on the phone now.

    `text` for a text, `caption` for the others; `media` what came with it; `deleted` is set on the object
    that somebody still holds; not `editable`: it carries a reply keyboard or takes one away. `sender` is the
    wire object of a person who wrote it.
    """

    message_id: int
    at: datetime
    from_bot: bool
    kind: MessageKind = "text"
    text: str = ""
    caption: str = ""
    media: StoredFile | None = None
    buttons: Rows = ()
    silent: bool = False
    edited_at: datetime | None = None
    deleted: bool = False
    editable: bool = True
    sender: dict[str, Any] | None = field(default=None, repr=False)

    @property
    def words(self) -> str:
        """The text or the caption."""
        return self.text or self.caption

    @property
    def photo(self) -> bytes | None:
        """The picture, if it is one."""
        return self.media.content if self.media is not None and self.kind == "photo" else None

    @property
    def file(self) -> bytes | None:
        """What came with the message, of whatever kind."""
        return self.media.content if self.media is not None else None

    @property
    def labels(self) -> tuple[tuple[str, ...], ...]:
        """What the buttons say, by row."""
        return tuple(tuple(button.label for button in row) for row in self.buttons)


@dataclass
class Chat:
    """What a private chat and a group share: an id and the messages that are there now, oldest first."""

    chat_id: int
    messages: dict[int, PhoneMessage] = field(default_factory=dict, repr=False)

    def wire(self) -> dict[str, Any]:
        """The `chat` object of a message."""
        raise NotImplementedError


@dataclass
class PrivateChat(Chat):
    """One person's chat with the bot; the chat's id is the user's."""

    first_name: str = ""
    username: str | None = None
    language_code: str = "en"
    started: bool = False
    blocked: bool = False
    keyboard: Keyboard | None = None
    keyboard_from: int | None = None
    toasts: list[tuple[datetime, str, bool]] = field(default_factory=list)

    def wire(self) -> dict[str, Any]:
        name = {"username": self.username} if self.username else {}
        return {"id": self.chat_id, "type": "private", "first_name": self.first_name, **name}

    def user(self) -> dict[str, Any]:
        """The `user` object of the person."""
        name = {"username": self.username} if self.username else {}
        return {
            "id": self.chat_id,
            "is_bot": False,
            "first_name": self.first_name,
            **name,
            "language_code": self.language_code,
        }

    def drop_keyboard(self) -> None:
        self.keyboard, self.keyboard_from = None, None


@dataclass
class GroupChat(Chat):
    """A group; the bot may have been added."""

    title: str = ""
    bot_is_in: bool = False

    def wire(self) -> dict[str, Any]:
        return {
            "id": self.chat_id,
            "type": "group",
            "title": self.title,
        }
