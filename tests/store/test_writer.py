"""Who writes goes to a thread of the writer's for what may wait, and nowhere else."""

import asyncio
import sqlite3
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager, closing, suppress
from pathlib import Path
from threading import current_thread
from typing import Any

import pytest
from sqlalchemy import event, text

from companion.store import Store
from companion.store.engines import reader
from companion.store.writer import Writer
from tests.store.people import CLIENT, Mishap, going_wrong

HERE, THERE = "here", "there"


@asynccontextmanager
async def writing(database: Path, durable: bool) -> AsyncIterator[tuple[Writer, list[tuple[str, str]]]]:
    """A writer, and what it does where."""
    writer, done = Writer(database, durable=durable), []
    here = current_thread()

    def note(what: str) -> None:
        done.append((what.partition(" ")[0], HERE if current_thread() is here else THERE))

    @event.listens_for(writer._engine, "before_cursor_execute")
    def executes(_connection: Any, _cursor: Any, statement: str, *_more: Any) -> None:
        note(statement)

    event.listen(writer._engine, "commit", lambda _: note("COMMIT"))
    event.listen(writer._engine, "rollback", lambda _: note("ROLLBACK"))
    yield writer, done
    await writer.dispose()


async def test_a_writer_goes_to_its_thread_to_begin_and_to_commit(tmp_path: Path) -> None:
    async with writing(tmp_path / "a.sqlite3", durable=True) as (writer, done):
        async with writer.begin() as connection:
            connection.execute(text("CREATE TABLE song (title TEXT)"))
        with suppress(Mishap):
            async with writer.begin() as connection:
                connection.execute(text("DROP TABLE song"))
                raise Mishap
    assert done == [
        ("BEGIN", THERE),
        ("CREATE", HERE),
        ("COMMIT", THERE),
        ("BEGIN", THERE),
        ("DROP", HERE),
        ("ROLLBACK", HERE),
    ]


async def test_a_database_that_need_not_last_is_written_where_one_is(tmp_path: Path) -> None:
    async with writing(tmp_path / "a.sqlite3", durable=False) as (writer, done), writer.begin() as connection:
        connection.execute(text("CREATE TABLE song (title TEXT)"))
    assert done == [("BEGIN", HERE), ("CREATE", HERE), ("COMMIT", HERE)]


@pytest.mark.parametrize("durable", [True, False])
async def test_what_went_wrong_leaves_nothing_and_the_next_one_writes(tmp_path: Path, durable: bool) -> None:
    store = await Store.open(tmp_path / "companion.db", durable=durable)
    async with going_wrong(store) as tx:
        await tx.set_offset(9)
    async with store.reading() as r:
        assert await r.offset() is None
    async with store.writing() as tx:
        await tx.set_offset(7)
    async with store.reading() as r:
        assert await r.offset() == 7
    await store.close()


async def test_who_gives_up_waiting_to_write_leaves_nothing_begun(home: Store, database: Path) -> None:
    with closing(sqlite3.connect(database, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        waiting = asyncio.create_task(write(home, 1))
        for _ in range(100):
            await asyncio.sleep(0)
        waiting.cancel()
        await asyncio.sleep(0)
    await asyncio.wait({waiting})
    assert waiting.cancelled()
    await write(home, 2)
    async with home.reading() as r:
        assert await r.offset() == 2


async def test_who_gives_up_waiting_for_the_disk_has_written_all_the_same(home: Store) -> None:
    leaving = asyncio.Event()

    async def wait_at_the_end() -> None:
        async with home.writing() as tx:
            await tx.set_offset(3)
            leaving.set()

    writing = asyncio.create_task(wait_at_the_end())
    await leaving.wait()
    writing.cancel()
    await asyncio.wait({writing})
    assert writing.cancelled()
    async with home.writing() as tx:
        assert await tx.offset() == 3


async def test_readers_wait_for_nobody_however_many_they_are(home: Store) -> None:
    async def read(gate: asyncio.Barrier) -> None:
        async with home.reading() as r:
            assert await r.client("c1") == CLIENT
            await gate.wait()

    gate = asyncio.Barrier(20)
    async with home.writing() as tx:
        await tx.set_offset(4)
        await asyncio.wait_for(asyncio.gather(*(read(gate) for _ in range(20))), timeout=60)


def test_a_reader_sees_one_snapshot(tmp_path: Path) -> None:
    file = tmp_path / "a.sqlite3"
    with closing(sqlite3.connect(file, isolation_level=None)) as other:
        other.execute("PRAGMA journal_mode = WAL")
        other.execute("CREATE TABLE song (title TEXT)")
        engine = reader(file)
        with engine.begin() as connection:
            count = text("SELECT count(*) FROM song")
            assert connection.execute(count).scalar() == 0
            other.execute("INSERT INTO song VALUES ('one')")
            assert connection.execute(count).scalar() == 0
        with engine.begin() as connection:
            assert connection.execute(count).scalar() == 1
        engine.dispose()


async def write(store: Store, offset: int) -> None:
    async with store.writing() as tx:
        await tx.set_offset(offset)
