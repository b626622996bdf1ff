"""A companion at work against the loopback platform, on a clock that the test moves: for tests of the whole."""

import asyncio
import re
from collections.abc import AsyncIterator, Callable, Sequence
from contextlib import asynccontextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path

from companion.app import App, Content, Enrolled, Invitation, Setup, enrol
from companion.chat.buttons import decode
from companion.content import enrolment
from companion.content.folders import scenarios_dir
from companion.core.events import Press
from companion.rehearsal.clock import LOOPS, RehearsalClock
from companion.rehearsal.server import Limits, Phone, RehearsalServer
from companion.store import Store

# A Monday, 08:00 in London.
START = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)
PEOPLE = {"ines": 7001, "rafe": 7002, "mara": 7003, "tomas": 7004}
FILE = scenarios_dir() / "people" / "fortnight.yaml"
# Read once: it is frozen, and reading it takes longer than most tests.
CONTENT = Content.read()
DIALOGUE = re.compile(r"d\d+")
"""What the buttons of a dialogue on somebody's own phone carry."""

MOST_ANSWERS = 30
"""Nobody is asked more than so often before practice."""

PATIENCE_S = 30
"""Real seconds after which a test that waits for what never comes is told so."""


class Play:
    """The platform, the people's phones and the clock; `app` is the companion while it runs."""

    def __init__(self, database: Path) -> None:
        self.clock = RehearsalClock(START, "tests")
        self.server = RehearsalServer(now=self.clock.now, limits=Limits())
        self.database = database
        self.phones: dict[str, Phone] = {}

    @property
    def setup(self) -> Setup:
        return Setup(self.server.token, self.server.base_url, self.database, emergency_number="112")

    async def enrol(self, file: Path = FILE) -> Enrolled:
        """Enrol the people of a file, as the command line does."""
        people = enrolment.load(file, CONTENT.library, CONTENT.texts)
        store = await Store.open(self.database, active=False)
        try:
            return await enrol(store, people, CONTENT, self.clock)
        finally:
            await store.close()

    def phone(self, name: str) -> Phone:
        """The phone of somebody of the file."""
        if name not in self.phones:
            self.phones[name] = self.server.add_phone(PEOPLE.get(name, 8000 + len(self.phones)), name.title())
        return self.phones[name]

    @asynccontextmanager
    async def running(self) -> AsyncIterator[App]:
        """The companion, from its start until it is stopped."""
        app = await App.open(self.setup, self.clock, CONTENT)
        self.clock.bell = self.server.changed.ring
        await app.start()
        try:
            yield app
        finally:
            await app.stop()

    async def settle(self) -> None:
        """Let everything happen that needs no time to pass."""
        async with asyncio.timeout(PATIENCE_S):
            while True:
                while not (self.server.quiet and set(LOOPS) <= set(self.clock.parked)):
                    await self.server.wait_change()
                if self.clock.release() is None:
                    return

    async def until(self, moment: datetime) -> None:
        """Let time pass to `moment`, and everything happen that falls due meanwhile."""
        await self.settle()
        while (ahead := self.clock.next_until()) is not None and ahead <= moment:
            self.clock.move_to(max(ahead, self.clock.now()))
            await self.settle()
        self.clock.move_to(moment)
        await self.settle()

    async def pass_by(self, seconds: float) -> None:
        """Let so many seconds pass."""
        await self.until(self.clock.now() + timedelta(seconds=seconds))

    async def see(self, there: Callable[[], bool], within_s: float = 60) -> None:
        """Let time pass until something is there. AssertionError if it is not within so many seconds."""
        end = self.clock.now() + timedelta(seconds=within_s)
        await self.settle()
        while not there():
            ahead = self.clock.next_until()
            assert ahead is not None and ahead <= end, f"not seen: {[p.what_is_on_it() for p in self.phones.values()]}"
            self.clock.move_to(max(ahead, self.clock.now()))
            await self.settle()

    async def join(self, enrolled: Enrolled) -> None:
        """Everybody presses their start link; the client agrees to everything, and the carer knows every right answer."""
        for invitation in enrolled.invitations:
            await self.follow(invitation)
            await self.answer_all(invitation.person.id)

    async def follow(self, invitation: Invitation) -> None:
        """Somebody presses their start link."""
        self.phone(invitation.person.id).start(invitation.payload)
        await self.pass_by(10)

    async def answer_all(self, person: str) -> None:
        """Somebody answers what stands on their phone, until nothing is asked. AssertionError if there is no end to it."""
        answers = 0
        while self.answer(person):
            answers += 1
            assert answers <= MOST_ANSWERS, self.phone(person).what_is_on_it()
            await self.pass_by(10)

    def answer(self, person: str) -> bool:
        """Somebody presses the answer to what stands on their phone; whether anything is asked there."""
        phone = self.phone(person)
        asked = _asked(phone)
        if asked is not None:
            phone.press(*asked)
        return asked is not None


@asynccontextmanager
async def playing(database: Path) -> AsyncIterator[Play]:
    """The platform, up and running; nobody is enrolled yet."""
    play = Play(database)
    await play.server.start()
    try:
        yield play
    finally:
        await play.server.stop()


def _asked(phone: Phone) -> tuple[str, int] | None:
    """The answer to what a dialogue asks on that phone, and under which message; None if nothing is asked."""
    for message in reversed(phone.messages):
        labels = {press: button.label for row in message.buttons for button in row if (press := decode(button.data))}
        if labels:
            answer = right(tuple(labels))
            return (labels[answer], message.message_id) if answer is not None else None
    return None


def right(presses: Sequence[Press]) -> Press | None:
    """Of the buttons of a dialogue, what a willing client and a knowing carer press: the right answer to a check question of
    the briefing, else the first. None for what is no dialogue's."""
    if not all(DIALOGUE.fullmatch(press.scope) for press in presses):
        return None
    if not all(press.choice.isdecimal() for press in presses):
        return presses[0]
    topic = CONTENT.library.without_number.briefing.topics[int(presses[0].step) // 2]
    return presses[topic.choices.index(topic.right)]


def words(phone: Phone) -> str:
    """Everything that stands in that chat now, from the bot."""
    return "\n".join(message.words for message in phone.messages if message.from_bot)
