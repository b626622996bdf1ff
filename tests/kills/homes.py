"""Homes whose sessions go fast, and people who press what they are asked.

Nothing of the program is changed for it: fewer signs are a matter of content, and shorter holds of a plan, written down
past the reading of files, which would refuse them. All people are invented.
"""

import asyncio
import json
import re
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from pathlib import Path
from random import Random
from shutil import copytree
from typing import Any

import yaml

from companion.app import Content, Enrolled, enrol
from companion.content import enrolment
from companion.content.folders import content_dir
from companion.core.programme import Clock, Plan
from companion.rehearsal.server import Entry, NotOnThePhone, Phone, RehearsalServer
from companion.runtime.clock import RealClock
from companion.store import Store
from tests.crowd import choice_of

HOLD_S, INTO_PLACE_S, REST_S = 2, 3, 3
SIGNS = ("balance", "calf")
FIRST_USER = 5001
SHORT = {"exercise": "feet_together", "hand": "fingertips", "clock": "carer"}
STANCE = {"exercise": "heel_to_toe", "hand": "fingertips", "clock": "carer", "sides": ["weaker"]}
SCREEN = {"exercise": "feet_together", "hand": "fingertips", "clock": "screen"}
PLANS: tuple[tuple[dict[str, Any], ...], ...] = ((SHORT,), (SCREEN,), (SHORT, STANCE))
"""What is practised after the seated warm-up, home by home in turn."""

WISHES = (
    "start", "practise", "ready", "same", "clean", "held", "right", "q2", "step", "hardly", "medium", "all_well",
)  # fmt: skip
"""What people press, the first that is there. Where none is, the first button."""

NUMBER = re.compile(r"n\d+")


def quick_content(folder: Path) -> Path:
    """A copy of the content that asks for two signs, in `folder`."""
    copytree(content_dir(None), folder)
    safety, flags = (_read(folder / name) for name in ("safety.yaml", "red_flags.yaml"))
    gone = {f"sign.{sign}" for sign in safety["signs"]} - {f"sign.{sign}" for sign in SIGNS}
    flags["rules"] = [rule for rule in flags["rules"] if not gone & set(rule["when"])]
    for rule in flags["rules"]:
        rule["cases"] = {name: [case for case in cases if not gone & set(case)] for name, cases in rule["cases"].items()}
    flags["no_flag"] = [case for case in flags["no_flag"] if not gone & set(case)]
    _write(folder / "red_flags.yaml", flags)
    _write(folder / "safety.yaml", {**safety, "signs": list(SIGNS)})
    return folder


def _read(path: Path) -> Any:
    return yaml.safe_load(path.read_text(encoding="utf-8"))


def _write(path: Path, content: object) -> None:
    """JSON is YAML too."""
    path.write_text(json.dumps(content), encoding="utf-8")


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


async def enrol_homes(database: Path, content: Content, homes: int) -> Enrolled:
    """Enrol so many homes, as the command line does."""
    file = database.with_suffix(".yaml")
    _write(file, people_of(homes))
    read = enrolment.load(file, content.library, content.texts)
    quick = replace(read, clients=tuple(replace(client, plan=_quick(client.plan)) for client in read.clients))
    store = await Store.open(database, active=False)
    try:
        return await enrol(store, quick, content, RealClock())
    finally:
        await store.close()


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
    _started: set[str] = field(default_factory=set)

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
        if phone.fixed_row and person.startswith("h") and person not in self._started:
            self._started.add(person)
            self._soon(lambda: self.pressed.append(phone.press_fixed("More")))
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
        choices = {choice_of(data): data for data in buttons}
        wished = [wish for wish in WISHES if wish in choices]
        if list(choices) == ["tap"] and self.chance.randrange(100) >= self.slip:
            return
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
