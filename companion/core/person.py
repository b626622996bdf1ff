"""Person, one phone: `step(person, event, rules) -> Decision`, `wake_at(person, rules)`. The same shape as Client.

A person joins, goes through one dialogue at a time, and has due moments of their own (the therapist's digest). What a dialogue
brings about is passed on to the client's care. `step` is total: an event that does not fit changes no meaning.
"""

from dataclasses import dataclass
from datetime import datetime
from typing import assert_never

from companion.core import (
    briefing,
    consenting,
    desk,
    digest,
    enrolling,
    handing_over,
    prescribing,
    recording,
    reviewing,
    setting,
)
from companion.core.dialogues import (
    Briefing,
    Consenting,
    Dialogue,
    Enrolling,
    HandingOver,
    Prescribing,
    Recording,
    Reviewing,
    Setting,
)
from companion.core.effects import Effect, words
from companion.core.events import (
    Assigned,
    Controlled,
    Event,
    Found,
    Joined,
    Left,
    Opened,
    Opens,
    Pressed,
    Released,
    Typed,
    Woke,
)
from companion.core.person_turn import PersonTurn, own
from companion.core.phone import Hours, Part, Person
from companion.core.programme import Rules

__all__ = ["ROWS", "Decision", "Hours", "Part", "Person", "own", "step", "wake_at"]

ROWS: dict[Part, tuple[str, ...]] = {
    Part.CLIENT: ("row-something-wrong", "row-enough", "row-more"),
    Part.CARER: ("row-something-wrong", "row-had-to-leave", "row-more"),
    Part.THERAPIST: ("row-caseload", "row-new-client", "row-settings"),
    Part.CONTACT: (),
}


@dataclass(frozen=True, slots=True)
class Decision:
    """The state after an event, and what is to be done."""

    person: Person
    effects: tuple[Effect, ...]


def step(person: Person, event: Event, rules: Rules) -> Decision:
    """What an event makes of a person. Total."""
    turn = PersonTurn(person, event.at, event.seed, rules)
    match event:
        case Joined():
            _joined(turn, event)
        case Left():
            turn.set(reachable=event.back)
            _pass_on(turn, event)
        case Pressed():
            _pressed(turn, event)
        case Controlled() | Typed() if _helps_nobody(turn.person):
            turn.say(words("helps-nobody"), words("typed-emergency", number=rules.emergency_number))
        case Controlled():
            desk.controlled(turn, event)
        case Typed():
            _typed(turn, event)
        case Opened():
            _opened(turn, event)
        case Found():
            _found(turn, event)
        case Assigned():
            _assigned(turn, event)
        case Released():
            _released(turn, event)
        case Woke():
            digest.woke(turn)
        case _:
            pass  # what only a client's care handles
    return Decision(turn.person, tuple(turn.effects))


def wake_at(person: Person, rules: Rules) -> datetime | None:
    """The one next moment at which this person must be looked at; None if there is nothing ahead."""
    return digest.due(person)


def _helps_nobody(person: Person) -> bool:
    """A carer or contact who was taken out, or a client whose care is not here any more."""
    return person.role is not Part.THERAPIST and not person.clients


def _pass_on(turn: PersonTurn, event: Joined | Left) -> None:
    for client in turn.person.clients:
        turn.tell(client, event)


def _joined(turn: PersonTurn, event: Joined) -> None:
    person = turn.person
    turn.set(reachable=True)
    line = words(f"welcome-{person.role.value}" if person.role is not Part.CLIENT else "hello", name=person.name)
    # the fixed row is laid by a message of its own: a message has it or buttons, never both
    turn.say(line, fixed_row=tuple(words(label) for label in ROWS[person.role]))
    _pass_on(turn, event)
    if person.role is Part.CARER:
        briefing.joined(turn, event)
    elif person.role is Part.THERAPIST:
        setting.tell_duty(turn, person.clients)
    digest.joined(turn)


def _assigned(turn: PersonTurn, event: Assigned) -> None:
    """A client more. Who is not in the chat, or not any more, says so, or the care would count on them."""
    person = turn.person
    turn.set(clients=tuple(dict.fromkeys((*person.clients, event.client))))
    if not person.reachable or person.user_id is None:
        turn.tell(event.client, Left(turn.at, person.id))
    if person.role is Part.CARER:
        briefing.joined(turn, event)
    elif person.role is Part.THERAPIST:
        setting.tell_duty(turn, (event.client,))


def _released(turn: PersonTurn, event: Released) -> None:
    turn.set(clients=tuple(client for client in turn.person.clients if client != event.client))
    turn.set(drafts=tuple(draft for draft in turn.person.drafts if not _about(draft, event.client)))
    left_over = isinstance(turn.person.dialogue, Briefing) and not turn.person.clients
    if left_over or _about(turn.person.dialogue, event.client):
        turn.close()


def _about(dialogue: Dialogue | None, client: str) -> bool:
    """Whether a dialogue is about a client who is there already."""
    return isinstance(dialogue, Enrolling | Prescribing | HandingOver | Recording | Reviewing) and (
        dialogue.facts is not None and dialogue.facts.client == client
    )


def _opened(turn: PersonTurn, event: Opened) -> None:
    match event.what:
        case Opens.PLAN:
            prescribing.begin(turn, event.facts)
        case Opens.COPY:
            prescribing.copied(turn, event.facts)
        case Opens.CONSENT:
            consenting.begin(turn, event.facts)
        case Opens.BASELINE:
            enrolling.again(turn, event.facts)
        case Opens.HAND_OVER | Opens.COVER:
            handing_over.begin(turn, event.facts, cover=event.what is Opens.COVER)
        case Opens.MEDIA:
            recording.begin(turn, event.facts)
        case Opens.REVIEW:
            reviewing.begin(turn, event.facts)
        case _:
            assert_never(event.what)


def _found(turn: PersonTurn, event: Found) -> None:
    dialogue = turn.person.dialogue
    if isinstance(dialogue, Prescribing) and prescribing.found(turn, event, dialogue):
        return
    dialogue = turn.person.dialogue
    if event.what == "colleagues" and isinstance(dialogue, HandingOver):
        handing_over.found(turn, event, dialogue)
    elif event.what == "colleagues" and isinstance(dialogue, Setting):
        setting.found(turn, event, dialogue)
    elif event.what == "colleagues":
        pass  # the dialogue that asked was left meanwhile
    elif event.what in ("digest", "others"):
        digest.found(turn, event)
    else:
        desk.found(turn, event)


def _pressed(turn: PersonTurn, event: Pressed) -> None:
    press = event.press
    draft = next((one for one in turn.person.drafts if one.id == press.scope), None)
    if draft is not None and press.client == own(turn.person.id):
        turn.open(draft)  # a button of what was put by goes on with it
    dialogue = turn.person.dialogue
    if press.client != own(turn.person.id):
        turn.reply(words("press-not-yours"))
    elif (press.scope, press.step, press.choice) == briefing.OPEN:
        briefing.open_pressed(turn)
    elif press.scope == "desk" and press.step == "charts":
        digest.pressed(turn, event)
    elif press.scope == "desk":
        desk.pressed(turn, event)
    elif dialogue is None or press.scope != dialogue.id:
        turn.reply(words("press-over"))
    else:
        match dialogue:
            case Consenting():
                consenting.pressed(turn, event, dialogue)
            case Briefing():
                briefing.pressed(turn, event, dialogue)
            case Enrolling():
                enrolling.pressed(turn, event, dialogue)
            case Prescribing():
                prescribing.pressed(turn, event, dialogue)
            case HandingOver():
                handing_over.pressed(turn, event, dialogue)
            case Setting():
                setting.pressed(turn, event, dialogue)
            case Recording():
                recording.pressed(turn, event, dialogue)
            case Reviewing():
                reviewing.pressed(turn, event, dialogue)
            case _:
                assert_never(dialogue)


def _typed(turn: PersonTurn, event: Typed) -> None:
    """Typed words are the answer where a dialogue asks for words; else what can be pressed is said again."""
    dialogue = turn.person.dialogue
    if isinstance(dialogue, Enrolling) and enrolling.typed(turn, event, dialogue):
        return
    if isinstance(dialogue, Prescribing) and prescribing.typed(turn, event, dialogue):
        return
    if isinstance(dialogue, HandingOver) and handing_over.typed(turn, event, dialogue):
        return
    if isinstance(dialogue, Setting) and setting.typed(turn, event, dialogue):
        return
    if isinstance(dialogue, Recording) and recording.typed(turn, event, dialogue):
        return
    if isinstance(dialogue, Reviewing):
        reviewing.typed(turn, event, dialogue)
        return
    if turn.person.role is Part.CONTACT:
        for client in turn.person.clients:
            turn.tell(client, event)
        turn.say(words("typed-contact"))
        return
    turn.say(words("typed-therapist"))
