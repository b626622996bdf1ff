"""The one place that joins the parts: content, store, runtime, chat and reports become a running companion.

`companion run` gives it the machine's clock and the real platform, a rehearsal its own clock and a platform on this
machine; nothing else differs.
"""

import asyncio
import logging
import signal
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from typing import Self

from companion.chat.controls import controls
from companion.chat.doors import StartLinks
from companion.chat.outbound import Telegram
from companion.chat.updates import Updates
from companion.chat.wire import Wire, connect
from companion.content import library
from companion.content.enrolment import EnrolledClient, EnrolledPerson, Enrolment
from companion.content.folders import content_dir
from companion.content.library import Library
from companion.content.texts import Texts
from companion.core import client as clients
from companion.core import person as people
from companion.core.baseline import asked_at_a_visit
from companion.core.care import Client
from companion.core.effects import Subject
from companion.core.events import Prescribed
from companion.core.person import Part, Person
from companion.core.programme import Rules
from companion.errors import UsedWrong
from companion.reports.assessor import ChildAssessor
from companion.runtime.alert_command import AlertCommand
from companion.runtime.client_rows import add_client, save_client
from companion.runtime.clock import Clock, RealClock
from companion.runtime.letting_in import LINK_LIFE, new_link
from companion.runtime.pace import Limits
from companion.runtime.routing import PERSON_WAKE_CLASS
from companion.runtime.runtime import Options, Outside, Runtime
from companion.runtime.settling import tell_log
from companion.runtime.written import Means, Source, write_down
from companion.settings import Settings
from companion.store import Store
from companion.store.transactions import Tx

log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Setup:
    """What a companion is made from. Only a rehearsal is not `durable`: it need not outlive the machine's power."""

    token: str
    api: str
    database: Path
    emergency_number: str
    content: Path | None = None
    rate: float = 25.0
    durable: bool = True
    alert_command: tuple[str, ...] = ()

    @classmethod
    def of(cls, settings: Settings) -> Self:
        """From the operator's settings. UsedWrong if the token or the emergency number is missing."""
        settings.needed("telegram_token", "emergency_number")
        return cls(
            token=settings.token,
            api=settings.telegram_api,
            database=settings.database,
            emergency_number=settings.emergency_number or "",
            content=settings.content,
            rate=settings.rate,
            alert_command=settings.alert_words,
        )

    def __repr__(self) -> str:
        return f"Setup(database={str(self.database)!r}, api={self.api!r})"


@dataclass(frozen=True, slots=True)
class Content:
    """A folder of content, read and found to be without fault."""

    folder: Path
    library: Library
    texts: Texts

    @classmethod
    def read(cls, chosen: Path | None = None) -> Self:
        """The chosen folder, else what came with the program. Raises FoundWrong."""
        folder = content_dir(chosen)
        return cls(folder, library.load(folder), Texts(folder / "texts"))


class App:
    """A companion: `open`, `start`, then `ended` or `stop`."""

    def __init__(self, setup: Setup, content: Content, store: Store, clock: Clock) -> None:
        texts = content.texts
        rules = content.library.rules(setup.emergency_number)
        self.content = content
        self.store = store
        self.wire: Wire = connect(setup.token, setup.api)
        self._assessor = ChildAssessor(store, content.folder, clock)
        doors = StartLinks()
        outside = Outside(clock, Telegram(self.wire, clock), texts, doors, self._assessor)
        self._command = AlertCommand(setup.alert_command, setup.token) if setup.alert_command else None
        options = Options(controls(texts, texts.languages), Limits(per_second=setup.rate), self._command or tell_log)
        self.runtime = Runtime(store, rules, outside, options)
        self._updates = Updates(self.wire, self.runtime.handler.receive, self._note, clock, doors.named)
        self._fetching: asyncio.Task[None] | None = None

    @classmethod
    async def open(cls, setup: Setup, clock: Clock | None = None, content: Content | None = None) -> Self:
        """Read the content if it is not given, lock the database and bring it up to date.

        Raises FoundWrong for content, UsedWrong for a second start, DatabaseUnusable.
        """
        content = content or Content.read(setup.content)
        store = await Store.open(setup.database, durable=setup.durable)
        try:
            return cls(setup, content, store, clock or RealClock())
        except BaseException:
            await store.close()
            raise

    async def start(self) -> None:
        """Begin to work: what was left open first, then what waits on the platform."""
        await self.runtime.start()
        self._fetching = asyncio.create_task(self._updates.run(), name="updates")

    async def expect_charts(self) -> None:
        """Let what draws charts load now, beside everything else, and not when the first is asked for."""
        await self._assessor.get_ready()

    async def ended(self) -> None:
        """Wait until it can not go on, and raise why: UsedWrong, or LoopBroken. Returns if it was stopped."""
        assert self._fetching is not None, "start it first"
        broken = asyncio.create_task(self.runtime.broken())
        try:
            done, _ = await asyncio.wait({self._fetching, broken}, return_when=asyncio.FIRST_COMPLETED)
        finally:
            broken.cancel()
        for task in done:
            task.result()

    async def stop(self) -> None:
        """End in order: nothing more comes in, what is being handled is handled, what is on the wire is settled."""
        self._updates.stop()
        if self._fetching is not None:
            await asyncio.gather(self._fetching, return_exceptions=True)
        await self.runtime.stop()
        await self._close()

    async def cut(self) -> None:
        """End as a power cut does: wherever it is, with nothing more written, sent or settled."""
        if self._fetching is not None:
            self._fetching.cancel()
        await self.runtime.cut()
        if self._fetching is not None:
            await asyncio.gather(self._fetching, return_exceptions=True)
        await self._close()

    async def _close(self) -> None:
        await self._assessor.close()
        if self._command is not None:
            await self._command.close()
        await self.wire.shutdown()
        await self.store.close()

    async def _note(self, number: int) -> None:
        async with self.store.writing() as tx:
            await tx.set_offset(number)


async def run(setup: Setup) -> None:
    """Run until the process is told to end (SIGTERM, SIGINT), or can not go on."""
    told = asyncio.Event()
    loop = asyncio.get_running_loop()
    for number in (signal.SIGTERM, signal.SIGINT):
        loop.add_signal_handler(number, told.set)
    app = await App.open(setup)
    try:
        await app.start()
        log.info("The companion runs on %s. End it with Ctrl-C or SIGTERM.", setup.database)
        await _first(told, app)
        log.info("The companion ends: finishing what is under way.")
    finally:
        await app.stop()


async def _first(told: asyncio.Event, app: App) -> None:
    ended, asked = asyncio.create_task(app.ended()), asyncio.create_task(told.wait())
    await asyncio.wait({ended, asked}, return_when=asyncio.FIRST_COMPLETED)
    asked.cancel()
    if ended.done():
        ended.result()
    ended.cancel()


# --- enrolment ------------------------------------------------------------------------------------------------


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


async def enrol(store: Store, enrolment: Enrolment, content: Content, clock: Clock) -> Enrolled:
    """Write people and plans down, all of them or none, with a fresh link for each who has not joined yet.

    Who is there already (the same id, name and role) gets the further clients. A client who is there gets the plan of the
    file if it differs; their people are left as they are. UsedWrong: an id means somebody else already, or a user id is
    taken.
    """
    now, rules = clock.now(), content.library.without_number
    async with store.writing() as tx:
        fresh = [one for one in enrolment.clients if await tx.client(one.id) is None]
        for client in fresh:
            await _enrol_client(tx, client, rules, now)
        known = [one for one in enrolment.clients if one not in fresh]
        renewed = [one.id for one in known if await _renew(tx, one, content, clock)]
        invitations = []
        for one in enrolment.people:
            person = await _enrol_person(tx, one, fresh, rules)
            if person is not None and person.user_id is None:
                payload = await new_link(tx, person.id, clock, now)
                invitations.append(Invitation(person, payload, now + LINK_LIFE))
    return Enrolled(tuple(invitations), tuple(one.id for one in known), tuple(renewed))


async def _enrol_client(tx: Tx, one: EnrolledClient, rules: Rules, now: datetime) -> None:
    client = Client(one.id, one.name, one.zone, one.people, looked_at=now, reported_at=now, quiet=one.quiet)
    client = replace(client, baseline=one.baseline)
    event = Prescribed(now, one.plan)
    decision = clients.step(client, event, rules)
    client = decision.client
    await add_client(tx, client, rules, now)
    await tx.journal(f"enrol:{one.id}", Subject("client", one.id), event, decision.effects)


async def _renew(tx: Tx, one: EnrolledClient, content: Content, clock: Clock) -> bool:
    """Prescribe the plan of the file, if it is another than the client has. The client is told; a session ends as it began."""
    now, client = clock.now(), await tx.client(one.id)
    assert client is not None
    before = client.plan
    if before is not None and replace(one.plan, version=before.version) == before:
        return False
    if not asked_at_a_visit(client.baseline):
        client = replace(client, baseline=one.baseline)
    event = Prescribed(now, replace(one.plan, version=before.version + 1 if before else 1))
    rules, subject = content.library.without_number, Subject("client", one.id)
    decision = clients.step(client, event, rules)
    client = decision.client
    await save_client(tx, client, clients.wake_at(client, rules), rules, now)
    means = Means(content.texts, StartLinks(), clock, rules)
    await write_down(tx, Source(subject, (one.id,), now, on_wire=None), decision.effects, means)
    await tx.journal(f"enrol:{one.id}:{event.plan.version}", subject, event, decision.effects)
    return True


async def _enrol_person(tx: Tx, one: EnrolledPerson, fresh: list[EnrolledClient], rules: Rules) -> Person | None:
    """The person as they now are; None for one who is new and belongs to no client that is."""
    known = await tx.person(one.id)
    own = _clients_of(one.id, fresh)
    if known is None:
        if not own:
            return None
        await _refuse_taken(tx, one)
        person = Person(one.id, _role(one, fresh), one.name, one.zone, own, one.language)
        await tx.add_person(person, people.wake_at(person, rules), PERSON_WAKE_CLASS)
        return person
    as_written = "therapist" if known.role is Part.CONTACT else known.role.value
    if (known.name, as_written) != (one.name, one.role):
        raise UsedWrong(
            f'"{one.id}" is enrolled already: {known.name}, {as_written}. '
            f"Give {one.name}, {one.role}, an id of their own in the file."
        )
    both = tuple(dict.fromkeys((*known.clients, *own)))
    person = replace(known, role=_role(one, fresh, known.role), clients=both)
    if person != known:
        await tx.save_person(person, people.wake_at(person, rules), PERSON_WAKE_CLASS)
    return person


async def _refuse_taken(tx: Tx, one: EnrolledPerson) -> None:
    """The user id in a file is only compared: it is the start link that says which account a person has."""
    owner = await tx.person_by_user(one.user_id) if one.user_id is not None else None
    if owner is not None:
        raise UsedWrong(
            f'The user id {one.user_id} of "{one.id}" belongs to "{owner.id}" already. '
            "One account is one person: take it out of the file, or correct it."
        )


def _clients_of(person: str, enrolled: Iterable[EnrolledClient]) -> tuple[str, ...]:
    """Whose presses count for whom: a person's own clients first, then those they are a further contact of."""
    own, further = [], []
    for client in enrolled:
        if person in (client.people.client, client.people.carer, client.people.therapist):
            own.append(client.id)
        elif person in client.people.contacts:
            further.append(client.id)
    return (*own, *further)


def _role(one: EnrolledPerson, enrolled: Iterable[EnrolledClient], before: Part | None = None) -> Part:
    """A therapist who is only ever a further contact is a contact."""
    if one.role != "therapist":
        return Part(one.role)
    treats = any(client.people.therapist == one.id for client in enrolled)
    return Part.THERAPIST if treats or before is Part.THERAPIST else Part.CONTACT
