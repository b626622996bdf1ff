"""Phones and the care they belong to, as a driver of the core: a Person for each phone, the Clients they pass events to.

Buttons are pressed by the key of their label, as they stand on that phone; what one passes on the other gets at once.
"""

from collections import deque
from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime, timedelta
from typing import TypeVar

from companion.core import client as care
from companion.core import person as people
from companion.core.care import Client
from companion.core.care import People as Around
from companion.core.effects import Button, ClearButtons, Effect, Enrol, LookUp, Pass, Record, Reply, Say, Subject, Words
from companion.core.events import Control, Controlled, Entry, Event, Found, Press, Pressed, Typed, Woke
from companion.core.observations import Observation
from companion.core.person import Part, Person, own
from companion.core.programme import Rules
from tests.core.home import Phone
from tests.core.practice import MONDAY, RULES

Kind = TypeVar("Kind", bound=Effect)
AT_HOME = (Part.CLIENT, Part.CARER)


class People:
    """Some phones and some clients. `effects` are those of the last thing that happened, with all that it was passed on to."""

    def __init__(self, persons: Iterable[Person], clients: Iterable[Client] = (), rules: Rules = RULES) -> None:
        self.persons = {person.id: person for person in persons}
        self.clients = {client.id: client for client in clients}
        self.rules, self.now, self.seed = rules, MONDAY, 0
        self.phones: dict[str, Phone] = {}
        self.records: list[Observation] = []
        self.replies: list[Words | None] = []
        self.effects: list[Effect] = []
        self.colleagues: list[Entry] = []

    # --- what happens ---------------------------------------------------------------------------------------

    def do(self, to: Subject, event: Event) -> None:
        """Let an event happen, and all that it is passed on to."""
        self.effects = []
        waiting = deque([(to, event)])
        while waiting:
            subject, passed = waiting.popleft()
            for effect in self._step(subject, passed):
                self.effects.append(effect)
                self._take(effect)
                if isinstance(effect, LookUp) and effect.what == "colleagues":
                    waiting.append((subject, self._found(effect)))
                if isinstance(effect, Pass) and effect.to.id in (self.persons | self.clients):
                    waiting.append((effect.to, effect.event))

    def _step(self, to: Subject, event: Event) -> tuple[Effect, ...]:
        if to.aggregate == "person":
            decided = people.step(self.persons[to.id], event, self.rules)
            self.persons[to.id] = decided.person
            return decided.effects
        decision = care.step(self.clients[to.id], event, self.rules)
        self.clients[to.id] = decision.client
        return decision.effects

    def _found(self, asked: LookUp) -> Found:
        """The colleagues, a page of 8."""
        page = tuple(self.colleagues[asked.first : asked.first + 8])
        return Found(self.now, asked.what, asked.first, len(self.colleagues), page)

    def _take(self, effect: Effect) -> None:
        match effect:
            case Say():
                self.phone(effect.to).take(effect)
            case Enrol():
                self._enrol(effect)
            case ClearButtons():
                self.phone(effect.to).clear(effect.card)
            case Record():
                self.records.append(effect.observation)
            case Reply():
                self.replies.append(effect.words)
            case _:
                pass

    def _enrol(self, asked: Enrol) -> None:
        """Rows as the runtime writes them."""
        carer = next((one.id for one in asked.people if one.role == Part.CARER), None)
        contacts = tuple(one.id for one in asked.people if one.role == Part.CONTACT)
        names = ((asked.therapist, asked.therapist_name), *((one.id, one.name) for one in asked.people))
        around = Around(asked.client, asked.therapist, carer, contacts, names)
        if any(one.id == asked.client for one in asked.people):
            made = Client(asked.client, asked.name, asked.zone, around, looked_at=self.now, reported_at=self.now)
            self.clients[asked.client] = made
        for one in asked.people:
            known = self.persons.get(one.id) or Person(one.id, Part(one.role), one.name, one.zone, ())
            self.persons[one.id] = replace(known, clients=tuple(dict.fromkeys((*known.clients, asked.client))))

    def tell(self, who: str, event: Event) -> None:
        """An event for a phone."""
        self.do(Subject("person", who), event)

    def press(self, by: str, label: str) -> None:
        """Press the button of that label that stands on that phone now, newest card first; fails if there is none."""
        there = self.buttons(by)
        found = [button.press for button in there if button.label.key == label]
        assert found, f"{by} has no {label!r}, but {[button.label.key for button in there]}"
        self.send(by, found[0])

    def send(self, by: str, press: Press) -> None:
        """A press, whether or not its button still stands anywhere."""
        self.seed += 7
        mine = press.client == own(by)
        to = Subject("person", by) if mine else Subject("client", press.client)
        self.do(to, Pressed(self.now, by, press, self.seed))

    def row(self, by: str, control: Control) -> None:
        """A press of the fixed row."""
        self.do(self._whose(by), Controlled(self.now, by, control, self.now))

    def write(self, by: str, text: str, form: str = "", message_id: int | None = None, file_id: str = "") -> None:
        """Words are typed, or something else is sent."""
        self.do(self._whose(by), Typed(self.now, by, text, form, message_id, file_id))

    def wait(self, seconds: float) -> None:
        """Seconds pass, each alarm on time."""
        end = self.now + timedelta(seconds=seconds)
        while (due := self._next(end)) is not None:
            self.now = max(self.now, due[0])
            self.do(due[1], Woke(self.now))
        self.now = end

    def _next(self, end: datetime) -> tuple[datetime, Subject] | None:
        alarms = [(people.wake_at(one, self.rules), Subject("person", one.id)) for one in self.persons.values()]
        alarms += [(care.wake_at(one, self.rules), Subject("client", one.id)) for one in self.clients.values()]
        due = [(at, subject) for at, subject in alarms if at is not None and at <= end]
        return min(due, key=lambda one: one[0], default=None)

    def _whose(self, by: str) -> Subject:
        person = self.persons[by]
        at_home = person.role in AT_HOME and person.clients
        return Subject("client", person.clients[0]) if at_home else Subject("person", by)

    # --- what can be seen -----------------------------------------------------------------------------------

    def phone(self, who: str) -> Phone:
        return self.phones.setdefault(who, Phone())

    def buttons(self, who: str) -> list[Button]:
        """What can be pressed on that phone, newest card first."""
        return self.phone(who).buttons()

    def labels(self, who: str) -> list[str]:
        """The keys of the labels of the newest card that has buttons."""
        card = next((say for say in reversed(self.phone(who).cards.values()) if say.buttons), None)
        return [button.label.key for button in card.buttons] if card is not None else []

    def keys(self, who: str) -> list[str]:
        """The keys of the words that the last thing that happened said to somebody."""
        return [line.key for say in self.effects if isinstance(say, Say) and say.to == who for line in say.words]

    def all(self, kind: type[Kind]) -> list[Kind]:
        """The effects of one kind of the last thing that happened."""
        return [effect for effect in self.effects if isinstance(effect, kind)]
