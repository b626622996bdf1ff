"""The carer's briefing before the first session that needs one: topic by topic, each with a check question.

    told -> Go on -> asked -> the right answer -> next topic ... -> Briefed, to every client of this phone
                       ^  a wrong one is explained, and asked again

No time limit; the place is kept. On a phone that client and carer share it is the client's phone that goes through it.
"""

from dataclasses import replace
from typing import Any

from companion.core.dialogues import Briefing
from companion.core.effects import Button, Put, Words, words
from companion.core.events import Assigned, Briefed, Joined, Pressed
from companion.core.person_turn import PersonTurn, own
from companion.core.phone import Part

CARD: dict[str, Any] = {"card": "briefing"}
OPEN = ("menu", "more", "briefing")
"""Scope, step and choice of a button that opens the briefing, wherever it stands."""


def joined(turn: PersonTurn, event: Joined | Assigned) -> None:
    """The carer's phone is in the chat, or has one more client: who was briefed stays so, who was not begins."""
    person, dialogue = turn.person, turn.person.dialogue
    if not turn.rules.briefing.topics or not person.clients:
        return
    if person.briefed == turn.rules.briefing.version:
        _tell_all(turn)
    elif isinstance(dialogue, Briefing) and dialogue.version == turn.rules.briefing.version:
        if isinstance(event, Joined):
            _screen(turn, dialogue, put=Put.NEW)
    else:
        begin(turn)


def begin(turn: PersonTurn) -> None:
    """The briefing from its start; also again, from the menu."""
    topics, dialogue = turn.rules.briefing.topics, turn.person.dialogue
    if not topics or not turn.person.clients:
        return
    if dialogue is not None and not isinstance(dialogue, Briefing):
        turn.say(words("briefing-first"))
        return
    opened = Briefing(turn.number(), version=turn.rules.briefing.version)
    turn.set(dialogue=opened)
    turn.say(*_marked(turn, (words("briefing-begin", parts=len(topics)),)), **CARD)
    _screen(turn, opened, put=Put.NEW)


def open_pressed(turn: PersonTurn) -> None:
    """A button that opens the briefing; pressed twice, it goes on where it was."""
    turn.reply()
    dialogue = turn.person.dialogue
    if isinstance(dialogue, Briefing) and dialogue.version == turn.rules.briefing.version:
        _screen(turn, dialogue, put=Put.NEW)
    else:
        begin(turn)


def pressed(turn: PersonTurn, event: Pressed, dialogue: Briefing) -> None:
    """A button of the briefing."""
    topics = turn.rules.briefing.topics
    if dialogue.version != turn.rules.briefing.version or dialogue.topic >= len(topics):
        turn.reply()
        begin(turn)  # the words changed since it was opened
        return
    topic, choice = topics[dialogue.topic], event.press.choice
    if event.press.step != _step(dialogue):
        turn.reply(words("press-stale"))
    elif not dialogue.asked:
        turn.reply()
        _go(turn, replace(dialogue, asked=True))
    elif choice.isascii() and choice.isdigit() and 1 <= int(choice) <= len(topic.choices):
        turn.reply()
        if topic.choices[int(choice) - 1] != topic.right:
            _screen(turn, dialogue, before=(_told(turn, topic.wrong),))
        elif dialogue.topic + 1 < len(topics):
            _go(turn, replace(dialogue, topic=dialogue.topic + 1, asked=False))
        else:
            _finish(turn)
    else:
        turn.reply(words("press-stale"))


def _go(turn: PersonTurn, dialogue: Briefing) -> None:
    turn.set(dialogue=dialogue)
    _screen(turn, dialogue)


def _finish(turn: PersonTurn) -> None:
    turn.close()
    turn.set(briefed=turn.rules.briefing.version)
    turn.say(*_marked(turn, (words("briefing-done"), words("briefing-more"))), put=Put.IN_PLACE, **CARD)
    _tell_all(turn)


def _tell_all(turn: PersonTurn) -> None:
    for client in turn.person.clients:
        turn.tell(client, Briefed(turn.at, turn.person.id, turn.rules.briefing.version))


def _screen(turn: PersonTurn, dialogue: Briefing, before: tuple[Words, ...] = (), put: Put = Put.IN_PLACE) -> None:
    """What is told of a topic, or its check question, after `before`."""
    topics = turn.rules.briefing.topics
    topic = topics[dialogue.topic]
    if dialogue.asked:
        lines = (*before, _told(turn, topic.ask))
        buttons = tuple(_button(turn, dialogue, label, str(at)) for at, label in enumerate(topic.choices, start=1))
    else:
        part = words("briefing-part", part=dialogue.topic + 1, parts=len(topics))
        lines = (part, *(_told(turn, key) for key in topic.tell))
        buttons = (_button(turn, dialogue, "b-go-on", "next"),)
    turn.say(*_marked(turn, lines), buttons=buttons, put=put, **CARD)


def _button(turn: PersonTurn, dialogue: Briefing, label: str, choice: str) -> Button:
    return turn.button(label, dialogue.id, _step(dialogue), choice)


def _step(dialogue: Briefing) -> str:
    """Which screen a button answers, so that an older one is known as such."""
    return str(2 * dialogue.topic + dialogue.asked)


def _told(turn: PersonTurn, key: str) -> Words:
    return words(key, number=turn.rules.emergency_number)


def _marked(turn: PersonTurn, lines: tuple[Words, ...]) -> tuple[Words, ...]:
    """On the client's own phone it is said whom the words are for."""
    return (words("for-helper"), *lines) if turn.person.role is Part.CLIENT else lines


def opens(person: str) -> tuple[str, str, str, str]:
    """What a button carries that opens the briefing on that person's phone, for a `Press`."""
    return (own(person), *OPEN)
