"""aiosqlite's connection, which goes to its thread only for what may wait.

Between SQLAlchemy and SQLite every call crosses to the connection's thread and back: make a cursor, execute, fetch,
close, commit. A crossing takes 15 to 90 microseconds (the more, the less the machine has to do), most statements less than
that. What may wait is to begin to write, for another process may be writing, and to commit, for the disk takes its time:
these cross once each. In between, and in a transaction that only reads, nobody waits for anybody (WAL), so statements are
executed where they are, and their rows fetched in the same go. SQLAlchemy's own dialect is used as it is, by way of its
documented `async_creator`. Rows are always fetched whole, so this is not for results that do not fit into memory.
"""

import sqlite3
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Any, TypeVar

import aiosqlite

Answer = TypeVar("Answer")

BUSY_S = 30
"""How long a statement waits for another process that writes, seconds."""

CHUNK = 64
"""aiosqlite's chunk for iterated cursors; ours are never iterated."""


def connect_file(database: Path) -> sqlite3.Connection:
    """A plain connection that never begins a transaction by itself."""
    return sqlite3.connect(database, timeout=BUSY_S, isolation_level=None)


async def connect(database: Path, *, reads_only: bool = False, durable: bool = True) -> "OneHopConnection":
    """An open connection for SQLAlchemy's `async_creator`.

    With `reads_only` it promises never to write; not `durable`, its commits do not wait for the disk.
    """

    def open_file() -> sqlite3.Connection:
        # Both threads use it, and never at once: whoever goes to the other one waits for it.
        return sqlite3.connect(database, timeout=BUSY_S, isolation_level=None, check_same_thread=False)

    connection = OneHopConnection(open_file, CHUNK)
    connection.reads_only = reads_only
    connection.commits_at_once = reads_only or not durable
    # SQLAlchemy does this for the connections that it makes: an abandoned one must not keep the process alive.
    connection._thread.daemon = True
    await connection
    return connection


class OneHopCursor:
    """What SQLAlchemy asks of an asynchronous cursor, and no more."""

    def __init__(self, connection: "OneHopConnection") -> None:
        self._owner = connection
        self._cursor: sqlite3.Cursor | None = None
        self._rows: list[Any] = []
        self.arraysize = 1

    async def __aenter__(self) -> "OneHopCursor":
        return self

    async def execute(self, sql: str, parameters: Sequence[Any] = ()) -> "OneHopCursor":
        """Execute, and fetch whatever comes of it."""

        def work() -> tuple[sqlite3.Cursor, list[Any]]:
            cursor = self._owner._conn.execute(sql, parameters)
            return cursor, cursor.fetchall() if cursor.description else []

        self._cursor, self._rows = await self._owner.do(work)
        return self

    async def executemany(self, sql: str, parameters: Iterable[Sequence[Any]]) -> "OneHopCursor":
        """Execute once for each of the parameters."""
        self._cursor = await self._owner.do(lambda: self._owner._conn.executemany(sql, parameters))
        self._rows = []
        return self

    async def fetchall(self) -> list[Any]:
        """The rows, which are here already."""
        rows, self._rows = self._rows, []
        return rows

    async def close(self) -> None:
        """Let the rows go. SQLite has nothing left to close: the rows were fetched to the last."""
        self._rows = []

    @property
    def description(self) -> Any:
        return self._cursor.description if self._cursor else None

    @property
    def rowcount(self) -> int:
        return self._cursor.rowcount if self._cursor else -1

    @property
    def lastrowid(self) -> int | None:
        return self._cursor.lastrowid if self._cursor else None


class OneHopConnection(aiosqlite.Connection):
    """A connection whose cursors are `OneHopCursor`s."""

    reads_only = False
    commits_at_once = False

    def cursor(self) -> Any:
        return OneHopCursor(self)

    def begin_to_read(self) -> None:
        """Begin a transaction that sees one snapshot, from its first statement on."""
        self._conn.execute("BEGIN")

    async def do(self, work: Callable[[], Answer]) -> Answer:
        """Do it here if it can not wait, else in the connection's thread, after what was asked before."""
        if not self._running or self._connection is None:
            raise ValueError("Connection closed")
        if self.reads_only or self._connection.in_transaction:
            return work()
        answer: Answer = await self._execute(work)  # type: ignore[no-untyped-call]
        return answer

    async def commit(self) -> None:
        """End the transaction. Only one that has written, and must last, waits for the disk."""
        if self.commits_at_once:
            self._conn.commit()
        else:
            await super().commit()

    async def rollback(self) -> None:
        """Undo the transaction, if there is one: SQLAlchemy makes sure whenever it lays a connection aside.

        Who was cancelled while waiting to begin may have begun after all: so the thread is asked, behind whatever it does.
        """
        if self.commits_at_once:
            self._conn.rollback()
        else:
            await super().rollback()
