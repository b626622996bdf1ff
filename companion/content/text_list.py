"""Every text that a client or carer can get, with how hard it reads: for `companion check --texts`.

A text that reads in several ways (by side, by number) is listed by its hardest. The answers counted are those of the
session's questions, over every exercise in every form; what is asked beside a session is in the tests.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import time

from companion.content.folders import shown
from companion.content.library import Library
from companion.content.plain_messages import broken_together
from companion.content.plain_words import FOR_THE_THERAPIST, broken_rules, is_button, sentences, words_in
from companion.content.readers import readers
from companion.content.reading_grade import FEWEST_WORDS, grade, words_of
from companion.content.texts import Source, Texts
from companion.core.effects import Words
from companion.core.how import How
from companion.core.programme import Clock, Exercise, Form, Measure, Place, Plan, Planned, Practice, ReportTime, Side, Sides
from companion.core.script import compile_session
from companion.core.steps import Ask, Choice, Counted, Gate, Script, Sounded

HEADING = ("grade", "words", "answers", "over", "reader", "where", "key")


@dataclass(frozen=True, slots=True)
class Row:
    """One text. `grade`: None where too few words have one, or in another language than English. `words`: in its longest
    sentence. `answers`: at most so many stand under it. `over`: what is over a limit, in words."""

    key: str
    where: str
    reader: str
    grade: float | None
    words: int
    answers: int
    over: tuple[str, ...]

    def cells(self) -> tuple[str, ...]:
        """As it is printed, in the order of `HEADING`."""
        hard = f"{self.grade:.1f}" if self.grade is not None else "-"
        asked = str(self.answers) if self.answers else "-"
        return hard, str(self.words), asked, "OVER" if self.over else "", self.reader, self.where, self.key


def rows(texts: Texts, library: Library) -> list[Row]:
    """All of them, in every language, the worst first: what is over a limit, then by grade, then by words."""
    answers = _most_answers(texts, library)
    found = [
        _row(key, source, texts.readings(key, language), english=language.partition("-")[0] == "en", answers=answers)
        for language in texts.languages
        for key, source in texts.keys(language).items()
        if source.path.name not in FOR_THE_THERAPIST and not key.startswith("-") and not _is_title(key)
    ]
    return sorted(found, key=lambda row: (not row.over, -(row.grade if row.grade is not None else -99), -row.words, row.key))


def _is_title(key: str) -> bool:
    """What a sign is called to the therapist stands beside what it is called at home."""
    return key.startswith("sign-") and key.endswith(".title")


def _row(
    key: str, source: Source, read: tuple[str, ...], *, english: bool, answers: dict[str, tuple[int, tuple[str, ...]]]
) -> Row:
    grades = [grade(text) for text in read if english and len(words_of(text)) >= FEWEST_WORDS]
    longest = max((len(words_in(sentence)) for text in read for sentence in sentences(text)), default=0)
    count, together = answers.get(key, (0, ()))
    broken = [what for text in read for what, _ in broken_rules(text, is_button(key), english)]
    return Row(
        key,
        f"{shown(source.path)}:{source.line}",
        readers(key, source.path.name),
        max(grades, default=None),
        longest,
        count,
        tuple(dict.fromkeys((*broken, *together))),
    )


# --- what stands under a text ---------------------------------------------------------------------------------


def _most_answers(texts: Texts, library: Library) -> dict[str, tuple[int, tuple[str, ...]]]:
    """By key of the line that asks: the most answers under it, and what those break together."""
    most: dict[str, tuple[int, tuple[str, ...]]] = {}
    language = texts.languages[0]
    for lines, choices in _questions(library):
        asking = lines[-1].key
        if asking in texts.keys(language) and len(choices) > most.get(asking, (0, ()))[0]:
            labels = [choice.label for choice in choices if choice.label.key in texts.keys(language)]
            read = [(label.key, texts.readings(label.key, language, filler=_filled(label))[0]) for label in labels]
            most[asking] = (len(choices), tuple(broken_together([], read)))
    return most


def _filled(label: Words) -> str:
    """What stands for what is filled in, so that answers that differ by it differ."""
    return " ".join(value for _, value in label.params if isinstance(value, str)) or "7"


def _questions(library: Library) -> Iterator[tuple[tuple[Words, ...], tuple[Choice, ...]]]:
    for script in _sessions(library):
        for step in script.steps:
            if isinstance(step, Ask | Counted | Sounded):
                yield step.words, step.choices
            elif isinstance(step, Gate):
                yield step.words, (step.not_there, step.different)


def _sessions(library: Library) -> Iterator[Script]:
    """Each exercise in each form, on each clock that keeps it."""
    rules = library.without_number
    how = How("s", "client", "client", "client", "carer", rules.emergency_number, False, rules.signs, rules.patience)
    for exercise in rules.exercises.values():
        for form in exercise.forms:
            for clock in exercise.clocks if form.measure is Measure.TIMED else (Clock.NONE,):
                plan = _plan(exercise, form, clock)
                yield compile_session(plan, rules.exercises, how)
                yield compile_session(plan, rules.exercises, replace(how, sign_by_sign=True, confidence=True))


def _plan(exercise: Exercise, form: Form, clock: Clock) -> Plan:
    """That form alone, with everything permitted and opened to the hardest."""
    hardest = exercise.forms[-1]
    sides = () if exercise.sides is Sides.NONE else (Side.STRONGER, Side.WEAKER)
    item = Planned(exercise.id, form.id, form.target, form.hands[-1], clock, hardest.id, hardest.hands[-1], sides)
    days, report = Practice((0,), (time(10),)), ReportTime(0, time(8), "UTC")
    return Plan(1, (item,), days, report, Place("worktop", "shoes"), eyes_closed=True, one_good_hand=False)
