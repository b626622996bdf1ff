"""The quick connection: one visit to its thread for a statement, and the errors and rows that SQLite gives."""

import sqlite3
from collections.abc import Callable
from pathlib import Path
from typing import Any

import aiosqlite
import pytest

from companion.store import Store
from companion.store.one_hop import connect
from tests.store.people import CLIENT


async def test_a_statement_visits_the_connections_thread_once(home: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    visits: list[Any] = []
    visit = aiosqlite.Connection._execute

    async def counted(self: aiosqlite.Connection, work: Callable[..., Any], *args: Any) -> Any:
        visits.append(work)
        return await visit(self, work, *args)  # type: ignore[no-untyped-call]

    async with home.reading() as r:
        monkeypatch.setattr(aiosqlite.Connection, "_execute", counted)
        assert await r.client("c1") == CLIENT
        assert len(visits) == 1
        await r.offset()
        assert len(visits) == 2


async def test_rows_counts_and_numbers_are_those_of_sqlite(tmp_path: Path) -> None:
    connection = await connect(tmp_path / "a.sqlite3")
    cursor = connection.cursor()
    assert (cursor.description, cursor.rowcount, cursor.lastrowid) == (None, -1, None)
    await cursor.execute("CREATE TABLE song (id INTEGER PRIMARY KEY, title TEXT)")
    await cursor.execute("INSERT INTO song (title) VALUES (?)", ("one",))
    assert (cursor.rowcount, cursor.lastrowid) == (1, 1)
    await cursor.executemany("INSERT INTO song (title) VALUES (?)", [("two",), ("three",)])
    assert cursor.rowcount == 2
    await cursor.execute("SELECT id, title FROM song ORDER BY id")
    assert [column[0] for column in cursor.description] == ["id", "title"]
    assert await cursor.fetchall() == [(1, "one"), (2, "two"), (3, "three")]
    assert await cursor.fetchall() == []
    await cursor.close()
    await connection.close()


async def test_an_error_of_sqlite_comes_through_and_the_connection_goes_on(tmp_path: Path) -> None:
    connection = await connect(tmp_path / "a.sqlite3")
    cursor = connection.cursor()
    with pytest.raises(sqlite3.OperationalError, match="no such table"):
        await cursor.execute("SELECT * FROM song")
    await cursor.execute("SELECT 1")
    assert await cursor.fetchall() == [(1,)]
    await connection.close()


async def test_a_closed_connection_says_so(tmp_path: Path) -> None:
    connection = await connect(tmp_path / "a.sqlite3")
    await connection.close()
    with pytest.raises(ValueError, match="Connection closed"):
        await connection.cursor().execute("SELECT 1")
