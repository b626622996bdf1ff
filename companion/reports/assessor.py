"""Has weeks drawn, and pictures and sounds made, by a process of its own, as the runtime asks.

This side reads the database and never loads matplotlib.
"""

import asyncio
import contextlib
import logging
import pickle
import sys
from asyncio.subprocess import PIPE, Process
from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path

from companion.core.care import Client, People
from companion.core.effects import ClientId, Paper, PersonId, Sheet
from companion.core.events import Assessed
from companion.core.media import Made
from companion.core.observations import Bout, Observation, PauseAgreed, Quality
from companion.core.programme import Measure, Plan
from companion.core.schedule import instant
from companion.errors import CompanionError, UsedWrong
from companion.measures.conditions import LAST, MOST_EARLIER
from companion.reports.asking import (
    LENGTH,
    AnyTask,
    DigestTask,
    Drawn,
    Failed,
    MediaTask,
    ReviewsTask,
    Row,
    Stands,
    Task,
    packed,
)
from companion.reports.week import WEEK, Case
from companion.runtime.clock import Clock
from companion.runtime.transport import Drawing
from companion.store import Store
from companion.store.reading import Reading

log = logging.getLogger(__name__)

BEGINNING = datetime(1970, 1, 1, tzinfo=UTC)
CHILD = "companion.reports.child"

EVER = (
    *("discharged", "proposed", "proposal_answered", "pause_agreed", "pause_over"),
    *("flag_raised", "flag_acknowledged", "flag_lifted", "fall_reported"),
)
"""Kinds of observations that count however old they are: what waits for a decision, which flag is open."""

NEWEST = ("plan_prescribed",)
"""Kinds of which the last one still counts, however old: which plan held."""

ASSESSED = ("bout", "session_ended")
"""Kinds that an assessment looks at."""

MONTHS = timedelta(days=120)
FIVE_WEEKS = timedelta(weeks=5)
ASSESSED_SESSIONS = LAST + MOST_EARLIER

MOST_S = 60
"""Nobody waits longer for a picture or a sound: what takes longer will not be there at all."""


class NotDrawn(CompanionError):
    """A chart could not be drawn."""


class ChildAssessor:
    """The runtime's `Assessor`. One child does one thing at a time; it is started when first needed."""

    def __init__(self, store: Store, content: Path, clock: Clock, speaks: bool = True) -> None:
        self._store = store
        self._clock = clock
        self._child = _Child(content)
        self._speaks = speaks

    async def draw(
        self, client_id: ClientId, first: date, last: date, language: str, what: tuple[Sheet, Paper] = (Sheet.WEEK, Paper.A4)
    ) -> Drawing:
        """A chart or a document of `first` to `last`, local dates, both included, as it is known now; the page of reviews is of
        all that there are.

        Raises UsedWrong (no such client, or one without a plan, unless it is of reviews) and NotDrawn.
        """
        if what[0] is Sheet.REVIEWS:
            drawn = await self._child.ask(await self._reviews(client_id, language))
        else:
            drawn = await self._child.ask(await self._task(client_id, first, last, language, what))
        assert isinstance(drawn, Drawn)
        return Drawing(drawn.file, drawn.caption, drawn.name)

    async def assess(self, client_id: ClientId) -> Assessed:
        """Where the last sessions stand against the client's own usual, as known now. Raises likewise."""
        now = self._clock.now()
        task = await self._task(client_id, now.date(), now.date(), "en", (Sheet.ASSESSED, Paper.A4))
        stands = await self._child.ask(task)
        assert isinstance(stands, Stands)
        return Assessed(now, stands.course, stands.earlier, stands.p)

    async def _task(self, client_id: ClientId, first: date, last: date, language: str, what: tuple[Sheet, Paper]) -> Task:
        now = self._clock.now()
        async with self._store.reading() as reading:
            client = await _known(reading, client_id)
            if client.plan is None:
                raise UsedWrong(f'"{client_id}" has no plan yet, so there is no week to draw. Enrol a plan first.')
            case = _case(client, client.plan)
            match what[0]:
                case Sheet.WEEK | Sheet.OWN_WEEK | Sheet.PDF_WEEK:
                    observations = await _observed(reading, client, first, now)
                case Sheet.FOUR_WEEKS:
                    observations = await _usual(reading, client, instant(last - FIVE_WEEKS, time(0), client.zone), now)
                case Sheet.ASSESSED:
                    observations = await _holds(reading, client, now)
                case _:
                    observations = await reading.observations(client.id, BEGINNING, now)
        return Task(case, first, last, tuple(observations), now, language, *what)

    async def _reviews(self, client_id: ClientId, language: str) -> ReviewsTask:
        now = self._clock.now()
        async with self._store.reading() as reading:
            client = await _known(reading, client_id)
            found = await reading.of_kinds(client_id, BEGINNING, now, ("reviewed",))
        return ReviewsTask(client.name, client.zone, tuple(found), now, language)

    async def draw_digest(self, person_id: PersonId, first: date, last: date, language: str) -> bytes:
        """The weeks of all clients of a therapist side by side, local dates, both included, as a PNG. Raises likewise."""
        now = self._clock.now()
        rows = []
        async with self._store.reading() as reading:
            person = await reading.person(person_id)
            for entry in await reading.whole_caseload(person_id):
                client = await reading.client(entry.id)
                if client is not None and client.discharged_at is None:
                    rows.append(replace(await _row(reading, client, first, now), reasons=entry.reasons))
        zone = person.zone if person is not None else "UTC"
        return await self._file(DigestTask(tuple(rows), first, last, now, language, zone))

    async def make(self, media: Made, language: str) -> bytes:
        """A picture as a PNG, a sound as Ogg Opus. Raises NotDrawn, and TimeoutError if it takes too long."""
        async with asyncio.timeout(MOST_S):
            return await self._file(MediaTask(media, language, self._speaks))

    async def _file(self, task: DigestTask | MediaTask) -> bytes:
        drawn = await self._child.ask(task)
        assert isinstance(drawn, Drawn)
        return drawn.file

    async def get_ready(self) -> None:
        """Start the child, which loads for a second, before it is first needed."""
        await self._child.start()

    async def close(self) -> None:
        """End the child. Twice is fine."""
        await self._child.close()


async def _known(reading: Reading, client_id: ClientId) -> Client:
    client = await reading.client(client_id)
    if client is None:
        raise UsedWrong(f'There is no client "{client_id}". Name one that is enrolled.')
    return client


async def _row(reading: Reading, client: Client, first: date, now: datetime) -> Row:
    if client.plan is None:
        return Row(client.name, None)
    case = _case(client, client.plan)
    return Row(client.name, case, tuple(await _observed(reading, client, first, now)))


def _case(client: Client, plan: Plan) -> Case:
    return Case(
        name=client.name,
        zone=client.zone,
        plan=plan,
        roles=_roles(client.people),
        since=client.since,
        previous=client.previous,
        lower_since=client.lower_since,
        goal=client.goal,
        ended=client.discharged_at,
        pause=PauseAgreed(client.pause.since, client.pause.why, client.pause.until) if client.pause is not None else None,
        weaker_side=client.baseline.weaker_side if client.baseline is not None else "unknown",
    )


def _roles(people: People) -> tuple[tuple[str, str], ...]:
    known = ((people.client, "client"), (people.carer, "carer"), (people.therapist, "therapist"))
    contacts = ((contact, "contact") for contact in people.contacts)
    return tuple((person, role) for person, role in (*contacts, *known) if person)


async def _observed(reading: Reading, client: Client, first: date, now: datetime) -> Sequence[tuple[datetime, Observation]]:
    """From a week before `first` on."""
    return await reading.since(client.id, instant(first - WEEK, time(0), client.zone), now, EVER, NEWEST)


async def _usual(reading: Reading, client: Client, first: datetime, now: datetime) -> Sequence[tuple[datetime, Observation]]:
    """From `first` on and of the last months, where these hold as many sessions as the client's own usual is taken from; else
    all. So what five years cost is no more then."""
    found = await reading.since(client.id, min(first, now - MONTHS), now, EVER, NEWEST)
    return found if _enough(found) else await reading.observations(client.id, BEGINNING, now)


async def _holds(reading: Reading, client: Client, now: datetime) -> Sequence[tuple[datetime, Observation]]:
    """What an assessment looks at, likewise."""
    found = await reading.of_kinds(client.id, now - MONTHS, now, ASSESSED)
    return found if _enough(found) else await reading.of_kinds(client.id, BEGINNING, now, ASSESSED)


def _enough(found: Sequence[tuple[datetime, Observation]]) -> bool:
    return len({what.session for _, what in found if isinstance(what, Bout) and _told(what)}) > ASSESSED_SESSIONS


def _told(bout: Bout) -> bool:
    return bout.measure is Measure.TIMED and bout.quality is not Quality.UNKNOWN


class _Child:
    """The drawing process: started when first asked, started again if it died, one task at a time."""

    def __init__(self, content: Path) -> None:
        self._content = content
        self._turn = asyncio.Lock()
        self._process: Process | None = None

    async def ask(self, task: AnyTask) -> Drawn | Stands:
        """Have a task drawn. A child that died is replaced once; NotDrawn if that one dies too."""
        async with self._turn:
            answer = await self._try(task)
            if answer is None:
                log.warning("the drawing process died; another is started")
                answer = await self._try(task)
        if answer is None:
            raise NotDrawn("The drawing process died twice over one task. Its last words are in the log above.")
        if isinstance(answer, Failed):
            raise NotDrawn(f"It could not be drawn:\n{answer.why}")
        return answer

    async def start(self) -> None:
        """Start the process if it is not. It is not waited for until something is asked."""
        async with self._turn:
            self._process = self._process or await self._started()

    async def close(self) -> None:
        async with self._turn:
            await self._end()

    async def _try(self, task: AnyTask) -> Drawn | Stands | Failed | None:
        """The answer; None if the process died over it."""
        try:
            return await self._exchange(task)
        except (asyncio.IncompleteReadError, ConnectionError):
            await self._end()
            return None
        except BaseException:
            # cancelled between question and answer: the answer would be taken for that of the next question
            await self._end()
            raise

    async def _exchange(self, task: AnyTask) -> Drawn | Stands | Failed:
        process = self._process = self._process or await self._started()
        assert process.stdin is not None and process.stdout is not None
        process.stdin.write(await asyncio.to_thread(packed, task))  # a course of years takes a while to pack
        await process.stdin.drain()
        header = await process.stdout.readexactly(LENGTH.size)
        answer: Drawn | Stands | Failed = pickle.loads(await process.stdout.readexactly(LENGTH.unpack(header)[0]))
        return answer

    async def _started(self) -> Process:
        # a session of its own: Ctrl-C in the terminal is for the bot, which then ends the child in its own time
        return await asyncio.create_subprocess_exec(
            sys.executable, "-m", CHILD, str(self._content), stdin=PIPE, stdout=PIPE, start_new_session=True
        )

    async def _end(self) -> None:
        """End the process, whatever it is doing. A chart half drawn is of no use."""
        process, self._process = self._process, None
        if process is None:
            return
        with contextlib.suppress(ProcessLookupError):
            process.kill()
        await process.wait()
