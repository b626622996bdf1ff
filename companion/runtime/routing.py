"""Whose an inbound thing is and what event it makes, found out inside the transaction that handles it.

Roles come from the numeric user id in the database, never from a name. A press tells its client; the fixed row and
typed words of client and carer go to the client's care, those of a therapist to the therapist's own row.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from types import MappingProxyType

from companion.core import person as people
from companion.core.effects import Subject, Words, words
from companion.core.events import Control, Controlled, Event, Joined, Left, Pressed, Typed
from companion.core.person import Part, Person
from companion.core.programme import Rules
from companion.runtime.transport import Inbound, InGone, InOther, InPress, InStart, InText
from companion.store import LinkState
from companion.store.transactions import Tx

PERSON_WAKE_CLASS = 2
"""What wakes a person (a digest, a dialogue left open) comes after sessions and reminders."""

AT_HOME = (Part.CLIENT, Part.CARER)
"""Whose typed words and controls go to the client's care."""

HOME_ROW = frozenset({Control.SOMETHING_WRONG, Control.ENOUGH, Control.HAD_TO_LEAVE, Control.MORE})
CONTROLS: Mapping[Part, frozenset[Control]] = MappingProxyType(
    {
        Part.CLIENT: HOME_ROW,
        Part.CARER: HOME_ROW,
        Part.THERAPIST: frozenset({Control.CASELOAD, Control.NEW_CLIENT, Control.SETTINGS}),
        Part.CONTACT: frozenset(),
    }
)
"""Who has which controls; from others the words of a control are just words."""

LINK_LINES = {
    LinkState.UNKNOWN: words("link-unknown"),
    LinkState.USED: words("link-used"),
    LinkState.EXPIRED: words("link-expired"),
}


def has_left(person: Person) -> bool:
    """Whether somebody has no part in anybody's care any more: a client, carer or contact of nobody."""
    return person.role is not Part.THERAPIST and not person.clients


@dataclass(frozen=True, slots=True)
class ToHandle:
    """An event for a row, from a person."""

    subject: Subject
    event: Event
    person: Person


@dataclass(frozen=True, slots=True)
class ToTell:
    """No event: a plain line for whoever it was. `person` None: somebody who is nobody here."""

    line: Words
    person: Person | None = None


class LinkTaken(Exception):
    """The link is another person's than the one this phone belongs to. It must stay unused."""


def control(text: str, controls: Mapping[str, Control]) -> Control | None:
    """The control that a typed line is, by any label ever shipped, or a command."""
    return controls.get(text) or controls.get(text.strip().casefold())


@dataclass(frozen=True, slots=True)
class Router:
    """Routes one inbound thing. `at` and `seed` go into the event it makes."""

    rules: Rules
    controls: Mapping[str, Control]
    at: datetime
    seed: int

    async def route(self, tx: Tx, inbound: Inbound) -> ToHandle | ToTell | None:
        """What is to be done; None: nothing. Raises LinkTaken."""
        person = await tx.person_by_user(inbound.user_id)
        if isinstance(inbound.what, InStart) and inbound.what.payload:
            return await self._join(tx, inbound, person, inbound.what.payload)
        if person is None:
            return None if isinstance(inbound.what, InGone) else ToTell(words("stranger"))
        if inbound.message_id is not None and not isinstance(inbound.what, InPress):
            await tx.set_last_message(person.id, inbound.message_id)
        return await self._event(tx, inbound, person)

    async def _event(self, tx: Tx, inbound: Inbound, person: Person) -> ToHandle | ToTell:
        own = Subject("person", person.id)
        match inbound.what:
            case InStart():
                return self._started(person)
            case InGone(back):
                return ToHandle(own, Left(self.at, person.id, back, self.seed), person)
            case InPress(press):
                pressed = Pressed(self.at, person.id, press, self.seed)
                if press.client in person.clients:
                    return ToHandle(Subject("client", press.client), pressed, person)
                if press.client == people.own(person.id):
                    return ToHandle(own, pressed, person)
                return ToTell(words("press-not-yours"), person)
            case InText(text):
                found = control(text, self.controls)
                if found in CONTROLS[person.role]:
                    controlled = Controlled(self.at, person.id, found, inbound.sent, self.seed)
                    return ToHandle(await self._whose(tx, person), controlled, person)
                return ToHandle(await self._whose(tx, person), Typed(self.at, person.id, text, seed=self.seed), person)
            case InOther(form, file_id):
                sent = Typed(self.at, person.id, "", form, inbound.message_id, file_id, self.seed)
                return ToHandle(await self._whose(tx, person), sent, person)

    async def _whose(self, tx: Tx, person: Person) -> Subject:
        if person.role not in AT_HOME or not person.clients:
            return Subject("person", person.id)
        if len(person.clients) > 1:  # a carer of several means the one who is practising
            for client_id in person.clients:
                client = await tx.client(client_id)
                if client is not None and client.session is not None:
                    return Subject("client", client_id)
        return Subject("client", person.clients[0])

    async def _join(self, tx: Tx, inbound: Inbound, known: Person | None, payload: str) -> ToHandle | ToTell:
        use = await tx.use_link(payload, self.at)
        if known is not None:
            if use.state is not LinkState.GOOD or use.person_id == known.id:
                return self._started(known)
            if not has_left(known):
                raise LinkTaken
            # the phone of somebody who has no part here any more may become somebody new's
            await tx.save_person(replace(known, user_id=None), None, PERSON_WAKE_CLASS)
        if use.state is not LinkState.GOOD or use.person_id is None:
            return ToTell(LINK_LINES.get(use.state, LINK_LINES[LinkState.UNKNOWN]))
        person = await tx.person(use.person_id)
        if person is None:
            return ToTell(LINK_LINES[LinkState.UNKNOWN])
        bound = replace(person, user_id=inbound.user_id, reachable=True)
        await tx.save_person(bound, people.wake_at(bound, self.rules), PERSON_WAKE_CLASS)
        if inbound.message_id is not None:
            await tx.set_last_message(bound.id, inbound.message_id)
        return ToHandle(Subject("person", bound.id), Joined(self.at, bound.id, False, self.seed), bound)

    def _started(self, person: Person) -> ToHandle:
        own = Subject("person", person.id)
        if has_left(person):  # nobody is welcomed to what they are no longer part of
            return ToHandle(own, Typed(self.at, person.id, "", seed=self.seed), person)
        return ToHandle(own, Joined(self.at, person.id, again=True, seed=self.seed), person)
