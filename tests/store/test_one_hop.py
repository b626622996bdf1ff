"""The quick connection: its thread is for what may wait, and errors and rows are those that SQLite gives."""

import asyncio
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import aiosqlite
import pytest

from companion.store import Store
from companion.store.one_hop import connect
from tests.store.people import CLIENT, going_wrong


@pytest.fixture
async def visits(home: Store, monkeypatch: pytest.MonkeyPatch) -> list[Any]:
    """What is done in a connection's own thread, once it is open."""
    async with home.reading(), home.writing():
        pass
    visits: list[Any] = []
    visit = aiosqlite.Connection._execute

    async def counted(self: aiosqlite.Connection, work: Callable[..., Any], *args: Any) -> Any:
        visits.append(work)
        return await visit(self, work, *args)  # type: ignore[no-untyped-call]

    monkeypatch.setattr(aiosqlite.Connection, "_execute", counted)
    return visits


async def test_reading_goes_to_no_other_thread(home: Store, visits: list[Any]) -> None:
    async with home.reading() as r:
        assert await r.client("c1") == CLIENT
        await r.offset()
    assert visits == []


async def test_writing_goes_to_its_thread_to_begin_and_to_commit(home: Store, visits: list[Any]) -> None:
    async with home.writing() as tx:
        assert await tx.client("c1") == CLIENT
        assert len(visits) == 1
        await tx.set_offset(7)
        await tx.set_offset(8)
    # and once more when it lays the connection aside
    assert len(visits) == 3
    async with going_wrong(home) as tx:
        await tx.set_offset(9)
    async with home.reading() as r:
        assert await r.offset() == 8


async def test_who_gives_up_waiting_to_write_leaves_nothing_begun(home: Store, database: Path) -> None:
    async def write(offset: int) -> None:
        async with home.writing() as tx:
            await tx.set_offset(offset)

    with closing(sqlite3.connect(database, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        waiting = asyncio.create_task(write(1))
        for _ in range(100):
            await asyncio.sleep(0)
        waiting.cancel()
        await asyncio.sleep(0)
    await asyncio.wait({waiting})
    assert waiting.cancelled()
    await write(2)
    async with home.reading() as r:
        assert await r.offset() == 2


async def test_a_database_that_need_not_last_goes_to_its_thread_only_to_begin(tmp_path: Path) -> None:
    connection = await connect(tmp_path / "a.sqlite3", durable=False)
    assert (connection.commits_at_once, connection.reads_only) == (True, False)
    await connection.cursor().execute("BEGIN")
    await connection.cursor().execute("CREATE TABLE song (title TEXT)")
    await connection.commit()
    await connection.cursor().execute("BEGIN")
    await connection.cursor().execute("DROP TABLE song")
    await connection.rollback()
    cursor = connection.cursor()
    await cursor.execute("SELECT name FROM sqlite_master")
    assert await cursor.fetchall() == [("song",)]
    await connection.close()


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
