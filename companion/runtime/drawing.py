"""The drawing loop: charts that were asked for, drawn outside this process, in the order in which they were asked for."""

import asyncio
import logging
from datetime import datetime, timedelta

from companion.core.effects import Subject, Urgency, words
from companion.core.person import Person
from companion.runtime.clock import Clock
from companion.runtime.handler import Handler
from companion.runtime.mishap import told
from companion.runtime.transport import Assessor, Drawing
from companion.store import OutboxRow, ReportRow, ReportState

log = logging.getLogger(__name__)

TRIES = 3
AGAIN = timedelta(seconds=60)
"""A chart that could not be drawn is tried again after so long, and after so many tries said to have failed."""


class DrawingLoop:
    """The loop that has charts drawn. `said` is called when one is written down to be sent."""

    name = "drawing"

    def __init__(self, handler: Handler, assessor: Assessor, said: asyncio.Event) -> None:
        self.event = asyncio.Event()
        self.turn = asyncio.Lock()
        self._store = handler.store
        self._renderer = handler.renderer
        self._clock: Clock = handler.clock
        self._assessor = assessor
        self._said = said
        self._failed = (0, 0)

    async def run(self) -> None:
        """Draw for ever."""
        until: datetime | None = self._clock.now()
        while True:
            await self._clock.park(self.name, self.event, until or self._clock.look(None))
            until = await self._turn()

    async def _turn(self) -> datetime | None:
        """Have the oldest chart drawn, if there is one. Until when to wait."""
        self.event.clear()
        async with self._store.reading() as reading:
            row = await reading.next_report()
            person = await reading.person(row.person_id) if row is not None else None
        if row is None:
            return None
        drawing: Drawing | None = None
        try:
            if person is not None:
                drawing = await self._assessor.draw(row.client_id, row.first, row.last, person.language)
        except Exception as error:
            log.error("chart %d could not be drawn: %s", row.id, told(error))
            tries = self._failed[1] + 1 if self._failed[0] == row.id else 1
            self._failed = (row.id, tries)
            if tries < TRIES:
                return self._clock.now() + AGAIN
        async with self.turn:
            await self._write(row, person, drawing)
        return self._clock.now()

    async def _write(self, row: ReportRow, person: Person | None, drawing: Drawing | None) -> None:
        message = self._message(row, person, drawing) if person is not None else None
        async with self._store.writing() as tx:
            if message is not None:
                await tx.put_outbox(message)
            await tx.set_report(row.id, ReportState.DRAWN if drawing is not None else ReportState.FAILED)
        self._said.set()

    def _message(self, row: ReportRow, person: Person, drawing: Drawing | None) -> OutboxRow | None:
        if drawing is not None:
            text = drawing.caption
        else:
            failed = words("report-failed", first=row.first.isoformat(), last=row.last.isoformat())
            text = self._renderer.text(failed, person.language)
        return OutboxRow(
            subject=Subject("client", row.client_id),
            person_id=row.person_id,
            client_id=row.client_id,
            created_at=self._clock.now(),
            urgency=Urgency.REPORT,
            topic="report",
            text=text,
            photo=drawing.png if drawing is not None else None,
        )
