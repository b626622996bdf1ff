"""A small invented world in which everybody tries everything: who sees and who changes what of one client's care.

The world is made by real events: a hand-over, a cover that ended and one that runs, a carer who was taken out, a reminder, a
session, a red flag. Then each person does each thing, each time in the same world anew, and what came of it is read off the
database.
"""

import sqlite3
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from companion.core.care import Client, Consent, People
from companion.core.effects import Subject
from companion.core.events import (
    Control,
    Controlled,
    CoverAgreed,
    Event,
    HandedOver,
    MediaGiven,
    Press,
    Pressed,
    ReviewDone,
    Woke,
)
from companion.core.media import Medium, Recorded
from companion.core.person import Part, Person, own
from companion.core.programme import Direction, Plan, Supervision
from companion.core.recent import Proposal
from companion.core.review_values import ReviewValues
from companion.runtime.client_rows import add_client
from companion.runtime.handler import Change, Handler
from companion.runtime.transport import Inbound, InOther, InPress, InStart, InText, ReplyText
from companion.store import OutboxRow, Store
from companion.store.schema import metadata
from tests.crowd import home
from tests.playing import CONTENT
from tests.runtime.hands import CONTROLS, START, HandClock, Knockers, Spelled

What = InText | InPress | InOther | InStart
RULES = CONTENT.library.rules("000")
BRIEFING = RULES.briefing.version
ZONE = "Europe/London"
LINK = "a-link-for-somebody-new"

ROLES: dict[str, int] = {
    "client": 11,
    "carer": 12,
    "contact": 91,
    "therapist": 90,
    "therapist who covers": 92,
    "stranger": 777,
    "former carer": 96,
    "former therapist": 94,
    "therapist whose cover is over": 93,
    "another therapist": 95,
    "another client": 31,
}
"""Who tries, by user id."""

OUTSIDE = tuple(ROLES)[tuple(ROLES).index("stranger") :]
"""Who has no part in this care."""

NAMES_OF_THE_CARE = ("Ada", "Ben", "c1")
Rows = dict[str, list[tuple[Any, ...]]]

POLITE = {
    "stranger",
    "press-not-yours",
    "press-over",
    "press-stale",
    "press-another-day",
    "proposal-over",
    "typed-therapist",
    "typed-contact",
    "typed-other",
    "typed-row",
    "helps-nobody",
    "typed-emergency",
    "nothing-runs",
    "link-taken",
    "link-used",
}
"""Lines that tell nothing."""


@dataclass(frozen=True, slots=True)
class Action:
    """What is tried, in which world ("reminded", "practising", "held", "seen"), by what came in."""

    name: str
    world: str
    what: Callable[["Trial"], What]


def typed(text: str) -> Callable[["Trial"], What]:
    return lambda trial: InText(text)


def of_page(step: str, choice: str) -> Callable[["Trial"], What]:
    return lambda trial: InPress(Press("c1", "page", step, choice))


def said_to(person: str, choice: str, scope: str = "") -> Callable[["Trial"], What]:
    """The newest button on somebody's phone that answers so: forwarded, or made up, by whoever tries."""
    return lambda trial: InPress(trial.button(person, choice, scope))


ACTIONS = (
    Action("types words", "reminded", typed("good morning")),
    Action("sends a voice note", "reminded", lambda trial: InOther("voice")),
    Action('"Something is wrong"', "practising", typed("/wrong")),
    Action('"Enough"', "practising", typed("/stop")),
    Action('"I had to leave"', "practising", typed("/leave")),
    Action('"More"', "reminded", typed("/more")),
    Action('"My clients"', "reminded", typed("/clients")),
    Action('"New client"', "reminded", typed("/new")),
    Action('"Settings"', "reminded", typed("/settings")),
    Action("Start, under a reminder", "reminded", said_to("ada", "start", "o")),
    Action("an answer in a session", "practising", lambda trial: InPress(trial.answer())),
    Action("what is wrong, under a red flag", "held", said_to("ada", "unwell", "f")),
    Action("seen, under an alert", "held", said_to("tess", "seen", "f")),
    Action("lifts the stop, under an alert", "seen", lambda trial: InPress(replace(trial.lift(), step="lift", choice="spoke"))),
    Action("opens the client's page", "reminded", of_page("page", "open")),
    Action("own words of the client", "reminded", of_page("page", "words")),
    Action("chart of the client", "reminded", of_page("page", "chart")),
    Action("changes the plan", "reminded", of_page("page", "plan")),
    Action("records for the client", "reminded", of_page("page", "media")),
    Action("enters a review", "reminded", of_page("page", "review")),
    Action("the client's reviews", "reminded", of_page("page", "reviews")),
    Action("answers to what was recorded", "reminded", said_to("ada", "use", "media")),
    Action("hands the client over", "reminded", of_page("page", "hand_over")),
    Action("takes the carer out", "reminded", of_page("remove_carer", "remove_carer")),
    Action("makes a link for the client", "reminded", of_page("link", "n0")),
    Action("ends the care", "reminded", of_page("page", "discharge")),
    Action("next step, under a proposal", "reminded", lambda trial: InPress(Press("c1", "p1", "proposal", "next"))),
    Action("the client's week", "reminded", lambda trial: InPress(Press("c1", "menu", "more", "week"))),
    Action("the therapist's own list", "reminded", lambda trial: InPress(Press(own("tess"), "desk", "list", "n0"))),
    Action("the link of somebody new", "reminded", lambda trial: InStart(LINK)),
)


def the_plan() -> Plan:
    """A plan for which somebody has to stand by."""
    plan = home(0, START).plan
    assert plan is not None
    return replace(plan, supervision=Supervision.ALWAYS)


@dataclass
class Trial:
    """The worlds, kept as rows of all tables, and a handler on one of them."""

    store: Store
    database: Path
    clock: HandClock = field(default_factory=HandClock)
    worlds: dict[str, Rows] = field(default_factory=dict)
    strangers: list[str] = field(default_factory=list)
    number: int = 0

    @classmethod
    async def make(cls, folder: Path) -> "Trial":
        database = folder / "companion.sqlite3"
        trial = cls(await Store.open(database, durable=False), database)
        await trial._people()
        await trial._history()
        return trial

    def handler(self) -> Handler:
        controls = {**CONTROLS, "/wrong": Control.SOMETHING_WRONG, "/stop": Control.ENOUGH, "/leave": Control.HAD_TO_LEAVE}
        return Handler(self.store, RULES, Spelled(), Knockers(), self.clock, controls, [self])

    # what the handler tells

    def changed(self, change: Change) -> None:
        """Nothing sends here; what is to be said stays written down."""

    def stranger(self, chat_id: int, text: str) -> None:
        self.strangers.append(text)

    # the world

    async def _people(self) -> None:
        people = (
            Person("ada", Part.CLIENT, "Ada", ZONE, ("c1",), user_id=11),
            Person("ben", Part.CARER, "Ben", ZONE, ("c1",), user_id=12),
            Person("fred", Part.CARER, "Fred", ZONE, ("c1",), user_id=96),
            Person("ines", Part.CONTACT, "Ines", ZONE, ("c1",), user_id=91),
            Person("olda", Part.THERAPIST, "Olda", ZONE, ("c1",), user_id=94),
            Person("tess", Part.THERAPIST, "Tess", ZONE, (), user_id=90),
            Person("una", Part.THERAPIST, "Una", ZONE, (), user_id=92),
            Person("vera", Part.THERAPIST, "Vera", ZONE, (), user_id=93),
            Person("xena", Part.THERAPIST, "Xena", ZONE, ("c9",), user_id=95),
            Person("zoe", Part.CLIENT, "Zoe", ZONE, ("c9",), user_id=31),
            Person("new", Part.CARER, "Newman", ZONE, ("c9",)),
        )
        names = tuple((person.id, person.name) for person in people)
        care = People("ada", "olda", "fred", ("ines",), names)
        client = Client("c1", "Ada", ZONE, care, START, START, plan=the_plan(), consent=Consent(RULES.consent.version, START))
        client = replace(client, joined=("ada", "ben", "fred", "ines", "olda"), briefed=(("fred", BRIEFING), ("ben", BRIEFING)))
        other = replace(client, id="c9", name="Zoe", people=People("zoe", "xena", names=names), joined=("zoe", "xena"))
        async with self.store.writing() as tx:
            for person in people:
                await tx.add_person(person, None, 2)
            for one in (client, other):
                await add_client(tx, one, RULES, START)
            await tx.add_link(LINK, "new", START + timedelta(days=99))

    async def _history(self) -> None:
        now = self.clock.now
        await self.happens(HandedOver(now(), "olda", "tess", "Tess"))
        await self.happens(CoverAgreed(now(), "tess", "vera", "Vera", now(), now() + timedelta(hours=1)))
        self.clock.set(now() + timedelta(hours=2))
        await self.happens(Woke(now()))
        await self.happens(CoverAgreed(now(), "tess", "una", "Una", now(), now() + timedelta(days=60)))
        await self.happens(Pressed(now(), "tess", Press("c1", "page", "remove_carer", "remove_carer")))
        # who comes after a removed carer reads the briefing anew
        await self.changes(
            lambda client: replace(client, people=replace(client.people, carer="ben"), briefed=(("ben", BRIEFING),))
        )
        await self.changes(lambda client: replace(client, proposal=self._proposal(client)))
        planned = the_plan().exercises[1].exercise
        await self.happens(MediaGiven(now(), "tess", planned, Recorded(Medium.PHOTO, "a-file"), beside=False))
        await self.happens(ReviewDone(now(), "tess", ReviewValues(berg=41)))
        practice = await self._next_practice()
        self.clock.set(practice)
        await self.happens(Woke(practice))
        self.worlds["reminded"] = self.rows()
        await self.happens(Pressed(practice, "ada", self.button("ada", "start", "o")))
        self.worlds["practising"] = self.rows()
        await self.happens(Controlled(practice, "ada", Control.SOMETHING_WRONG))
        self.worlds["held"] = self.rows()
        await self.happens(Pressed(practice, "tess", self.button("tess", "seen", "f")))
        self.worlds["seen"] = self.rows()

    def _proposal(self, client: Client) -> Proposal:
        assert client.plan is not None
        exercise = client.plan.exercises[1].exercise
        return Proposal("p1", exercise, Direction.UP, None, client.plan.version, START, ("tess", "una"))

    async def _next_practice(self) -> datetime:
        async with self.store.reading() as reading:
            wake = await reading.earliest_wake()
        assert wake is not None
        return wake

    async def happens(self, event: Event) -> None:
        """Something happens to the client's care, and all that follows from it."""
        self.number += 1
        decision = await self.handler().handle(Subject("client", "c1"), event, f"history:{self.number}")
        assert decision is not None, event

    async def changes(self, change: Callable[[Client], Client]) -> None:
        async with self.store.writing() as tx:
            client = await tx.client("c1")
            assert client is not None
            await tx.save_client(change(client), None, 2)

    # what stands on the phones

    def buttons(self, person: str) -> list[Press]:
        """What can be pressed on that phone, newest first."""
        with sqlite3.connect(self.database) as connection:
            rows = connection.execute("SELECT buttons FROM outbox WHERE person_id = ? ORDER BY id DESC", [person]).fetchall()
        found = [self.store._records.buttons(row[0], "buttons") for row in rows]
        return [press for buttons in found for _, press in buttons]

    def button(self, person: str, choice: str, scope: str = "") -> Press:
        for press in self.buttons(person):
            if press.choice == choice and press.client == "c1" and press.scope.startswith(scope):
                return press
        raise LookupError(f"{person} has no button for {choice}: {self.buttons(person)}")

    def answer(self) -> Press:
        """The newest button of the session on the client's phone."""
        return next(press for press in self.buttons("ada") if press.scope.startswith("s"))

    def lift(self) -> Press:
        """The button under the alert that lifts it, once the therapist has seen it."""
        return self.button("tess", "lift", "f")

    # trying

    def rows(self) -> Rows:
        with sqlite3.connect(self.database) as connection:
            return {table: connection.execute(f'SELECT * FROM "{table}"').fetchall() for table in metadata.tables}

    def begin(self, world: str) -> None:
        """The world as it was."""
        with sqlite3.connect(self.database) as connection:
            connection.execute("PRAGMA synchronous = OFF")  # it may be lost with the machine
            for table, rows in self.worlds[world].items():
                connection.execute(f'DELETE FROM "{table}"')
                if rows:
                    connection.executemany(f'INSERT INTO "{table}" VALUES ({", ".join("?" * len(rows[0]))})', rows)
        self.strangers.clear()

    async def tries(self, role: str, action: Action) -> "Came":
        """One person does one thing."""
        self.begin(action.world)
        what, user = action.what(self), ROLES[role]
        self.number += 1
        before = self.rows()
        reply = await self.handler().receive(Inbound(f"tg:{self.number}:{user}:1", user, user, what, 100_000 + self.number))
        async with self.store.reading() as reading:
            person = await reading.person_by_user(user)
            ids = [row[0] for row in self.rows()["outbox"]][len(before["outbox"]) :]
            said = [row for row in [await reading.outbox(id) for id in ids] if row is not None]
        return Came(before, self.rows(), reply, said, tuple(self.strangers), person.id if person is not None else None)


@dataclass(frozen=True)
class Came:
    """What came of it."""

    before: Rows
    after: Rows
    reply: ReplyText | None
    said: list[OutboxRow]
    strangers: tuple[str, ...]
    person: str | None

    def texts(self) -> list[str]:
        """What whoever tried is told, as keys of texts."""
        own = [row.text for row in self.said if row.person_id == self.person and not row.clears]
        return [*own, *([self.reply.text] if self.reply is not None else []), *self.strangers]

    def told_others(self) -> list[OutboxRow]:
        return [row for row in self.said if row.person_id != self.person]

    def changes_the_care(self) -> bool:
        """Whether anything that is kept about the one client changed, or somebody else was told something of it."""
        told = [row for row in self.told_others() if row.client_id == "c1"]
        return self._of_care(self.before) != self._of_care(self.after) or bool(told)

    def shows_the_care(self) -> bool:
        """Whether whoever tried was told anything of it: its people, or what to press in it."""
        shown = "\n".join([*self.texts(), *(repr(row.buttons) for row in self.said if row.person_id == self.person)])
        return any(name in shown for name in NAMES_OF_THE_CARE)

    def changes_anything(self) -> bool:
        """Whether more changed than that somebody was heard."""
        tables = [table for table in self.after if table not in ("journal", "outbox", "last_message")]
        return any(self._kept(self.before, table) != self._kept(self.after, table) for table in tables)

    def _kept(self, rows: Rows, table: str) -> Any:
        # of a client or person the record, not how often it was written nor when it is looked at again
        return [row[:2] for row in rows[table]] if table in ("client", "person") else rows[table]

    def _of_care(self, rows: Rows) -> list[Any]:
        tables = ("client", "caseload", "observation", "report_request", "script", "link")
        return [row for table in tables for row in self._kept(rows, table) if "c1" in row or "ada" in row]

    def cell(self) -> str:
        """What it was, in a word or two."""
        if self.changes_the_care():
            return "acts"
        if self.shows_the_care():
            return "sees"
        told = self.texts()
        keys = {line.partition("[")[0] for text in told for line in text.split("\n")}
        if self.changes_anything() or not keys <= POLITE:
            return "own"
        return "one line" if told else "nothing"
