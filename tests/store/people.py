"""Invented people, and short ways to write down what is about them."""

import sqlite3
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager, suppress
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from companion.core.care import Client, People
from companion.core.cursor import Session
from companion.core.effects import Subject, Urgency, words
from companion.core.person import Part, Person
from companion.core.steps import Label, Script, Show
from companion.store import OutboxRow, Store
from companion.store.schema import metadata
from companion.store.transactions import Tx

NOW = datetime(2026, 11, 23, 9, 0, tzinfo=UTC)
LATER = NOW + timedelta(hours=1)
ONE = Subject("client", "c1")

CLIENT = Client("c1", "Alva", "Europe/Oslo", People("alva", "tora", "karl"), looked_at=NOW, reported_at=NOW)
ALVA = Person("alva", Part.CLIENT, "Alva", "Europe/Oslo", ("c1",), user_id=11)
KARL = Person("karl", Part.CARER, "Karl", "Europe/Oslo", ("c1",), user_id=12)
TORA = Person("tora", Part.THERAPIST, "Tora", "Europe/Oslo", ("c1",), user_id=2**52)
PEOPLE = (ALVA, KARL, TORA)


def script(name: str, *lines: str) -> Script:
    """A session that shows lines."""
    shows = tuple(Show("alva", (words(line),)) for line in lines)
    return Script(name, "c1", (Label("start"), *shows), ("standing:both",))


def in_session(client: Client, of: Script) -> Client:
    """The client in a session of that script."""
    return replace(client, session=Session(of.id, client.id, "alva", "karl", of, NOW, NOW))


def message(person: str = "alva", **told: Any) -> OutboxRow:
    """A message about the one client."""
    usual: dict[str, Any] = {"urgency": Urgency.LIVE, "topic": "session", "client_id": "c1", "text": "Hand down."}
    return OutboxRow(subject=ONE, person_id=person, created_at=NOW, **{**usual, **told})


class Mishap(Exception):
    """Something goes wrong in the middle."""


@asynccontextmanager
async def going_wrong(store: Store) -> AsyncIterator[Tx]:
    """A writing transaction that goes wrong at its very end."""
    with suppress(Mishap):
        async with store.writing() as tx:
            yield tx
            raise Mishap


async def say(store: Store, *rows: OutboxRow) -> list[int]:
    """Write messages down in one transaction; their ids."""
    async with store.writing() as tx:
        return [await tx.put_outbox(row) for row in rows]


def everything(database: Path) -> dict[str, list[tuple[Any, ...]]]:
    """All rows of all tables, read past the store."""
    with sqlite3.connect(database) as connection:
        return {table: connection.execute(f'SELECT * FROM "{table}"').fetchall() for table in metadata.tables}
