"""Makes texts of the words in exercises' own files: `ex-NAME` and `form-NAME-FORM`, as if they stood in a .ftl file.

Each keeps the line it is written on, so that a fault in it is told there.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from fluent.syntax import ast
from pydantic import BaseModel

from companion.content.own_words import TARGET, BySide, NumberedBySide, WordsShape
from companion.content.yaml_lines import Loc, Page, parse, read
from companion.errors import FoundWrong

ABOUT_EXERCISE = ("notice", "normal", "stop", "caution")
ABOUT_FORM = ("setup", "short", "do", "carer")
_Entry = ast.Message | ast.Term | ast.Comment | ast.GroupComment | ast.ResourceComment | ast.Junk
_HAS_WORDS = re.compile(r"^words\s*:", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class OwnTexts:
    """The texts of one file in one language; `line` is where they begin. What has a span points into `text`, the file."""

    path: Path
    language: str
    line: int
    text: str
    resource: ast.Resource


def key_of(*names: str) -> str:
    """A key from names: `_` becomes `-`, as Fluent wants it. ("ex", "heel_to_toe") -> "ex-heel-to-toe"."""
    return "-".join(names).replace("_", "-")


def read_own(exercises: Path) -> Iterator[OwnTexts]:
    """The texts in that folder of exercises. What does not fit is left out: who reads the exercises tells its faults."""
    for path in sorted(exercises.glob("*.yaml")):
        try:
            text = path.read_text(encoding="utf-8")
            page = read(path) if _HAS_WORDS.search(text) else None
        except (OSError, UnicodeDecodeError, FoundWrong):
            continue
        given = page.data.get("words") if page is not None and isinstance(page.data, dict) else None
        if page is None or not isinstance(given, dict):
            continue
        for language, words in given.items():
            try:
                shape = parse(Page(page.where, words, {}), WordsShape)
            except FoundWrong:
                continue
            loc = ("words", language)
            yield OwnTexts(path, language, page.line(loc), text, _Writer(page, text, loc).write(path.stem, shape))


class _Writer:
    """Writes the texts of one language."""

    def __init__(self, page: Page, text: str, loc: Loc) -> None:
        self._page, self._loc = page, loc
        self._line_starts = [0, *(found.end() for found in re.finditer("\n", text))]

    def write(self, exercise: str, words: WordsShape) -> ast.Resource:
        """All of them."""
        messages: list[_Entry] = [self._message(key_of("ex", exercise), words, ABOUT_EXERCISE, ())]
        for name, form in words.forms.items():
            messages.append(self._message(key_of("form", exercise, name), form, ABOUT_FORM, ("forms", name)))
        return ast.Resource(messages)

    def _message(self, key: str, words: BaseModel, parts: Iterable[str], loc: Loc) -> ast.Message:
        given = {part: getattr(words, part) for part in ("name", *parts)}
        patterns = {part: _pattern(text) for part, text in given.items() if text is not None}
        name = patterns.pop("name")
        told = [ast.Attribute(ast.Identifier(part), pattern) for part, pattern in patterns.items()]
        for attribute in told:
            attribute.span = self._span((*loc, attribute.id.name))
        message = ast.Message(ast.Identifier(key), name, told)
        message.span = self._span((*loc, "name"))
        return message

    def _span(self, loc: Loc) -> ast.Span:
        start = self._line_starts[self._page.line((*self._loc, *loc)) - 1]
        return ast.Span(start, start)


def _pattern(text: str | BySide | NumberedBySide) -> ast.Pattern:
    if isinstance(text, str):
        return _plain(text)
    if text.weaker == text.stronger:
        return _plain(text.weaker)
    variants = [
        ast.Variant(ast.Identifier("weaker"), _plain(text.weaker)),
        ast.Variant(ast.Identifier("stronger"), _plain(text.stronger), default=True),
    ]
    side = ast.VariableReference(ast.Identifier("side"))
    return ast.Pattern([ast.Placeable(ast.SelectExpression(side, variants))])


def _plain(text: str) -> ast.Pattern:
    elements: list[ast.TextElement | ast.Placeable] = []
    for place, piece in enumerate(text.split(TARGET)):
        if place:
            elements.append(ast.Placeable(ast.VariableReference(ast.Identifier("target"))))
        if piece:
            elements.append(ast.TextElement(piece))
    return ast.Pattern(elements)
