"""From a row written down to a request: whose chat, and whether a card changes in place or is sent new."""

from dataclasses import dataclass
from typing import Protocol

from companion.core.effects import Put
from companion.core.person import Person
from companion.runtime.transport import Op, Outgoing
from companion.store import CardRow, OutboxRow


class Phones(Protocol):
    """What is known of the phones. Both sides of the store offer it."""

    async def person(self, person_id: str) -> Person | None: ...

    async def card(self, person_id: str, card: str) -> CardRow | None: ...

    async def last_message(self, person_id: str) -> int | None: ...


@dataclass(frozen=True, slots=True)
class NoChat:
    """The person is not in the chat: never joined, or unknown."""


@dataclass(frozen=True, slots=True)
class NothingToDo:
    """There are no buttons to take off any more, or nothing to copy."""


async def outgoing(phones: Phones, row: OutboxRow) -> Outgoing | NoChat | NothingToDo:
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
        return Outgoing(Op.PHOTO, chat_id, row.text, row.buttons, silent=row.silent, photo=row.photo)
    message_id = await card_in_place(phones, row.person_id, row.card) if row.put is Put.IN_PLACE else None
    if message_id is not None:
        return Outgoing(Op.EDIT, chat_id, row.text, row.buttons, message_id=message_id)
    return Outgoing(Op.TEXT, chat_id, row.text, row.buttons, _layout(row.fixed_row), silent=row.silent)


async def card_in_place(phones: Phones, person_id: str, card: str | None) -> int | None:
    """The message of a card, if it can be edited and nothing has come after it in that chat."""
    known = await phones.card(person_id, card) if card is not None else None
    if known is None or not known.editable or await phones.last_message(person_id) != known.message_id:
        return None
    return known.message_id


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
