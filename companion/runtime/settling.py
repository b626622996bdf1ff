"""What becomes of a message once it was tried: sent, tried again, or lost, and who is told.

A request that ended without an answer may have been taken. Edits and alerts are repeated; reminders are not; news
that somebody waits for (it carries a tag) is told as lost, and the core asks; other news is repeated twice at most.
A file that the platform does not know any more is made again; what a person recorded, and a picture that it does not take,
is left out, and the words go alone.
"""

import logging
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from companion.core.effects import Subject, Urgency
from companion.core.events import Arrived, Event, Left, Lost, Why
from companion.core.media import Medium, Recorded
from companion.runtime.clock import Clock
from companion.runtime.envelope import must_sound
from companion.runtime.handler import Also, Change, Handler
from companion.runtime.pace import back_off
from companion.runtime.transport import (
    CHANGES,
    FileUnknown,
    NotThere,
    NoWay,
    Op,
    Outcome,
    Outgoing,
    Receipt,
    TryLater,
    Undeliverable,
    Unknown,
    Unreachable,
)
from companion.store import CardRow, OutboxRow, OutboxState, Store
from companion.store.transactions import Tx

log = logging.getLogger(__name__)

REPEATS = 3
"""Untagged news whose end is unknown goes out so often at most."""

UNKNOWN_PAUSE = timedelta(seconds=30)
"""The longest wait before something whose end is unknown is repeated."""


@dataclass(frozen=True, slots=True)
class StuckAlert:
    """An alert that can not go this way. `why` is for the operator: no words, no names."""

    row: int
    client: str | None
    why: str


OperatorHook = Callable[[StuckAlert], None]


def tell_log(alert: StuckAlert) -> None:
    """The operator's hook where none is set: the log."""
    log.critical("alert %d of client %s is not delivered: %s", alert.row, alert.client, alert.why)


@dataclass(frozen=True, slots=True)
class Tried:
    """A row, what was asked of the platform for it, and since when. `row.attempts` counts this attempt too."""

    row: OutboxRow
    outgoing: Outgoing
    began: datetime

    def goes_without(self) -> bool:
        """Whether it had a file that went along with the words, and can do without."""
        return self.outgoing.file is not None and self.row.photo is None and not must_sound(self.row)


@dataclass(frozen=True, slots=True)
class Settling:
    """Writes down how it went, and hands what somebody waits for to the handler, in one transaction."""

    store: Store
    handler: Handler
    clock: Clock
    hook: OperatorHook = tell_log

    async def settle(self, tried: Tried, outcome: Outcome) -> None:
        """Write down the outcome of one attempt."""
        row, op = tried.row, tried.outgoing.op
        match outcome:
            case Receipt():
                at = min(max(outcome.at, tried.began), self.clock.now())
                await self._end(row, Arrived(at, row.tag) if row.tag else None, _taken(tried, outcome, at))
            case TryLater():
                await self._again(row, None)
            case Unreachable():
                await self._again(row, self.clock.now() + back_off(row.attempts))
            case NotThere() if op is Op.CLEAR:
                await self._end(row, None, _cleared(row, tried.outgoing.message_id, self.clock.now()))
            case NotThere() if op in CHANGES:
                await self._end(row, None, _scrolled(row))
            case FileUnknown() if row.media is not None and not isinstance(row.media, Recorded):
                await self._end(row, None, _made_again(row, self.clock.now()))
                self.handler.announce([Change(None, None, said=False, asked_report=False, wanted=True)])
            case FileUnknown() | Undeliverable(NoWay.REFUSED) if row.media is not None and tried.goes_without():
                log.error("message %d goes without its %s: the platform does not take it", row.id, row.media.kind)
                await self._end(row, None, _left_out(row))
            case Unknown() if _repeats(row, op):
                await self._again(row, self.clock.now() + back_off(row.attempts, UNKNOWN_PAUSE))
            case Unknown():
                await self.lose(row, Why.UNKNOWN)
            case Undeliverable() | NotThere() | FileUnknown():
                await self.lose(row, Why.UNDELIVERABLE)
                if outcome == Undeliverable(NoWay.BLOCKED):
                    await self._gone(row)

    async def nothing_to_do(self, row: OutboxRow) -> None:
        """There was nothing to ask of the platform, and that is fine."""
        await self._end(row, None, _cleared(row, None, self.clock.now()))

    async def lose(self, row: OutboxRow, why: Why) -> None:
        """It will not be tried again."""

        async def lost(tx: Tx) -> None:
            await tx.set_lost(row.id)

        await self._end(row, Lost(self.clock.now(), row.tag, why) if row.tag else None, lost)
        if row.urgency is Urgency.ALERT and why is not Why.EXPIRED:
            self.hook(StuckAlert(row.id, row.client_id, str(why)))

    async def _gone(self, row: OutboxRow) -> None:
        """The person has shut us out, and may have done so while we were away. Said once."""
        async with self.store.reading() as reading:
            person = await reading.person(row.person_id)
        if person is not None and person.reachable:
            gone = Left(self.clock.now(), person.id)
            await self.handler.handle(Subject("person", person.id), gone, f"left:{row.id}")

    async def _again(self, row: OutboxRow, try_after: datetime | None) -> None:
        async def waiting(tx: Tx) -> None:
            await _wait_again(tx, row, try_after)

        await self._end(row, None, waiting)

    async def _end(self, row: OutboxRow, event: Event | None, write: Also) -> None:
        async def ended(tx: Tx) -> None:
            self.handler.on_wire = None
            await write(tx)

        if event is not None:
            await self.handler.handle(row.subject, event, f"sent:{row.id}", ended)
            return
        async with self.store.writing() as tx:
            await ended(tx)


def _repeats(row: OutboxRow, op: Op) -> bool:
    if op in CHANGES or row.urgency is Urgency.ALERT:
        return True
    return row.urgency is not Urgency.REMINDER and row.tag is None and row.attempts < REPEATS


def _taken(tried: Tried, receipt: Receipt, at: datetime) -> Also:
    """The platform took it: the row, the card, the newest message of that chat, and the buttons of the old card."""
    row, op = tried.row, tried.outgoing.op

    async def write(tx: Tx) -> None:
        await tx.set_sent(row.id, None if op is Op.CLEAR else receipt.message_id, at)
        if op is Op.CLEAR:
            await _no_buttons(tx, row, tried.outgoing.message_id)
            return
        if op not in CHANGES:
            await tx.set_last_message(row.person_id, receipt.message_id)
        file = tried.outgoing.file
        if file is not None and isinstance(file.content, bytes) and row.media_key is not None and receipt.file_id:
            await tx.set_file_id(row.media_key, receipt.file_id)
        if row.card is None:
            return
        old = await tx.card(row.person_id, row.card)
        form, media = (old.form, old.media) if op is Op.CAPTION and old is not None else _along(tried)
        editable = row.photo is None and not row.fixed_row
        new = CardRow(row.person_id, row.card, receipt.message_id, bool(row.buttons), editable, form, media)
        await tx.set_card(new)
        if old is not None and old.has_buttons and old.message_id != new.message_id:
            await tx.put_outbox(_clearing(row, old, at))

    return write


def _along(tried: Tried) -> tuple[Medium | None, str | None]:
    """What stands on a card beside the words that were sent: the file, and its name."""
    file = tried.outgoing.file
    return (file.medium, tried.row.media_key) if file is not None else (None, None)


def _clearing(row: OutboxRow, old: CardRow, at: datetime) -> OutboxRow:
    """Takes the buttons off the message that stood on the card before. No topic of a client's takes this back."""
    return OutboxRow(
        subject=row.subject,
        person_id=row.person_id,
        client_id=row.client_id,
        created_at=at,
        urgency=Urgency.ANSWER,
        topic="old-buttons",
        card=row.card,
        clears=True,
        message_id=old.message_id,
    )


def _scrolled(row: OutboxRow) -> Also:
    """The message to edit is gone: the card can not be edited any more, and what was to stand there is sent new."""

    async def write(tx: Tx) -> None:
        if row.card is not None:
            old = await tx.card(row.person_id, row.card)
            if old is not None:
                await tx.set_card(replace(old, has_buttons=False, editable=False))
        await _wait_again(tx, row, None)

    return write


def _made_again(row: OutboxRow, at: datetime) -> Also:
    """The platform does not know the file any more: it is made again, and the message waits for it."""

    async def write(tx: Tx) -> None:
        if row.media_key is not None:
            await tx.want_again(row.media_key, at)
        await _wait_again(tx, row, None)

    return write


def _left_out(row: OutboxRow) -> Also:
    async def write(tx: Tx) -> None:
        await tx.leave_out(row.id)
        await _wait_again(tx, row, None)

    return write


async def _wait_again(tx: Tx, row: OutboxRow, try_after: datetime | None) -> None:
    """A retry looks again first: what was taken back while it was on the wire is not tried again."""
    found = await tx.outbox(row.id)
    if found is not None and found.state is OutboxState.ON_WIRE:
        await tx.set_waiting(row.id, try_after)


def _cleared(row: OutboxRow, message_id: int | None, at: datetime) -> Also:
    async def write(tx: Tx) -> None:
        await tx.set_sent(row.id, None, at)
        if message_id is not None:
            await _no_buttons(tx, row, message_id)

    return write


async def _no_buttons(tx: Tx, row: OutboxRow, message_id: int | None) -> None:
    known = await tx.card(row.person_id, row.card) if row.card is not None else None
    if known is not None and known.message_id == message_id:
        await tx.set_card(replace(known, has_buttons=False))
