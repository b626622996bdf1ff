"""One writing transaction after another, without ever holding up the event loop for long.

What may wait is to begin, for another process may be writing, and to commit, for the disk takes its time: these go to a
thread of the writer's own, one crossing each (15 to 90 microseconds; the more, the less the machine has to do). In
between nobody waits for anybody, and statements are executed where they are asked for. A database that need not last
waits for no disk and is nobody else's, so there nothing crosses.
"""

import asyncio
from collections.abc import AsyncIterator
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import asynccontextmanager
from pathlib import Path

from sqlalchemy import Connection

from companion.store.engines import writer


class Writer:
    """The connection that writes. Raises what SQLAlchemy raises."""

    def __init__(self, database: Path, *, durable: bool = True) -> None:
        self._engine = writer(database, durable=durable)
        self._thread = ThreadPoolExecutor(1, "writer") if durable else None
        # First come, first served.
        self._turn = asyncio.Lock()

    @asynccontextmanager
    async def begin(self) -> AsyncIterator[Connection]:
        """One transaction; writers wait for each other. Committed at the end, rolled back on an exception."""
        async with self._turn:
            connection = await self._begun()
            try:
                yield connection
            except BaseException:
                connection.close()
                raise
            if self._thread is None:
                _commit(connection)
            else:
                # Who gives up waiting for the disk takes nothing back: it is committed all the same.
                await asyncio.shield(asyncio.wrap_future(self._thread.submit(_commit, connection)))

    async def dispose(self) -> None:
        """Close the connection, after whatever it still does. Twice is fine."""
        if self._thread is not None:
            await asyncio.to_thread(self._thread.shutdown)
        self._engine.dispose()

    async def _begun(self) -> Connection:
        if self._thread is None:
            return self._begin()
        begun = self._thread.submit(self._begin)
        try:
            return await asyncio.wrap_future(begun)
        except asyncio.CancelledError:
            # It may begin after all; then it ends at once, before the next one's turn in the thread.
            begun.add_done_callback(_let_go)
            raise

    def _begin(self) -> Connection:
        connection = self._engine.connect()
        try:
            connection.begin()
        except BaseException:
            connection.close()
            raise
        return connection


def _commit(connection: Connection) -> None:
    with connection:
        connection.commit()


def _let_go(begun: "Future[Connection]") -> None:
    if not begun.cancelled() and begun.exception() is None:
        begun.result().close()
