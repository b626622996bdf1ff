"""What the database says after it all, and whether it holds together: read past the running program."""

import sqlite3
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

from companion.core import client as clients
from companion.core.care import Client
from companion.core.effects import ClearButtons, Record, Say, Subject
from companion.core.observations import Observation
from companion.core.programme import Rules
from companion.rehearsal.server import Entry
from companion.store import JournalRow, OutboxRow, Store
from companion.store.records import Records

REMINDER = 3
NEW = ("text", "photo", "voice", "video")
"""What a new message may be."""


@dataclass(frozen=True, slots=True)
class Ledger:
    """Everything written down: the journal in the order of handling, clients, observations by client, messages."""

    journal: tuple[JournalRow, ...]
    clients: tuple[Client, ...]
    observations: dict[str, list[Observation]]
    outbox: tuple[OutboxRow, ...]
    users: dict[str, int]

    @classmethod
    async def read(cls, database: Path) -> "Ledger":
        """Read it all; the program may run meanwhile."""
        with sqlite3.connect(database) as connection:
            keys = [key for (key,) in connection.execute("SELECT key FROM journal ORDER BY rowid")]
            ids = [number for (number,) in connection.execute("SELECT id FROM outbox ORDER BY id")]
            seen = connection.execute("SELECT client_id, data FROM observation ORDER BY id").fetchall()
        records = Records()
        observations: dict[str, list[Observation]] = {}
        for client_id, data in seen:
            observations.setdefault(client_id, []).append(records.observation(data, "an observation"))
        store = await Store.open(database, active=False)
        try:
            async with store.reading() as reading:
                journal = [row for key in keys if (row := await reading.journal(key)) is not None]
                outbox = [sent for number in ids if (sent := await reading.outbox(number)) is not None]
                known, people = await reading.clients(), await reading.people()
        finally:
            await store.close()
        users = {person.id: person.user_id for person in people if person.user_id is not None}
        return cls(tuple(journal), tuple(known), observations, tuple(outbox), users)

    def updates(self) -> Counter[int]:
        """The numbers of the updates in the journal, each with how often it was handled."""
        return Counter(int(row.key.split(":")[1]) for row in self.journal if row.key.startswith("tg:"))

    def of(self, client: Client) -> list[JournalRow]:
        """What was handled for a client, in order."""
        return [row for row in self.journal if row.subject == Subject("client", client.id)]


def relived(ledger: Ledger, begun: Client, rules: Rules) -> tuple[Client, list[Observation]]:
    """The client and their observations, made anew from how they began and the journal since.

    AssertionError where an event has another effect than it had.
    """
    client, observations = begun, list[Observation]()
    for row in ledger.of(begun):
        if row.key.startswith("enrol:"):
            continue
        decision = clients.step(client, row.event, rules)
        assert decision.effects == row.effects, row.key
        client = decision.client
        observations += [effect.observation for effect in decision.effects if isinstance(effect, Record)]
    return client, observations


def asked_for(ledger: Ledger) -> int:
    """How many messages the handled events asked for."""
    return sum(isinstance(effect, Say | ClearButtons) for row in ledger.journal for effect in row.effects)


def said_too_often(ledger: Ledger, entries: list[Entry]) -> list[str]:
    """What came to a phone more often than it may: a message as often as it was tried, and only once where it counts.

    Reminders and what starts or ends a clock count. A change in place may come twice, and looks the same.
    """
    tries: Counter[tuple[int, str]] = Counter()
    for row in ledger.outbox:
        once = row.urgency == REMINDER or row.tag is not None
        tries[ledger.users[row.person_id], row.text] += min(row.attempts, 1) if once else row.attempts
    shown = Counter((entry.user_id, entry.text) for entry in entries if entry.way == "out" and entry.kind in NEW)
    return [f"{user} {text!r}: {often}" for (user, text), often in shown.items() if often > tries[user, text]]
