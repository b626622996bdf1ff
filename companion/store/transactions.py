"""The writing side: everything that one event changes, in one transaction."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from typing import Any

from sqlalchemy import Connection, Row, and_, bindparam, delete, insert, or_, select, update
from sqlalchemy.dialects.sqlite import insert as upsert

from companion.core.care import Client
from companion.core.caseload import Look
from companion.core.effects import ClientId, Effect, PersonId, Report, Subject
from companion.core.events import Event
from companion.core.observations import Observation
from companion.core.person import Part, Person
from companion.core.steps import Script
from companion.store import schema
from companion.store.errors import AlreadyHandled, AlreadyThere
from companion.store.questions import CLIENT, PERSON, PERSON_BY_USER, ScriptName, Scripts
from companion.store.records import Records
from companion.store.rows import DigestRow, LinkState, LinkUse, PassRow, ReportState
from companion.store.saying import Saying
from companion.store.schema import (
    caseload,
    client,
    digest_request,
    journal,
    link,
    passes,
    person,
    report_request,
    script,
    therapist,
)

_HANDLED = select(journal.c.key).where(journal.c.key == bindparam("key"))
_CLIENT_HELD = select(client.c.version, client.c.script_id).where(client.c.id == bindparam("id")).with_for_update()
_PERSON_HELD = select(person.c.version).where(person.c.id == bindparam("id")).with_for_update()
_NEXT_PASS = select(passes).order_by(passes.c.id).limit(1)
_LINK = select(link).where(link.c.hash == bindparam("hash")).with_for_update()

_INSERT_JOURNAL = insert(journal)
_INSERT_CLIENT = insert(client)
_INSERT_PERSON = insert(person)
_INSERT_SCRIPT = insert(script)
_INSERT_OBSERVATION = insert(schema.observation)
_INSERT_PASS = insert(passes)
_INSERT_REPORT = insert(report_request)
_INSERT_DIGEST = insert(digest_request)
_INSERT_LINK = insert(link)

_SAVE_CLIENT = update(client).where(client.c.id == bindparam("b_id"))
_SAVE_PERSON = update(person).where(person.c.id == bindparam("b_id"))
_POSTPONE = {
    table.name: update(table)
    .where(table.c.id == bindparam("b_id"))
    .values(wake_at=bindparam("b_until"), version=table.c.version + 1)
    .returning(table.c.version)
    for table in (client, person)
}
_DROP_SCRIPT = delete(script).where(script.c.client_id == bindparam("b_client"), script.c.id == bindparam("b_id"))
_PASS_DONE = delete(passes).where(passes.c.id == bindparam("b_id"))
_SET_DIGEST = update(digest_request).where(digest_request.c.id == bindparam("b_id"))
_SET_REPORT = update(report_request).where(report_request.c.id == bindparam("b_id"))
_USE_LINK = update(link).where(link.c.hash == bindparam("b_hash"))
_CLOSE_LINKS = (
    update(link)
    .where(link.c.person_id == bindparam("b_person"), link.c.used_at.is_(None), link.c.expires_at > bindparam("b_now"))
    .values(expires_at=bindparam("b_now"))
)

_line = upsert(caseload)
_SET_LINE = _line.on_conflict_do_update(
    index_elements=["client_id", "person_id"],
    set_={name: _line.excluded[name] for name in ("rank", "name", "reasons")},
    where=or_(*(caseload.c[name] != _line.excluded[name] for name in ("rank", "name", "reasons"))),
)
_WITHOUT = and_(
    caseload.c.client_id == bindparam("b_client"), caseload.c.person_id.not_in(bindparam("b_seeing", expanding=True))
)
_DROP_LINES = delete(caseload).where(_WITHOUT)

_known = upsert(therapist)
_KNOW_THERAPIST = _known.on_conflict_do_update(index_elements=["person_id"], set_={"name": _known.excluded.name})

_offset = upsert(schema.update_offset)
_SET_OFFSET = _offset.on_conflict_do_update(index_elements=["id"], set_={"next": _offset.excluded.next})


@dataclass(frozen=True, slots=True)
class _Held:
    """What the transaction knows of a client's row that it has locked."""

    version: int
    script_id: str | None


class Tx(Saying):
    """One writing transaction. Made by `Store.writing()`; committed at its end, rolled back on an exception.

    `AlreadyHandled` and `AlreadyThere` may show as late as at the next question or at the end, out of `Store.writing()`.
    """

    _CLIENT = CLIENT.with_for_update()
    _PERSON = PERSON.with_for_update()
    _PERSON_BY_USER = PERSON_BY_USER.with_for_update()

    def __init__(self, connection: Connection, records: Records, scripts: Scripts) -> None:
        super().__init__(connection, records, scripts)
        # What was read is locked, so it needs no second reading.
        self._handled: dict[str, bool] = {}
        self._clients: dict[ClientId, _Held] = {}
        self._persons: dict[PersonId, Person] = {}
        self._versions: dict[PersonId, int] = {}
        self.new_scripts: dict[ScriptName, Script] = {}
        self.old_scripts: list[ScriptName] = []

    # the journal

    async def was_handled(self, key: str) -> bool:
        """Whether an event of this key is in the journal."""
        if key not in self._handled:
            self._handled[key] = await self._first(_HANDLED, key=key) is not None
        return self._handled[key]

    async def journal(self, key: str, subject: Subject, event: Event, effects: Sequence[Effect]) -> None:
        """Write the event and what it asked for. `AlreadyHandled` if the key is there, at the latest at the end."""
        values = {
            "key": key,
            "aggregate": subject.aggregate,
            "subject_id": subject.id,
            "at": event.at,
            "event": self._records.dump(event),
            "effects": self._records.dump(tuple(effects)),
        }
        self._handled[key] = True
        self._later(_INSERT_JOURNAL, values, AlreadyHandled(f"The event {key} was handled before."))

    # clients and persons

    async def person(self, person_id: PersonId) -> Person | None:
        """The person, locked until the end of the transaction."""
        return self._persons.get(person_id) or await super().person(person_id)

    async def add_client(self, client: Client, wake_at: datetime | None, wake_class: int) -> None:
        """Write a new client, version 1. `AlreadyThere` if the id is taken."""
        values = self._client_values(client, wake_at, wake_class)
        clash = AlreadyThere(f"A client {client.id} is there already. Give the new one another id.")
        self._later(_INSERT_CLIENT, {"id": client.id, "version": 1, **values}, clash)
        await self.write_collected()
        self._clients[client.id] = _Held(1, values["script_id"])
        if client.session is not None:
            self._keep_script(client.id, client.session.script)

    async def add_person(self, person: Person, wake_at: datetime | None, wake_class: int) -> None:
        """Write a new person, version 1. `AlreadyThere` if the id or the user id is taken."""
        clash = AlreadyThere(
            f"A person {person.id}, or one with the user id {person.user_id}, is there already. "
            "Give the new one another id, or correct the user id: one user id is one person."
        )
        values = self._person_values(person, wake_at, wake_class)
        self._later(_INSERT_PERSON, {"id": person.id, "version": 1, **values}, clash)
        await self.write_collected()
        self._know(person)
        self._persons[person.id], self._versions[person.id] = person, 1

    async def save_client(self, client: Client, wake_at: datetime | None, wake_class: int) -> int:
        """Write the client's new state; the new version. LookupError if there is no such client.

        A session's script is written once, when it is first seen (later changes of it are not), and deleted when the
        client is in it no more.
        """
        held = self._clients.get(client.id)
        if held is None:
            found = await self._first(_CLIENT_HELD, id=client.id)
            if found is None:
                raise LookupError(f"no client {client.id}")
            held = _Held(found.version, found.script_id)
        values = self._client_values(client, wake_at, wake_class)
        if client.session is not None and values["script_id"] != held.script_id:
            self._keep_script(client.id, client.session.script)
        self._later(_SAVE_CLIENT, {"b_id": client.id, "version": held.version + 1, **values})
        if held.script_id is not None and held.script_id != values["script_id"]:
            self._later(_DROP_SCRIPT, {"b_client": client.id, "b_id": held.script_id})
            self.old_scripts.append((client.id, held.script_id))
        self._clients[client.id] = _Held(held.version + 1, values["script_id"])
        return held.version + 1

    async def save_person(self, person: Person, wake_at: datetime | None, wake_class: int) -> int:
        """Write the person's new state; the new version. LookupError if there is no such person.

        `AlreadyThere`, at the latest at the end of the transaction, if the user id is somebody else's.
        """
        version = self._versions.get(person.id)
        if version is None:
            found = await self._first(_PERSON_HELD, id=person.id)
            if found is None:
                raise LookupError(f"no person {person.id}")
            version = int(found.version)
        clash = AlreadyThere(f"The user id {person.user_id} belongs to somebody else already. One user id is one person.")
        values = self._person_values(person, wake_at, wake_class)
        self._later(_SAVE_PERSON, {"b_id": person.id, "version": version + 1, **values}, clash)
        if self._persons.get(person.id) != person:
            self._know(person)
        self._versions[person.id] = version + 1
        self._persons[person.id] = person
        return version + 1

    async def set_caseload(self, client: Client, seeing: Collection[PersonId], look: Look) -> None:
        """Renew the client's line on the lists of those who see to them, and take it off all others'."""
        values = {"client_id": client.id, "rank": look.rank, "name": client.name, "reasons": self._records.dump(look.reasons)}
        for person_id in seeing:
            self._later(_SET_LINE, {**values, "person_id": person_id})
        if not seeing:
            await self.write_collected()  # what takes a list can not be written for several clients in one go
        self._later(_DROP_LINES, {"b_client": client.id, "b_seeing": list(seeing)})

    async def postpone(self, subject: Subject, until: datetime) -> int:
        """Look at this row again at `until` and leave the rest as it is, even a record that can not be read.

        The new version, so that the next alarm has a new key. LookupError if there is no such row.
        """
        await self.write_collected()
        values = {"b_id": subject.id, "b_until": until}
        version: int | None = self._connection.execute(_POSTPONE[subject.aggregate], values).scalar()
        if version is None:
            raise LookupError(f"no {subject.aggregate} {subject.id}")
        if subject.aggregate == "person":
            self._versions[subject.id] = version
        elif subject.id in self._clients:
            self._clients[subject.id] = _Held(version, self._clients[subject.id].script_id)
        return version

    async def _client(self, found: Row[Any]) -> Client:
        self._clients[found.id] = _Held(found.version, found.script_id)
        return await super()._client(found)

    def _person(self, found: Row[Any]) -> Person:
        self._versions[found.id] = found.version
        self._persons[found.id] = super()._person(found)
        return self._persons[found.id]

    async def _script(self, name: ScriptName) -> Script | None:
        return self.new_scripts.get(name) or await super()._script(name)

    def _client_values(self, client: Client, wake_at: datetime | None, wake_class: int) -> dict[str, Any]:
        return {
            "record": self._records.dump_client(client),
            "wake_at": wake_at,
            "wake_class": wake_class,
            "script_id": client.session.script.id if client.session is not None else None,
        }

    def _person_values(self, person: Person, wake_at: datetime | None, wake_class: int) -> dict[str, Any]:
        return {
            "record": self._records.dump(person),
            "wake_at": wake_at,
            "wake_class": wake_class,
            "user_id": person.user_id,
        }

    def _know(self, known: Person) -> None:
        if known.role is Part.THERAPIST and known.user_id is not None:
            self._later(_KNOW_THERAPIST, {"person_id": known.id, "name": known.name})

    def _keep_script(self, client_id: ClientId, kept: Script) -> None:
        self._later(_INSERT_SCRIPT, {"client_id": client_id, "id": kept.id, "record": self._records.dump(kept)})
        self.new_scripts[client_id, kept.id] = kept

    # what is to be remembered, told and drawn

    async def record(self, client_id: ClientId, observation: Observation) -> None:
        """Remember an observation of a client."""
        values = {
            "client_id": client_id,
            "at": observation.at,
            "kind": observation.kind,
            "session": getattr(observation, "session", None),
            "data": self._records.dump(observation),
        }
        self._later(_INSERT_OBSERVATION, values)

    async def put_pass(self, subject: Subject, event: Event) -> int:
        """Write down an event for another aggregate; its id. Ids only rise."""
        record = self._records.dump(event)
        return await self._insert(_INSERT_PASS, {"aggregate": subject.aggregate, "subject_id": subject.id, "event": record})

    async def next_pass(self) -> PassRow | None:
        """The oldest event that was passed on and is not done."""
        found = await self._first(_NEXT_PASS)
        if found is None:
            return None
        event = self._records.event(found.event, f"the passed event {found.id}")
        return PassRow(found.id, Subject(found.aggregate, found.subject_id), event)

    async def pass_done(self, pass_id: int) -> None:
        """The event that was passed on is handled; its row goes."""
        self._later(_PASS_DONE, {"b_id": pass_id})

    async def request_report(self, client_id: ClientId, report: Report) -> int:
        """Ask for a chart, a document or an assessment; the request's id. Ids only rise."""
        values = {"client_id": client_id, "person_id": report.to, "first": report.first, "last": report.last}
        values |= {"sheet": report.sheet.value, "paper": report.paper.value, "state": ReportState.WAITING.value}
        return await self._insert(_INSERT_REPORT, values)

    async def request_digest(self, row: DigestRow) -> int:
        """Ask for a digest; the request's id. Ids only rise."""
        values = {"person_id": row.person_id, "first": row.first, "last": row.last, "text": row.text}
        values |= {"buttons": self._records.dump(row.buttons), "state": ReportState.WAITING.value}
        return await self._insert(_INSERT_DIGEST, values)

    async def set_digest(self, digest_id: int, state: ReportState) -> None:
        """The digest is drawn, or could not be. Its words are in the message: none stay here."""
        empty = {"text": "", "buttons": self._records.dump(())}
        self._later(_SET_DIGEST, {"b_id": digest_id, "state": state.value, **empty})

    async def set_report(self, report_id: int, state: ReportState) -> None:
        """The chart is drawn, or could not be."""
        self._later(_SET_REPORT, {"b_id": report_id, "state": state.value})

    # who comes in, and how far the updates were read

    async def add_link(self, payload: str, person_id: PersonId, expires_at: datetime) -> None:
        """Remember a start link, by the hash of its payload."""
        values = {"hash": _hash(payload), "person_id": person_id, "expires_at": expires_at}
        self._later(_INSERT_LINK, values, AlreadyThere("This start link is there already. Make a new one."))

    async def close_links(self, person_id: PersonId, now: datetime) -> None:
        """The links of this person that nobody used expire."""
        self._later(_CLOSE_LINKS, {"b_person": person_id, "b_now": now})

    async def use_link(self, payload: str, now: datetime) -> LinkUse:
        """Use a start link up. It is used up only if it was GOOD and the transaction commits."""
        found = await self._first(_LINK, hash=_hash(payload))
        if found is None:
            return LinkUse(LinkState.UNKNOWN, None)
        if found.used_at is not None:
            return LinkUse(LinkState.USED, found.person_id)
        if found.expires_at <= now:
            return LinkUse(LinkState.EXPIRED, found.person_id)
        self._later(_USE_LINK, {"b_hash": found.hash, "used_at": now})
        return LinkUse(LinkState.GOOD, found.person_id)

    async def set_offset(self, offset: int) -> None:
        """Remember the id of the next update to fetch."""
        self._later(_SET_OFFSET, {"id": 1, "next": offset})


def _hash(payload: str) -> str:
    return sha256(payload.encode(errors="replace")).hexdigest()
