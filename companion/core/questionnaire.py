"""Questions on one phone, a screen each, answered by taps or typed words: a table of questions and what a press makes of it.

    must be answered, one after the other --> summary <--> a section <--> a question of it
                                                 |--> write        cancel (asks once) --> dropped

The table is plain data, made anew for the answers that there are: a question that does not apply is left out of it.
`at` is where the phone is: a question's id, a section's, SUMMARY or CANCEL. Answers are kept as text by question id. What
a question is called stands in texts `<name>-<question>`, `.ask`, and `<name>-<question>-<choice>`. Who uses it shows the
screens and acts.

A press of the same button twice is harmless: a tick only ever sets, and whatever else was pressed has moved on.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum

from companion.core.effects import Words, words

SUMMARY, CANCEL = "summary", "cancel"
BACK, DONE, CLEAR, WRITE, DROP, KEEP = "back", "done", "clear", "write", "drop", "keep"
BETWEEN = ","
"""Between the answers to a question that takes several; typed words of such a question can not hold it."""

Answers = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Question:
    """One question. Without `default` (None) it must be answered; `section` is where its answer is found and changed.

    `choices` are the answers offered, also as parts of button data. `reads` makes an answer of typed words, None where they
    are none; without it only taps answer. `many`: several answers in the order pressed, "" for none of them.
    `labels` are words that stand elsewhere, by choice.
    """

    id: str
    choices: tuple[str, ...] = ()
    default: str | None = None
    section: str = ""
    reads: Callable[[str], str | None] | None = None
    many: bool = False
    labels: Mapping[str, Words] | None = None


class End(StrEnum):
    """How a questionnaire is left."""

    WRITTEN = "written"
    DROPPED = "dropped"


@dataclass(frozen=True, slots=True)
class Moved:
    """What a press or typed words made of it. `end` None: it goes on, at `at`."""

    at: str
    answers: tuple[tuple[str, str], ...]
    end: End | None = None


@dataclass(frozen=True, slots=True)
class Screen:
    """What the phone shows: lines, and buttons as (label, choice); the step of each button is `at`."""

    at: str
    lines: tuple[Words, ...]
    choices: tuple[tuple[Words, str], ...]


@dataclass(frozen=True, slots=True)
class Questionnaire:
    """A table of questions in the order asked. `name` begins the keys of its texts."""

    name: str
    questions: tuple[Question, ...]

    def find(self, question: str) -> Question | None:
        """The question of that id, None if it does not apply or is none."""
        return next((one for one in self.questions if one.id == question), None)

    def sections(self) -> tuple[str, ...]:
        """The sections, in order."""
        return tuple(dict.fromkeys(one.section for one in self.questions))

    def missing(self, answers: Answers) -> Question | None:
        """The first question that must still be answered."""
        return next((one for one in self.questions if self.given(one, answers) is None), None)

    def given(self, question: Question, answers: Answers) -> str | None:
        """The answer, or the default. An answer that is no longer offered is none."""
        answer = answers.get(question.id)
        free = question.many or question.reads is not None or not question.choices
        return answer if answer is not None and (free or answer in question.choices) else question.default

    def filled(self, answers: Answers) -> dict[str, str]:
        """Every question that applies with its answer, or its default; "" where one is missing."""
        return {one.id: self.given(one, answers) or "" for one in self.questions}

    def start(self, answers: Answers) -> str:
        """Where to begin, or to go on: the first question that must be answered, else the summary."""
        missing = self.missing(answers)
        return missing.id if missing is not None else SUMMARY

    # --- what is shown ------------------------------------------------------------------------------------

    def screen(self, at: str, answers: Answers) -> Screen:
        """The screen at that place; its `at` is where the phone is then.

        A place that is no more, or that stands behind a question that must be answered, is where to go on.
        """
        question = self.find(at)
        if question is not None:
            return self._question(question, answers)
        if at == CANCEL:
            ask = (words(f"{self.name}-cancel"),)
            return Screen(at, ask, ((words("b-answer-drop"), DROP), (words("b-answer-keep"), KEEP)))
        if self.missing(answers) is not None:
            return self.screen(self.start(answers), answers)
        return self._section(at, answers) if at in self.sections() else self._summary(answers)

    def _question(self, question: Question, answers: Answers) -> Screen:
        lines = [*self._place(question, answers), words(f"{self._key(question)}.ask")]
        given = self.given(question, answers)
        if given is not None:
            lines.append(words("answer-now", answer=self.said(question, given)))
        ticked = (given or "").split(BETWEEN) if question.many else []
        buttons = [(self.label(question, one), one) for one in question.choices if one not in ticked]
        if question.many:
            buttons += [(words("b-answer-done"), DONE), *([(words("b-answer-clear"), CLEAR)] if given else [])]
        if self._before(question, answers) is not None:
            buttons.append((words("b-answer-back"), BACK))
        return Screen(question.id, tuple(lines), (*buttons, (words("b-answer-cancel"), CANCEL)))

    def _place(self, question: Question, answers: Answers) -> tuple[Words, ...]:
        """How far it is, while there are questions that must be answered."""
        asked = [one.id for one in self.questions if one.default is None]
        if self.missing(answers) is None or question.id not in asked:
            return ()
        return (words("answer-place", at=asked.index(question.id) + 1, of=len(asked)),)

    def _section(self, section: str, answers: Answers) -> Screen:
        lines = (words(f"{self.name}-{_hyphens(section)}"),)
        return Screen(section, lines, (*self._changes(section, answers), (words("b-answer-back"), BACK)))

    def _changes(self, section: str, answers: Answers) -> tuple[tuple[Words, str], ...]:
        filled = self.filled(answers)
        return tuple((self._button(one, filled[one.id]), one.id) for one in self.questions if one.section == section)

    def _button(self, question: Question, answer: str) -> Words:
        """A question and its answer on a button: of several answers, how many."""
        count = answer.count(BETWEEN) + 1
        if not question.many or count == 1:
            return self.line(question, answer)
        return words("answer-line", question=words(self._key(question)), answer=words("answer-several", count=count))

    def _summary(self, answers: Answers) -> Screen:
        filled, sections = self.filled(answers), self.sections()
        lines: list[Words] = []
        for section in sections:
            if len(sections) > 1:
                lines.append(words("answer-heading", section=words(f"{self.name}-{_hyphens(section)}")))
            lines += [self.line(one, filled[one.id]) for one in self.questions if one.section == section]
        inside = tuple((words(f"{self.name}-{_hyphens(one)}"), one) for one in sections)
        to_change = inside if len(sections) > 1 else self._changes(sections[0], answers)
        return Screen(SUMMARY, tuple(lines), ((words("b-answer-write"), WRITE), *to_change, (words("b-answer-cancel"), CANCEL)))

    def line(self, question: Question, answer: str) -> Words:
        """A question and its answer in one line."""
        return words("answer-line", question=words(self._key(question)), answer=self.said(question, answer))

    def said(self, question: Question, answer: str) -> Words | str:
        """An answer in words; typed words as they are."""
        if not question.many:
            return self.label(question, answer) if answer in question.choices else answer
        parts = [self.label(question, one) if one in question.choices else one for one in answer.split(BETWEEN)]
        if not answer:
            return words(f"{self._key(question)}-none")
        said: Words | str = parts[-1]
        for part in reversed(parts[:-1]):
            said = words("answer-list", first=part, rest=said)
        return said

    def label(self, question: Question, choice: str) -> Words:
        """The words of a choice."""
        known = (question.labels or {}).get(choice)
        return known or words(f"{self._key(question)}-{_hyphens(choice)}")

    def _key(self, question: Question) -> str:
        return f"{self.name}-{_hyphens(question.id)}"

    # --- what is done -------------------------------------------------------------------------------------

    def pressed(self, at: str, answers: Answers, choice: str) -> Moved | None:
        """What a press at `at` makes of it; None if nothing there has that choice (an older screen)."""
        given = tuple(answers.items())
        screen = self.screen(at, answers)
        if screen.at != at or choice not in {one for _, one in screen.choices} | {CLEAR, *self._offered(at)}:
            return None
        question = self.find(at)
        if at == CANCEL:
            return Moved(self.start(answers), given, End.DROPPED if choice == DROP else None)
        if choice == CANCEL:
            return Moved(CANCEL, given)
        if question is None:
            back = Moved(SUMMARY, given) if choice == BACK else Moved(choice, given)
            return Moved(SUMMARY, given, End.WRITTEN) if choice == WRITE else back
        if choice == BACK:
            return Moved(self._before(question, answers) or at, given)
        if choice == DONE:
            return self.answered(question, answers, self.given(question, answers) or "")
        if question.many:
            return self._ticked(question, answers, choice)
        return self.answered(question, answers, choice)

    def typed(self, at: str, answers: Answers, text: str) -> Moved | None:
        """What typed words at `at` make of it; None if they are no answer there."""
        question = self.find(at)
        read = question.reads(text) if question is not None and question.reads is not None else None
        if question is None or read is None:
            return None
        if question.many:
            return self._ticked(question, answers, read)
        return self.answered(question, answers, read)

    def answered(self, question: Question, answers: Answers, answer: str) -> Moved:
        """The answer is kept. On to the next that must be answered; from a change, back to where it was chosen."""
        was_complete = self.missing(answers) is None
        kept = {**answers, question.id: answer}
        return Moved(self._whence(question) if was_complete else self.start(kept), tuple(kept.items()))

    def _ticked(self, question: Question, answers: Answers, choice: str) -> Moved:
        ticked = [one for one in (self.given(question, answers) or "").split(BETWEEN) if one]
        now = [] if choice == CLEAR else [*ticked, *(one for one in choice.split(BETWEEN) if one not in ticked)]
        return Moved(question.id, tuple({**answers, question.id: BETWEEN.join(now)}.items()))

    def _offered(self, at: str) -> tuple[str, ...]:
        question = self.find(at)
        return question.choices if question is not None else ()

    def _whence(self, question: Question) -> str:
        return question.section if len(self.sections()) > 1 else SUMMARY

    def _before(self, question: Question, answers: Answers) -> str | None:
        """Where Back leads from a question: to where it was chosen, or to the one asked before."""
        if self.missing(answers) is None:
            return self._whence(question)
        asked = [one.id for one in self.questions if one.default is None]
        place = asked.index(question.id) if question.id in asked else 0
        return asked[place - 1] if place else None


def _hyphens(name: str) -> str:
    return name.replace("_", "-")
