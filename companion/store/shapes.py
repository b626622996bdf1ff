"""A strict converter between the core's values and what JSON knows.

It goes by type hints alone: frozen dataclasses, told apart in a union by their `kind`; enums, tuples, frozensets,
mappings, moments (aware, kept in UTC), dates, times of day, numbers, text. Nothing is guessed: `"5"` is no number and
`5` no text.
"""

from collections.abc import Callable
from dataclasses import fields, is_dataclass
from datetime import UTC, date, datetime, time
from enum import IntEnum, StrEnum
from types import GenericAlias, NoneType, UnionType
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

import cattrs
from cattrs.cols import homogenous_tuple_structure_factory
from cattrs.gen import make_dict_structure_fn, make_dict_unstructure_fn, make_hetero_tuple_structure_fn

Structure = Callable[[Any, Any], Any]
Unstructure = Callable[[Any], Any]


def converter() -> cattrs.Converter:
    """A new converter. Loading raises cattrs' validation errors, which know the path."""
    made = cattrs.Converter(forbid_extra_keys=True, detailed_validation=True)
    for kind in (str, int, float, bool):
        made.register_structure_hook(kind, _only(kind))
    # else the hooks of text and numbers would also take the enums that are text or numbers, and leave them so
    made.register_structure_hook(StrEnum, _member(str))
    made.register_structure_hook(IntEnum, _member(int))
    made.register_structure_hook(datetime, _moment)
    made.register_structure_hook(date, _from_text(date.fromisoformat))
    made.register_structure_hook(time, _from_text(time.fromisoformat))
    made.register_unstructure_hook(datetime, _moment_text)
    made.register_unstructure_hook(date, date.isoformat)
    made.register_unstructure_hook(time, time.isoformat)
    made.register_structure_hook_factory(_is_shape, _from_keys)
    made.register_unstructure_hook_factory(_is_shape, _to_keys)
    made.register_structure_hook_factory(_is_collection, _listed)
    made.register_unstructure_hook_factory(lambda shape: _origin(shape) is frozenset, _sorted)
    made.register_structure_hook_factory(_is_union, _told_apart)
    made.register_unstructure_hook_factory(_is_union, lambda _shape: made.unstructure)
    return made


def faults(error: Exception) -> str:
    """What did not fit and where, from the root `$`, in one line."""
    return "; ".join(cattrs.transform_error(error, format_exception=_plainly))


def _plainly(error: BaseException, _shape: type | None) -> str:
    match error:
        case cattrs.ForbiddenExtraKeysError():
            return "unknown " + ", ".join(sorted(error.extra_fields))
        case KeyError():
            return f"missing {error.args[0]}"
        case _:
            return str(error)


def _origin(shape: Any) -> Any:
    return get_origin(shape) or shape


def _is_union(shape: Any) -> bool:
    return get_origin(shape) in (Union, UnionType)


def _is_collection(shape: Any) -> bool:
    return get_origin(shape) in (tuple, frozenset)


def _is_shape(shape: Any) -> bool:
    return isinstance(shape, type) and is_dataclass(shape)


def _resolved(shape: type) -> type:
    """The dataclass with its hints resolved: a name inside `tuple["Words", ...]` is still text: it came too early."""
    hints = get_type_hints(shape)
    for field in fields(shape):
        field.type = hints[field.name]
    return shape


def _from_keys(shape: type, made: cattrs.Converter) -> Structure:
    return make_dict_structure_fn(_resolved(shape), made, _cattrs_forbid_extra_keys=True)


def _to_keys(shape: type, made: cattrs.Converter) -> Unstructure:
    return make_dict_unstructure_fn(_resolved(shape), made)


def _only(kind: type) -> Structure:
    """Takes a value of exactly this kind; a whole number may stand for a float."""
    accepted = (int, float) if kind is float else (kind,)

    def take(value: Any, _shape: Any) -> Any:
        if type(value) not in accepted:
            raise ValueError(f"{value!r} is not of type {kind.__name__}")
        return kind(value)

    return take


def _member(kind: type) -> Structure:
    """Takes the value of a member of the enum."""

    def take(value: Any, shape: Any) -> Any:
        if type(value) is not kind:
            raise ValueError(f"{value!r} is not of type {kind.__name__}")
        return shape(value)

    return take


def _from_text(read: Callable[[str], Any]) -> Structure:
    def take(value: Any, _shape: Any) -> Any:
        if not isinstance(value, str):
            raise ValueError(f"{value!r} is not a date or time")
        return read(value)

    return take


def _moment(value: Any, _shape: Any) -> datetime:
    moment = datetime.fromisoformat(value) if isinstance(value, str) else None
    if moment is None or moment.tzinfo is None:
        raise ValueError(f"{value!r} is not a moment with a time zone")
    return moment.astimezone(UTC)


def _moment_text(moment: datetime) -> str:
    if moment.tzinfo is None:
        raise ValueError(f"{moment} has no time zone, so it is no moment")
    return moment.astimezone(UTC).isoformat()


def _listed(shape: Any, made: cattrs.BaseConverter) -> Structure:
    """A tuple or a frozenset comes from a list and from nothing else: text is not a list of letters."""
    members = get_args(shape)
    build: Structure
    if get_origin(shape) is frozenset:
        build = homogenous_tuple_structure_factory(_tuple_of(members[0]), made)
    elif members[-1] is Ellipsis:
        build = homogenous_tuple_structure_factory(shape, made)
    else:
        build = make_hetero_tuple_structure_fn(shape, made)
    collect = get_origin(shape)

    def take(value: Any, _shape: Any) -> Any:
        if not isinstance(value, list):
            raise ValueError(f"{value!r} is not a list")
        return collect(build(value, _shape))

    return take


def _tuple_of(member: Any) -> Any:
    return GenericAlias(tuple, (member, ...))


def _sorted(_shape: Any, made: cattrs.BaseConverter) -> Unstructure:
    """A frozenset as a sorted list, so that equal values have equal records."""
    return lambda members: sorted(made.unstructure(member) for member in members)


def _told_apart(union: Any, made: cattrs.BaseConverter) -> Structure:
    """A union: null, dataclasses by their `kind` (a single one needs none), anything else by its type.

    The members' hooks are looked up when first needed, for a shape may contain itself.
    """
    members = get_args(union)
    shapes = {_kind(member): member for member in members if _is_shape(member)}
    plain = [member for member in members if member is not NoneType and not _is_shape(member)]
    nothing = NoneType in members
    hooks: dict[Any, Structure] = {}

    def member_for(value: Any) -> Any:
        if isinstance(value, dict) and shapes:
            if len(shapes) == 1:
                return next(iter(shapes.values()))
            kind = value.get("kind")
            if kind not in shapes:
                raise ValueError(f"kind {kind!r} is none of {', '.join(sorted(map(str, shapes)))}")
            return shapes[kind]
        fitting = plain if len(plain) == 1 else [member for member in plain if member is type(value)]
        if not fitting:
            raise ValueError(f"{value!r} fits nothing here")
        return fitting[0]

    def take(value: Any, _shape: Any) -> Any:
        if value is None and nothing:
            return None
        member = member_for(value)
        if member not in hooks:
            hooks[member] = made.get_structure_hook(member)
        return hooks[member](value, member)

    return take


def _kind(shape: Any) -> str | None:
    """The `kind` that a dataclass always has, None if it has none."""
    if "kind" not in {field.name for field in fields(shape)}:
        return None
    hint = get_type_hints(shape)["kind"]
    return str(get_args(hint)[0]) if get_origin(hint) is Literal else None
