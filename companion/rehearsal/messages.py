"""messages.jsonl: one line for each thing a phone showed or its owner did, for whoever reads a rehearsal by machine.

`at` (ISO, UTC), `phone` (client, carer, therapist or a person's key), `way` (in, out), `kind` (text, photo, voice, video,
animation, document, edit, press, delete), `text` (the caption where there is a file), `buttons` (labels), `silent`,
`session` (its id, or null), `file` (what came with it, or stays under changed words: "picture: ..." and what it shows,
"voice note 1:32: ..." and what it says, a chart's name; null if nothing).
"""

import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from companion.chat.buttons import decode
from companion.content.enrolment import EnrolledPerson, Enrolment
from companion.rehearsal.scenario import Newcomer
from companion.rehearsal.server import Entry
from companion.runtime.handler import Change

LINGERS = timedelta(seconds=10)
"""So long after its end a session's last words may still be on their way."""


def phone_names(enrolment: Enrolment, newcomers: Sequence[Newcomer] = ()) -> Mapping[str, str]:
    """What each person's phone is called: by its part where there is one client, else by the person's key."""
    everybody: tuple[EnrolledPerson | Newcomer, ...] = (*enrolment.people, *newcomers)
    names = {person.id: person.id for person in everybody}
    if not enrolment.clients and sum(one.role == "client" for one in newcomers) == 1:
        names |= {person.id: person.role for person in everybody}
    if len(enrolment.clients) == 1:
        people = enrolment.clients[0].people
        parts = {people.client: "client", people.therapist: "therapist"}
        if people.carer is not None:
            parts[people.carer] = "carer"
        names |= parts
    return names


@dataclass(frozen=True, slots=True)
class Shown:
    """One thing on the phone of `person`. `session`: what it belongs to; `file`: what came with it, in words."""

    entry: Entry
    person: str
    session: str | None = None
    file: str | None = None


@dataclass(frozen=True, slots=True)
class Note:
    """Something that happened and that no phone shows."""

    at: datetime
    text: str


def json_lines(record: Iterable[Shown | Note], names: Mapping[str, str]) -> str:
    """The whole file. What shows for a moment over the screen (an answer to a press) is no message and is left out."""
    lines = [_line(one, names) for one in record if isinstance(one, Shown) and one.entry.kind != "toast"]
    return "".join(f"{line}\n" for line in lines)


def _line(shown: Shown, names: Mapping[str, str]) -> str:
    entry = shown.entry
    values = {
        "at": entry.at.isoformat(),
        "phone": names[shown.person],
        "way": entry.way,
        "kind": entry.kind,
        "text": entry.text,
        "buttons": [label for row in entry.buttons for label in row],
        "silent": entry.silent,
        "session": shown.session,
        "file": shown.file,
    }
    return json.dumps(values, ensure_ascii=False)


@dataclass(slots=True)
class Sessions:
    """Which session is under way; a watcher of the handler. What belongs to it is told by time and by the press."""

    now: Callable[[], datetime]
    _current: dict[str, str] = field(default_factory=dict)
    _last: dict[str, tuple[str, datetime]] = field(default_factory=dict)

    @property
    def clients(self) -> tuple[str, ...]:
        """The clients who have, or had, a session."""
        return tuple(dict.fromkeys((*self._current, *self._last)))

    def changed(self, change: Change) -> None:
        """An event was handled."""
        if change.client is None:
            return
        client, session = change.client.id, change.client.session
        if session is not None:
            self._current[client] = session.id
        elif client in self._current:
            self._last[client] = (self._current.pop(client), self.now())

    def stranger(self, chat_id: int, text: str) -> None:
        """Nothing of a session."""

    def of(self, entry: Entry, clients: tuple[str, ...]) -> str | None:
        """The session that an entry on a phone belongs to."""
        press = decode(entry.data) if entry.data is not None else None
        if press is not None and press.scope.startswith("s"):
            return press.scope
        for client in clients:
            if client in self._current:
                return self._current[client]
            last = self._last.get(client)
            if last is not None and entry.at <= last[1] + LINGERS:
                return last[0]
        return None
