"""The database as one thing: opened once, written and read through it, closed once."""

import asyncio
from collections.abc import AsyncIterator, Iterator
from contextlib import asynccontextmanager, contextmanager, suppress
from pathlib import Path
from typing import Self

from sqlalchemy.exc import DBAPIError, IntegrityError

from companion.store.engines import reader
from companion.store.lock import OWNER_ONLY, ActiveLock
from companion.store.migrate import bring_up_to_date, is_up_to_date, unusable
from companion.store.questions import Scripts
from companion.store.reading import Reading
from companion.store.records import Records
from companion.store.transactions import Tx
from companion.store.writer import Writer


class Store:
    """The open database. One process is active; others may open it beside with `active=False`.

    Everything raises `DatabaseUnusable` if the file can no longer be read or written, and `RecordUnreadable` for a
    record that does not fit its shape.
    """

    def __init__(self, database: Path, lock: ActiveLock | None, *, durable: bool = True) -> None:
        self._database = database
        self._lock = lock
        self._writer, self._reader = Writer(database, durable=durable), reader(database)
        self._records, self._scripts = Records(), Scripts()

    @classmethod
    async def open(cls, database: Path, *, active: bool = True, durable: bool = True) -> Self:
        """Open the file, or make it (for its owner only), and bring its tables up to date.

        `active` takes the lock that only one process can hold; a second one gets `UsedWrong` (exit code 2). With
        `active=False` (enrolment, reports) the lock is only taken, and let go, if tables must be brought up to date.
        `durable=False` does not wait for the disk: for a database that may be lost with the machine, as a rehearsal's.
        Raises `DatabaseUnusable`, saying what to do: not readable, not a companion's database, of a newer version.
        """
        lock = ActiveLock(database)
        if active:
            lock.take()
            try:
                _make(database)
                await asyncio.to_thread(bring_up_to_date, database)
            except BaseException:
                lock.let_go()
                raise
            return cls(database, lock, durable=durable)
        _make(database)
        if not await asyncio.to_thread(is_up_to_date, database):
            lock.take()
            try:
                await asyncio.to_thread(bring_up_to_date, database)
            finally:
                lock.let_go()
        return cls(database, None, durable=durable)

    async def close(self) -> None:
        """Close all connections and let the lock go. Twice is fine."""
        self._reader.dispose()
        await self._writer.dispose()
        if self._lock is not None:
            self._lock.let_go()

    @asynccontextmanager
    async def writing(self) -> AsyncIterator[Tx]:
        """One writing transaction; writers wait for each other. Committed at the end, rolled back on an exception."""
        with self._told():
            async with self._writer.begin() as connection:
                tx = Tx(connection, self._records, self._scripts)
                yield tx
                await tx.write_collected()
        for name, script in tx.new_scripts.items():
            self._scripts.keep(name, script)
        for name in tx.old_scripts:
            self._scripts.drop(name)

    @asynccontextmanager
    async def reading(self) -> AsyncIterator[Reading]:
        """One snapshot to read from; readers wait for nobody."""
        with self._told(), self._reader.begin() as connection:
            yield Reading(connection, self._records, self._scripts)

    @contextmanager
    def _told(self) -> Iterator[None]:
        try:
            yield
        except IntegrityError:
            raise
        except DBAPIError as error:
            raise unusable(self._database, error) from error


def _make(database: Path) -> None:
    """Make the file, if it is not there: it holds what people said. SQLite gives the files beside it the same rights."""
    # Whatever else is the matter, opening the file says it, and what to do.
    with suppress(OSError):
        database.touch(mode=OWNER_ONLY, exist_ok=False)
