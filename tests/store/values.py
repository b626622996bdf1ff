"""Values of any of the core's shapes, by type hints alone: random ones for Hypothesis, and one with everything in it."""

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from datetime import UTC, date, datetime, time, timedelta, timezone
from enum import Enum
from functools import cache
from types import NoneType, UnionType
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

from hypothesis import strategies as st

FEW = 2
OFFSETS = st.integers(-14 * 60, 14 * 60).map(lambda minutes: timezone(timedelta(minutes=minutes)))

# Naive, as Hypothesis wants its bounds: the time zone is drawn apart.
FIRST, LAST = datetime(2000, 1, 3), datetime(2100, 1, 1)  # noqa: DTZ001

PLAIN: dict[Any, st.SearchStrategy[Any]] = {
    str: st.text(st.characters(), max_size=8),
    int: st.integers(-(2**63), 2**63),
    float: st.floats(allow_nan=False, allow_infinity=False),
    bool: st.booleans(),
    NoneType: st.none(),
    datetime: st.datetimes(FIRST, LAST, timezones=OFFSETS),
    date: st.dates(),
    time: st.times(),
}

FULL: dict[Any, Any] = {
    str: "text",
    int: 3,
    float: 12.5,
    bool: True,
    datetime: datetime(2026, 11, 23, 9, 30, 15, 250000, tzinfo=UTC),
    date: date(2026, 11, 23),
    time: time(9, 30),
}


def members(hint: Any) -> tuple[Any, ...]:
    """The members of a union; a single shape is a union of itself."""
    return get_args(hint) if get_origin(hint) in (Union, UnionType) else (hint,)


@cache
def values(hint: Any) -> st.SearchStrategy[Any]:
    """Any value of that shape, small."""
    return PLAIN[hint] if hint in PLAIN else st.deferred(lambda: _values(hint))


def _values(hint: Any) -> st.SearchStrategy[Any]:
    origin, inner = get_origin(hint), get_args(hint)
    if len(members(hint)) > 1:
        return st.one_of(*(values(member) for member in inner))
    if origin is Literal:
        return st.sampled_from(inner)
    if origin is tuple and inner[-1] is Ellipsis:
        return st.lists(values(inner[0]), max_size=FEW).map(tuple)
    if origin is tuple:
        return st.tuples(*(values(member) for member in inner))
    if origin is frozenset:
        return st.frozensets(values(inner[0]), max_size=FEW)
    if origin is Mapping:
        return st.dictionaries(values(inner[0]), values(inner[1]), max_size=FEW)
    if is_dataclass(hint):
        hints = get_type_hints(hint)
        return st.builds(hint, **{field.name: values(hints[field.name]) for field in fields(hint)})  # type: ignore[arg-type]
    assert issubclass(hint, Enum), hint
    return st.sampled_from(list(hint))


@cache
def full(hint: Any) -> Any:
    """One value of that shape with nothing left out: a tuple of a union has one of each, an optional part is there."""
    if hint in FULL:
        return FULL[hint]
    origin, inner = get_origin(hint), get_args(hint)
    if len(members(hint)) > 1:
        return full(inner[0])
    if origin is Literal:
        return inner[0]
    if origin is tuple and inner[-1] is Ellipsis:
        return tuple(full(member) for member in members(inner[0]))
    if origin is tuple:
        return tuple(full(member) for member in inner)
    if origin is frozenset:
        return frozenset(full(member) for member in members(inner[0]))
    if origin is Mapping:
        return {full(inner[0]): full(inner[1])}
    if is_dataclass(hint):
        hints = get_type_hints(hint)
        return hint(**{field.name: full(hints[field.name]) for field in fields(hint)})  # type: ignore[operator]
    assert issubclass(hint, Enum), hint
    return next(iter(hint))


def different(one: Any, other: Any, at: str = "$") -> list[str]:
    """Where two values are not the same, in type too: an enum's member equals its text, but is not it."""
    if type(one) is not type(other):
        return [f"{at}: {one!r} is not {other!r}"]
    if is_dataclass(one):
        pairs = [(f".{field.name}", getattr(one, field.name), getattr(other, field.name)) for field in fields(one)]
    elif isinstance(one, tuple) and len(one) == len(other):
        pairs = [(f"[{index}]", *pair) for index, pair in enumerate(zip(one, other, strict=True))]
    else:
        return [] if one == other else [f"{at}: {one!r} is not {other!r}"]
    return [fault for name, first, second in pairs for fault in different(first, second, at + name)]
