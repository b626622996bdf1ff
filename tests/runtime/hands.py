"""A clock moved by hand, a chat platform that remembers what it was asked, and the people of a small invented world."""

import asyncio
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

from companion.core.care import Consent
from companion.core.client import Client, People
from companion.core.effects import Paper, Sheet, Subject, Urgency, Words
from companion.core.events import Assessed, Control
from companion.core.media import Made, medium
from companion.core.observations import Course
from companion.core.person import Part, Person
from companion.core.programme import Rules
from companion.runtime.pace import Limits
from companion.runtime.runtime import Options, Outside, Runtime
from companion.runtime.settling import OperatorHook, StuckAlert
from companion.runtime.transport import Drawing, Op, Outcome, Outgoing, Receipt
from companion.store import OutboxRow, Store

START = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
LOOPS = ("alarms", "making", "outbox", "drawing")


def at(seconds: float) -> datetime:
    """So many seconds after the start."""
    return START + timedelta(seconds=seconds)


@dataclass(slots=True)
class Parked:
    """A loop that waits."""

    event: asyncio.Event | None
    until: datetime | None
    go: asyncio.Future[None]

    def may_go(self, now: datetime) -> bool:
        return (self.event is not None and self.event.is_set()) or (self.until is not None and self.until <= now)


class HandClock:
    """Stands still until it is moved. Lets one parked loop go at a time, in the order of `LOOPS`.

    `busy` are loops that wait for the outside and are not waited for.
    """

    def __init__(self) -> None:
        self._now = START
        self._parked: dict[str, Parked] = {}
        self._came = asyncio.Event()
        self._seeds = iter(range(1, 1_000_000))
        self.tokens: list[str] = []
        self.busy: set[str] = set()

    def now(self) -> datetime:
        return self._now

    async def park(self, name: str, event: asyncio.Event | None, until: datetime | None) -> None:
        parked = Parked(event, until, asyncio.get_running_loop().create_future())
        self._parked[name] = parked
        self._came.set()
        try:
            await parked.go
        finally:
            self._parked.pop(name, None)

    def wall(self, due: datetime) -> datetime:
        return datetime.now(UTC) + (timedelta(days=1) if due > self._now else timedelta())

    def look(self, due: datetime | None) -> datetime | None:
        return due

    def seed(self) -> int:
        return next(self._seeds)

    def token(self) -> str:
        return self.tokens.pop() if self.tokens else "invented-payload"

    async def quiet(self) -> None:
        """Let every loop do what it can do now."""
        async with asyncio.timeout(30):
            while True:
                while set(self._parked) | self.busy < set(LOOPS):
                    self._came.clear()
                    await self._came.wait()
                names = (name for name in LOOPS if name in self._parked and self._parked[name].may_go(self._now))
                name = next(names, None)
                if name is None:
                    return
                self._parked.pop(name).go.set_result(None)

    async def move(self, to: datetime) -> None:
        """Go on to a moment, stopping at every moment at which a loop wants to go."""
        await self.quiet()
        while (next_at := self.next_at()) is not None and next_at <= to:
            self._now = next_at
            await self.quiet()
        self._now = max(self._now, to)
        await self.quiet()

    def next_at(self) -> datetime | None:
        """The earliest moment that a loop waits for."""
        return min((parked.until for parked in self._parked.values() if parked.until is not None), default=None)

    def set(self, to: datetime) -> None:
        """Be at a moment at once, as if the machine had been off."""
        self._now = to


@dataclass(frozen=True, slots=True)
class Sent:
    """One request, and when it was made."""

    at: datetime
    out: Outgoing

    @property
    def s(self) -> float:
        return (self.at - START).total_seconds()


@dataclass
class Platform:
    """The far side of the chat. Answers with a receipt unless `answers` or `judge` says otherwise."""

    clock: HandClock
    sent: list[Sent] = field(default_factory=list)
    answers: deque[Outcome | Exception] = field(default_factory=deque)
    judge: Callable[[Outgoing], Outcome | None] | None = None
    next_id: int = 100
    uploads: dict[bytes, int] = field(default_factory=dict)

    async def send(self, outgoing: Outgoing) -> Outcome:
        self.sent.append(Sent(self.clock.now(), outgoing))
        await asyncio.sleep(0)
        answer = self.answers.popleft() if self.answers else None
        if isinstance(answer, Exception):
            raise answer
        if answer is None and self.judge is not None:
            answer = self.judge(outgoing)
        return answer if answer is not None else self.receipt(outgoing)

    def receipt(self, outgoing: Outgoing) -> Receipt:
        file = outgoing.file
        if file is None:
            file_id = ""
        elif isinstance(file.content, str):
            file_id = file.content
        else:
            file_id = f"{file.medium}-{self.uploads.setdefault(file.content, len(self.uploads) + 1)}"
        if outgoing.message_id is not None:
            return Receipt(outgoing.message_id, self.clock.now(), file_id)
        self.next_id += 1
        return Receipt(self.next_id, self.clock.now(), file_id)

    def texts(self) -> list[str]:
        """What was said or changed, in order."""
        return [sent.out.text for sent in self.sent if sent.out.op is not Op.CLEAR]


class Spelled:
    """Words as their key, and their parameters in brackets."""

    def text(self, words: Words, language: str) -> str:
        if words.key == "no-such-words":
            raise LookupError("somebody wrote: secret words")
        params = " ".join(f"{name}={value}" for name, value in words.params)
        return f"{words.key}[{params}]" if params else words.key


class Knockers:
    """Links that open nothing, and their pictures."""

    def link(self, payload: str) -> str:
        return f"https://door.example/{payload}"

    def picture(self, link: str) -> bytes:
        return f"picture of {link}".encode()


class Draughtsman:
    """Draws nothing much, or fails as often as told"""

    def __init__(self) -> None:
        self.failures = 0
        self.drawn: list[tuple[str, date, date]] = []
        self.made: list[Made] = []

    async def draw(
        self, client_id: str, first: date, last: date, language: str, what: tuple[Sheet, Paper] = (Sheet.WEEK, Paper.A4)
    ) -> Drawing:
        self.drawn.append((client_id, first, last))
        if self.failures > 0:
            self.failures -= 1
            raise OSError("the child process died")
        return Drawing(b"png", f"week of {first}")

    async def draw_digest(self, person_id: str, first: date, last: date, language: str) -> bytes:
        return (await self.draw(person_id, first, last, language)).file

    async def assess(self, client_id: str) -> Assessed:
        return Assessed(START, Course.USUAL, 20, 0.5)

    async def make(self, media: Made, language: str) -> bytes:
        self.made.append(media)
        if self.failures > 0:
            self.failures -= 1
            raise OSError("the child process died")
        return f"{medium(media)} in {language}: {media}".encode()


RULES = Rules({}, (), (), "000")
CONTROLS = {
    "Something is wrong": Control.SOMETHING_WRONG,
    "/more": Control.MORE,
    "/clients": Control.CASELOAD,
    "/new": Control.NEW_CLIENT,
    "/settings": Control.SETTINGS,
}


class World:
    """A store, a runtime on it, a platform and a clock. People: client `c1` is Ada (user 11), carer Ben (12), the
    therapist Tess (90); client `c2` is Cem (21), without a carer. All are invented."""

    def __init__(self, store: Store, limits: Limits) -> None:
        self.store = store
        self.limits = limits
        self.clock = HandClock()
        self.platform = Platform(self.clock)
        self.draughtsman = Draughtsman()
        self.stuck: list[StuckAlert] = []
        outside = Outside(self.clock, self.platform, Spelled(), Knockers(), self.draughtsman)
        self.hook: OperatorHook = self.stuck.append
        self.runtime = Runtime(store, RULES, outside, Options(CONTROLS, limits, lambda alert: self.hook(alert)))

    @classmethod
    async def make(cls, folder: Path, limits: Limits | None = None) -> "World":
        return cls(await Store.open(folder / "companion.sqlite3"), limits or Limits())

    async def people(self) -> None:
        """Write the people down."""
        async with self.store.writing() as tx:
            for person in (ADA, BEN, CEM, TESS):
                await tx.add_person(person, None, 2)
            for client in (CARE_OF_ADA, CARE_OF_CEM):
                await tx.add_client(client, None, 2)

    async def say(self, *rows: OutboxRow) -> list[int]:
        """Write messages down and wake the sender."""
        async with self.store.writing() as tx:
            ids = [await tx.put_outbox(row) for row in rows]
        self.runtime.wake()
        return ids

    async def row(self, row_id: int) -> OutboxRow:
        async with self.store.reading() as reading:
            found = await reading.outbox(row_id)
        assert found is not None
        return found

    async def close(self) -> None:
        await self.runtime.stop()
        await self.store.close()


ADA = Person("ada", Part.CLIENT, "Ada", "Europe/London", ("c1",), user_id=11)
BEN = Person("ben", Part.CARER, "Ben", "Europe/London", ("c1",), user_id=12)
CEM = Person("cem", Part.CLIENT, "Cem", "Europe/London", ("c2",), user_id=21)
TESS = Person("tess", Part.THERAPIST, "Tess", "Europe/London", ("c1", "c2"), user_id=90)
AGREED = Consent("1", START)
CARE_OF_ADA = Client("c1", "Ada", "Europe/London", People("ada", "tess", "ben"), START, START, consent=AGREED)
CARE_OF_CEM = Client("c2", "Cem", "Europe/London", People("cem", "tess"), START, START, consent=AGREED)
CLIENT_OF = {"ada": "c1", "ben": "c1", "cem": "c2", "tess": "c1"}

BLANK = OutboxRow(
    subject=Subject("client", "c1"),
    person_id="ada",
    client_id="c1",
    created_at=START,
    urgency=Urgency.LIVE,
    topic="session",
)


def message(text: str, to: str = "ada", urgency: Urgency = Urgency.LIVE) -> OutboxRow:
    """A message to somebody."""
    client = CLIENT_OF[to]
    return replace(BLANK, person_id=to, text=text, urgency=urgency, client_id=client, subject=Subject("client", client))
