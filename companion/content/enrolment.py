"""An enrolment file (YAML) into people and plans. Every fault is told with file and line; nothing is put right in silence."""

import difflib
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from companion.content.enrolment_file import ClientShape, EnrolmentShape, PersonShape
from companion.content.library import Library
from companion.content.plan_faults import PlanReader
from companion.content.texts import Texts, key_of
from companion.content.yaml_lines import Loc, Page, parse, read
from companion.core.baseline import Baseline
from companion.core.care import People
from companion.core.duty import Hours
from companion.core.programme import Plan, Quiet, ReportTime
from companion.errors import Fault, FoundWrong


@dataclass(frozen=True, slots=True)
class EnrolledPerson:
    """A person as enrolled. `role` is therapist, client or carer; `user_id` is None until known.

    `digest` is when the report of a therapist's first client is due: from then on, the digest of all of them.
    """

    id: str
    role: str
    name: str
    zone: str
    language: str
    user_id: int | None
    hours: Hours | None = None
    deputy: str | None = None
    deputy_name: str = ""
    digest: ReportTime | None = None


@dataclass(frozen=True, slots=True)
class EnrolledClient:
    """A client's care as enrolled; `id` is the same as the client's own `EnrolledPerson.id`.

    `baseline` holds what the file says; the rest of it is unknown until the therapist asks at the visit.
    """

    id: str
    name: str
    zone: str
    people: People
    quiet: Quiet | None
    plan: Plan
    baseline: Baseline


@dataclass(frozen=True, slots=True)
class Enrolment:
    """Everything of one file."""

    people: tuple[EnrolledPerson, ...]
    clients: tuple[EnrolledClient, ...]


def load(path: Path, library: Library, texts: Texts) -> Enrolment:
    """The enrolment in that file. Raises FoundWrong with every fault, in the order of the lines."""
    return in_page(read(path), library, texts)


def in_page(page: Page, library: Library, texts: Texts) -> Enrolment:
    """The enrolment in that page, or in that part of a page. Raises FoundWrong likewise."""
    file = parse(page, EnrolmentShape)
    faults = [*_people_faults(page, file, texts), *_care_faults(page, file, library, texts)]
    if faults:
        raise FoundWrong(sorted(set(faults), key=lambda fault: (fault.line or 0, fault.what)))
    people = tuple(_person(file, id) for id in file.people)
    clients = tuple(_client(page, file, id, library) for id in file.clients)
    return Enrolment(people, clients)


def _people_faults(page: Page, file: EnrolmentShape, texts: Texts) -> Iterator[Fault]:
    by_user: dict[int, str] = {}
    for id, person in file.people.items():
        loc: Loc = ("people", id)
        if person.user_id is not None and person.user_id in by_user:
            what = f'"{id}" and "{by_user[person.user_id]}" have one user id, {person.user_id}'
            yield page.fault((*loc, "user_id"), what, "Each person has a phone of their own: mend one of them")
        elif person.user_id is not None:
            by_user[person.user_id] = id
        if person.language not in texts.languages:
            do = f"Use {', '.join(texts.languages)}"
            yield page.fault((*loc, "language"), f'there are no texts in "{person.language}"', do)
        yield from _duty_faults(page, file, id, person)
        if person.role == "client" and id not in file.clients:
            do = f'Add "{id}" under clients, with therapist and plan'
            yield page.fault(loc, f'the client "{id}" has no plan', do)


def _duty_faults(page: Page, file: EnrolmentShape, id: str, person: PersonShape) -> Iterator[Fault]:
    loc: Loc = ("people", id)
    for name in ("hours", "deputy"):
        if getattr(person, name) is not None and person.role != "therapist":
            yield page.fault((*loc, name), f'only a therapist has {name}, and "{id}" is a {person.role}', "Take it out")
    if person.deputy == id:
        yield page.fault((*loc, "deputy"), f'"{id}" can not stand in for themselves', "Name a colleague, or take it out")
    elif person.deputy is not None:
        yield from _one(page, file, (*loc, "deputy"), person.deputy, ("therapist",))


def _care_faults(page: Page, file: EnrolmentShape, library: Library, texts: Texts) -> Iterator[Fault]:
    for id, client in file.clients.items():
        loc: Loc = ("clients", id)
        yield from _one(page, file, loc, id, ("client",))
        yield from _one(page, file, (*loc, "therapist"), client.therapist, ("therapist",))
        if client.carer is not None:
            yield from _one(page, file, (*loc, "carer"), client.carer, ("carer",))
        for place, contact in enumerate(client.contacts):
            here: Loc = (*loc, "contacts", place)
            yield from _one(page, file, here, contact, ("therapist", "carer"))
            if contact == client.therapist or contact in client.contacts[:place]:
                yield page.fault(here, f'"{contact}" is told already', "Take one of them out")
        yield from _place_faults(page, (*loc, "plan", "place"), client, texts)
        yield from _reader(page, file, id, library).faults()


def _one(page: Page, file: EnrolmentShape, loc: Loc, id: str, roles: tuple[str, ...]) -> Iterator[Fault]:
    person = file.people.get(id)
    if person is None:
        near = difflib.get_close_matches(id, file.people, n=1)
        do = f'Write "{near[0]}", or add "{id}" under people' if near else f'Add "{id}" under people'
        yield page.fault(loc, f'there is no person "{id}"', do)
    elif person.role not in roles:
        what = f'"{id}" is enrolled as {person.role} and is named here as {" or ".join(roles)}'
        yield page.fault(loc, what, "Name another person, or mend the role")


def _place_faults(page: Page, loc: Loc, client: ClientShape, texts: Texts) -> Iterator[Fault]:
    keys = texts.keys(texts.languages[0])
    for name in ("support", "footwear"):
        given = getattr(client.plan.place, name)
        prefix = f"{key_of('place', name)}-"
        if prefix + key_of(given) not in keys:
            known = sorted(key.removeprefix(prefix).replace("-", "_") for key in keys if key.startswith(prefix))
            do = f"Use one of {', '.join(known)}"
            yield page.fault((*loc, name), f'there are no words for the {name} "{given}"', do)


def _person(file: EnrolmentShape, id: str) -> EnrolledPerson:
    person = file.people[id]
    plain = EnrolledPerson(id, person.role, person.name, person.zone, person.language, person.user_id)
    if person.role != "therapist":
        return plain
    reports = [client.plan.report for client in file.clients.values() if client.therapist == id]
    return replace(
        plain,
        hours=person.hours.core() if person.hours else None,
        deputy=person.deputy,
        deputy_name=file.people[person.deputy].name if person.deputy else "",
        digest=reports[0].core(person.zone) if reports else None,
    )


def _client(page: Page, file: EnrolmentShape, id: str, library: Library) -> EnrolledClient:
    client, person = file.clients[id], file.people[id]
    told = (id, client.therapist, *((client.carer,) if client.carer else ()), *client.contacts)
    names = tuple((one, file.people[one].name) for one in dict.fromkeys(told))
    people = People(id, client.therapist, client.carer, client.contacts, names)
    quiet = client.quiet.core() if client.quiet else None
    plan = _reader(page, file, id, library).plan()
    return EnrolledClient(id, person.name, person.zone, people, quiet, plan, _baseline(client))


def _baseline(client: ClientShape) -> Baseline:
    """What the file says of the client, read so that it fits the plan of the file as it stands."""
    plan, found = client.plan, client.plan.baseline
    splint = "ankle_free" if plan.place.footwear == "shoes_orthosis" else "unknown"
    return Baseline(
        weaker_side=found.weaker_side or "unknown",
        tap_hand="one" if found.one_good_hand else "either",
        orthosis="ankle_blocked" if found.ankle_blocked else splint,
        blood_thinner="yes" if found.blood_thinner else "no",
        falls_last_year="unknown",
        call_for_help="some_way" if found.can_call_for_help else "cannot",
        footwear=plan.place.footwear,
        support=plan.place.support,
        into_place_s=plan.into_place_s,
        supervision=plan.supervision.value if client.carer is not None else "none",
        from_file=True,
    )


def _reader(page: Page, file: EnrolmentShape, id: str, library: Library) -> PlanReader:
    client = file.clients[id]
    therapist = file.people.get(client.therapist)
    return PlanReader(page, ("clients", id), client, library.without_number, therapist.zone if therapist else "UTC")
