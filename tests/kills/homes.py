"""Homes whose sessions go fast, and people who press what they are asked.

Nothing of the program is changed for it: the holds of the plans are short, written down past the reading of files, which
would refuse them, and everybody has practised before, so that the check is one look. All people are invented.
"""

import asyncio
import json
import re
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import datetime
from pathlib import Path
from random import Random
from typing import Any

from companion.app import Enrolled, enrol
from companion.chat.buttons import decode
from companion.content import enrolment
from companion.core import client as clients
from companion.core.care import Client
from companion.core.programme import Clock, Plan
from companion.rehearsal.server import Entry, NotOnThePhone, Phone, RehearsalServer
from companion.runtime.clock import RealClock
from companion.store import Store
from companion.store.transactions import Tx
from tests.crowd import choice_of
from tests.playing import CONTENT, right

HOLD_S, INTO_PLACE_S, REST_S = 2, 3, 3
FIRST_USER = 5001
SHORT = {"exercise": "feet_together", "hand": "fingertips", "clock": "carer"}
STANCE = {"exercise": "heel_to_toe", "hand": "fingertips", "clock": "carer", "sides": ["weaker"]}
SCREEN = {"exercise": "feet_together", "hand": "fingertips", "clock": "screen"}
PLANS: tuple[tuple[dict[str, Any], ...], ...] = ((SHORT,), (SCREEN,), (SHORT, STANCE))
"""What is practised after the seated warm-up, home by home in turn."""

WISHES = (
    "start", "practise", "ready", "same", "clean", "held", "right", "q2", "step", "hardly", "medium", "all_well",
)  # fmt: skip
"""What people press, the first that is there, once they agreed and were briefed. Where none is, the first button."""

NUMBER = re.compile(r"n\d+")


def people_of(homes: int) -> dict[str, Any]:
    """An enrolment file of that many homes with one therapist: client `h0`, carer `k0` and so on."""
    zone = "Europe/London"
    people: dict[str, Any] = {"tess": {"role": "therapist", "name": "Tess", "zone": zone}}
    clients = {}
    for home in range(homes):
        client, carer = f"h{home}", f"k{home}"
        people[client] = {"role": "client", "name": f"Hale {home}", "zone": zone}
        people[carer] = {"role": "carer", "name": f"Kit {home}", "zone": zone}
        exercises = [{"exercise": "seated_press", "target": 3}, *PLANS[home % len(PLANS)]]
        clients[client] = {
            "therapist": "tess",
            "carer": carer,
            "plan": {
                "practice": {"days": ["mon"], "times": ["10:00"]},
                "report": {"day": "mon", "time": "08:30"},
                "place": {"support": "worktop", "footwear": "shoes", "chair_behind": True},
                "baseline": {
                    "one_good_hand": True, "ankle_blocked": False, "blood_thinner": False, "can_call_for_help": True,
                },
                "supervision": "always",
                "eyes_closed": False,
                "exercises": exercises,
            },
        }  # fmt: skip
    return {"people": people, "clients": clients}


async def enrol_homes(database: Path, homes: int) -> tuple[Enrolled, dict[str, Client]]:
    """Enrol so many homes, as the command line does; also every client as they are when it begins."""
    file = database.with_suffix(".yaml")
    # JSON is YAML too
    file.write_text(json.dumps(people_of(homes)), encoding="utf-8")
    read = enrolment.load(file, CONTENT.library, CONTENT.texts)
    quick = replace(read, clients=tuple(replace(client, plan=_quick(client.plan)) for client in read.clients))
    rules, now = CONTENT.library.rules("112"), RealClock().now()
    store = await Store.open(database, active=False)
    try:
        enrolled = await enrol(store, quick, CONTENT, RealClock())
        async with store.writing() as tx:
            begun = {one.id: await _practised(tx, one.id, now) for one in read.clients}
            for client in begun.values():
                await tx.save_client(client, clients.wake_at(client, rules), int(clients.wake_class(client)))
    finally:
        await store.close()
    return enrolled, begun


async def _practised(tx: Tx, client_id: str, now: datetime) -> Client:
    client = await tx.client(client_id)
    assert client is not None
    return replace(client, sessions=CONTENT.library.without_number.sign_by_sign_sessions, last_session_at=now)


def _quick(plan: Plan) -> Plan:
    exercises = tuple(planned if planned.clock is Clock.NONE else replace(planned, target=HOLD_S) for planned in plan.exercises)
    return replace(plan, exercises=exercises, into_place_s=INTO_PLACE_S, rest_s=REST_S)


@dataclass
class Hands:
    """Everybody's hands. Each question that comes to a phone is answered once, a moment later, also one that came twice.

    `pressed` are the numbers of the updates that they caused, `meant` how many presses are still to come. `slip` is how
    many of a hundred holds break.
    """

    server: RehearsalServer
    chance: Random
    phones: dict[str, Phone] = field(default_factory=dict)
    pressed: list[int] = field(default_factory=list)
    slip: int = 25
    meant: int = 0
    _looked_at: int = 0
    _met: set[tuple[int, tuple[str, ...]]] = field(default_factory=set)

    def add(self, person: str) -> Phone:
        """A phone for that person."""
        self.phones[person] = self.server.add_phone(FIRST_USER + len(self.phones), person)
        return self.phones[person]

    def follow(self, person: str, payload: str) -> None:
        """The person presses their start link."""
        phone = self.phones.get(person) or self.add(person)
        self.pressed.append(phone.start(payload))

    async def live(self) -> None:
        """Answer for ever."""
        while True:
            self.look()
            await self.server.wait_change()

    def look(self) -> None:
        """See to what is new on the phones."""
        new = self.server.entries[self._looked_at :]
        self._looked_at += len(new)
        for entry in new:
            if entry.way == "out":
                self._see(entry)

    def _see(self, entry: Entry) -> None:
        person, phone = self._whose(entry.user_id)
        message = next((one for one in phone.messages if one.message_id == entry.message_id), None)
        if message is None or not message.buttons:
            return
        buttons = tuple(button.data or "" for row in message.buttons for button in row)
        if (message.message_id, buttons) not in self._met:
            self._met.add((message.message_id, buttons))
            self._soon(lambda: self._press(person, message.message_id, buttons))

    def _press(self, person: str, message_id: int, buttons: tuple[str, ...]) -> None:
        """Press what is wished for, whatever became of the message meanwhile: a slow thumb presses what it saw."""
        phone = self.phones[person]
        answer = right([press for data in buttons if (press := decode(data)) is not None])
        choices = {choice_of(data): data for data in buttons}
        wished = [wish for wish in WISHES if wish in choices]
        if list(choices) == ["tap"] and self.chance.randrange(100) >= self.slip:
            return
        if answer is not None:
            wished = [answer.choice]
        if "not_quite" in choices and self.chance.randrange(100) < self.slip:
            wished = ["not_quite"]
        picked = self._number(person, choices) or (wished[0] if wished else next(iter(choices)))
        self.pressed.append(phone.stale_press(message_id, choices[picked]))

    def _number(self, person: str, choices: dict[str, str]) -> str | None:
        """The number that stands on the client's phone, for the carer who is asked to pick it."""
        numbers = [choice for choice in choices if NUMBER.fullmatch(choice)]
        if not person.startswith("k") or not numbers:
            return None
        for message in reversed(self.phones[f"h{person[1:]}"].messages):
            shown = [number for number in numbers if number[1:] in message.words.split()]
            if message.from_bot and shown:
                return shown[0]
        return numbers[0]

    def _whose(self, user_id: int) -> tuple[str, Phone]:
        return next((person, phone) for person, phone in self.phones.items() if phone.user_id == user_id)

    def _soon(self, act: Callable[[], None]) -> None:
        def do() -> None:
            self.meant -= 1
            try:
                act()
            except NotOnThePhone:
                self.server.changed.ring()

        self.meant += 1
        asyncio.get_running_loop().call_later(self.chance.uniform(0.02, 0.3), do)
