"""The words, by language: `content/texts/<language>/*.ftl` (Fluent). Implements the runtime's `Renderer`.

Beside them, the words that an exercise carries in its own file, `content/exercises/*.yaml`.

Numbers come as strings, so that no locale puts a comma into them, and no invisible marks are put around what is
filled in. Beside a parameter that is a whole number, `$n`, a text may choose by `$n-plural` (zero, one, other, ...).
Whatever Fluent would forgive (junk, a message twice, a name that is not there, a missing parameter) is a fault
here: a text with a hole in it must not reach somebody who has to act on it.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import product
from pathlib import Path

from fluent.runtime import FluentBundle, FluentResource
from fluent.syntax import ast

from companion.content.folders import shown
from companion.content.own_texts import OwnTexts, key_of, read_own
from companion.core.effects import Words
from companion.errors import Fault, FoundWrong

__all__ = ["Source", "Texts", "key_of"]

Parsed = tuple[Path, str, ast.Resource]

_PLURAL = """
companion-plural-of = { $n ->
    [0] zero
    [zero] zero
    [one] one
    [two] two
    [few] few
    [many] many
   *[other] other
}
"""


@dataclass(frozen=True, slots=True)
class Source:
    """Where a text is written, and what is written."""

    path: Path
    line: int
    pattern: ast.Pattern


class Texts:
    """All the words there are. `languages` are the folders found."""

    def __init__(self, folder: Path) -> None:
        """Read every file, those of exercises beside `folder` too. Raises FoundWrong: no file, junk, a message twice, a
        reference to nothing, words in a language that there is not."""
        self._bundles: dict[str, FluentBundle] = {}
        self._sources: dict[str, dict[str, Source]] = {}
        faults: list[Fault] = []
        own = list(read_own(folder.parent / "exercises"))
        for path in sorted(path for path in folder.glob("*") if path.is_dir()):
            parsed = [*_parse(path, faults), *((one.path, one.text, one.resource) for one in own if one.language == path.name)]
            self._sources[path.name] = dict(_messages(parsed, faults))
            self._bundles[path.name] = _bundle(path, parsed, faults)
            faults += _dangling(self._sources[path.name])
        if not any(self._sources.values()):
            faults.append(Fault(shown(folder), None, "there are no texts here", "Name a folder with en/*.ftl"))
        else:
            faults += _unknown_languages(own, sorted(self._sources))
        if faults:
            raise FoundWrong(faults)

    @property
    def languages(self) -> tuple[str, ...]:
        """The languages there are."""
        return tuple(self._bundles)

    def text(self, words: Words, language: str) -> str:
        """The text in that language. Raises FoundWrong: no such language or key, or a parameter is missing."""
        bundle = self._bundles.get(language)
        source = self._sources.get(language, {}).get(words.key)
        if bundle is None or source is None:
            where = f"the texts in {language!r}"
            raise FoundWrong([Fault(where, None, f'there is no text "{words.key}"', "Write it")])
        filled: dict[str, str] = {}
        # a name given twice means its first value: what a text says for itself stands before what the moment adds
        for name, value in reversed(words.params):
            filled[name] = self.text(value, language) if isinstance(value, Words) else value
            if filled[name].isdecimal():
                filled[f"{name}-plural"] = _said(bundle, "companion-plural-of", {"n": int(filled[name])})[0]
        text, errors = _said(bundle, words.key, filled)
        if errors:
            what = f'the text "{words.key}" can not be filled in: {errors[0]}'
            do = "Mend the text, or pass the parameter"
            raise FoundWrong([Fault(shown(source.path), source.line, what, do)])
        return text

    def keys(self, language: str) -> Mapping[str, Source]:
        """Every key of a language, attributes as `message.attribute`, with where it is written."""
        return self._sources.get(language, {})

    def readings(self, key: str, language: str, filler: str = "7") -> tuple[str, ...]:
        """Every way the text can read: each variant of each choice, with `filler` for what is filled in."""
        sources = self._sources[language]
        return tuple(dict.fromkeys(_readings(sources[key].pattern, sources, filler)))

    def parameters(self, key: str, language: str) -> frozenset[str]:
        """The names of what is filled into a text, wherever in it and in the texts it refers to."""
        sources = self._sources[language]
        return frozenset(_parameters(sources[key].pattern, sources))


def _said(bundle: FluentBundle, key: str, filled: Mapping[str, str | int]) -> tuple[str, list[Exception]]:
    name, _, attribute = key.partition(".")
    message = bundle.get_message(name)
    pattern = message.attributes[attribute] if attribute else message.value
    if pattern is None:
        return "", [LookupError("the message has no value of its own")]
    text, errors = bundle.format_pattern(pattern, dict(filled))
    return str(text), errors


def _parse(folder: Path, faults: list[Fault]) -> Iterator[Parsed]:
    for path in sorted(folder.glob("*.ftl")):
        try:
            text = path.read_text(encoding="utf-8")
        except (OSError, UnicodeDecodeError) as error:
            do = f"Look at the file ({error.__class__.__name__})"
            faults.append(Fault(shown(path), None, "the file can not be read as UTF-8 text", do))
            continue
        yield path, text, FluentResource(text)


def _bundle(folder: Path, parsed: list[Parsed], faults: list[Fault]) -> FluentBundle:
    language = folder.name
    try:
        bundle = FluentBundle([language], use_isolating=False)
    except ValueError:
        what = f'"{language}" is not the name of a language'
        faults.append(Fault(shown(folder), None, what, "Name the folder like en, de or pt-BR"))
        bundle = FluentBundle(["en"], use_isolating=False)
    for _, _, resource in parsed:
        bundle.add_resource(resource)
    bundle.add_resource(FluentResource(_PLURAL))
    return bundle


def _messages(parsed: list[Parsed], faults: list[Fault]) -> Iterator[tuple[str, Source]]:
    seen: dict[str, str] = {}
    for path, text, resource in parsed:
        for entry in resource.body:
            line = _line(text, entry)
            if isinstance(entry, ast.Junk):
                why = entry.annotations[0].message if entry.annotations else "it does not read"
                faults.append(Fault(shown(path), line, f"this is not Fluent: {why}", "Mend the line"))
            if not isinstance(entry, ast.Message | ast.Term):
                continue
            name = f"-{entry.id.name}" if isinstance(entry, ast.Term) else entry.id.name
            if name in seen:
                what = f'"{name}" is also in {seen[name]}'
                faults.append(Fault(shown(path), line, what, "Keep one of them"))
                continue
            seen[name] = f"{shown(path)}:{line}"
            if entry.value is not None:
                yield name, Source(path, line, entry.value)
            for attribute in entry.attributes:
                yield f"{name}.{attribute.id.name}", Source(path, _line(text, attribute), attribute.value)


def _unknown_languages(own: list[OwnTexts], languages: list[str]) -> Iterator[Fault]:
    for one in own:
        if one.language not in languages:
            what = f'there are no texts in the language "{one.language}"'
            yield Fault(shown(one.path), one.line, what, f"Use {', '.join(languages)}")


def _line(text: str, node: ast.SyntaxNode) -> int:
    return text.count("\n", 0, node.span.start if node.span else 0) + 1


def _dangling(sources: Mapping[str, Source]) -> Iterator[Fault]:
    for source in sources.values():
        for name in _references(source.pattern):
            if name not in sources:
                do = "Write it, or mend the name in braces"
                yield Fault(shown(source.path), source.line, f'there is no text "{name}"', do)


def _references(node: object) -> Iterator[str]:
    if isinstance(node, ast.MessageReference | ast.TermReference):
        dash = "-" if isinstance(node, ast.TermReference) else ""
        yield f"{dash}{node.id.name}" + (f".{node.attribute.name}" if node.attribute else "")
    elif isinstance(node, ast.BaseNode):
        for value in vars(node).values():
            yield from _references(value)
    elif isinstance(node, list):
        for item in node:
            yield from _references(item)


def _parameters(node: object, sources: Mapping[str, Source]) -> Iterator[str]:
    if isinstance(node, ast.VariableReference):
        yield node.id.name
    elif isinstance(node, ast.MessageReference | ast.TermReference):
        yield from _parameters(sources[next(_references(node))].pattern, sources)
    elif isinstance(node, ast.BaseNode):
        for value in vars(node).values():
            yield from _parameters(value, sources)
    elif isinstance(node, list):
        for item in node:
            yield from _parameters(item, sources)


def _readings(pattern: ast.Pattern, sources: Mapping[str, Source], filler: str) -> Iterator[str]:
    parts = [_part(element, sources, filler) for element in pattern.elements]
    for chosen in product(*parts):
        yield "".join(chosen)


def _part(element: object, sources: Mapping[str, Source], filler: str) -> list[str]:
    match element:
        case ast.TextElement():
            return [element.value]
        case ast.Placeable():
            return _part(element.expression, sources, filler)
        case ast.SelectExpression():
            return [text for variant in element.variants for text in _readings(variant.value, sources, filler)]
        case ast.MessageReference() | ast.TermReference():
            return list(_readings(sources[next(_references(element))].pattern, sources, filler))
        case ast.StringLiteral():
            return [str(element.parse()["value"])]
        case _:
            return [filler]
