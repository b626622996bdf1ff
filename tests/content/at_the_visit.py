"""A visit with the real content: the therapist makes a client in the chat and prescribes from a template, each tap counted."""

from companion.content import library
from companion.content.folders import content_dir
from companion.core.dialogues import Prescribing
from companion.core.events import Control, Press
from companion.core.person import Part, Person
from tests.core.people import People
from tests.core.practice import ZONE

RULES = library.load(content_dir()).rules("000")
T = "t1"
MOST_TAPS = 40


class Visit(People):
    """The therapist's phone at the visit; its taps are counted, those of the fixed row too."""

    def __init__(self) -> None:
        super().__init__([Person(T, Part.THERAPIST, "Cleo", ZONE, (), user_id=3)], rules=RULES)
        self.taps = 0

    def send(self, by: str, press: Press) -> None:
        self.taps += by == T
        super().send(by, press)

    def row(self, by: str, control: Control) -> None:
        self.taps += by == T
        super().row(by, control)

    def tap(self, *labels: str) -> None:
        for label in labels:
            self.press(T, label)

    def answer(self, *answers: str) -> None:
        self.tap(*(f"baseline-{one}" for one in answers))

    def choose(self, *choices: str) -> None:
        for choice in choices:
            self.send(T, next(button.press for button in self.buttons(T) if button.press.choice == choice))


def enrolled(it: Visit) -> Visit:
    """Ann, weaker on the left, with Ben; three defaults changed and two deficits ticked."""
    it.row(T, Control.NEW_CLIENT)
    it.write(T, "Ann")
    it.answer("weaker-side-left", "tap-hand-right", "orthosis-none", "blood-thinner-no", "falls-last-year-one")
    it.answer("call-for-help-voice", "supervision-always")
    it.write(T, "Ben")
    it.answer("person")
    it.choose("age_band", "age_65_74", "walking_aid", "stick", "deficits", "face", "arm", "done", "back")
    it.tap("b-answer-write")
    return it


def prescribe(it: Visit) -> None:
    """A template of 4 exercises or more, the first days and the first time offered, the preview, prescribed."""
    for _ in range(MOST_TAPS):
        dialogue = it.persons[T].dialogue
        if not isinstance(dialogue, Prescribing):
            return
        it.send(T, it.buttons(T)[0 if dialogue.at != "start" else _full_template(it)].press)
    raise AssertionError("the plan was never prescribed")


def _full_template(it: Visit) -> int:
    return next(place for place, template in enumerate(RULES.templates) if len(template.exercises) == 4)
