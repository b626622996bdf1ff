"""The writing side: everything that one event changes, in one transaction."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from typing import TYPE_CHECKING

from companion.core.effects import ClientId, Effect, PersonId, Subject
from companion.core.events import Event
from companion.core.observations import Observation
from companion.store.rows import CardRow, LinkUse, OutboxRow, PassRow, ReportState

if TYPE_CHECKING:
    from companion.core.client import Client
    from companion.core.person import Person


class Tx:
    """One writing transaction. Made by `Store.writing()`; committed at its end, rolled back on an exception."""

    # the journal

    async def was_handled(self, key: str) -> bool:
        """Whether an event of this key is in the journal."""
        raise NotImplementedError

    async def journal(self, key: str, subject: Subject, event: Event, effects: Sequence[Effect]) -> None:
        """Write the event and what it asked for. A key that is there already raises `AlreadyHandled`."""
        raise NotImplementedError

    # clients and persons

    async def client(self, client_id: ClientId) -> Client | None:
        """The client, locked until the end of the transaction."""
        raise NotImplementedError

    async def person(self, person_id: PersonId) -> Person | None:
        """The person, locked until the end of the transaction."""
        raise NotImplementedError

    async def person_by_user(self, user_id: int) -> Person | None:
        """Who this user id of the platform is, locked until the end of the transaction."""
        raise NotImplementedError

    async def add_client(self, client: Client, wake_at: datetime | None, wake_class: int) -> None:
        """Write a new client, version 1. `AlreadyThere` if the id is taken."""
        raise NotImplementedError

    async def add_person(self, person: Person, wake_at: datetime | None, wake_class: int) -> None:
        """Write a new person, version 1. `AlreadyThere` if the id or the user id is taken."""
        raise NotImplementedError

    async def save_client(self, client: Client, wake_at: datetime | None, wake_class: int) -> int:
        """Write the client's new state; the new version. KeyError if there is no such client.

        The session's script is written once, when it is first seen, and deleted when no session uses it any more.
        """
        raise NotImplementedError

    async def save_person(self, person: Person, wake_at: datetime | None, wake_class: int) -> int:
        """Write the person's new state; the new version. KeyError if unknown; `AlreadyThere` if the user id is taken."""
        raise NotImplementedError

    # what is to be said

    async def put_outbox(self, row: OutboxRow) -> int:
        """Write a message down, to be sent; its id. Ids only rise."""
        raise NotImplementedError

    async def outbox(self, row_id: int) -> OutboxRow | None:
        """The message as it now stands."""
        raise NotImplementedError

    async def take_back(self, client_id: ClientId, topic: str, to: PersonId | None = None) -> int:
        """Take back what waits on a topic of a client, for one person or all; how many. What is on the wire stays."""
        raise NotImplementedError

    async def set_on_wire(self, row_id: int) -> bool:
        """Mark a waiting message as on the wire, and count the attempt; False if it no longer waits (taken back)."""
        raise NotImplementedError

    async def set_waiting(self, row_id: int, try_after: datetime | None = None) -> None:
        """Put a message that was on the wire back to wait, at the earliest until `try_after`."""
        raise NotImplementedError

    async def set_sent(self, row_id: int, message_id: int | None, sent_at: datetime) -> None:
        """The platform took it. `message_id` None where there is none to name (buttons taken off)."""
        raise NotImplementedError

    async def set_lost(self, row_id: int) -> None:
        """It was not, or perhaps not, taken, and will not be tried again."""
        raise NotImplementedError

    async def card(self, person_id: PersonId, card: str) -> CardRow | None:
        """The newest message on that card."""
        raise NotImplementedError

    async def set_card(self, row: CardRow) -> None:
        """Put a message on a card, in place of the one before."""
        raise NotImplementedError

    async def last_message(self, person_id: PersonId) -> int | None:
        """The newest message in that person's chat, either way."""
        raise NotImplementedError

    async def set_last_message(self, person_id: PersonId, message_id: int) -> None:
        """Remember a message of that chat. An older one than remembered changes nothing."""
        raise NotImplementedError

    # what is to be remembered, told and drawn

    async def record(self, client_id: ClientId, observation: Observation) -> None:
        """Remember an observation of a client."""
        raise NotImplementedError

    async def put_pass(self, subject: Subject, event: Event) -> int:
        """Write down an event for another aggregate; its id. Ids only rise."""
        raise NotImplementedError

    async def next_pass(self) -> PassRow | None:
        """The oldest event that was passed on and is not done."""
        raise NotImplementedError

    async def pass_done(self, pass_id: int) -> None:
        """The event that was passed on is handled."""
        raise NotImplementedError

    async def request_report(self, client_id: ClientId, person_id: PersonId, first: date, last: date) -> int:
        """Ask for a chart; the request's id. Ids only rise."""
        raise NotImplementedError

    async def set_report(self, report_id: int, state: ReportState) -> None:
        """The chart is drawn, or could not be."""
        raise NotImplementedError

    # who comes in, and how far the updates were read

    async def add_link(self, payload: str, person_id: PersonId, expires_at: datetime) -> None:
        """Remember a start link by the hash of its payload, so that the database does not hold the key to the door."""
        raise NotImplementedError

    async def use_link(self, payload: str, now: datetime) -> LinkUse:
        """Use a start link up. It is used up only if it was GOOD and the transaction commits."""
        raise NotImplementedError

    async def offset(self) -> int | None:
        """The id of the next update to fetch; None before the first."""
        raise NotImplementedError

    async def set_offset(self, offset: int) -> None:
        """Remember the id of the next update to fetch."""
        raise NotImplementedError
