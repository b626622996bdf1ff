"""The sender: one request at a time, the most urgent first, as fast as the platform lets us and no faster.

    scan what waits -> by class, then id; in a chat a waiting message holds back its own class and lower ones
    -> choose: stop and alerts, live, answers | a countdown's quarter | reminders, reports | a countdown's step
    -> mark as on the wire -> ask the platform -> settle

A row is marked before the request, so that after a crash we know whose end is unknown. Between two turns the loop is
parked, also when there is more to send at once.
"""

import asyncio
import logging
from collections import deque
from collections.abc import Awaitable, Callable, Iterable
from dataclasses import replace
from datetime import datetime, timedelta
from functools import partial

from companion.core.effects import ClientId, Countdown, PersonId, Urgency
from companion.core.events import Why
from companion.runtime.clock import Clock
from companion.runtime.countdown import Countdowns, with_left
from companion.runtime.envelope import NoChat, NoSound, NothingToDo, card_in_place, outgoing, words_on
from companion.runtime.mishap import told
from companion.runtime.pace import Pace
from companion.runtime.settling import Settling, Tried
from companion.runtime.transport import (
    CHANGES,
    NotThere,
    Op,
    Outcome,
    Outgoing,
    Transport,
    TryLater,
    Undeliverable,
    Unknown,
    Unreachable,
)
from companion.runtime.waiting import Scan, StuckAlerts, look, ready_at
from companion.runtime.written import render, render_buttons
from companion.store import OutboxRow
from companion.store.errors import DatabaseUnusable

log = logging.getLogger(__name__)

STRANGERS = 100
SPARE_EDITS = 5
"""Of the edits that a chat may have in a minute a countdown leaves so many to what matters more."""

SHORT = timedelta(seconds=1)

MOST_LEAD = timedelta(seconds=0.01)
"""What goes next is chosen and marked so long before its slot at most. What comes later waits for the next slot."""

Send = Callable[[], Awaitable[None]]


class Outbox:
    """The sending loop. `eased` is called when a reminder has gone out or is lost."""

    name = "outbox"

    def __init__(self, settling: Settling, transport: Transport, pace: Pace, eased: Callable[[], None]) -> None:
        self.event = asyncio.Event()
        self.turn = asyncio.Lock()
        self._settling = settling
        self._store = settling.store
        self._clock: Clock = settling.clock
        self._renderer = settling.handler.renderer
        self._transport = transport
        self._pace = pace
        self._eased = eased
        self._countdowns = Countdowns()
        self._turned = self._clock.now()
        self._lead = timedelta()
        self._strangers: deque[tuple[int, str]] = deque()
        self._stuck = StuckAlerts(settling.hook)

    # what others tell it

    def show(self, client: ClientId, countdowns: Iterable[Countdown]) -> None:
        """These countdowns run for this client now, and no others."""
        if self._countdowns.replace(client, countdowns, self._clock.now()):
            self.event.set()

    def stranger(self, chat_id: int, text: str) -> None:
        """A plain line for somebody unknown. It goes last, is not written down and not tried twice."""
        if len(self._strangers) < STRANGERS:
            self._strangers.append((chat_id, text))
            self.event.set()

    async def recover(self) -> None:
        """After a start: what was on the wire ended unknown."""
        async with self._store.reading() as reading:
            rows = await reading.on_wire()
        for row in rows:
            async with self._store.reading() as reading:
                sent = await outgoing(reading, row)
            if not isinstance(sent, Outgoing):
                sent = Outgoing(Op.TEXT, 0)
            await self._settling.settle(Tried(row, sent, self._clock.now()), Unknown())

    # the loop

    async def run(self) -> None:
        """Send for ever."""
        until: datetime | None = self._clock.now()
        while True:
            # On the real clock it also looks now and then: another process may have written something down.
            await self._clock.park(self.name, self.event, until or self._clock.look(None))
            async with self.turn:
                until = await self._turn()

    async def _turn(self) -> datetime | None:
        """Send one thing, if one may go now. Until when to wait for the next (None: until something happens)."""
        self.event.clear()
        now = self._turned = self._clock.now()
        slot = self._pace.slot() - self._lead
        async with self._store.reading() as reading:
            scan = await look(reading, self._pace, now)
            in_trouble = scan.row is None or slot - now > SHORT
            stuck_at = await self._stuck.look(reading, now) if scan.waits and in_trouble else None
        send = self._choose(scan, now)
        if send is not None and slot <= now:
            await send()
            send, slot, now = None, self._pace.slot() - self._lead, self._clock.now()
            if scan.row is not None:
                # Where more waits, there is no need to look before the next slot; unless that is far off, for trouble is told.
                soon = slot - now <= SHORT
                return slot if soon and any(ready_at(row, self._pace) <= slot for row in scan.behind) else now
            # A countdown changes no row, so what waits is known; and what is written meanwhile sets the event.
        next_at = now if send is not None else self._next_at(scan, now)
        moments = [max(slot, next_at) if next_at is not None else None, stuck_at]
        return min((moment for moment in moments if moment is not None), default=None)

    def _choose(self, scan: Scan, now: datetime) -> Send | None:
        """What goes first of all that may go now."""
        row, due = scan.row, self._countdowns.due(now, self._open(scan))
        if row is not None and (row.urgency <= Urgency.ANSWER or due is None or not due.quarter):
            return partial(self._send, row)
        if due is not None:
            return partial(self._draw, due.countdown)
        if self._strangers and self._pace.ready(self._strangers[0][0], edit=False) <= now:
            return self._send_stranger
        return None

    def _next_at(self, scan: Scan, now: datetime) -> datetime | None:
        """The earliest moment at which anything may go that may not yet."""
        moments = [scan.until, self._countdowns.next_at(now, self._open(scan))]
        if self._strangers:
            moments.append(self._pace.ready(self._strangers[0][0], edit=False))
        return min((moment for moment in moments if moment is not None), default=None)

    def _open(self, scan: Scan) -> Callable[[PersonId], datetime | None]:
        """From when on a countdown may go to a chat: never before a message that waits for it."""

        def ready(to: PersonId) -> datetime | None:
            if to in scan.held or (scan.row is not None and scan.row.person_id == to):
                return None
            return self._pace.ready(to, edit=True, spare_edits=SPARE_EDITS)

        return ready

    # what is sent

    async def _send(self, row: OutboxRow) -> None:
        """One row. Whatever is wrong with it does not stop the others; a database that fails does, and is no fault of it."""
        try:
            await self._try(row)
        except DatabaseUnusable:
            raise
        except Exception as error:
            log.error("message %d went wrong and is lost: %s", row.id, told(error))
            await self._settling.lose(row, Why.UNDELIVERABLE)
        finally:
            self._settling.handler.on_wire = None
        if row.urgency is Urgency.REMINDER:
            self._eased()

    async def _try(self, row: OutboxRow) -> None:
        if row.not_after is not None and max(self._clock.now(), self._pace.slot()) > row.not_after:
            await self._settling.lose(row, Why.EXPIRED)
            return
        row = replace(row, attempts=row.attempts + 1)
        async with self._store.writing() as tx:
            if not await tx.set_on_wire(row.id):
                return  # taken back since we looked
            sent = await outgoing(tx, row)
            self._settling.handler.on_wire = row
        if isinstance(sent, NothingToDo):
            await self._settling.nothing_to_do(row)
        elif isinstance(sent, NoChat | NoSound):
            await self._settling.lose(row, Why.UNDELIVERABLE)
        else:
            if _ends_countdown(row, sent, self._countdowns.card_of(row.person_id)):
                self._countdowns.drop(row.person_id)
            began = self._clock.now()
            outcome = await self._request(row.person_id, sent)
            await self._settling.settle(Tried(row, sent, began), outcome)

    async def _draw(self, countdown: Countdown) -> None:
        """A countdown, if its card still stands last in its chat; if not, or if that fails, it is no loss."""
        to, now = countdown.to, self._clock.now()
        self._countdowns.drawn(to, now)
        async with self._store.reading() as reading:
            person = await reading.person(to)
            card = await card_in_place(reading, to, countdown.card)
        if not self._countdowns.runs(countdown):
            return  # replaced while we looked
        if person is None or person.user_id is None or card is None:
            self._countdowns.drop(to)
            return
        try:
            text = render(with_left(countdown, now), self._renderer, person.language)
            rows = render_buttons(countdown.buttons, self._renderer, person.language)
        except Exception as error:
            log.error("no words for a countdown: %s", told(error))
            self._countdowns.drop(to)
            return
        outcome = await self._request(to, Outgoing(words_on(card), person.user_id, text, rows, message_id=card.message_id))
        if isinstance(outcome, NotThere | Undeliverable):
            self._countdowns.drop(to)

    async def _send_stranger(self) -> None:
        chat_id, text = self._strangers.popleft()
        await self._request(chat_id, Outgoing(Op.TEXT, chat_id, text))

    async def _request(self, chat: PersonId | int, sent: Outgoing) -> Outcome:
        await self._wait_for_slot()
        self._pace.took(chat, edit=sent.op in CHANGES, now=self._clock.now())
        try:
            outcome = await self._transport.send(sent)
        except Exception as error:
            log.error("a request broke: %s", told(error))
            outcome = Unknown()
        self._pace.ended(self._clock.now())
        if isinstance(outcome, Unreachable):
            self._pace.unreachable(self._clock.now())
        elif not isinstance(outcome, Unknown):
            self._pace.reached()
        if isinstance(outcome, TryLater):
            self._pace.refused(chat, outcome.after_s, everywhere=outcome.everywhere, now=self._clock.now())
        return outcome

    async def _wait_for_slot(self) -> None:
        """To be ready takes time (it is written down that this is on the wire): as long as that, we begin before the slot."""
        now, slot = self._clock.now(), self._pace.slot()
        self._lead = min(max(now - self._turned, self._lead * 0.9), MOST_LEAD)
        if now < slot:
            await self._clock.park(self.name, None, slot)


def _ends_countdown(row: OutboxRow, sent: Outgoing, card: str | None) -> bool:
    """Whether a message puts an end to the countdown on `card` of its chat. A change of the very card does not: the
    countdown was read off the state that also wrote this change, or off a newer one."""
    match sent.op:
        case Op.TEXT | Op.FILE | Op.COPY:
            return True
        case Op.EDIT | Op.CAPTION | Op.SWAP:
            return row.card != card
        case Op.CLEAR:
            return row.message_id is None and row.card == card
