"""The reading side: questions asked of one snapshot, on connections that can not write."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from datetime import datetime
from typing import TYPE_CHECKING

from companion.core.effects import ClientId, PersonId, Subject
from companion.core.observations import Observation
from companion.store.rows import CardRow, JournalRow, OutboxRow, ReportRow, Wake

if TYPE_CHECKING:
    from companion.core.client import Client
    from companion.core.person import Person

WAKE_CLASSES = (0, 1, 2)


class Reading:
    """One snapshot of everything. Made by `Store.reading()`."""

    # alarms

    async def next_wake(self, now: datetime, classes: Sequence[int] = WAKE_CLASSES) -> Wake | None:
        """Of the rows due at `now`, the first by wake class, then time, then clients before persons, then id."""
        raise NotImplementedError

    async def earliest_wake(self, classes: Sequence[int] = WAKE_CLASSES) -> datetime | None:
        """The earliest moment at which any row must be looked at, due or not."""
        raise NotImplementedError

    # the outbox

    async def waiting(self, limit: int, now: datetime, without: Collection[PersonId] = ()) -> list[OutboxRow]:
        """Messages that may go at `now`, by urgency, then id; none for the persons in `without`.

        A message that waits for its `try_after` holds back those of its own urgency behind it and all less urgent
        ones to the same person, and nothing else.
        """
        raise NotImplementedError

    async def next_try(self, now: datetime) -> datetime | None:
        """The earliest `try_after` later than `now` among the waiting messages."""
        raise NotImplementedError

    async def outbox(self, row_id: int) -> OutboxRow | None:
        """One message as it stands."""
        raise NotImplementedError

    async def unsent_reminders(self) -> int:
        """How many messages of the reminder class wait or are on the wire."""
        raise NotImplementedError

    async def on_wire(self) -> list[OutboxRow]:
        """Messages on the wire, by id. At a start these are the ones whose end is unknown."""
        raise NotImplementedError

    async def card(self, person_id: PersonId, card: str) -> CardRow | None:
        """The newest message on that card."""
        raise NotImplementedError

    async def last_message(self, person_id: PersonId) -> int | None:
        """The newest message in that person's chat, either way."""
        raise NotImplementedError

    # clients, persons, what happened

    async def client(self, client_id: ClientId) -> Client | None:
        """One client."""
        raise NotImplementedError

    async def clients(self) -> list[Client]:
        """All clients, by id."""
        raise NotImplementedError

    async def person(self, person_id: PersonId) -> Person | None:
        """One person."""
        raise NotImplementedError

    async def person_by_user(self, user_id: int) -> Person | None:
        """Who this user id of the platform is."""
        raise NotImplementedError

    async def people(self) -> list[Person]:
        """All persons, by id."""
        raise NotImplementedError

    async def observations(
        self, client_id: ClientId, first: datetime, last: datetime
    ) -> list[tuple[datetime, Observation]]:
        """What was observed from `first` to `last`, both included, in order of time, then of writing."""
        raise NotImplementedError

    async def next_report(self) -> ReportRow | None:
        """The oldest chart that waits to be drawn."""
        raise NotImplementedError

    async def journal(self, key: str) -> JournalRow | None:
        """What was handled under this key."""
        raise NotImplementedError

    async def offset(self) -> int | None:
        """The id of the next update to fetch; None before the first."""
        raise NotImplementedError
