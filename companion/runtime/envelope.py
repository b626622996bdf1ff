"""From a row written down to a request: whose chat, and whether a card changes in place or is sent new."""

from dataclasses import dataclass
from typing import Protocol

from companion.core.effects import Put
from companion.core.media import Filed, Medium, Recorded, medium
from companion.core.person import Person
from companion.runtime.transport import File, Op, Outgoing, fits_caption
from companion.store import CardRow, MediaRow, OutboxRow


class Phones(Protocol):
    """What is known of the phones. Both sides of the store offer it."""

    async def person(self, person_id: str) -> Person | None: ...

    async def card(self, person_id: str, card: str) -> CardRow | None: ...

    async def last_message(self, person_id: str) -> int | None: ...

    async def media(self, key: str) -> MediaRow | None: ...


@dataclass(frozen=True, slots=True)
class NoChat:
    """The person is not in the chat: never joined, or unknown."""


@dataclass(frozen=True, slots=True)
class NothingToDo:
    """There are no buttons to take off any more, or nothing to copy."""


@dataclass(frozen=True, slots=True)
class NoSound:
    """The sound can not be had, and the words are about it."""


async def outgoing(phones: Phones, row: OutboxRow) -> Outgoing | NoChat | NothingToDo | NoSound:
    """The request for a row, as the phone stands now."""
    person = await phones.person(row.person_id)
    if person is None or person.user_id is None:
        return NoChat()
    chat_id = person.user_id  # in a private chat, the only kind there is, the chat has its user's number
    if row.clears:
        message_id = row.message_id or await _card_with_buttons(phones, row)
        return NothingToDo() if message_id is None else Outgoing(Op.CLEAR, chat_id, message_id=message_id)
    if row.copy_of is not None:
        return await _copy(phones, row, chat_id)
    if row.photo is not None:
        file: File | None = _drawn(row, row.photo)
    else:
        file = await _file(phones, row)
        if file is None and must_sound(row):
            return NoSound()
    there = await card_in_place(phones, row.person_id, row.card) if row.put is Put.IN_PLACE and row.photo is None else None
    change = _change(row, file, there) if there is not None else None
    if there is not None and change is not None:
        along = file if change is Op.SWAP else None
        return Outgoing(change, chat_id, row.text, row.buttons, message_id=there.message_id, file=along)
    if file is not None:
        return Outgoing(Op.FILE, chat_id, row.text, row.buttons, silent=row.silent, file=file)
    return Outgoing(Op.TEXT, chat_id, row.text, row.buttons, _layout(row.fixed_row), silent=row.silent)


async def card_in_place(phones: Phones, person_id: str, card: str | None) -> CardRow | None:
    """A card, if its message can be edited and nothing has come after it in that chat."""
    known = await phones.card(person_id, card) if card is not None else None
    if known is None or not known.editable or await phones.last_message(person_id) != known.message_id:
        return None
    return known


def words_on(card: CardRow) -> Op:
    """How the words of a card are changed."""
    return Op.EDIT if card.form is None else Op.CAPTION


def must_sound(row: OutboxRow) -> bool:
    """Whether a message is about a sound of ours, so that its words alone would be wrong."""
    return row.media is not None and not isinstance(row.media, Recorded) and medium(row.media) is Medium.VOICE


def _drawn(row: OutboxRow, content: bytes) -> File:
    """What was drawn for this row alone: a picture, or a document with a name."""
    if isinstance(row.media, Filed):
        return File(Medium.DOCUMENT, content, row.media.name)
    return File(Medium.PHOTO, content)


async def _file(phones: Phones, row: OutboxRow) -> File | None:
    """What goes with the words, if it can be had and may. Words that are too long for a caption go alone."""
    if row.media is None or not fits_caption(row.text):
        return None
    if isinstance(row.media, Recorded):
        return File(row.media.medium, row.media.file_id)
    made = await phones.media(row.media_key) if row.media_key is not None else None
    content = (made.file_id or made.data) if made is not None else None
    return File(medium(row.media), content) if content is not None else None


def _change(row: OutboxRow, file: File | None, there: CardRow) -> Op | None:
    """How a card becomes what the row says; None: it can not, and is sent new.

    A sound is always new. Words never stand under another picture than theirs, nor beside a file if they are too long.
    """
    if file is not None and file.medium is Medium.VOICE:
        return None
    if there.form is not None and not fits_caption(row.text):
        return None
    if row.media_key is None or (there.form is not None and there.media == row.media_key):
        return words_on(there)
    if file is not None:
        return None if there.form is Medium.VOICE else Op.SWAP
    return Op.EDIT if there.form is None else None


async def _card_with_buttons(phones: Phones, row: OutboxRow) -> int | None:
    known = await phones.card(row.person_id, row.card) if row.card is not None else None
    return known.message_id if known is not None and known.has_buttons else None


async def _copy(phones: Phones, row: OutboxRow, chat_id: int) -> Outgoing | NothingToDo:
    source = await phones.person(row.copy_from) if row.copy_from is not None else None
    if source is None or source.user_id is None:
        return NothingToDo()
    return Outgoing(Op.COPY, chat_id, message_id=row.copy_of, silent=row.silent, from_chat=source.user_id)


def _layout(labels: tuple[str, ...]) -> tuple[tuple[str, ...], ...]:
    """The fixed row on the screen: the most urgent control across the whole width, the others below it."""
    return (labels[:1], labels[1:]) if len(labels) > 1 else (labels,) if labels else ()
