"""A bell that rings whenever something changed that somebody may be waiting for."""

import asyncio


class Changes:
    """Wakes everybody who waits, once, at each ring; whoever looks before waiting misses nothing, for nothing
    runs in between.
    """

    def __init__(self) -> None:
        self._waiting: set[asyncio.Future[None]] = set()

    def ring(self) -> None:
        waiting, self._waiting = self._waiting, set()
        for sleeper in waiting:
            if not sleeper.done():
                sleeper.set_result(None)

    async def wait(self) -> None:
        """Returns at the next ring."""
        sleeper: asyncio.Future[None] = asyncio.get_running_loop().create_future()
        self._waiting.add(sleeper)
        try:
            await sleeper
        finally:
            self._waiting.discard(sleeper)
