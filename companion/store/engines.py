"""How the database file is opened: one connection that writes, a few that only read.

The driver's default transactions begin late and lose concurrent updates. So the driver begins none; the writer begins
with `BEGIN IMMEDIATE` (who is in has the file to itself until the end), readers with `BEGIN` on connections that refuse
to write. Nobody waits for a reader, and a reader for nobody (WAL), so these engines are plain ones, and statements are
executed where they are asked for: a way to another thread and back takes longer than most of them.
"""

import sqlite3
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, NullPool, QueuePool, create_engine, event

READERS = 4
"""So many connections that read are kept; more are opened for as long as they are needed."""

BUSY_S = 30
"""How long a statement waits for another process that writes, seconds."""

_ALWAYS = (
    "PRAGMA journal_mode = WAL",
    "PRAGMA synchronous = FULL",
    "PRAGMA foreign_keys = ON",
    f"PRAGMA busy_timeout = {BUSY_S * 1000}",
)


def connect_file(database: Path, *, one_thread: bool = True) -> sqlite3.Connection:
    """A plain connection that never begins a transaction by itself. Not for `one_thread`, two must not use it at once."""
    return sqlite3.connect(database, timeout=BUSY_S, isolation_level=None, check_same_thread=one_thread)


def writer(database: Path, *, durable: bool = True) -> Engine:
    """The engine that writes. It has one connection, and whoever has it has the write lock.

    Without `durable` a commit is not waited for until it is on the disk: what is committed outlives this process, but
    perhaps not the machine's power.
    """
    engine = create_engine(
        "sqlite://",
        creator=lambda: connect_file(database, one_thread=False),
        poolclass=QueuePool,
        pool_size=1,
        max_overflow=0,
    )
    pragmas = _ALWAYS if durable else (*_ALWAYS, "PRAGMA synchronous = OFF")
    _prepare(engine, pragmas)
    _begin_to_write(engine)
    return engine


def reader(database: Path) -> Engine:
    """The engine that reads: each transaction sees one snapshot, and can not write."""
    engine = create_engine(
        "sqlite://",
        creator=lambda: connect_file(database),
        poolclass=QueuePool,
        pool_size=READERS,
        max_overflow=-1,
    )
    _prepare(engine, (*_ALWAYS, "PRAGMA query_only = ON"))

    @event.listens_for(engine, "begin")
    def begin_to_read(connection: Connection) -> None:
        # Straight to the driver: there are more of these than of anything else.
        driver = connection.connection.driver_connection
        assert isinstance(driver, sqlite3.Connection)
        driver.execute("BEGIN")

    return engine


def migrator(database: Path) -> Engine:
    """A plain engine with the writer's settings, for migrations, which run in a thread."""
    engine = create_engine("sqlite://", creator=lambda: connect_file(database), poolclass=NullPool)
    _prepare(engine, _ALWAYS)
    _begin_to_write(engine)
    return engine


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
