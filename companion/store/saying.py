"""The writing side of what is to be said: messages, where they stand, and what stands on the phones."""

from dataclasses import asdict
from datetime import datetime
from typing import Any

from sqlalchemy import bindparam, case, insert, update

# SQLite's own insert, for "on conflict"; PostgreSQL's has the same form.
from sqlalchemy.dialects.sqlite import insert as upsert

from companion.core.effects import ClientId, PersonId
from companion.store import schema
from companion.store.collecting import Collecting
from companion.store.columns import outbox_columns
from companion.store.rows import CardRow, OutboxRow, OutboxState
from companion.store.schema import WAITS, outbox

_INSERT = insert(outbox)
_ON_WIRE = (
    update(outbox)
    .where(outbox.c.id == bindparam("b_id"), WAITS)
    .values(state=OutboxState.ON_WIRE.value, attempts=outbox.c.attempts + 1)
)
_SET = update(outbox).where(outbox.c.id == bindparam("b_id"))
_FORGET = update(outbox).where(outbox.c.id == bindparam("b_id"), outbox.c.secret).values(text="", photo=None)
_TAKE_BACK = (
    update(outbox)
    .where(outbox.c.client_id == bindparam("b_client"), outbox.c.topic == bindparam("b_topic"), WAITS)
    .values(
        state=OutboxState.TAKEN_BACK.value,
        text=case((outbox.c.secret, ""), else_=outbox.c.text),
        photo=case((outbox.c.secret, None), else_=outbox.c.photo),
    )
)
_TAKE_BACK_FROM_ONE = _TAKE_BACK.where(outbox.c.person_id == bindparam("b_person"))

_card = upsert(schema.card)
_SET_CARD = _card.on_conflict_do_update(
    index_elements=["person_id", "card"],
    set_={name: _card.excluded[name] for name in ("message_id", "has_buttons", "editable")},
)
_last = upsert(schema.last_message)
_SET_LAST_MESSAGE = _last.on_conflict_do_update(
    index_elements=["person_id"],
    set_={"message_id": _last.excluded.message_id},
    where=_last.excluded.message_id > schema.last_message.c.message_id,
)


class Saying(Collecting):
    """The part of a writing transaction that is about messages."""

    async def put_outbox(self, row: OutboxRow) -> int:
        """Write a message down, to be sent; its id. Ids only rise."""
        return await self._insert(_INSERT, outbox_columns(row, self._records))

    async def take_back(self, client_id: ClientId, topic: str, to: PersonId | None = None) -> int:
        """Take back what waits on a topic of a client, for one person or all; how many. What is on the wire stays."""
        values = {"b_client": client_id, "b_topic": topic}
        if to is None:
            return await self._count(_TAKE_BACK, values)
        return await self._count(_TAKE_BACK_FROM_ONE, {**values, "b_person": to})

    async def set_on_wire(self, row_id: int) -> bool:
        """Mark a waiting message as on the wire, and count the attempt; False if it no longer waits (taken back)."""
        return await self._count(_ON_WIRE, {"b_id": row_id}) == 1

    async def set_waiting(self, row_id: int, try_after: datetime | None = None) -> None:
        """Put a message that was on the wire back to wait, until `try_after` at the earliest."""
        self._set_outbox(row_id, OutboxState.WAITING, try_after=try_after)

    async def set_sent(self, row_id: int, message_id: int | None, sent_at: datetime) -> None:
        """The platform took it. `message_id` None where there is none to name (buttons taken off)."""
        self._set_outbox(row_id, OutboxState.SENT, message_id=message_id, sent_at=sent_at)
        self._later(_FORGET, {"b_id": row_id})

    async def set_lost(self, row_id: int) -> None:
        """It was not, or perhaps not, taken, and will not be tried again."""
        self._set_outbox(row_id, OutboxState.LOST)
        self._later(_FORGET, {"b_id": row_id})

    async def set_card(self, row: CardRow) -> None:
        """Put a message on a card, in place of the one before."""
        self._later(_SET_CARD, asdict(row))

    async def set_last_message(self, person_id: PersonId, message_id: int) -> None:
        """Remember a message of that chat. An older one than remembered changes nothing."""
        self._later(_SET_LAST_MESSAGE, {"person_id": person_id, "message_id": message_id})

    def _set_outbox(self, row_id: int, state: OutboxState, **values: Any) -> None:
        self._later(_SET, {"b_id": row_id, "state": state.value, **values})
