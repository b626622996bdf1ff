"""One event in the life of a person's phone: its state and the effects so far. Lives inside `person.step`."""

from dataclasses import replace
from datetime import datetime
from typing import Any

from companion.core.dialogues import Dialogue, Draft
from companion.core.effects import Button, ClientId, Effect, Pass, PersonId, Reply, Say, Subject, Urgency, Words, words
from companion.core.events import Event, Press
from companion.core.phone import Person
from companion.core.programme import Rules

KEPT_DRAFTS = 5
TALK: dict[str, Any] = {"urgency": Urgency.ANSWER, "topic": "talk"}


def own(person: PersonId) -> str:
    """Whose buttons of a person's own dialogues are, told apart from those of a client of the same id."""
    return f"@{person}"


class PersonTurn:
    """The state and the effects of one step."""

    def __init__(self, person: Person, at: datetime, seed: int, rules: Rules) -> None:
        self.person = person
        self.at = at
        self.seed = seed
        self.rules = rules
        self.effects: list[Effect] = []

    def set(self, **changes: Any) -> None:
        """Change the state."""
        self.person = replace(self.person, **changes)

    def number(self, letter: str = "d") -> str:
        """A new name for a dialogue (d) of this person."""
        self.set(serial=self.person.serial + 1)
        return f"{letter}{self.person.serial}"

    def open(self, dialogue: Dialogue) -> None:
        """Begin a dialogue, or go on with it. A draft under way, of something else, is put by."""
        by = [draft for draft in self.person.drafts if draft.id != dialogue.id]
        under_way = self.person.dialogue
        if isinstance(under_way, Draft) and under_way.id != dialogue.id:
            by.append(under_way)
        self.set(dialogue=dialogue, drafts=tuple(by[-KEPT_DRAFTS:]))

    def say(self, *lines: Words, **how: Any) -> None:
        """Say lines to this person, as an answer unless `how` says otherwise."""
        self.effects.append(Say(self.person.id, lines, **{**TALK, **how}))

    def reply(self, line: Words | None = None) -> None:
        """Answer the press that is being handled."""
        self.effects.append(Reply(line))

    def button(self, label: str | Words, scope: str, step: str, choice: str) -> Button:
        """A button of this person's own. `scope` is the dialogue's id, or "desk" for what has no dialogue."""
        shown = words(label) if isinstance(label, str) else label
        return Button(shown, Press(own(self.person.id), scope, step, choice))

    def client_button(self, label: str | Words, client: ClientId, step: str, choice: str, scope: str = "page") -> Button:
        """A button whose press goes to that client's care."""
        return Button(words(label) if isinstance(label, str) else label, Press(client, scope, step, choice))

    def tell(self, client: ClientId, event: Event) -> None:
        """Pass an event to a client's care."""
        self.effects.append(Pass(Subject("client", client), event))

    def close(self) -> None:
        """End the dialogue under way."""
        self.set(dialogue=None)
