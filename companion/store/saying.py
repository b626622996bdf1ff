"""The writing side of what is to be said: messages, what goes with them, where they stand, and what stands on the phones."""

from dataclasses import asdict
from datetime import datetime, timedelta
from hashlib import sha256
from typing import Any

from sqlalchemy import and_, bindparam, case, insert, or_, update

# SQLite's own insert, for "on conflict"; PostgreSQL's has the same form.
from sqlalchemy.dialects.sqlite import insert as upsert

from companion.core.effects import ClientId, PersonId
from companion.core.media import Media, Recorded
from companion.store import schema
from companion.store.collecting import Collecting
from companion.store.columns import outbox_columns
from companion.store.rows import CardRow, MediaState, OutboxRow, OutboxState
from companion.store.schema import WAITS, WANTED, media, outbox

FAILED_FOR = timedelta(hours=1)
"""What could not be made is tried again when it is wanted so much later."""

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
    set_={name: _card.excluded[name] for name in ("message_id", "has_buttons", "editable", "form", "media")},
)
_last = upsert(schema.last_message)
_SET_LAST_MESSAGE = _last.on_conflict_do_update(
    index_elements=["person_id"],
    set_={"message_id": _last.excluded.message_id},
    where=_last.excluded.message_id > schema.last_message.c.message_id,
)

_want = upsert(media)
_WANT = _want.on_conflict_do_update(
    index_elements=["key"],
    set_={name: _want.excluded[name] for name in ("state", "ahead", "wanted_at")},
    where=or_(
        and_(WANTED, media.c.ahead, ~_want.excluded.ahead),
        and_(media.c.state == MediaState.FAILED.value, media.c.wanted_at <= bindparam("b_long_ago")),
    ),
)
_SET_MEDIA = update(media).where(media.c.key == bindparam("b_key"))


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
        self._later(_SET_CARD, {**asdict(row), "form": row.form.value if row.form is not None else None})

    async def set_last_message(self, person_id: PersonId, message_id: int) -> None:
        """Remember a message of that chat. An older one than remembered changes nothing."""
        self._later(_SET_LAST_MESSAGE, {"person_id": person_id, "message_id": message_id})

    # what goes with the words

    async def want(self, wanted: Media, language: str, edition: str, at: datetime, *, ahead: bool = False) -> tuple[str, bool]:
        """Have this made, if that was never asked for; its name, and whether there is something to make.

        Files of another `edition` are other files. What failed at most an hour ago is not tried again.
        """
        record = self._records.dump(wanted)
        key = sha256(f"{edition} {language} {record}".encode()).hexdigest()
        if isinstance(wanted, Recorded):
            return key, False
        values = {"key": key, "record": record, "language": language, "state": MediaState.WANTED.value, "ahead": ahead}
        return key, await self._count(_WANT, {**values, "wanted_at": at, "b_long_ago": at - FAILED_FOR}) > 0

    async def set_made(self, key: str, data: bytes | None) -> None:
        """It is made; None: it can not be."""
        self._set_media(key, MediaState.FAILED if data is None else MediaState.MADE, data=data)

    async def set_file_id(self, key: str, file_id: str) -> None:
        """The platform has it and calls it this; the bytes are of no more use."""
        self._set_media(key, MediaState.MADE, data=None, file_id=file_id)

    async def want_again(self, key: str, at: datetime) -> None:
        """The platform no longer knows it: it has to be made again."""
        self._set_media(key, MediaState.WANTED, data=None, file_id=None, ahead=False, wanted_at=at)

    async def leave_out(self, row_id: int) -> None:
        """This message goes without its picture. Its name stays, for it says that another picture would be wrong."""
        self._later(_SET, {"b_id": row_id, "media": None})

    def _set_media(self, key: str, state: MediaState, **values: Any) -> None:
        self._later(_SET_MEDIA, {"b_key": key, "state": state.value, **values})

    def _set_outbox(self, row_id: int, state: OutboxState, **values: Any) -> None:
        self._later(_SET, {"b_id": row_id, "state": state.value, **values})
