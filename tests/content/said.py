"""Every session of the real content, form by form, as whole messages: what is said together, with the answers under it."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import time

from companion.content import library
from companion.content.folders import content_dir
from companion.content.plain_messages import Line
from companion.content.texts import Texts
from companion.core.effects import Words, words
from companion.core.how import How
from companion.core.programme import (
    Clock,
    Exercise,
    Form,
    Measure,
    Place,
    Plan,
    Planned,
    Practice,
    ReportTime,
    Side,
    Sides,
)
from companion.core.script import compile_session
from companion.core.steps import Ask, Choice, Counted, Gate, Label, Script, Sounded, Timed

LIBRARY = library.load(content_dir())
RULES = LIBRARY.rules("000")
TEXTS = Texts(content_dir() / "texts")
# what the moment fills in (a number to show, the second somebody tapped, the seconds left)
LIVE = (("number", "47"), ("tapped", "23"))
CASES = [(exercise, form) for exercise in RULES.exercises.values() for form in exercise.forms]
HOW = How("s1", "mara", "Mara", "mara", "tomas", "000", False, RULES.signs, RULES.patience)
HOWS = (
    HOW,
    replace(HOW, sign_by_sign=True, usual=RULES.signs[:2], confidence=True),
    replace(HOW, short=True),
    replace(HOW, carer_phone="mara"),
)
"""At a glance or sign by sign, in few words or all, on two phones or one."""


def named(case: object) -> str:
    return case.id if isinstance(case, Exercise | Form) else str(case)


def plan_of(exercise: Exercise, form: Form, one_good_hand: bool, clock: Clock) -> Plan:
    """A plan of one exercise in one form, with everything permitted and everything up to the hardest form opened."""
    sides = () if exercise.sides is Sides.NONE else (Side.STRONGER, Side.WEAKER)
    hardest = exercise.forms[-1]
    item = Planned(exercise.id, form.id, form.target, form.hands[-1], clock, hardest.id, hardest.hands[-1], sides)
    return Plan(
        1, (item,), Practice((0,), (time(10),)), ReportTime(0, time(8), "UTC"), Place("worktop", "shoes"),
        eyes_closed=True, one_good_hand=one_good_hand,
    )  # fmt: skip


def scripts(exercise: Exercise, form: Form) -> Iterator[Script]:
    """The sessions of that form: with one good hand or two, on each clock, and in each way to be told."""
    timed = form.measure is Measure.TIMED
    for one_good_hand in (True, False):
        if one_good_hand and form.needs_two_hands:
            continue
        for clock in exercise.clocks if timed else (Clock.NONE,):
            plan = plan_of(exercise, form, one_good_hand, clock)
            for how in HOWS:
                yield compile_session(plan, RULES.exercises, how)


def read(lines: tuple[Words, ...]) -> list[Line]:
    """Lines, each with its key and as it reads."""
    return [(line.key, TEXTS.text(replace(line, params=(*line.params, *LIVE)), "en")) for line in lines]


def said(lines: tuple[Words, ...]) -> str:
    return "\n".join(text for _, text in read(lines))


def questions(script: Script) -> Iterator[tuple[tuple[Words, ...], tuple[Choice, ...]]]:
    """What is asked, with its answers."""
    for step in script.steps:
        if isinstance(step, Ask | Counted | Sounded):
            yield step.words, step.choices
        elif isinstance(step, Gate):
            picks = tuple(Choice(f"n{number}", words("b-number", shown=number)) for number in (23, 47, 61))
            yield step.words, (*picks, step.not_there, step.different)


def statements(script: Script) -> Iterator[tuple[Words, ...]]:
    """What is said without a question."""
    for step in script.steps:
        if not isinstance(step, Label | Ask | Counted | Sounded | Gate):
            yield step.words
        if isinstance(step, Gate):
            yield step.shown
        if isinstance(step, Timed) and step.phase != "rest":
            yield tuple(Words(f"{line.key}-left", (("left", "45"),)) for line in step.words)
