"""One event, one row locked, one transaction.

    event -> handled before? -> row -> step -> row, outbox, observations, passes, journal -> commit -> loops are told

Handling is total. What goes wrong in between is rolled back, logged by key and set aside, so that the next event is
handled as if nothing had been; only when the store itself can not write does an error leave here.
"""

import logging
from collections.abc import Awaitable, Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Protocol

from companion.core import client as clients
from companion.core import person as people
from companion.core.effects import Effect, Subject, words
from companion.core.events import Control, Event, Woke
from companion.core.person import Person
from companion.core.programme import Rules
from companion.runtime.client_rows import save_client
from companion.runtime.clock import Clock
from companion.runtime.mishap import told
from companion.runtime.plain_lines import PlainLines
from companion.runtime.routing import PERSON_WAKE_CLASS, LinkTaken, Router, ToHandle, ToTell
from companion.runtime.transport import Doors, Inbound, InPress, Renderer, ReplyText
from companion.runtime.written import Means, Source, Written, write_down
from companion.store import OutboxRow, Store
from companion.store.errors import AlreadyHandled, DatabaseUnusable
from companion.store.transactions import Tx

log = logging.getLogger(__name__)

ASIDE = timedelta(seconds=60)
"""A row whose alarm was not handled well is looked at again after so long."""

Decision = clients.Decision | people.Decision
Also = Callable[[Tx], Awaitable[None]]


@dataclass(frozen=True, slots=True)
class Change:
    """What one committed event changed, for the loops to look at. `client`: the new state, if it was a client's; `wanted`:
    there are pictures or sounds to make."""

    wake_at: datetime | None
    client: clients.Client | None
    said: bool
    asked_report: bool
    wanted: bool = False


class Watcher(Protocol):
    """Who is told after a commit. Does not wait and does not raise."""

    def changed(self, change: Change) -> None:
        """An event was handled."""
        ...

    def stranger(self, chat_id: int, text: str) -> None:
        """There is a plain line for somebody who is nobody here."""
        ...


@dataclass(slots=True)
class _Attempt:
    """One event on its way, as far as it is known, should it go wrong. `also` is written in any case."""

    key: str
    subject: Subject | None = None
    event: Event | None = None
    person: Person | None = None
    also: Also | None = None
    failed: bool = False


@dataclass(frozen=True, slots=True)
class _Done:
    decision: Decision
    written: Written
    change: Change


@dataclass(slots=True)
class Handler:
    """Handles events one by one. Several tasks may call it at once; the store lets one transaction in at a time.

    `controls` maps every label of the fixed row ever shipped, and every command, to its control. `on_wire` is the
    message that the sender has marked as on the wire and not settled yet. `edition` names what pictures and sounds depend on.
    """

    store: Store
    rules: Rules
    renderer: Renderer
    doors: Doors
    clock: Clock
    controls: Mapping[str, Control]
    watchers: list[Watcher] = field(default_factory=list)
    on_wire: OutboxRow | None = None
    edition: str = ""
    _lines: PlainLines = field(init=False)

    def __post_init__(self) -> None:
        self._lines = PlainLines(self.rules, self.renderer, self.clock)

    async def handle(self, subject: Subject, event: Event, key: str, also: Also | None = None) -> Decision | None:
        """Handle one event under its key; None if the key was handled before, or if it went wrong.

        `also` is written in the same transaction, and likewise when the key was handled before or the event goes
        wrong. Raises only what the store raises when it can not write.
        """

        async def work(tx: Tx) -> _Done | None:
            if also is not None:
                await also(tx)
            return await self._step(tx, subject, event, key)

        done = await self._attempt(_Attempt(key, subject, event, also=also), work)
        await self._finish(done)
        return done.decision if done is not None else None

    async def receive(self, inbound: Inbound) -> ReplyText | None:
        """Handle what came in; what the platform's own answer to a press shall say, None: nothing.

        A key that was handled before changes nothing. Raises only what the store raises when it can not write.
        """
        attempt = _Attempt(inbound.key)
        line: list[ToTell] = []

        async def work(tx: Tx) -> _Done | None:
            if await tx.was_handled(inbound.key):
                return None
            routed = await Router(self.rules, self.controls, self.clock.now(), self.clock.seed()).route(tx, inbound)
            line[:] = [routed] if isinstance(routed, ToTell) else []
            if not isinstance(routed, ToHandle):
                return None
            attempt.subject, attempt.event, attempt.person = routed.subject, routed.event, routed.person
            return await self._step(tx, routed.subject, routed.event, inbound.key)

        try:
            done = await self._attempt(attempt, work)
        except LinkTaken:
            done, line = None, [ToTell(words("link-taken"))]
        await self._finish(done)
        if line:
            return self._tell(inbound, line[0])
        if attempt.failed and isinstance(inbound.what, InPress):
            return self._lines.reply(self._lines.fault(), attempt.person)
        return self._lines.reply(done.written.reply, attempt.person) if done is not None else None

    async def drain(self) -> None:
        """Handle everything that was passed on and is not handled yet, oldest first; then let the loops look."""
        changes: list[Change] = []
        try:
            await self._drain(changes)
        finally:
            self.announce(changes)

    # one transaction

    async def _attempt(self, attempt: _Attempt, work: Callable[[Tx], Awaitable[_Done | None]]) -> _Done | None:
        """Do `work` in one transaction. If it goes wrong: roll back, log, set aside."""
        try:
            return await self._transact(attempt.key, work)
        except LinkTaken:
            raise
        except Exception as error:
            log.error("event %s went wrong and is set aside: %s", attempt.key, told(error))
            attempt.failed = True
            await self._set_aside(attempt)
            return None

    async def _transact(self, key: str, work: Callable[[Tx], Awaitable[_Done | None]]) -> _Done | None:
        """One transaction; a second time where the database failed, for it may have been busy."""
        try:
            async with self.store.writing() as tx:
                return await work(tx)
        except AlreadyHandled:
            return None
        except DatabaseUnusable:
            log.warning("event %s is tried again: the database failed", key)
        async with self.store.writing() as tx:
            return await work(tx)

    async def _step(self, tx: Tx, subject: Subject, event: Event, key: str) -> _Done | None:
        if await tx.was_handled(key):
            return None
        if subject.aggregate == "client":
            return await self._step_client(tx, subject, event, key)
        return await self._step_person(tx, subject, event, key)

    async def _step_client(self, tx: Tx, subject: Subject, event: Event, key: str) -> _Done:
        client = await tx.client(subject.id)
        if client is None:
            raise LookupError(f"no client {subject.id}")
        decision = clients.step(client, event, self.rules)
        client = decision.client
        wake_at = _moved_on(event, key, clients.wake_at(client, self.rules))
        source = Source(subject, (client.id,), self.clock.now(), self.on_wire)
        await save_client(tx, client, wake_at, self.rules, source.at)
        written = await self._write(tx, source, event, key, decision.effects)
        return _Done(decision, written, Change(wake_at, client, written.said, written.asked_report, written.wanted))

    async def _step_person(self, tx: Tx, subject: Subject, event: Event, key: str) -> _Done:
        person = await tx.person(subject.id)
        if person is None:
            raise LookupError(f"no person {subject.id}")
        decision = people.step(person, event, self.rules)
        person = decision.person
        wake_at = _moved_on(event, key, people.wake_at(person, self.rules))
        await tx.save_person(person, wake_at, PERSON_WAKE_CLASS)
        source = Source(subject, tuple(person.clients), self.clock.now(), self.on_wire)
        written = await self._write(tx, source, event, key, decision.effects)
        return _Done(decision, written, Change(wake_at, None, written.said, written.asked_report, written.wanted))

    async def _write(self, tx: Tx, source: Source, event: Event, key: str, effects: tuple[Effect, ...]) -> Written:
        means = Means(self.renderer, self.doors, self.clock, self.rules, self.edition)
        written = await write_down(tx, source, effects, means)
        await tx.journal(key, source.subject, event, effects)
        return written

    # what was passed on

    async def _finish(self, done: _Done | None) -> None:
        """Handle what the event passed on; only then tell the loops, so that they see all of it at once."""
        if done is None:
            return
        changes = [done.change]
        try:
            if done.written.passed:
                await self._drain(changes)
        finally:
            self.announce(changes)

    async def _drain(self, changes: list[Change]) -> None:
        while await self._next_pass(changes):
            pass

    def announce(self, changes: Sequence[Change]) -> None:
        """Tell the loops of what was committed."""
        for change in changes:
            for watcher in self.watchers:
                watcher.changed(change)

    async def _next_pass(self, changes: list[Change]) -> bool:
        """Handle the oldest event that was passed on; False if there is none."""
        attempt = _Attempt("pass:?")

        async def work(tx: Tx) -> _Done | None:
            row = await tx.next_pass()
            if row is None:
                return None

            async def done(tx: Tx) -> None:
                await tx.pass_done(row.id)

            attempt.key, attempt.subject, attempt.event, attempt.also = f"pass:{row.id}", row.subject, row.event, done
            await done(tx)
            return await self._step(tx, row.subject, row.event, attempt.key)

        done = await self._attempt(attempt, work)
        if done is not None:
            changes.append(done.change)
        return attempt.subject is not None

    # what goes wrong

    async def _set_aside(self, attempt: _Attempt) -> None:
        """Note the key, so that it is not tried again, and tell whoever waits for an answer.

        If this can not be written either, it is the store that is in trouble, and the error goes on.
        """
        subject, event = attempt.subject, attempt.event
        async with self.store.writing() as tx:
            if attempt.also is not None:
                await attempt.also(tx)
            if subject is None or event is None or await tx.was_handled(attempt.key):
                return
            await tx.journal(attempt.key, subject, event, ())
            row = self._lines.apology(subject, event, attempt.person)
            if row is not None:
                await tx.put_outbox(row)
        self.announce([Change(None, None, said=True, asked_report=False)])

    def _tell(self, inbound: Inbound, line: ToTell) -> ReplyText | None:
        """A press is answered at once; a stranger's line goes by the sender."""
        if isinstance(inbound.what, InPress):
            return self._lines.reply(line.line, line.person)
        text = self._lines.for_stranger(inbound.user_id, line.line)
        if text is not None:
            for watcher in self.watchers:
                watcher.stranger(inbound.chat_id, text)
        return None


def _moved_on(event: Event, key: str, wake_at: datetime | None) -> datetime | None:
    """An alarm that was handled and still stands would ring for ever; it is put off, and said so loudly."""
    if isinstance(event, Woke) and wake_at is not None and wake_at <= event.at:
        log.error("alarm %s was handled and still stands; it is put off", key)
        return event.at + ASIDE
    return wake_at
