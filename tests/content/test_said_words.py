"""What the program says is written: every key it uses has words, and every session reads well, form by form."""

import ast
import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import time
from pathlib import Path

import pytest

import companion
from companion.chat.buttons import encode
from companion.content import library
from companion.content.folders import content_dir
from companion.content.plain_words import LETTERS_IN_A_MESSAGE, broken_rules
from companion.content.texts import Texts
from companion.core.effects import Words
from companion.core.events import Press
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
from companion.core.steps import Ask, Choice, Counted, Gate, Label, Script, Timed

LIBRARY = library.load(content_dir())
RULES = LIBRARY.rules("000")
TEXTS = Texts(content_dir() / "texts")
SOURCES = Path(companion.__file__).parent
# what the moment fills in (a number to show, the second somebody tapped, the seconds left)
LIVE = (("number", "47"), ("tapped", "23"))
# keys that are only ever keys: a string that begins so is said somewhere
SAID = ("b-", "row-", "alert-", "closing-", "flag-", "help-", "welcome-", "lift-", "link-", "typed-", "gate-")
CASES = [(exercise, form) for exercise in RULES.exercises.values() for form in exercise.forms]


def named(case: object) -> str:
    return case.id if isinstance(case, Exercise | Form) else str(case)


def plan_of(exercise: Exercise, form: Form, one_good_hand: bool) -> Plan:
    """A plan of one exercise in one form, with everything permitted and everything up to the hardest form opened."""
    timed = form.measure is Measure.TIMED
    clock = (Clock.SCREEN if Clock.SCREEN in exercise.clocks else Clock.CARER) if timed else Clock.NONE
    sides = () if exercise.sides is Sides.NONE else (Side.STRONGER, Side.WEAKER)
    hardest = exercise.forms[-1]
    item = Planned(exercise.id, form.id, form.target, form.hands[-1], clock, hardest.id, hardest.hands[-1], sides)
    return Plan(
        1, (item,), Practice((0,), (time(10),)), ReportTime(0, time(8), "UTC"), Place("worktop", "shoes"),
        eyes_closed=True, one_good_hand=one_good_hand,
    )  # fmt: skip


def scripts(exercise: Exercise, form: Form) -> Iterator[Script]:
    """The session of that plan: with one good hand or two, on either clock, at a glance or sign by sign."""
    how = How("s1", "mara", "Mara", "mara", "tomas", "000", False, RULES.signs, RULES.patience)
    for one_good_hand in (True, False):
        if one_good_hand and form.needs_two_hands:
            continue
        plan = plan_of(exercise, form, one_good_hand)
        yield compile_session(plan, RULES.exercises, how)
        yield compile_session(plan, RULES.exercises, replace(how, sign_by_sign=True))
        if Clock.CARER in exercise.clocks:
            items = tuple(replace(item, clock=Clock.CARER) for item in plan.exercises)
            yield compile_session(replace(plan, exercises=items), RULES.exercises, how)


def said(lines: tuple[Words, ...]) -> str:
    return "\n".join(TEXTS.text(replace(line, params=(*line.params, *LIVE)), "en") for line in lines)


def questions(script: Script) -> Iterator[tuple[tuple[Words, ...], tuple[Choice, ...]]]:
    for step in script.steps:
        if isinstance(step, Ask | Counted):
            yield step.words, step.choices
        elif isinstance(step, Gate):
            yield step.words, (step.not_there, step.different)


def messages(script: Script) -> Iterator[str]:
    for step in script.steps:
        if not isinstance(step, Label):
            yield said(step.words)
        if isinstance(step, Gate):
            yield said(step.shown)
        if isinstance(step, Timed) and step.phase != "rest":
            yield said(tuple(Words(f"{line.key}-left", (("left", "45"),)) for line in step.words))


@pytest.mark.parametrize(("exercise", "form"), CASES, ids=named)
def test_each_exercise_in_each_form_is_said_in_plain_words_that_fit_a_message(exercise: Exercise, form: Form) -> None:
    for script in scripts(exercise, form):
        assert any(isinstance(step, Timed | Counted) for step in script.steps)
        for message in messages(script):
            assert [what for what, _ in broken_rules(message, button=False)] == [], message
            assert len(message) <= LETTERS_IN_A_MESSAGE


@pytest.mark.parametrize(("exercise", "form"), CASES, ids=named)
def test_the_answers_to_one_question_are_few_and_never_differ_by_a_not_alone(exercise: Exercise, form: Form) -> None:
    for script in scripts(exercise, form):
        for lines, choices in questions(script):
            labels = [said((choice.label,)) for choice in choices]
            assert [what for label in labels for what, _ in broken_rules(label, button=True)] == []
            bare = [re.sub(r"\b(?:not|no) ", "", label.lower()) for label in labels]
            assert len(set(bare)) == len(bare), (said(lines), labels)
            assert 1 <= len(choices) <= 5
            safety = any(choice.facts for choice in choices) and not isinstance(lines, Counted)
            if safety and not any(choice.id.startswith("n") and choice.id[1:].isdigit() for choice in choices):
                assert len(choices) <= 3, (said(lines), labels)


def test_the_buttons_of_every_session_fit_the_64_bytes_that_the_platform_carries() -> None:
    longest = "a" * 16  # the longest id that an enrolment takes
    for exercise, form in CASES:
        for script in scripts(exercise, form):
            for _, choices in questions(script):
                for choice in choices:
                    assert len(encode(Press(longest, "s999999", "99999", choice.id)).encode()) <= 64


SIDED = [(exercise, form) for exercise, form in CASES if exercise.sides is not Sides.NONE]


@pytest.mark.parametrize(("exercise", "form"), SIDED, ids=named)
def test_the_set_up_of_each_side_names_that_side(exercise: Exercise, form: Form) -> None:
    key = f"form-{exercise.id}-{form.id}.setup".replace("_", "-")
    for side in Side:
        text = TEXTS.text(Words(key, (("side", side.value), ("again", "no"))), "en").lower()
        assert re.search(rf"{side.value} (foot|leg)", text), text


def trees() -> Iterator[ast.AST]:
    for folder in ("core", "runtime", "chat"):
        for path in sorted((SOURCES / folder).glob("*.py")):
            yield from ast.walk(ast.parse(path.read_text(encoding="utf-8")))


def first_argument(node: ast.AST) -> ast.expr | None:
    """The key of a call words(key, ...), Words(key, ...) or button(key, ...)."""
    if not isinstance(node, ast.Call) or not node.args:
        return None
    name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
    return node.args[0] if name in ("words", "Words", "button") else None


def test_every_key_that_the_program_says_is_written() -> None:
    used = {
        node.value
        for node in trees()
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
        if node.value.startswith(SAID) and re.fullmatch(r"[a-z]+(-[a-z]+)+", node.value)
    }
    for node in trees():
        argument = first_argument(node)
        chosen = [argument.body, argument.orelse] if isinstance(argument, ast.IfExp) else [argument]
        used |= {one.value for one in chosen if isinstance(one, ast.Constant) and isinstance(one.value, str)}
    assert len(used) > 150
    assert used - set(TEXTS.keys("en")) == set()


def test_every_pattern_of_keys_that_the_program_says_meets_words() -> None:
    patterns = set()
    for node in trees():
        argument = first_argument(node)
        if isinstance(argument, ast.JoinedStr):
            parts = [re.escape(str(part.value)) if isinstance(part, ast.Constant) else ".+" for part in argument.values]
            patterns.add("".join(map(str, parts)))
    keys = TEXTS.keys("en")
    assert len(patterns) > 10
    assert [pattern for pattern in patterns if not any(re.fullmatch(pattern, key) for key in keys)] == []


def test_every_parameter_that_a_text_wants_is_given_where_it_is_said() -> None:
    missing = []
    for node in trees():
        argument = first_argument(node)
        if not isinstance(argument, ast.Constant) or not isinstance(node, ast.Call):
            continue
        key = str(argument.value)
        if key not in TEXTS.keys("en") or any(word.arg is None for word in node.keywords):
            continue
        names = TEXTS.parameters(key, "en") - {"left", *(name for name, _ in LIVE)}
        given = {word.arg for word in node.keywords}
        missing += [(key, name) for name in names if name.removesuffix("-plural") not in given]
    assert missing == []
