"""The database as one thing: opened once, written and read through it, closed once."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

from companion.store.reading import Reading
from companion.store.transactions import Tx


class Store:
    """The open database. One process is active; others may open it beside with `active=False`."""

    @classmethod
    async def open(cls, database: Path, *, active: bool = True) -> Store:
        """Open the file, or make it, and bring its tables up to date.

        `active` takes the lock that only one process can hold; a second one gets `UsedWrong` (exit code 2). With
        `active=False` (enrolment, reports) the lock is only taken, and let go, if tables must be brought up to date.
        Raises CompanionError, saying what to do: not readable, not a companion's database, or of a newer version.
        """
        raise NotImplementedError

    async def close(self) -> None:
        """Close all connections and let the lock go. Closing twice is fine."""
        raise NotImplementedError

    @asynccontextmanager
    async def writing(self) -> AsyncIterator[Tx]:
        """One writing transaction; writers wait for each other. Committed at the end, rolled back on an exception."""
        raise NotImplementedError
        yield

    @asynccontextmanager
    async def reading(self) -> AsyncIterator[Reading]:
        """One snapshot to read from; readers wait for nobody."""
        raise NotImplementedError
        yield
