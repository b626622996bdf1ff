"""An enrolment file written down: people and plans, all of them or none, and a start link for each who has not joined."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime

from companion.content.enrolment import EnrolledClient, EnrolledPerson, Enrolment
from companion.core import client as clients
from companion.core import person as people
from companion.core.baseline import asked_at_a_visit
from companion.core.care import Client
from companion.core.duty import Duty
from companion.core.effects import Subject
from companion.core.events import DutySet, Prescribed
from companion.core.intake import fit
from companion.core.person import Part, Person
from companion.core.programme import Rules
from companion.errors import UsedWrong
from companion.runtime.client_rows import add_client, save_client
from companion.runtime.letting_in import LINK_LIFE, new_link
from companion.runtime.routing import PERSON_WAKE_CLASS
from companion.runtime.written import Means, Source, write_down
from companion.store import Store
from companion.store.transactions import Tx


@dataclass(frozen=True, slots=True)
class Invitation:
    """A one-time start link's payload, and whom it lets in."""

    person: Person
    payload: str
    until: datetime


@dataclass(frozen=True, slots=True)
class Enrolled:
    """What an enrolment made. `already` are clients who were there before; `renewed` those of them whose plan is new."""

    invitations: tuple[Invitation, ...]
    already: tuple[str, ...]
    renewed: tuple[str, ...] = ()


async def enrol(store: Store, enrolment: Enrolment, means: Means) -> Enrolled:
    """Write people and plans down, with a fresh link for each who has not joined yet.

    Who is there already (the same id, name and role) gets the further clients. A client who is there gets the plan of the
    file if it differs; their people are left as they are. So are hours, deputy and digest of a therapist who has them.
    UsedWrong: an id means somebody else already, or a user id is taken.
    """
    now = means.clock.now()
    async with store.writing() as tx:
        fresh = [one for one in enrolment.clients if await tx.client(one.id) is None]
        for client in fresh:
            await _enrol_client(tx, client, means.rules, now)
        known = [one for one in enrolment.clients if one not in fresh]
        renewed = [one.id for one in known if await _renew(tx, one, means)]
        invitations = []
        for one in enrolment.people:
            person = await _enrol_person(tx, one, _Place(one, enrolment, fresh), means)
            if person is not None and person.user_id is None:
                payload = await new_link(tx, person.id, means.clock, now)
                invitations.append(Invitation(person, payload, now + LINK_LIFE))
    return Enrolled(tuple(invitations), tuple(one.id for one in known), tuple(renewed))


# --- clients --------------------------------------------------------------------------------------------------


async def _enrol_client(tx: Tx, one: EnrolledClient, rules: Rules, now: datetime) -> None:
    client = Client(one.id, one.name, one.zone, one.people, looked_at=now, reported_at=now, quiet=one.quiet)
    client = replace(client, baseline=one.baseline)
    event = Prescribed(now, one.plan)
    decision = clients.step(client, event, rules)
    client = decision.client
    await add_client(tx, client, rules, now)
    await tx.journal(f"enrol:{one.id}", Subject("client", one.id), event, decision.effects)


async def _renew(tx: Tx, one: EnrolledClient, means: Means) -> bool:
    """Prescribe the plan of the file, if it is another than the client has. The client is told; a session ends as it began."""
    now, rules, client = means.clock.now(), means.rules, await tx.client(one.id)
    assert client is not None
    before, found = client.plan, client.baseline
    if found is None or not asked_at_a_visit(found):
        client, found = replace(client, baseline=one.baseline), one.baseline
    # what a therapist found at a visit bears on safety, and no file undoes it
    plan = fit(one.plan, found)
    if before is not None and replace(plan, version=before.version) == before:
        return False
    event = Prescribed(now, replace(plan, version=before.version + 1 if before else 1))
    subject = Subject("client", one.id)
    decision = clients.step(client, event, rules)
    client = decision.client
    await save_client(tx, client, clients.wake_at(client, rules), rules, now)
    await write_down(tx, Source(subject, (one.id,), now, on_wire=None), decision.effects, means)
    await tx.journal(f"enrol:{one.id}:{event.plan.version}", subject, event, decision.effects)
    return True


# --- people ---------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a person stands in a file, and among the clients that are `fresh`."""

    one: EnrolledPerson
    enrolment: Enrolment
    fresh: Iterable[EnrolledClient]

    def clients(self) -> tuple[str, ...]:
        """Whose presses count for whom: a person's own clients first, then those they are a further contact of."""
        person, own, further = self.one.id, [], []
        for client in self.fresh:
            if person in (client.people.client, client.people.carer, client.people.therapist):
                own.append(client.id)
            elif person in client.people.contacts:
                further.append(client.id)
        return (*own, *further)

    def role(self, before: Part | None) -> Part:
        """A therapist who is only ever a further contact is a contact."""
        one, everyone = self.one, self.enrolment.clients
        if one.role != "therapist" or before is Part.THERAPIST:
            return before or Part(one.role)
        treats = any(client.people.therapist == one.id for client in everyone)
        stands_in = any(person.deputy == one.id for person in self.enrolment.people)
        contact = any(one.id in client.people.contacts for client in everyone)
        return Part.CONTACT if contact and not treats and not stands_in else Part.THERAPIST


async def _enrol_person(tx: Tx, one: EnrolledPerson, place: _Place, means: Means) -> Person | None:
    """The person as they now are; None for one who is new, no therapist, and belongs to no client that is new."""
    now, known = means.clock.now(), await tx.person(one.id)
    if known is None:
        role = place.role(None)
        if not place.clients() and role is not Part.THERAPIST:
            return None
        await _refuse_taken(tx, one)
        known = Person(one.id, role, one.name, one.zone, (), one.language)
        await tx.add_person(known, None, PERSON_WAKE_CLASS)
    as_written = "therapist" if known.role is Part.CONTACT else known.role.value
    if (known.name, as_written) != (one.name, one.role):
        raise UsedWrong(
            f'"{one.id}" is enrolled already: {known.name}, {as_written}. '
            f"Give {one.name}, {one.role}, an id of their own in the file."
        )
    theirs = tuple(dict.fromkeys((*known.clients, *place.clients())))
    person = _with_own_times(replace(known, role=place.role(known.role), clients=theirs), one)
    if person != known:
        await tx.save_person(person, people.wake_at(person, means.rules), PERSON_WAKE_CLASS)
        await _tell_duty(tx, known, person, now)
    return person


async def _refuse_taken(tx: Tx, one: EnrolledPerson) -> None:
    """The user id in a file is only compared: it is the start link that says which account a person has."""
    owner = await tx.person_by_user(one.user_id) if one.user_id is not None else None
    if owner is not None:
        raise UsedWrong(
            f'The user id {one.user_id} of "{one.id}" belongs to "{owner.id}" already. '
            "One account is one person: take it out of the file, or correct it."
        )


def _with_own_times(person: Person, one: EnrolledPerson) -> Person:
    """What a therapist has set already stays: they may have changed it in the chat."""
    if person.role is not Part.THERAPIST:
        return person
    if person.hours is None and person.deputy is None:
        person = replace(person, hours=one.hours, deputy=one.deputy, deputy_name=one.deputy_name)
    if person.digest is None and one.digest is not None:
        person = replace(person, digest=one.digest, all_charts=True)  # the file asks for each client's chart
    return person


async def _tell_duty(tx: Tx, before: Person, person: Person, now: datetime) -> None:
    """Hours and deputy bear on red flags, so the care of each client has to know them."""
    if person.hours is None and person.deputy is None:
        return
    new = before.clients if (before.hours, before.deputy) == (person.hours, person.deputy) else ()
    duty = Duty(person.id, person.zone, person.hours, person.deputy)
    for client in person.clients:
        if client not in new:
            await tx.put_pass(Subject("client", client), DutySet(now, duty, person.deputy_name))
