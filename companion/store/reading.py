"""The reading side: questions asked of one snapshot, on connections that can not write."""

import asyncio
from collections.abc import Collection, Sequence
from datetime import datetime
from functools import cache
from typing import Any

from sqlalchemy import Select, and_, bindparam, exists, func, literal, literal_column, or_, select, union_all

from companion.core.care import Client
from companion.core.effects import ClientId, Paper, PersonId, Sheet, Subject, Urgency
from companion.core.observations import Observation
from companion.core.person import Person
from companion.store import schema
from companion.store.columns import outbox_row
from companion.store.lists import Lists
from companion.store.rows import DigestRow, JournalRow, MediaRow, OutboxRow, ReportRow, ReportState, Wake
from companion.store.schema import (
    ON_WIRE,
    WAITING,
    WAITS,
    WANTED,
    digest_request,
    journal,
    media,
    observation,
    outbox,
    report_request,
)

WAKE_CLASSES = (0, 1, 2)
"""All that a row may have; the tables refuse any other."""

UNPACKED_AT_ONCE = 500
"""So many observations are unpacked before others have their turn."""

_WOKEN = (schema.client, schema.person)

_held_back, _before = outbox.alias("held_back"), outbox.alias("before")
_TO_SEND = (
    select(outbox)
    .where(
        WAITS,
        outbox.c.person_id.not_in(bindparam("without", expanding=True)),
        ~exists().where(
            _held_back.c.person_id == outbox.c.person_id,
            _held_back.c.state == WAITING,
            _held_back.c.try_after > bindparam("now"),
            or_(
                _held_back.c.urgency < outbox.c.urgency,
                and_(_held_back.c.urgency == outbox.c.urgency, _held_back.c.id <= outbox.c.id),
            ),
        ),
    )
    .order_by(outbox.c.urgency, outbox.c.id)
    .limit(bindparam("limit"))
)
# Few at any time, so sorting them costs little.
_CUES = (
    _TO_SEND.where(
        outbox.c.urgency == literal_column(str(int(Urgency.LIVE))),
        outbox.c.not_after.is_not(None),
        ~exists().where(
            _before.c.client_id == outbox.c.client_id,
            _before.c.state == WAITING,
            _before.c.person_id == outbox.c.person_id,
            _before.c.id < outbox.c.id,
        ),
    )
    .order_by(None)
    .order_by(outbox.c.not_after, outbox.c.id)
)
_NEXT_TRY = select(func.min(outbox.c.try_after)).where(
    WAITS, outbox.c.try_after.is_not(None), outbox.c.try_after > bindparam("now")
)
# Counted apart, for each has an index of its own.
_UNSENT_REMINDERS = select(
    *(
        select(func.count()).where(state, outbox.c.urgency == int(Urgency.REMINDER)).scalar_subquery()
        for state in (WAITS, ON_WIRE)
    )
)
_ON_WIRE = select(outbox).where(ON_WIRE).order_by(outbox.c.id)
_CLIENTS = select(schema.client).order_by(schema.client.c.id)
_LIVE_CLIENTS = _CLIENTS.where(schema.client.c.wake_class == 0)
_PEOPLE = select(schema.person).order_by(schema.person.c.id)
_OBSERVATIONS = (
    select(observation.c.at, observation.c.data)
    .where(
        observation.c.client_id == bindparam("client"),
        observation.c.at.between(bindparam("first"), bindparam("last")),
    )
    .order_by(observation.c.at, observation.c.id)
)
_EARLIER = select(observation.c.at, observation.c.id, observation.c.data).where(
    observation.c.client_id == bindparam("client"),
    observation.c.at < bindparam("first"),
    observation.c.kind.in_(bindparam("ever", expanding=True)),
)
_OLDER = observation.alias("older")
_LAST_BEFORE = select(observation.c.at, observation.c.id, observation.c.data).where(
    observation.c.client_id == bindparam("client"),
    observation.c.kind.in_(bindparam("newest", expanding=True)),
    observation.c.at
    == select(func.max(_OLDER.c.at))
    .where(
        _OLDER.c.client_id == bindparam("client"),
        _OLDER.c.kind == observation.c.kind,
        _OLDER.c.at < bindparam("first"),
    )
    .scalar_subquery(),
)
_SEEN = union_all(
    _EARLIER,
    _LAST_BEFORE,
    select(observation.c.at, observation.c.id, observation.c.data).where(
        observation.c.client_id == bindparam("client"),
        observation.c.at.between(bindparam("first"), bindparam("last")),
    ),
).subquery("seen")
_OF_KINDS = _OBSERVATIONS.where(observation.c.kind.in_(bindparam("kinds", expanding=True)))
_SINCE = select(_SEEN.c.at, _SEEN.c.data).order_by(_SEEN.c.at, _SEEN.c.id)
_NEXT_DIGEST = (
    select(digest_request).where(digest_request.c.state == ReportState.WAITING.value).order_by(digest_request.c.id).limit(1)
)
_NEXT_REPORT = (
    select(report_request).where(report_request.c.state == ReportState.WAITING.value).order_by(report_request.c.id).limit(1)
)
_NEXT_WANTED = select(media).where(WANTED).order_by(media.c.ahead, media.c.id).limit(1)
_ANY_PASS = select(schema.passes.c.id).limit(1)
_JOURNAL = select(journal).where(journal.c.key == bindparam("key"))


class Reading(Lists):
    """One snapshot of everything. Made by `Store.reading()`."""

    # alarms

    async def next_wake(self, now: datetime, classes: Sequence[int] = WAKE_CLASSES) -> Wake | None:
        """Of the rows due at `now`, the first by wake class, then time, then clients before persons, then id."""
        found = await self._first(_next_wake(tuple(classes)), now=now)
        if found is None:
            return None
        return Wake(Subject(found.aggregate, found.id), found.wake_at, found.version, found.wake_class)

    async def earliest_wake(self, classes: Sequence[int] = WAKE_CLASSES) -> datetime | None:
        """The earliest moment at which any row must be looked at, due or not."""
        found = await self._rows(_earliest_wake(tuple(classes)), {})
        return min((row.wake_at for row in found if row.wake_at is not None), default=None)

    # the outbox

    async def waiting(self, limit: int, now: datetime, without: Collection[PersonId] = ()) -> list[OutboxRow]:
        """Messages that may go at `now`, by urgency, then id; none for the persons in `without`.

        A message that waits for its `try_after` holds back those of its own urgency behind it and all less urgent
        ones to the same person, and nothing else.
        """
        found = await self._rows(_TO_SEND, {"limit": limit, "now": now, "without": list(without)})
        return [outbox_row(row, self._records) for row in found]

    async def cues(self, limit: int, now: datetime, without: Collection[PersonId] = ()) -> list[OutboxRow]:
        """Of `waiting` the live ones that may come too late (they have a `not_after`), the one that will be so soonest first.

        None of them waits behind another message to the same person about the same client.
        """
        found = await self._rows(_CUES, {"limit": limit, "now": now, "without": list(without)})
        return [outbox_row(row, self._records) for row in found]

    async def next_try(self, now: datetime) -> datetime | None:
        """The earliest `try_after` later than `now` among the waiting messages."""
        found = await self._rows(_NEXT_TRY, {"now": now})
        earliest: datetime | None = found[0][0]
        return earliest

    async def unsent_reminders(self) -> int:
        """How many messages of the reminder class wait or are on the wire."""
        found = await self._rows(_UNSENT_REMINDERS, {})
        return sum(found[0])

    async def on_wire(self) -> list[OutboxRow]:
        """Messages on the wire, by id. At a start these are the ones whose end is unknown."""
        return [outbox_row(row, self._records) for row in await self._rows(_ON_WIRE, {})]

    # clients, persons, what happened

    async def clients(self) -> list[Client]:
        """All clients, by id."""
        return [await self._client(row) for row in await self._rows(_CLIENTS, {})]

    async def anything_passed_on(self) -> bool:
        """Whether an event was passed on and is not handled: by another process, for ours does so at once."""
        return await self._first(_ANY_PASS) is not None

    async def live_clients(self) -> list[Client]:
        """The clients with a live session or an open alert (wake class 0), by id."""
        return [await self._client(row) for row in await self._rows(_LIVE_CLIENTS, {})]

    async def people(self) -> list[Person]:
        """All persons, by id."""
        return [self._person(row) for row in await self._rows(_PEOPLE, {})]

    async def observations(self, client_id: ClientId, first: datetime, last: datetime) -> list[tuple[datetime, Observation]]:
        """What was observed from `first` to `last`, both included, in order of time, then of writing."""
        found = await self._rows(_OBSERVATIONS, {"client": client_id, "first": first, "last": last})
        return await self._observations(found, client_id)

    async def since(
        self, client_id: ClientId, first: datetime, last: datetime, ever: Collection[str], newest: Collection[str] = ()
    ) -> list[tuple[datetime, Observation]]:
        """The same, and before it what was observed earlier of the kinds in `ever`, and the last of each kind in `newest`.
        Nothing else is unpacked for it."""
        values = {"client": client_id, "first": first, "last": last, "ever": list(ever), "newest": list(newest)}
        return await self._observations(await self._rows(_SINCE, values), client_id)

    async def of_kinds(
        self, client_id: ClientId, first: datetime, last: datetime, kinds: Collection[str]
    ) -> list[tuple[datetime, Observation]]:
        """What was observed from `first` to `last` of these kinds. Nothing else is unpacked for it."""
        values = {"client": client_id, "first": first, "last": last, "kinds": list(kinds)}
        return await self._observations(await self._rows(_OF_KINDS, values), client_id)

    async def _observations(self, rows: Sequence[Any], client_id: ClientId) -> list[tuple[datetime, Observation]]:
        what = f"an observation of client {client_id}"
        found: list[tuple[datetime, Observation]] = []
        for start in range(0, len(rows), UNPACKED_AT_ONCE):
            if start:
                # those of years take half a second: who practises meanwhile gets a turn; no clock is waited for
                await asyncio.sleep(0)  # noqa: TID251
            part = rows[start : start + UNPACKED_AT_ONCE]
            found += [(row.at, self._records.observation(row.data, what)) for row in part]
        return found

    async def next_digest(self) -> DigestRow | None:
        """The oldest digest that waits to be drawn."""
        found = await self._first(_NEXT_DIGEST)
        if found is None:
            return None
        buttons = self._records.buttons(found.buttons, f"the digest {found.id}")
        state = ReportState(found.state)
        return DigestRow(found.person_id, found.first, found.last, found.text, buttons, state, found.id)

    async def next_report(self) -> ReportRow | None:
        """The oldest chart that waits to be drawn."""
        found = await self._first(_NEXT_REPORT)
        if found is None:
            return None
        week = (found.first, found.last)
        drawn = (Sheet(found.sheet), Paper(found.paper))
        return ReportRow(found.id, found.client_id, found.person_id, *week, ReportState(found.state), *drawn)

    async def next_wanted(self) -> MediaRow | None:
        """The picture or sound to make next: what somebody waits for before what is made ahead, each in the order of asking."""
        found = await self._first(_NEXT_WANTED)
        return None if found is None else self._media(found)

    async def journal(self, key: str) -> JournalRow | None:
        """What was handled under this key."""
        found = await self._first(_JOURNAL, key=key)
        if found is None:
            return None
        what = f"the event {key}"
        event, effects = self._records.event(found.event, what), self._records.effects(found.effects, what)
        return JournalRow(key, Subject(found.aggregate, found.subject_id), event, effects)


@cache
def _next_wake(classes: tuple[int, ...]) -> Select[Any]:
    """The first due row of each class and table, by the index of each, and of these the first."""
    firsts = [
        select(literal(table.name).label("aggregate"), table.c.id, table.c.wake_at, table.c.version, table.c.wake_class)
        .where(table.c.wake_class == wake_class, table.c.wake_at <= bindparam("now"))
        .order_by(table.c.wake_at, table.c.id)
        .limit(1)
        .subquery()
        for table in _WOKEN
        for wake_class in classes
    ]
    due = union_all(*(select(first) for first in firsts)).subquery("due")
    return select(due).order_by(due.c.wake_class, due.c.wake_at, due.c.aggregate, due.c.id).limit(1)


@cache
def _earliest_wake(classes: tuple[int, ...]) -> Select[Any]:
    earliest = [
        # "is not null" lets the index step over those that wait for nothing
        select(func.min(table.c.wake_at).label("wake_at")).where(table.c.wake_class == wake_class, table.c.wake_at.is_not(None))
        for table in _WOKEN
        for wake_class in classes
    ]
    return select(union_all(*earliest).subquery("earliest"))
