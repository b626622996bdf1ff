"""Random lives of a therapist's phone, with the real content: nothing raises, every word is written, every button fits.

Clients are made, plans written, settings changed, all with whatever button stands or ever stood, typed words, forged presses,
and time that passes.
"""

import random

import pytest

from companion.chat.buttons import encode
from companion.content.folders import content_dir
from companion.content.plain_words import LETTERS_IN_A_MESSAGE
from companion.content.texts import Texts
from companion.core.effects import Digest, Effect, Enrol, Invite, Reply, Say, Words, words
from companion.core.events import Assigned, Control, Entry, Joined, Press, Released
from companion.core.person import Part, Person, own
from tests.content.at_the_visit import T, Visit, enrolled, prescribe
from tests.core.practice import ZONE

TEXTS = Texts(content_dir() / "texts")
CONTROLS = (Control.CASELOAD, Control.NEW_CLIENT, Control.NEW_CLIENT, Control.SETTINGS, Control.MORE)
TYPED = ("Ann", "Ben", "", "x" * 2000, "Dov, Eva", "America/New_York", "21-7", "08:30", "2026-12-24", "12", "\N{SNOWMAN}")
FORGED = ("", "summary", "write", "draft", "plan", "0", "1", "99", "desk", "list", "n0", "menu", "back", "\N{SNOWMAN}")
STEPS, LIVES, LEAST = 500, 4, 300


class Life(Visit):
    """A therapist's phone. `ever` are the presses that stood on it at some time."""

    def __init__(self, seed: int) -> None:
        super().__init__()
        self.persons["t2"] = Person("t2", Part.THERAPIST, "Rafe", ZONE, ())
        self.colleagues = [Entry("t2", "Rafe")]
        self.chance = random.Random(seed)
        self.ever: list[Press] = []
        self.made: set[str] = set()

    def go_on(self) -> None:
        """One thing happens."""
        happening = self.chance.choices(
            (self._standing, self._old, self._control, self._typed, self._forged, self._time, self._told),
            (70, 6, 5, 10, 3, 3, 3),
        )[0]
        happening()
        for effect in self.effects:
            self._is_fit(effect)

    def _standing(self) -> None:
        there = [button.press for button in self.buttons(T)]
        on = [press for press in there if press.choice not in ("cancel", "back", "drop", "anew")]
        usual = on if on and self.chance.random() < 0.9 else there
        if usual:
            self._press(self.chance.choice(usual))

    def _old(self) -> None:
        if self.ever:
            self._press(self.chance.choice(self.ever[-80:]))

    def _press(self, press: Press) -> None:
        if press.client == own(T) or press.client in self.clients:
            self.send(T, press)

    def _control(self) -> None:
        self.row(T, self.chance.choice(CONTROLS))

    def _typed(self) -> None:
        self.write(T, self.chance.choice(TYPED))

    def _forged(self) -> None:
        dialogue = self.persons[T].dialogue
        scope = self.chance.choice((dialogue.id if dialogue is not None else "d1", "desk", "page", ""))
        whose = self.chance.choice((own(T), *self.clients))
        self._press(Press(whose, scope, self.chance.choice(FORGED), self.chance.choice(FORGED)))

    def _time(self) -> None:
        self.wait(self.chance.choice((60, 3600, 86400)))

    def _told(self) -> None:
        if not self.clients:
            return
        client = self.chance.choice(sorted(self.clients))
        # a client's phone joins; seldom the client goes to a colleague and comes back
        if self.chance.random() < 0.8:
            self.tell(client, Joined(self.now, client))
        else:
            self.tell(T, Released(self.now, client))
            self.tell(T, Assigned(self.now, client))

    def _is_fit(self, effect: Effect) -> None:
        match effect:
            case Say() | Digest():
                text = "\n".join(TEXTS.text(line, "en") for line in effect.words)
                assert 0 < len(text) <= LETTERS_IN_A_MESSAGE, text
                assert all(TEXTS.text(button.label, "en") and encode(button.press) for button in effect.buttons)
                if isinstance(effect, Say) and effect.to == T:
                    self.ever += [button.press for button in effect.buttons]
            case Reply(words=Words() as line):
                assert TEXTS.text(line, "en")
            case Invite():
                assert TEXTS.text(words(effect.words.key, **dict(effect.words.params), link="l"), "en")
            case Enrol():
                own_entry = [one.id for one in effect.people if one.id == effect.client]
                assert not own_entry or effect.client not in self.made, "a client was made twice"
                self.made |= set(own_entry)
            case _:
                pass


@pytest.mark.parametrize("seed", range(LIVES))
def test_whatever_a_therapist_presses_and_types_nothing_breaks_and_every_word_is_written(seed: int) -> None:
    it = Life(seed)
    enrolled(it)
    it.tap("b-enrol-prescribe")
    prescribe(it)
    assert it.clients["t1.1"].plan is not None
    it.made.add("t1.1")
    for _ in range(STEPS):
        it.go_on()
    assert len(it.ever) > LEAST, "too little of it happened"
