"""The drawing loop: charts and digests that were asked for, drawn outside this process, in the order of the asking.

A digest goes before the charts that it announces.
"""

import asyncio
import logging
from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, timedelta

from companion.core.effects import Put, Sheet, Subject, Urgency, words
from companion.core.events import Assessed
from companion.core.media import Filed
from companion.core.person import Person
from companion.runtime.clock import Clock
from companion.runtime.handler import Handler
from companion.runtime.mishap import told
from companion.runtime.transport import Assessor, Drawing, fits_caption
from companion.store import DigestRow, OutboxRow, ReportRow, ReportState
from companion.store.transactions import Tx

log = logging.getLogger(__name__)

TRIES = 3
AGAIN = timedelta(seconds=60)
"""A picture that could not be drawn is tried again after so long, and after so many tries said to have failed."""

Request = DigestRow | ReportRow


class DrawingLoop:
    """The loop that has charts drawn. `said` is called when one is written down to be sent."""

    name = "drawing"

    def __init__(self, handler: Handler, assessor: Assessor, said: asyncio.Event) -> None:
        self.event = asyncio.Event()
        self.turn = asyncio.Lock()
        self._handler = handler
        self._store = handler.store
        self._renderer = handler.renderer
        self._clock: Clock = handler.clock
        self._assessor = assessor
        self._said = said
        self._failed: tuple[Request | None, int] = (None, 0)

    async def run(self) -> None:
        """Draw for ever."""
        until: datetime | None = self._clock.now()
        while True:
            await self._clock.park(self.name, self.event, until or self._clock.look(None))
            until = await self._turn()

    async def _turn(self) -> datetime | None:
        """Have the oldest picture drawn, if one is wanted. Until when to wait."""
        self.event.clear()
        async with self._store.reading() as reading:
            row: Request | None = await reading.next_digest() or await reading.next_report()
            person = await reading.person(row.person_id) if row is not None else None
        if row is None:
            return None
        if isinstance(row, ReportRow) and person is not None and row.client_id not in person.clients:
            person = None  # asked for by somebody who no longer sees to this client
        drawing: Drawing | Assessed | None = None
        try:
            if person is not None:
                drawing = await self._drawn(row, person.language)
        except Exception as error:
            log.error("%s %d could not be drawn: %s", "digest" if isinstance(row, DigestRow) else "chart", row.id, told(error))
            tries = self._failed[1] + 1 if self._failed[0] == row else 1
            self._failed = (row, tries)
            if tries < TRIES:
                return self._clock.now() + AGAIN
        async with self.turn:
            await self._write(row, person, drawing)
        return self._clock.now()

    async def _drawn(self, row: Request, language: str) -> Drawing | Assessed:
        if isinstance(row, ReportRow) and row.sheet is Sheet.ASSESSED:
            return await self._assessor.assess(row.client_id)
        if isinstance(row, ReportRow):
            return await self._assessor.draw(row.client_id, row.first, row.last, language, (row.sheet, row.paper))
        return Drawing(await self._assessor.draw_digest(row.person_id, row.first, row.last, language), row.text)

    async def _write(self, row: Request, person: Person | None, drawing: Drawing | Assessed | None) -> None:
        state = ReportState.DRAWN if drawing is not None else ReportState.FAILED
        if isinstance(row, ReportRow) and row.sheet is Sheet.ASSESSED:
            await self._tell(row, drawing if isinstance(drawing, Assessed) else None, state)
            return
        assert not isinstance(drawing, Assessed)
        messages: Sequence[OutboxRow] = ()
        # words came with the client's own picture: of one that failed nothing is said
        spare = drawing is None and isinstance(row, ReportRow) and row.sheet is Sheet.OWN_WEEK
        if person is not None and not spare:
            messages = self._digest(row, drawing) if isinstance(row, DigestRow) else (self._chart(row, person, drawing),)
        async with self._store.writing() as tx:
            for message in messages:
                await tx.put_outbox(message)
            if isinstance(row, DigestRow):
                await tx.set_digest(row.id, state)
            else:
                await tx.set_report(row.id, state)
        self._said.set()

    async def _tell(self, row: ReportRow, assessed: Assessed | None, state: ReportState) -> None:
        """Tell the care what came of its assessment; of one that failed nobody hears, for the next session asks again."""

        async def settled(tx: Tx) -> None:
            await tx.set_report(row.id, state)

        if assessed is not None:
            await self._handler.handle(Subject("client", row.client_id), assessed, f"assessed:{row.id}", settled)
            return
        async with self._store.writing() as tx:
            await settled(tx)

    def _chart(self, row: ReportRow, person: Person, drawing: Drawing | None) -> OutboxRow:
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
            photo=drawing.file if drawing is not None else None,
            media=Filed(drawing.name) if drawing is not None and drawing.name else None,
        )

    def _digest(self, row: DigestRow, drawing: Drawing | None) -> Sequence[OutboxRow]:
        """The words under the picture; where they are too long for that, or there is no picture, as a message of their own."""
        message = OutboxRow(
            subject=Subject("person", row.person_id),
            person_id=row.person_id,
            created_at=self._clock.now(),
            urgency=Urgency.REPORT,
            topic="report",
            text=row.text,
            buttons=row.buttons,
            card="digest",
            put=Put.NEW,
        )
        if drawing is None:
            return (message,)
        if fits_caption(row.text):
            return (replace(message, photo=drawing.file),)
        return (replace(message, text="", buttons=(), card=None, photo=drawing.file), message)
