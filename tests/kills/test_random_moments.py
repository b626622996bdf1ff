"""The real process is killed at random moments of live sessions, and started again on the same database.

The claims are judged by what the process left: the journal, the records, the observations, and what came to the phones.
"""

import asyncio
import contextlib
from collections import Counter
from collections.abc import AsyncIterator
from dataclasses import dataclass, field
from pathlib import Path
from random import Random

from companion.core.care import Client
from companion.core.observations import Answer, Bout, Ending, SessionEnded
from companion.core.programme import Measure
from companion.rehearsal.server import RehearsalServer
from companion.runtime.clock import RealClock
from companion.store import OutboxState
from tests.crowd import says
from tests.kills.homes import Hands, enrol_homes
from tests.kills.ledger import NEW, Ledger, asked_for, relived, said_too_often
from tests.playing import CONTENT
from tests.process import Companion, Tap, until

WORLDS = 2
KILLS = 10
HOMES = 6
MOST_REQUESTS = 30
LONGEST_AFTER_S = 0.06
"""A process makes so many requests before it is killed, and goes on so long: about the time from one to the next."""

BRIEFED = says("briefing-done")
BEGUN = says("how-are-you")
DONE = says("closing-sit")
THANKED = says("carer-thanks")


@dataclass
class World:
    """One platform, the people at it, and one companion that is killed again and again.

    `live` are the sessions that were under way at each kill.
    """

    folder: Path
    chance: Random
    server: RehearsalServer = field(init=False)
    hands: Hands = field(init=False)
    companion: Companion = field(init=False)
    begun: dict[str, Client] = field(default_factory=dict)
    links: dict[str, str] = field(default_factory=dict)
    live: list[int] = field(default_factory=list)

    @property
    def database(self) -> Path:
        return self.folder / "companion.sqlite3"

    @contextlib.asynccontextmanager
    async def open(self) -> AsyncIterator["World"]:
        """Everybody enrolled; nobody has joined yet."""
        self.folder.mkdir()
        self.server = RehearsalServer(now=RealClock().now)
        await self.server.start()
        self.hands = Hands(self.server, self.chance)
        self.companion = Companion(self.server, self.database)
        enrolled, self.begun = await enrol_homes(self.database, HOMES)
        self.links = {one.person.id: one.payload for one in enrolled.invitations}
        living = asyncio.create_task(self.hands.live())
        try:
            yield self
        finally:
            living.cancel()
            await asyncio.gather(living, return_exceptions=True)
            if self.companion.running:
                self.companion.kill()
                await self.companion.gone()
            await self.server.stop()

    async def begin(self) -> None:
        """Start the companion, and wait until everybody has joined, helpers first, and the first session is under way.

        Until the helper has read the briefing nobody stands; a client who has agreed practises at once.
        """
        helpers = [f"k{home}" for home in range(HOMES)]
        for helper in helpers:
            self.hands.follow(helper, self.links[helper])
        await self.companion.start()
        await until(self.server, lambda: all(self._told(helper, BRIEFED) for helper in helpers))
        for person in self.links.keys() - set(helpers):
            self.hands.follow(person, self.links[person])
        await until(self.server, lambda: any(self._told(f"h{home}", BEGUN) for home in range(HOMES)))

    async def kill_at_random(self) -> None:
        """Let it make a few requests, kill it a moment later, and start it again."""
        left = self.chance.randint(1, MOST_REQUESTS)

        def counted(method: str, chat_id: int | None) -> bool:
            nonlocal left
            left -= 1
            return False

        self.server.faults.order(Tap(told=counted))
        # Where all rest there is nothing to send: then it is killed while it waits.
        with contextlib.suppress(TimeoutError):
            await until(self.server, lambda: left <= 0, patience_s=5)
        asyncio.get_running_loop().call_later(self.chance.uniform(0, LONGEST_AFTER_S), self.companion.kill)
        await self.companion.gone()
        ledger = await Ledger.read(self.database)
        self.live.append(sum(client.session is not None for client in ledger.clients))
        await self.companion.start()

    async def play_out(self) -> Ledger:
        """Let every session come to its end, and end the companion in order."""
        await until(self.server, lambda: self._over() and self.server.quiet and not self.hands.meant)
        await self.companion.stop()
        return await Ledger.read(self.database)

    def times_told(self, person: str, line: str) -> int:
        """How many new messages on that phone had this line."""
        user = self.hands.phones[person].user_id
        said = (one for one in self.server.entries if one.user_id == user and one.way == "out" and one.kind in NEW)
        return sum(line in one.text.splitlines() for one in said)

    def _told(self, person: str, line: str) -> bool:
        messages = (message for message in self.hands.phones[person].messages if message.from_bot)
        return any(line in message.words.splitlines() for message in messages)

    def _over(self) -> bool:
        return all(self._told(f"h{home}", DONE) and self._told(f"k{home}", THANKED) for home in range(HOMES))


async def test_twenty_kills_lose_nothing_and_count_nothing_twice(tmp_path: Path) -> None:
    async def life(world: World) -> None:
        await world.begin()
        for _ in range(KILLS):
            await world.kill_at_random()
        ledger = await world.play_out()
        every_press_is_counted_once(world, ledger)
        what_is_written_down_is_what_the_events_make(world, ledger)
        every_session_comes_to_its_proper_end(world, ledger)
        nothing_that_counts_is_said_twice(world, ledger)

    # Side by side, for it is mostly starting that takes the time.
    async with contextlib.AsyncExitStack() as stack:
        worlds = [World(tmp_path / str(number), Random(number)) for number in range(WORLDS)]
        for world in worlds:
            await stack.enter_async_context(world.open())
        async with asyncio.TaskGroup() as lives:
            for world in worlds:
                lives.create_task(life(world))
    assert sum(live > 0 for world in worlds for live in world.live) == WORLDS * KILLS, "a kill met no live session"


def every_press_is_counted_once(world: World, ledger: Ledger) -> None:
    assert ledger.updates() == Counter(world.hands.pressed)


def what_is_written_down_is_what_the_events_make(world: World, ledger: Ledger) -> None:
    """All of it and nothing else: lived anew from the journal, everybody is as they are, with the same observations."""
    rules = CONTENT.library.rules("112")
    for client in ledger.clients:
        again, observations = relived(ledger, world.begun[client.id], rules)
        assert again == client
        assert observations == ledger.observations[client.id]
    # the runtime itself writes only what takes old buttons away
    assert asked_for(ledger) == sum(row.topic != "old-buttons" for row in ledger.outbox)


def every_session_comes_to_its_proper_end(world: World, ledger: Ledger) -> None:
    """Done, with every planned bout and every answer in it once, and no whole hold whose end was not said."""
    for client in ledger.clients:
        assert client.plan is not None
        seen = ledger.observations[client.id]
        ended = [one for one in seen if isinstance(one, SessionEnded)]
        assert [(one.ending, one.done) for one in ended] == [(Ending.DONE, len(client.plan.exercises))], client.id
        bouts = [one for one in seen if isinstance(one, Bout)]
        assert sorted(one.exercise for one in bouts) == sorted(planned.exercise for planned in client.plan.exercises)
        whole = [one for one in bouts if one.measure is Measure.TIMED and one.practised_s is not None]
        # a carer who keeps the time hears it and says it aloud: their answer may come before the client's phone has it
        phones = (client.id, client.people.carer or client.id)
        assert len(whole) <= max(world.times_told(phone, says("time")) for phone in phones)
        # a carer may tap again in another bout; everything else is asked once
        answers = Counter((one.exercise, one.question) for one in seen if isinstance(one, Answer) and one.question != "tap")
        assert set(answers.values()) == {1}


def nothing_that_counts_is_said_twice(world: World, ledger: Ledger) -> None:
    assert said_too_often(ledger, world.server.entries) == []
    assert not [row for row in ledger.outbox if row.state is OutboxState.ON_WIRE]
