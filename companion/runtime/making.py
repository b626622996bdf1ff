"""The making loop: pictures and sounds that are wanted, made outside this process, each once.

What a message waits for goes before what is made ahead. What can not be made is given up soon, for somebody waits.
"""

import asyncio
import logging
from datetime import datetime

from companion.runtime.clock import Clock
from companion.runtime.handler import Handler
from companion.runtime.mishap import told
from companion.runtime.transport import Assessor
from companion.store import MediaRow

log = logging.getLogger(__name__)

TRIES = 3
"""What goes wrong so often can not be made."""


class MakingLoop:
    """The loop that has pictures and sounds made. `made` is set when one is there, or can not be."""

    name = "making"

    def __init__(self, handler: Handler, assessor: Assessor, made: asyncio.Event) -> None:
        self.event = asyncio.Event()
        self.turn = asyncio.Lock()
        self._store = handler.store
        self._clock: Clock = handler.clock
        self._assessor = assessor
        self._made = made

    async def run(self) -> None:
        """Make for ever."""
        until: datetime | None = self._clock.now()
        while True:
            await self._clock.park(self.name, self.event, until or self._clock.look(None))
            until = await self._turn()

    async def _turn(self) -> datetime | None:
        """Have the next one made, if one is wanted. Until when to wait."""
        self.event.clear()
        async with self._store.reading() as reading:
            row = await reading.next_wanted()
        if row is None:
            return None
        data = await self._make(row)
        async with self.turn, self._store.writing() as tx:
            await tx.set_made(row.key, data)
        self._made.set()
        return self._clock.now()

    async def _make(self, row: MediaRow) -> bytes | None:
        for _ in range(TRIES):
            try:
                return await self._assessor.make(row.media, row.language)
            except Exception as error:
                log.error("a %s could not be made: %s", row.media.kind, told(error))
        return None
