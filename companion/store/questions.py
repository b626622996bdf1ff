"""What both sides ask: the writing side in the middle of its transaction, the reading side of its snapshot."""

from collections import OrderedDict
from collections.abc import Mapping, Sequence
from dataclasses import fields, replace
from sys import intern
from typing import Any

from sqlalchemy import Connection, Row, Select, bindparam, select

from companion.core.care import Client
from companion.core.effects import ClientId, PersonId, Words
from companion.core.media import Medium, Recorded
from companion.core.person import Person
from companion.core.steps import BoutSpec, Choice, Script, Step
from companion.store import schema
from companion.store.columns import outbox_row
from companion.store.records import Records
from companion.store.rows import CardRow, MediaRow, MediaState, OutboxRow

ScriptName = tuple[ClientId, str]
"""Whose script, and its id among theirs."""

SCRIPTS_KEPT = 512
"""More than the stated capacity of 350 live sessions."""

PARTS_KNOWN = 20_000
"""With more parts of scripts than this in memory, it begins to learn them anew."""

# Statements are built once: building one costs more than executing it.
CLIENT = select(schema.client).where(schema.client.c.id == bindparam("id"))
PERSON = select(schema.person).where(schema.person.c.id == bindparam("id"))
PERSON_BY_USER = select(schema.person).where(schema.person.c.user_id == bindparam("user_id"))
_SCRIPT = select(schema.script.c.record).where(
    schema.script.c.client_id == bindparam("client"), schema.script.c.id == bindparam("id")
)
_OUTBOX = select(schema.outbox).where(schema.outbox.c.id == bindparam("id"))
_CARD = select(schema.card).where(schema.card.c.person_id == bindparam("person"), schema.card.c.card == bindparam("card"))
_LAST_MESSAGE = select(schema.last_message.c.message_id).where(schema.last_message.c.person_id == bindparam("person"))
_MEDIA = select(schema.media).where(schema.media.c.key == bindparam("key"))
_MEDIA_STATE = select(schema.media.c.state).where(schema.media.c.key == bindparam("key"))
_OFFSET = select(schema.update_offset.c.next)


class Scripts:
    """The scripts of the sessions under way, as far as they were needed lately. Scripts never change.

    A script has some thousand parts, most of them the same as in other scripts: what is equal is kept once. That takes a
    few milliseconds when a session starts, and leaves a fifth of the memory.
    """

    def __init__(self) -> None:
        self._kept: OrderedDict[ScriptName, Script] = OrderedDict()
        self._parts: dict[object, Any] = {}

    def get(self, name: ScriptName) -> Script | None:
        """The script, if it is kept."""
        script = self._kept.get(name)
        if script is not None:
            self._kept.move_to_end(name)
        return script

    def keep(self, name: ScriptName, script: Script) -> Script:
        """Keep a script that is in the database, and give it back as it is kept. The one not needed for longest gives way."""
        if len(self._parts) > PARTS_KNOWN:
            self._parts.clear()
        kept = self._kept[name] = replace(script, steps=tuple(self._lean(step) for step in script.steps))
        self._kept.move_to_end(name)
        if len(self._kept) > SCRIPTS_KEPT:
            self._kept.popitem(last=False)
        return kept

    def drop(self, name: ScriptName) -> None:
        """The session is over."""
        self._kept.pop(name, None)

    def _lean(self, step: Step) -> Step:
        return replace(step, **{field.name: self._known(getattr(step, field.name)) for field in fields(step)})

    def _known(self, part: Any) -> Any:
        """The same part as it is known already, with all that is in it."""
        if type(part) is str:
            return intern(part)
        if not isinstance(part, tuple | Words | Choice | BoutSpec):
            return part
        known = self._parts.get(part)
        if known is None:
            if isinstance(part, tuple):
                known = tuple(self._known(one) for one in part)
            else:
                known = replace(part, **{field.name: self._known(getattr(part, field.name)) for field in fields(part)})
            self._parts[known] = known
        return known


class Questions:
    """Questions that both sides ask, over one connection in a transaction."""

    _CLIENT: Select[Any] = CLIENT
    _PERSON: Select[Any] = PERSON
    _PERSON_BY_USER: Select[Any] = PERSON_BY_USER

    def __init__(self, connection: Connection, records: Records, scripts: Scripts) -> None:
        self._connection = connection
        self._records = records
        self._scripts = scripts

    async def _rows(self, statement: Select[Any], values: Mapping[str, Any]) -> Sequence[Row[Any]]:
        rows: Sequence[Row[Any]] = self._connection.execute(statement, values).all()
        return rows

    async def _first(self, statement: Select[Any], **values: Any) -> Row[Any] | None:
        rows = await self._rows(statement, values)
        return rows[0] if rows else None

    async def client(self, client_id: ClientId) -> Client | None:
        """The client; in a writing transaction locked until its end."""
        found = await self._first(self._CLIENT, id=client_id)
        return None if found is None else await self._client(found)

    async def person(self, person_id: PersonId) -> Person | None:
        """The person; in a writing transaction locked until its end."""
        found = await self._first(self._PERSON, id=person_id)
        return None if found is None else self._person(found)

    async def person_by_user(self, user_id: int) -> Person | None:
        """Who this user id of the platform is; in a writing transaction locked until its end."""
        found = await self._first(self._PERSON_BY_USER, user_id=user_id)
        return None if found is None else self._person(found)

    async def outbox(self, row_id: int) -> OutboxRow | None:
        """One message as it stands."""
        found = await self._first(_OUTBOX, id=row_id)
        return None if found is None else outbox_row(found, self._records)

    async def card(self, person_id: PersonId, card: str) -> CardRow | None:
        """The newest message on that card of that phone."""
        found = await self._first(_CARD, person=person_id, card=card)
        if found is None:
            return None
        form = Medium(found.form) if found.form is not None else None
        return CardRow(person_id, card, found.message_id, found.has_buttons, found.editable, form, found.media)

    async def last_message(self, person_id: PersonId) -> int | None:
        """The newest message in that person's chat, either way."""
        found = await self._first(_LAST_MESSAGE, person=person_id)
        return None if found is None else int(found.message_id)

    async def media(self, key: str) -> MediaRow | None:
        """A picture or a sound that we make, by its name."""
        found = await self._first(_MEDIA, key=key)
        return None if found is None else self._media(found)

    async def is_wanted(self, row: OutboxRow) -> bool:
        """Whether what goes with this message is still to be made."""
        if row.media is None or isinstance(row.media, Recorded):
            return False
        found = await self._first(_MEDIA_STATE, key=row.media_key)
        return found is not None and found.state == MediaState.WANTED

    async def offset(self) -> int | None:
        """The id of the next update to fetch; None before the first."""
        found = await self._first(_OFFSET)
        return None if found is None else int(found.next)

    async def _client(self, found: Row[Any]) -> Client:
        script = None if found.script_id is None else await self._script((found.id, found.script_id))
        return self._records.client(found.record, script, f"the record of client {found.id}")

    def _person(self, found: Row[Any]) -> Person:
        return self._records.person(found.record, f"the record of person {found.id}")

    def _media(self, found: Row[Any]) -> MediaRow:
        made = self._records.made(found.record, f"the file {found.key}")
        return MediaRow(found.key, made, found.language, MediaState(found.state), found.data, found.file_id)

    async def _script(self, name: ScriptName) -> Script | None:
        script = self._scripts.get(name)
        if script is None:
            found = await self._first(_SCRIPT, client=name[0], id=name[1])
            if found is not None:
                script = self._records.script(found.record, f"the script {name[1]} of client {name[0]}")
                script = self._scripts.keep(name, script)
        return script
