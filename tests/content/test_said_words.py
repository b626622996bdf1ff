"""What the program says is written: every key it uses has words, and every session reads well, form by form."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import companion
from companion.chat.buttons import encode
from companion.content.plain_messages import broken_together
from companion.content.plain_words import LETTERS_IN_A_MESSAGE, broken_rules
from companion.core.answering import THEIRS
from companion.core.effects import Words, words
from companion.core.events import Press
from companion.core.programme import Exercise, Form, Side, Sides
from companion.core.steps import Ask, Counted
from tests.content.said import CASES, LIVE, TEXTS, named, questions, read, said, scripts, statements

SOURCES = Path(companion.__file__).parent
# keys that are only ever keys: a string that begins so is said somewhere
SAID = ("b-", "row-", "alert-", "closing-", "flag-", "help-", "welcome-", "lift-", "link-", "typed-", "gate-")


@pytest.mark.parametrize(("exercise", "form"), CASES, ids=named)
def test_each_exercise_in_each_form_is_said_in_whole_messages_that_read_well(exercise: Exercise, form: Form) -> None:
    told = {(lines, ()) for script in scripts(exercise, form) for lines in statements(script)}
    asked = {(lines, choices) for script in scripts(exercise, form) for lines, choices in questions(script)}
    assert len(asked) > 10
    for lines, choices in told | asked:
        message, answers = read(lines), read(tuple(choice.label for choice in choices))
        assert list(broken_together(message, answers)) == [], (message, answers)
        # a title is two names, each judged by itself
        judged = [text for key, text in message if not key.startswith("set-up-title")]
        assert [what for text in judged for what, _ in broken_rules(text, button=False)] == []
        assert [what for _, text in answers for what, _ in broken_rules(text, button=True)] == []
        assert len(said(lines)) <= LETTERS_IN_A_MESSAGE


@pytest.mark.parametrize(("exercise", "form"), CASES, ids=named)
def test_a_set_up_in_few_words_is_its_name_one_line_and_what_the_hand_does(exercise: Exercise, form: Form) -> None:
    for script in scripts(exercise, form):
        for step in script.steps:
            short = isinstance(step, Ask | Counted) and [key for key, _ in read(step.words) if key.endswith(".short")]
            if short and isinstance(step, Ask):
                lines = [
                    key for key, _ in read(step.words) if not key.startswith(("hand-", "phone-in-view", "easier-", "harder-"))
                ]
                assert len(lines) == 2, lines


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


@pytest.mark.parametrize("key", sorted(THEIRS))
def test_what_speaks_of_the_client_says_the_same_to_the_carer_in_other_words(key: str) -> None:
    live = dict(LIVE)
    assert TEXTS.text(words(f"{key}.carer", **live), "en") != TEXTS.text(words(key, **live), "en")


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
