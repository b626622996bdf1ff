"""Clients made in the chat, and the one-time links that let people in.

Of a link only the hash is stored. The payload stands in the message that shows it, and leaves it once that is sent.
"""

from dataclasses import replace
from datetime import datetime, timedelta

from companion.core import person as people
from companion.core.care import Client, People, seeing
from companion.core.effects import Enrol, Invite, NewPerson, Subject, Urgency, Words, words
from companion.core.person import Part, Person
from companion.core.programme import Rules
from companion.runtime.client_rows import add_client
from companion.runtime.clock import Clock
from companion.runtime.routing import PERSON_WAKE_CLASS
from companion.runtime.transport import Doors, Renderer
from companion.store import OutboxRow
from companion.store.transactions import Tx

LINK_LIFE = timedelta(days=14)
"""A start link that nobody used opens no door after so long."""


async def enrol(tx: Tx, asked: Enrol, rules: Rules, at: datetime) -> None:
    """Write the client and their people down. The therapist's own row lists the client by its own step.

    Without the client's own entry only the people are new: the client is there, and stays as they are.
    """
    carer = next((one.id for one in asked.people if one.role == Part.CARER), None)
    contacts = tuple(one.id for one in asked.people if one.id not in (asked.client, carer))
    names = ((asked.therapist, asked.therapist_name), *((one.id, one.name) for one in asked.people))
    care = People(asked.client, asked.therapist, carer, contacts, names)
    client = Client(asked.client, asked.name, asked.zone, care, looked_at=at, reported_at=at)
    if any(one.id == asked.client for one in asked.people):
        await add_client(tx, client, rules, at)
    else:
        there = await tx.client(asked.client)
        if there is None or asked.therapist not in seeing(there, at):
            raise LookupError(f"{asked.client} is not a client of {asked.therapist}")
    for one in asked.people:
        await _add_person(tx, one, asked.client, rules)


async def _add_person(tx: Tx, one: NewPerson, client: str, rules: Rules) -> None:
    known = await tx.person(one.id)
    if known is None:
        person = Person(one.id, Part(one.role), one.name, one.zone, (client,), one.language)
        await tx.add_person(person, people.wake_at(person, rules), PERSON_WAKE_CLASS)
        return
    person = replace(known, clients=tuple(dict.fromkeys((*known.clients, client))))
    await tx.save_person(person, people.wake_at(person, rules), PERSON_WAKE_CLASS)


async def new_link(tx: Tx, person: str, clock: Clock, at: datetime) -> str:
    """The payload of a fresh link for a person; older ones of theirs that nobody used are closed."""
    payload = clock.token()
    await tx.close_links(person, at)
    await tx.add_link(payload, person, at + LINK_LIFE)
    return payload


async def invite(tx: Tx, asked: Invite, subject: Subject, outside: tuple[Renderer, Doors, Clock], at: datetime) -> None:
    """Make a link for somebody and write down the two messages that show it: words, and a picture to scan."""
    renderer, doors, clock = outside
    shown_to = await tx.person(asked.to)
    if shown_to is None or await tx.person(asked.whom) is None:
        raise LookupError(f"no person {asked.to} or {asked.whom}")
    link = doors.link(await new_link(tx, asked.whom, clock, at))
    text = renderer.text(Words(asked.words.key, (*asked.words.params, ("link", link))), shown_to.language)
    said = OutboxRow(
        subject=subject,
        person_id=asked.to,
        created_at=at,
        urgency=Urgency.ANSWER,
        topic=asked.topic,
        text=text,
        secret=True,
    )
    await tx.put_outbox(said)
    caption = renderer.text(words("invitation-picture"), shown_to.language)
    await tx.put_outbox(replace(said, text=caption, photo=doors.picture(link), silent=True))
