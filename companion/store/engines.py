"""How the database file is opened: one connection that writes, a few that only read.

aiosqlite's default transactions begin late and lose concurrent updates. So the driver begins none; the writer begins
with `BEGIN IMMEDIATE` (who is in has the file to itself until the end), readers with `BEGIN` on connections that refuse
to write.
"""

from collections.abc import Awaitable, Callable
from pathlib import Path
from typing import Any

from sqlalchemy import AsyncAdaptedQueuePool, Connection, Engine, NullPool, create_engine, event
from sqlalchemy.ext.asyncio import AsyncEngine, create_async_engine

from companion.store.one_hop import BUSY_S, OneHopConnection, connect, connect_file

READERS = 4

_ALWAYS = (
    "PRAGMA journal_mode = WAL",
    "PRAGMA synchronous = FULL",
    "PRAGMA foreign_keys = ON",
    f"PRAGMA busy_timeout = {BUSY_S * 1000}",
)


def writer(database: Path, *, durable: bool = True) -> AsyncEngine:
    """The engine that writes. It has one connection, and whoever has it has the write lock.

    Without `durable` a commit is not waited for until it is on the disk: what is committed outlives this process, but
    perhaps not the machine's power.
    """
    engine = _asynchronous(lambda: connect(database, durable=durable), 1)
    pragmas = _ALWAYS if durable else (*_ALWAYS, "PRAGMA synchronous = OFF")
    _prepare(engine.sync_engine, pragmas)
    _begin_to_write(engine.sync_engine)
    return engine


def reader(database: Path) -> AsyncEngine:
    """The engine that reads: each transaction sees one snapshot, and can not write."""
    engine = _asynchronous(lambda: connect(database, reads_only=True), READERS)
    _prepare(engine.sync_engine, (*_ALWAYS, "PRAGMA query_only = ON"))

    @event.listens_for(engine.sync_engine, "begin")
    def begin_to_read(connection: Connection) -> None:
        # Straight to the driver: there are more of these than of anything else, and nothing of it can wait.
        driver = connection.connection.driver_connection
        assert isinstance(driver, OneHopConnection)
        driver.begin_to_read()

    return engine


def migrator(database: Path) -> Engine:
    """A plain engine with the writer's settings, for migrations, which run in a thread."""
    engine = create_engine("sqlite://", creator=lambda: connect_file(database), poolclass=NullPool)
    _prepare(engine, _ALWAYS)
    _begin_to_write(engine)
    return engine


def _asynchronous(creator: Callable[[], Awaitable[OneHopConnection]], connections: int) -> AsyncEngine:
    return create_async_engine(
        "sqlite+aiosqlite://",
        async_creator=creator,
        poolclass=AsyncAdaptedQueuePool,
        pool_size=connections,
        max_overflow=0,
    )


def _prepare(engine: Engine, pragmas: tuple[str, ...]) -> None:
    @event.listens_for(engine, "connect")
    def set_pragmas(connection: Any, _record: object) -> None:
        cursor = connection.cursor()
        for pragma in pragmas:
            cursor.execute(pragma)
        cursor.close()


def _begin_to_write(engine: Engine) -> None:
    @event.listens_for(engine, "begin")
    def begin_to_write(connection: Connection) -> None:
        connection.exec_driver_sql("BEGIN IMMEDIATE")
