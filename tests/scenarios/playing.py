"""Plays demo scenarios for the tests, each once, and reads what they left."""

import asyncio
import json
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from companion.app import Content
from companion.content.folders import scenarios_dir
from companion.core.observations import Observation
from companion.rehearsal.player import Rehearsed, read_scenarios, rehearse
from companion.rehearsal.scenario_file import names
from companion.store import Store

ALL = names(scenarios_dir())
BEGINNING, END = datetime(2000, 1, 1, tzinfo=UTC), datetime(2100, 1, 1, tzinfo=UTC)


@dataclass(frozen=True, slots=True)
class Line:
    """A line of messages.jsonl."""

    at: str
    phone: str
    way: str
    kind: str
    text: str
    buttons: list[str]
    silent: bool
    session: str | None
    file: str | None

    @property
    def new(self) -> bool:
        """A new message to the phone, with a sound."""
        return self.way == "out" and self.kind in ("text", "photo", "voice", "video", "animation", "document")


class Rehearsals:
    """Plays a scenario when it is first asked for."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._content = Content.read()
        self._played: dict[str, Rehearsed] = {}

    def of(self, name: str) -> Rehearsed:
        """The scenario of that name, played."""
        if name not in self._played:
            self._played[name] = self.play(name, self._folder)
        return self._played[name]

    def play(self, name: str, out: Path, latency: Callable[[], float] | None = None) -> Rehearsed:
        """Play it into a folder of its own name in `out`, now."""
        scenarios = read_scenarios([name], self._content)
        return asyncio.run(rehearse(scenarios, out, self._content, lambda scenario, played: None, latency))[0]

    def lines(self, name: str) -> list[Line]:
        """Its messages.jsonl."""
        path = self.of(name).files.transcript.with_name("messages.jsonl")
        return [Line(**json.loads(line)) for line in path.read_text(encoding="utf-8").splitlines()]

    def observations(self, name: str) -> list[Observation]:
        """What its clients' practice left behind."""
        return observed(self.of(name))


def observed(rehearsed: Rehearsed) -> list[Observation]:
    """What the practice of a rehearsal's clients left behind."""
    return asyncio.run(_observations(rehearsed))


async def _observations(rehearsed: Rehearsed) -> list[Observation]:
    store = await Store.open(rehearsed.files.transcript.with_name("companion.db"), active=False)
    try:
        async with store.reading() as reading:
            clients = [client.id for client in rehearsed.scenario.enrolment.clients]
            found = [await reading.observations(client, BEGINNING, END) for client in clients]
    finally:
        await store.close()
    return [observation for of_client in found for _, observation in of_client]


def expected(name: str) -> Path:
    """The transcript that a scenario must produce."""
    return scenarios_dir() / f"{name}.transcript.md"


def labels(lines: Iterable[Line]) -> set[str]:
    """Every label that a button or the fixed row ever had."""
    return {label for line in lines for label in line.buttons}
