"""YAML with the line of every value, so that a fault can say where it is.

A small, plain YAML is read: text, whole numbers, yes/no, lists and mappings. Nothing becomes a date, a fraction or a
base-60 number behind the writer's back (`10:30` stays text), and there are no anchors and no merges. The shape of a
file is a `Shape` (a pydantic model); what does not fit becomes a `Fault` with file, line and what to do.
"""

import difflib
import re
import reprlib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Any, TypeVar

import yaml
from pydantic import AfterValidator, BaseModel, ConfigDict, Strict, ValidationError, model_validator
from pydantic_core import ErrorDetails, PydanticCustomError

from companion.content.folders import shown
from companion.errors import Fault, FoundWrong

Loc = tuple[str | int, ...]
Value = None | bool | int | str | list[Any] | dict[str, Any]

QUOTES = "a text with : or #, or that begins with {, goes in quotes"

Whole = Annotated[int, Strict()]
Switch = Annotated[bool, Strict()]


def wrong(what: str, do: str) -> PydanticCustomError:
    """What a validator of a shape raises: what is wrong, and what to do."""
    return _custom(what, do)


def _an_id(text: str) -> str:
    if not re.fullmatch(r"[a-z][a-z0-9]*(_[a-z0-9]+)*", text) or len(text) > 32:
        raise wrong(f"{text!r} is not an id", "Use small letters and digits, words joined by _, at most 32 in all")
    return text


def _a_line(text: str) -> str:
    if not text.strip() or len(text) > 200 or not text.isprintable():
        raise wrong("one line of text is wanted here", "Write 1 to 200 letters on one line")
    return text.strip()


Id = Annotated[str, Strict(), AfterValidator(_an_id)]
Line = Annotated[str, Strict(), AfterValidator(_a_line)]


class _PlainLoader(yaml.SafeLoader):
    """Only text, whole numbers, yes/no and nothing are told apart."""

    yaml_implicit_resolvers: dict[str, Any] = {}  # noqa: RUF012 (PyYAML's own way to say it)

    def compose_node(self, parent: yaml.Node | None, index: int) -> yaml.Node | None:
        """As PyYAML does it, without aliases."""
        if self.check_event(yaml.AliasEvent):
            mark = self.peek_event().start_mark  # type: ignore[no-untyped-call]
            raise yaml.MarkedYAMLError(problem="an alias (*name) is not used here", problem_mark=mark)
        return super().compose_node(parent, index)


_PlainLoader.add_implicit_resolver("tag:yaml.org,2002:null", re.compile(r"^(~|null|)$"), ["~", "n", ""])
_PlainLoader.add_implicit_resolver("tag:yaml.org,2002:bool", re.compile(r"^(true|false|yes|no)$"), list("tfyn"))
_PlainLoader.add_implicit_resolver("tag:yaml.org,2002:int", re.compile(r"^-?(0|[1-9][0-9]{0,17})$"), list("-0123456789"))


@dataclass(frozen=True, slots=True)
class Page:
    """One file: its values, and the line (from 1) of each, by the path of keys and positions that leads to it."""

    where: str
    data: Value
    lines: Mapping[Loc, int]

    def line(self, loc: Loc) -> int:
        """The line of that value, or of the nearest thing around it that is there."""
        while loc not in self.lines and loc:
            loc = loc[:-1]
        return self.lines.get(loc, 1)

    def fault(self, loc: Loc, what: str, do: str) -> Fault:
        """A fault at that value."""
        return Fault(self.where, self.line(loc), what, do)


class Shape(BaseModel):
    """The shape of a mapping. Unknown keys are refused by name, with the key that was probably meant."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    @model_validator(mode="before")
    @classmethod
    def _keys_are_known(cls, data: Any) -> Any:
        if not isinstance(data, dict):
            raise _custom("keys are wanted here", f"Write the keys {_listed(cls.model_fields)}, each with its value")
        for key in data:
            if key not in cls.model_fields:
                near = difflib.get_close_matches(str(key), cls.model_fields, n=1)
                do = f'Write "{near[0]}"' if near else f"Remove it; the keys here are {_listed(cls.model_fields)}"
                raise _custom(f'the key "{key}" is not known here', do, key)
        return data


S = TypeVar("S", bound=Shape)


def read(path: Path) -> Page:
    """The file as a page. Raises FoundWrong: not there, not text, not YAML, a key twice."""
    where = shown(path)
    try:
        text = path.read_text(encoding="utf-8")
    except FileNotFoundError:
        raise FoundWrong([Fault(where, None, "the file is not there", "Write it, or name another file")]) from None
    except (OSError, UnicodeDecodeError) as error:
        what = "the file can not be read as UTF-8 text"
        raise FoundWrong([Fault(where, None, what, f"Look at the file ({error.__class__.__name__})")]) from None
    return _page(where, text)


def parse(page: Page, shape: type[S]) -> S:
    """The page as a value of that shape. Raises FoundWrong with every fault of the page."""
    try:
        return shape.model_validate(page.data)
    except ValidationError as error:
        raise FoundWrong(dict.fromkeys(_fault(page, detail) for detail in error.errors(include_url=False))) from None


def _page(where: str, text: str) -> Page:
    lines: dict[Loc, int] = {}
    try:
        node = yaml.compose(text, Loader=_PlainLoader)
        data = None if node is None else _value(node, (), lines)
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        problem = error.problem or error.context or ""
        line = None if mark is None else mark.line + 1
        do = "Mend the line: indent with spaces, without the tab key" if r"'\t'" in problem else f"Mend the line; {QUOTES}"
        raise FoundWrong([Fault(where, line, f"this is not YAML as it is used here: {problem}", do)]) from None
    except yaml.YAMLError as error:
        what = f"this is not YAML: {str(error).splitlines()[0]}"
        raise FoundWrong([Fault(where, None, what, f"Mend the file; {QUOTES}")]) from None
    except RecursionError:
        raise FoundWrong([Fault(where, None, "the file is nested too deeply", "Write it flatter")]) from None
    return Page(where, data, lines)


def _value(node: yaml.Node, loc: Loc, lines: dict[Loc, int]) -> Value:
    # A mapping starts on the line of its first key, which is where a reader looks; setdefault keeps a key's own line.
    lines.setdefault(loc, node.start_mark.line + 1)
    if isinstance(node, yaml.MappingNode):
        return _mapping(node, loc, lines)
    if isinstance(node, yaml.SequenceNode):
        return [_value(item, (*loc, place), lines) for place, item in enumerate(node.value)]
    kind = node.tag.rpartition(":")[2]
    if kind == "null":
        return None
    if kind == "bool":
        return node.value in {"true", "yes"}
    return int(node.value) if kind == "int" else str(node.value)


def _mapping(node: yaml.MappingNode, loc: Loc, lines: dict[Loc, int]) -> dict[str, Value]:
    found: dict[str, Value] = {}
    for key_node, value_node in node.value:
        mark = key_node.start_mark
        if not isinstance(key_node, yaml.ScalarNode):
            raise yaml.MarkedYAMLError(problem="a key must be a word", problem_mark=mark)
        key = str(key_node.value)
        if key in found:
            raise yaml.MarkedYAMLError(problem=f'the key "{key}" is here twice', problem_mark=mark)
        lines[(*loc, key)] = mark.line + 1
        found[key] = _value(value_node, (*loc, key), lines)
    return found


def _custom(what: str, do: str, key: str | None = None) -> PydanticCustomError:
    return PydanticCustomError("fault", "{what}", {"what": what, "do": do, "key": key})


def _fault(page: Page, detail: ErrorDetails) -> Fault:
    loc, context = detail["loc"], detail.get("ctx", {})
    if detail["type"] == "fault":
        if context["key"] is not None:
            loc = (*loc, context["key"])
        return page.fault(loc, context["what"], context["do"])
    name = next((f'"{part}"' for part in reversed(loc) if isinstance(part, str)), "the file")
    what, do = _plainly(detail["type"], name, context)
    given = detail["input"]
    if detail["type"] != "missing" and isinstance(given, str | int):
        what = f"{what}, not {reprlib.repr(given)}"
    return page.fault(loc, what, do)


def _plainly(kind: str, name: str, context: Mapping[str, Any]) -> tuple[str, str]:
    match kind:
        case "missing":
            return f"{name} is missing", "Add it"
        case "enum" | "literal_error":
            return f"{name} must be one of those known", f"Use {context['expected']}"
        case "int_type":
            return f"{name} must be a whole number", "Write it in digits"
        case "bool_type":
            return f"{name} must be yes or no", "Write yes or no"
        case "string_type":
            return f"{name} must be text", "Put it in quotes"
        case "greater_than_equal":
            return f"{name} must be {context['ge']} or more", f"Use {context['ge']} or more"
        case "less_than_equal":
            return f"{name} must be {context['le']} or less", f"Use {context['le']} or less"
        case "tuple_type" | "list_type":
            return f"{name} must be a list", "Write [one, two], or one item to a line after a dash"
        case "dict_type":
            return f"{name} must be keys with values", "Write each on a line of its own under it, as KEY: value"
        case "too_short":
            return f"{name} needs {context['min_length']} or more", "Add what is missing"
        case _:
            return f"{name} does not fit ({kind.replace('_', ' ')})", "Compare with the file of another exercise or client"


def _listed(names: Mapping[str, object]) -> str:
    return ", ".join(names)
