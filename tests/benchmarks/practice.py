"""People who practise, and how late everything comes to them: by the platform's clock, at which a message was taken.

    answer   from the press to the words that follow it
    go       from the end of the time to get into place, which began when these words were taken
    relax    from the end of the hold, which began when "go" was taken
    stop     from "Something is wrong" to the emergency words

What is still awaited at the end is counted as late as it is by then, and told apart: it is later than that.
"""

import asyncio
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from random import Random

from companion.rehearsal.server import Entry, Phone, RehearsalServer
from companion.runtime.clock import RealClock
from tests.crowd import WISHES, Pace, choice_of, says

KINDS = ("stop", "relax", "answer", "go")
THINKS_S = (2.0, 6.0)
NOW = RealClock().now


@dataclass(slots=True)
class _Awaited:
    """What somebody waits for, from when on it is late, and the message that it must not stand before."""

    kind: str
    since: datetime
    message_id: int = 0


@dataclass(slots=True)
class _Person:
    phone: Phone
    awaited: dict[str, _Awaited] = field(default_factory=dict)
    idle: bool = False
    stopped: bool = False


@dataclass
class Practice:
    """Everybody's hands and eyes.

    `late` are seconds by kind, `open` how many of them were still awaited at the end, `lost` how many holds ended with a
    question instead of the cue.
    """

    server: RehearsalServer
    pace: Pace
    chance: Random
    late: dict[str, list[float]] = field(default_factory=lambda: {kind: [] for kind in KINDS})
    open: dict[str, int] = field(default_factory=lambda: dict.fromkeys(KINDS, 0))
    lost: int = 0
    _people: dict[int, _Person] = field(default_factory=dict)
    _live: list[_Person] = field(default_factory=list)
    _idle: list[_Person] = field(default_factory=list)
    _looked_at: int = 0
    _met: set[tuple[int, tuple[str, ...]]] = field(default_factory=set)
    _from: datetime | None = None

    def watch(self, practising: Iterable[Phone], at_rest: Iterable[Phone]) -> None:
        """These people practise, and these do not, and may press "Something is wrong" all the same."""
        self._live = [_Person(phone) for phone in practising]
        self._idle = [_Person(phone, idle=True) for phone in at_rest]
        self._people = {person.phone.user_id: person for person in (*self._live, *self._idle)}
        self._looked_at = len(self.server.entries)

    def expect(self, kind: str, phone: Phone, due: datetime) -> None:
        """A clock runs already: what ends it is due then."""
        self._people[phone.user_id].awaited[kind] = _Awaited(kind, due)

    async def live(self, stop_every_s: float) -> None:
        """Live for ever; every so many seconds something is wrong with somebody."""
        stopping = asyncio.create_task(self._stop(stop_every_s))
        try:
            while True:
                self._look()
                await self.server.wait_change()
        finally:
            stopping.cancel()

    def measure(self) -> None:
        """From now on it counts."""
        self._from = NOW()

    def end(self) -> None:
        """Nothing counts any more; what is overdue is counted as late as it is."""
        now = NOW()
        for person in self._people.values():
            for awaited in person.awaited.values():
                if awaited.since <= now:
                    self._count(awaited, now)
                    self.open[awaited.kind] += 1

    def _look(self) -> None:
        new = self.server.entries[self._looked_at :]
        self._looked_at += len(new)
        for entry in new:
            person = self._people.get(entry.user_id)
            if entry.way == "out" and entry.kind != "toast" and person is not None:
                self._see(person, entry)

    def _see(self, person: _Person, entry: Entry) -> None:
        self._settle(person, entry)
        message = next((one for one in person.phone.messages if one.message_id == entry.message_id), None)
        buttons = tuple(button.data or "" for row in message.buttons for button in row) if message is not None else ()
        known = (entry.message_id or 0, buttons) in self._met
        if message is None or not buttons or known or person.stopped or person.idle:
            return
        self._met.add((message.message_id, buttons))
        thought = self.chance.uniform(*THINKS_S)
        asyncio.get_running_loop().call_later(thought, self._press, person, message.message_id, buttons)

    def _settle(self, person: _Person, entry: Entry) -> None:
        """What of the awaited has come, and what is to come now."""
        awaited, first = person.awaited, entry.text.partition("\n")[0]
        if "112" in entry.text:
            self._came(person, "stop", entry)
        elif first == says("hold-now", seconds=self.pace.hold_s):
            self._came(person, "go", entry)
            awaited["relax"] = _Awaited("relax", entry.at + timedelta(seconds=self.pace.hold_s))
        elif first == says("time"):
            self._came(person, "relax", entry)
        elif first == says("clock-stopped"):
            self.lost += 1
            self._came(person, "relax", entry)
        elif "answer" in awaited and (entry.message_id or 0) >= awaited["answer"].message_id:
            self._came(person, "answer", entry)
            if first == says("into-place", seconds=self.pace.into_place_s):
                awaited["go"] = _Awaited("go", entry.at + timedelta(seconds=self.pace.into_place_s))

    def _came(self, person: _Person, kind: str, entry: Entry) -> None:
        awaited = person.awaited.pop(kind, None)
        if awaited is not None:
            self._count(awaited, entry.at)

    def _count(self, awaited: _Awaited, at: datetime) -> None:
        if self._from is not None and awaited.since >= self._from:
            self.late[awaited.kind].append((at - awaited.since).total_seconds())

    def _press(self, person: _Person, message_id: int, buttons: tuple[str, ...]) -> None:
        if person.stopped:
            return
        choices = {choice_of(data): data for data in buttons}
        choice = next((wish for wish in WISHES if wish in choices), next(iter(choices)))
        person.phone.stale_press(message_id, choices[choice])
        person.awaited["answer"] = _Awaited("answer", NOW(), message_id)

    async def _stop(self, every_s: float) -> None:
        """One of five in the middle of practice, the others at any other time: so practice goes on for most."""
        for people in (self._live, self._idle):
            self.chance.shuffle(people)
        live, idle = iter(self._live), iter(self._idle)
        for turn in range(len(self._idle)):
            await asyncio.sleep(every_s)
            person = next(idle) if turn % 5 else next(live)
            person.stopped = True
            person.awaited.clear()
            person.phone.type(says("row-something-wrong"))
            person.awaited["stop"] = _Awaited("stop", NOW())
