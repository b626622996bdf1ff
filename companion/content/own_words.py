"""The words that an exercise's own file may carry, so that one file is a whole exercise.

    words:
      en:
        name: ...           and notice, normal, stop, caution
        forms:
          FORM:
            name: ...       and setup, short, do (where it is counted), carer

`{target}` is the number of the plan. A text that differs by side is written as `weaker:` and `stronger:` under its key.
"""

import difflib
import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Annotated, Any

from pydantic import AfterValidator, BeforeValidator

from companion.content.yaml_lines import Id, Line, Loc, Page, Shape, wrong
from companion.core.programme import Form, Measure, Sides
from companion.errors import Fault

TARGET = "{target}"
LETTERS_IN_A_NAME, LETTERS_IN_A_TEXT = 40, 120
"""A whole set-up stands under its picture, where the platform has room for 1,024 letters."""


def _no_braces(text: str) -> str:
    if re.search("[{}]", text):
        raise wrong(f"{text!r} has a brace", f"Take it out; only short and do may say {TARGET}")
    return text


def _one_number(text: str) -> str:
    if re.search("[{}]", text.replace(TARGET, "")):
        raise wrong(f"{text!r} has a brace", f"Write {TARGET} for the number of the plan, and no other brace")
    return text


def _a_name(text: str) -> str:
    if len(text) > LETTERS_IN_A_NAME:
        raise wrong(f"a name of {len(text)} letters", f"Write {LETTERS_IN_A_NAME} or fewer")
    return text


def _fits(text: str) -> str:
    if len(text) > LETTERS_IN_A_TEXT:
        raise wrong(f"a text of {len(text)} letters", f"Write {LETTERS_IN_A_TEXT} or fewer")
    return text


def _by_side(given: Any) -> Any:
    if given is None or given == "":
        raise wrong("a text is missing", "Write one line of text, or one each under weaker: and stronger:")
    return given if isinstance(given, dict) else {"weaker": given, "stronger": given}


Plain = Annotated[Line, AfterValidator(_no_braces), AfterValidator(_fits)]
Numbered = Annotated[Line, AfterValidator(_one_number), AfterValidator(_fits)]
Name = Annotated[Plain, AfterValidator(_a_name)]


class BySide(Shape):
    """A text for each side."""

    weaker: Plain
    stronger: Plain


class NumberedBySide(Shape):
    """The same, with the number of the plan in it."""

    weaker: Numbered
    stronger: Numbered


class FormWordsShape(Shape):
    """The words of one form. `short` is all of it in one line; `do` is what is done and counted."""

    name: Name
    setup: Annotated[BySide, BeforeValidator(_by_side)]
    short: Annotated[NumberedBySide, BeforeValidator(_by_side)]
    do: Numbered | None = None
    carer: Plain


class WordsShape(Shape):
    """The words of an exercise in one language, `forms` by the form's id."""

    name: Name
    notice: Plain
    normal: Plain
    stop: Plain
    caution: Plain
    forms: dict[Id, FormWordsShape]


def faults(page: Page, written: Mapping[str, WordsShape], sides: Sides, forms: Sequence[Form]) -> Iterator[Fault]:
    """Where the words do not fit their exercise: a form without words, words without a form, a side that is not told."""
    known = {form.id: form for form in forms}
    for language, words in written.items():
        loc: Loc = ("words", language, "forms")
        for name in known:
            if name not in words.forms:
                yield page.fault(loc, f'the form "{name}" has no words', f'Write "{name}:" with its words under forms')
        for name, of_form in words.forms.items():
            if name in known:
                yield from _form_faults(page, (*loc, name), of_form, known[name])
                yield from _side_faults(page, (*loc, name), of_form, sides)
                continue
            near = difflib.get_close_matches(name, known, n=1)
            yield page.fault((*loc, name), f'there is no form "{name}"', f'Write "{(near or list(known))[0]}"')


def _form_faults(page: Page, loc: Loc, words: FormWordsShape, form: Form) -> Iterator[Fault]:
    if form.measure is Measure.COUNTED and words.do is None:
        yield page.fault(loc, 'a counted form needs "do", what is done and counted', f"Write do: with {TARGET} in it")
    if form.measure is Measure.TIMED and words.do is not None:
        yield page.fault((*loc, "do"), "a timed form counts nothing", "Take do out, and say it in setup")


def _side_faults(page: Page, loc: Loc, words: FormWordsShape, sides: Sides) -> Iterator[Fault]:
    if sides is not Sides.NONE and words.setup.weaker == words.setup.stronger:
        yield page.fault((*loc, "setup"), "the set-up is the same for both sides", "Write weaker: and stronger: under it")
    for part, text in (("setup", words.setup), ("short", words.short)):
        if sides is Sides.NONE and text.weaker != text.stronger:
            yield page.fault((*loc, part), "the exercise has no sides, and this text has", "Write one text, or mend sides:")
