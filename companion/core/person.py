"""Person, one phone: role, language, and what is said when it joins. Same shape as Client: `step` and `wake_at`."""

from dataclasses import dataclass, replace
from datetime import datetime
from enum import StrEnum

from companion.core.effects import ClientId, Effect, Pass, PersonId, Say, Subject, Urgency, words
from companion.core.events import Event, Joined, Left, Typed
from companion.core.programme import Rules


class Part(StrEnum):
    """The part a person plays. A contact is told when the therapist does not answer."""

    CLIENT = "client"
    CARER = "carer"
    THERAPIST = "therapist"
    CONTACT = "contact"


ROWS: dict[Part, tuple[str, ...]] = {
    Part.CLIENT: ("row-something-wrong", "row-enough", "row-more"),
    Part.CARER: ("row-something-wrong", "row-had-to-leave", "row-more"),
    Part.THERAPIST: (),
    Part.CONTACT: (),
}


@dataclass(frozen=True, slots=True)
class Person:
    """One phone. `user_id` is the platform's number, None until the person joined; `reachable` until they block."""

    id: PersonId
    role: Part
    name: str
    zone: str
    clients: tuple[ClientId, ...]
    language: str = "en"
    user_id: int | None = None
    reachable: bool = True


@dataclass(frozen=True, slots=True)
class Decision:
    """The state after an event, and what is to be done."""

    person: Person
    effects: tuple[Effect, ...]


def step(person: Person, event: Event, rules: Rules) -> Decision:
    """What an event makes of a person. Total. Joining and leaving are passed on to every client they belong to."""
    effects: list[Effect] = []
    if isinstance(event, Joined):
        person = replace(person, reachable=True)
        line = words(f"welcome-{person.role.value}" if person.role is not Part.CLIENT else "hello", name=person.name)
        row = tuple(words(label) for label in ROWS[person.role])
        # the fixed row is laid by a message of its own: a message has it or buttons, never both
        effects.append(Say(person.id, (line,), urgency=Urgency.ANSWER, topic="talk", fixed_row=row))
        effects += [Pass(Subject("client", client), event) for client in person.clients]
    elif isinstance(event, Left):
        person = replace(person, reachable=event.back)
        effects += [Pass(Subject("client", client), event) for client in person.clients]
    elif isinstance(event, Typed):
        effects.append(Say(person.id, (words("typed-therapist"),), urgency=Urgency.ANSWER, topic="talk"))
    return Decision(person, tuple(effects))


def wake_at(person: Person, rules: Rules) -> datetime | None:
    """A person has no due moments of their own yet: the weekly charts belong to each client."""
    return None
