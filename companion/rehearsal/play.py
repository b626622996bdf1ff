"""One scenario being played: what people are about to do, what happens to them, what must come true."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from heapq import heappop, heappush
from pathlib import Path
from zoneinfo import ZoneInfo

from companion.app import Content, Invitation
from companion.content.enrolment import EnrolledPerson
from companion.core.schedule import local_day
from companion.errors import CompanionError
from companion.rehearsal.clock import RehearsalClock
from companion.rehearsal.habits import LINK, Actor, Intention
from companion.rehearsal.kept import Kept
from companion.rehearsal.messages import Note, Sessions, Shown, json_lines, phone_names
from companion.rehearsal.scenario import Does, Habits, Happening, Network, Newcomer, Power, Scans, Scenario, Shuts
from companion.rehearsal.server import Entry
from companion.rehearsal.stage import Stage
from companion.rehearsal.timeline import Timeline
from companion.rehearsal.transcript import Column, Page, transcript

DATABASE = "companion.db"
FIRST_USER = 9001
BETWEEN_LINKS = timedelta(seconds=30)

Cause = Intention | Happening | Invitation


@dataclass(frozen=True, slots=True)
class Files:
    """What a rehearsal leaves in its folder. `lines` are those of messages.jsonl."""

    transcript: Path
    charts: tuple[Path, ...]
    pictures: tuple[Path, ...]
    sounds: tuple[Path, ...]
    documents: tuple[Path, ...]
    lines: int


class Play:
    """Plays one scenario into `folder`; for one run."""

    def __init__(self, scenario: Scenario, folder: Path, content: Content, latency: Callable[[], float] | None = None) -> None:
        self.scenario = scenario
        self.folder = folder
        self._kept = Kept(folder)
        self._clear()
        self._clock = RehearsalClock(scenario.starts, scenario.name)
        self._stage = Stage(self._clock, folder / DATABASE, content, latency)
        self._sessions = Sessions(self._clock.now)
        self._actors: dict[str, Actor] = {}
        self._by_user: dict[int, str] = {}
        self._agenda: list[tuple[datetime, int, Cause]] = []
        self._put_down = 0
        self._record: list[Shown | Note] = []
        self._looked_at = 0
        self._timeline = Timeline(scenario.happenings, scenario.expectations, self._day)

    async def run(self, tell: Callable[[timedelta], None]) -> tuple[Files, tuple[str, ...]]:
        """Play it to its end; what it left, and what did not come to pass as written."""
        faults: list[str] = []
        try:
            await self._begin()
            await self._play(tell)
            faults += self._unmet()
        except CompanionError as failed:
            faults.append(f"{self._local(self._clock.now())}: {failed}")
        finally:
            await self._stage.close()
            (self.folder / f"{DATABASE}.lock").unlink(missing_ok=True)
        return self._write(), tuple(faults)

    async def _begin(self) -> None:
        enrolment, server = self.scenario.enrolment, self._stage.server
        invited = (await self._stage.open(enrolment, self._sessions)).invitations
        if self._week(self.scenario.starts) != self._week(self.scenario.ends):
            await self._stage.expect_charts()
        phones = {
            person.id: server.add_phone(person.user_id or FIRST_USER + place, person.name, language_code=person.language)
            for place, person in enumerate(enrolment.people)
        }
        beside = {client.people.carer: phones[client.people.client] for client in enrolment.clients}
        for place, newcomer in enumerate(self.scenario.newcomers):
            user = FIRST_USER + len(enrolment.people) + place
            phones[newcomer.id] = server.add_phone(user, newcomer.name, language_code="en")
        beside |= {one.id: phones[one.beside] for one in self.scenario.newcomers if one.beside is not None}
        for person, phone in phones.items():
            habits = self.scenario.habits.get(person, Habits())
            self._actors[person] = Actor(person, phone, habits, beside.get(person), self._day)
        self._by_user = {phone.user_id: person for person, phone in phones.items()}
        for place, invitation in enumerate(invited):
            self._plan(self.scenario.starts + place * BETWEEN_LINKS, invitation)
        self._plan_next(self._timeline.next(self.scenario.starts))

    async def _play(self, tell: Callable[[timedelta], None]) -> None:
        ends = self.scenario.ends
        while True:
            await self._stage.settle()
            self._look()
            until = self._clock.next_until() or ends
            act_at = self._agenda[0][0] if self._agenda else ends
            if min(until, act_at) >= ends:
                break
            self._clock.move_to(min(until, act_at))
            tell(self._clock.now() - self.scenario.starts)
            # At one and the same moment the app's own alarm is first: it is punctual, people are not.
            if act_at < until:
                await self._cause(heappop(self._agenda)[2])
        self._clock.move_to(ends)
        await self._stage.settle()
        self._look()
        tell(ends - self.scenario.starts)

    # causes

    def _plan(self, at: datetime, cause: Cause) -> None:
        self._put_down += 1
        heappush(self._agenda, (at, self._put_down, cause))

    async def _cause(self, cause: Cause) -> None:
        match cause:
            case Intention():
                self._actors[cause.person].does(cause)
            case Invitation():
                self._actors[cause.person.id].phone.start(cause.payload)
            case Happening():
                await self._happens(cause)
                self._plan_next(self._timeline.next(self._clock.now()))

    async def _happens(self, happening: Happening) -> None:
        match happening.what:
            case Does(who=who, act=act):
                self._actors[who].acts(act, happening.where)
            case Scans(who=who, phone=shows_it, sees=sees):
                link = self._actors[shows_it].link(sees, happening.where)
                self._note(f"{who} scans the link on {shows_it}'s phone")
                self._actors[who].phone.start(link)
            case Shuts(who=who, back=back):
                phone = self._actors[who].phone
                phone.unblock() if back else phone.block()
                self._note(f"{who} {'lets the companion in again' if back else 'blocks the companion'}")
            case Power(on=True):
                self._note("the companion has power again")
                await self._stage.restore_power()
            case Power():
                self._note("the companion loses its power")
                await self._stage.cut_power()
            case Network(up=up):
                self._note(f"the companion's network is {'back' if up else 'down'}")
                await self._stage.set_network(up)

    def _plan_next(self, planned: tuple[datetime, Happening] | None) -> None:
        if planned is not None:
            self._plan(*planned)

    def _note(self, text: str) -> None:
        self._record.append(Note(self._clock.now(), text))

    # what came

    def _look(self) -> None:
        """Everything new on the phones: written down, held against what must come true, and acted upon."""
        entries = self._stage.server.entries
        new, self._looked_at = entries[self._looked_at :], len(entries)
        newest = {(entry.user_id, entry.message_id): entry for entry in new if entry.way == "out"}
        whose = {actor.phone.user_id: actor for actor in self._actors.values()}
        for entry in new:
            actor = whose[entry.user_id]
            session = self._sessions.of(entry, self._clients_of(actor.name))
            file = self._kept.told(entry, self._day(entry.at), self._is_link(entry))
            self._record.append(Shown(entry, actor.name, session, file))
            if entry.way == "in":
                continue
            self._plan_next(self._timeline.saw(actor.name, entry))
            # Nobody reacts to what has been changed again in the same moment.
            intention = actor.sees(entry) if newest[entry.user_id, entry.message_id] is entry else None
            if intention is not None:
                self._plan(intention.at, intention)

    def _clients_of(self, person: str) -> tuple[str, ...]:
        if self.scenario.newcomers:
            return self._sessions.clients  # who came by a link stands in no file
        return tuple(
            client.id
            for client in self.scenario.enrolment.clients
            if person in (client.id, client.people.carer, client.people.therapist, *client.people.contacts)
        )

    def _is_link(self, entry: Entry) -> bool:
        """Whether a picture is the start link of the message above it, to be scanned."""
        if entry.kind != "photo" or entry.way == "in":
            return False
        messages = self._actors[self._by_user[entry.user_id]].phone.messages
        above = [message for message in messages if message.message_id < (entry.message_id or 0)]
        return bool(above) and LINK.search(above[-1].words) is not None

    def _unmet(self) -> list[str]:
        told = self._timeline.unmet()
        for actor in self._actors.values():
            told += [f"{rule.where}: {actor.name} never came to do it" for rule in actor.unfollowed()]
        return told

    # the end

    def _write(self) -> Files:
        scenario = self.scenario
        names = phone_names(scenario.enrolment, scenario.newcomers)
        lines = json_lines(self._record, names)
        (self.folder / "messages.jsonl").write_text(lines, encoding="utf-8")
        page = Page(scenario.title, scenario.about, scenario.zone, self._columns())
        path = self.folder / "transcript.md"
        path.write_text(transcript(page, self._record), encoding="utf-8")
        kept = self._kept
        made = tuple(kept.pictures), tuple(kept.sounds), tuple(kept.documents)
        return Files(path, tuple(kept.charts), *made, lines.count("\n"))

    def _columns(self) -> tuple[Column, ...]:
        """The phones in the order in which a reader looks for them; one that never showed anything is left out."""
        order = ("client", "carer", "therapist", "contact")
        used = {one.person for one in self._record if isinstance(one, Shown)}
        everybody: tuple[EnrolledPerson | Newcomer, ...] = (*self.scenario.enrolment.people, *self.scenario.newcomers)
        people = [person for person in everybody if person.id in used]
        contacts = {contact for client in self.scenario.enrolment.clients for contact in client.people.contacts}
        people.sort(key=lambda person: (person.id in contacts, order.index(person.role)))
        roles = {person.id: "next contact" if person.id in contacts else person.role for person in people}
        return tuple(
            Column(person.id, f"{person.name} ({roles[person.id]})", always=person.id not in contacts) for person in people
        )

    def _day(self, at: datetime) -> date:
        return local_day(at, self.scenario.zone)

    def _week(self, at: datetime) -> tuple[int, int]:
        year, week, _ = self._day(at).isocalendar()
        return year, week

    def _local(self, at: datetime) -> str:
        return f"{at.astimezone(ZoneInfo(self.scenario.zone)):%Y-%m-%d %H:%M:%S}"

    def _clear(self) -> None:
        """Nothing of an earlier rehearsal stays."""
        self.folder.mkdir(parents=True, exist_ok=True)
        for pattern in (f"{DATABASE}*", "transcript.md", "messages.jsonl"):
            for path in self.folder.glob(pattern):
                path.unlink()
        self._kept.clear()
