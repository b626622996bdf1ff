"""The core's values as versioned JSON, `{"v":1,"data":...}`, and back.

A client's record names the script of the session under way by its id alone: a script is frozen when its session starts,
and is a record of its own, written once.

A change of a shape that older records do not fit raises `VERSION` and adds a step to `_UPGRADES`. Records of every
shipped version are kept among the tests and must load for ever.
"""

import json
from collections.abc import Callable
from typing import Any, cast

from companion.core.care import Client
from companion.core.effects import Effect
from companion.core.events import Event, Press
from companion.core.media import Filed, Made, Media
from companion.core.observations import Observation
from companion.core.person import Person
from companion.core.steps import Script
from companion.store.errors import RecordUnreadable
from companion.store.shapes import converter, faults

VERSION = 1

_UPGRADES: dict[int, Callable[[Any], Any]] = {}
"""By version: what makes of a record's data the data of the next version."""

Buttons = tuple[tuple[str, Press], ...]


class Records:
    """Dumps and loads. `what` names a record in an error: "the record of client c1"."""

    def __init__(self) -> None:
        self._whole = converter()
        self._by_name = converter()
        self._by_name.register_unstructure_hook(Script, lambda script: script.id)
        self._by_name.register_structure_hook(Script, _attached)

    def dump(self, value: object) -> str:
        """Any value but a client: an event, effects, a person, a script ... ValueError for a moment without time zone."""
        return _pack(self._whole.unstructure(value))

    def dump_client(self, client: Client) -> str:
        """A client, with its session's script by id."""
        return _pack(self._by_name.unstructure(client))

    def client(self, text: str, script: Script | None, what: str) -> Client:
        """A client; `script` is the one its record names, None if it has no session."""
        data = _unpack(text, what)
        if script is not None:
            data["session"]["script"] = script
        return cast(Client, _build(self._by_name, data, Client, what))

    def person(self, text: str, what: str) -> Person:
        """A person."""
        return cast(Person, self._load(text, Person, what))

    def script(self, text: str, what: str) -> Script:
        """A session's script."""
        return cast(Script, self._load(text, Script, what))

    def event(self, text: str, what: str) -> Event:
        """An event."""
        return cast(Event, self._load(text, Event, what))

    def effects(self, text: str, what: str) -> tuple[Effect, ...]:
        """What an event asked for."""
        return cast(tuple[Effect, ...], self._load(text, tuple[Effect, ...], what))

    def observation(self, text: str, what: str) -> Observation:
        """An observation."""
        return cast(Observation, self._load(text, Observation, what))

    def media(self, text: str, what: str) -> Media | Filed:
        """A picture, a sound or a document."""
        return cast(Media | Filed, self._load(text, Media | Filed, what))

    def made(self, text: str, what: str) -> Made:
        """A picture or a sound that has to be made."""
        return cast(Made, self._load(text, Made, what))

    def buttons(self, text: str, what: str) -> Buttons:
        """The buttons under a message."""
        return cast(Buttons, self._load(text, Buttons, what))

    def labels(self, text: str, what: str) -> tuple[str, ...]:
        """The labels of the fixed row."""
        return cast(tuple[str, ...], self._load(text, tuple[str, ...], what))

    def _load(self, text: str, shape: Any, what: str) -> Any:
        return _build(self._whole, _unpack(text, what), shape, what)


def _attached(value: Any, _shape: Any) -> Script:
    if not isinstance(value, Script):
        raise ValueError(f"the script {value!r} is not there")
    return value


def _pack(data: Any) -> str:
    # ASCII only: what people type may hold half a character, which a database refuses as text.
    text = json.dumps(data, separators=(",", ":"), allow_nan=False)
    return f'{{"v":{VERSION},"data":{text}}}'


def _unpack(text: str, what: str) -> Any:
    try:
        record = json.loads(text)
        version, data = record["v"], record["data"]
    except (ValueError, TypeError, KeyError):
        raise RecordUnreadable(f"{what} is not a record. {_MENDING}") from None
    if type(version) is not int or not 1 <= version <= VERSION:
        raise RecordUnreadable(
            f"{what} is of version {version}; this program knows versions up to {VERSION}. "
            "Use the newer companion that wrote it, or restore a backup from before."
        )
    for older in range(version, VERSION):
        data = _UPGRADES[older](data)
    return data


def _build(made: Any, data: Any, shape: Any, what: str) -> Any:
    try:
        return made.structure(data, shape)
    except Exception as error:
        raise RecordUnreadable(f"{what} does not fit its shape: {faults(error)}. {_MENDING}") from error


_MENDING = "The database was changed by something else, or by a newer companion: restore a backup, or use that companion."
