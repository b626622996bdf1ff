"""How the code is written: sizes, names, docstrings, no sleeping in tests."""

import ast
from collections.abc import Iterator
from pathlib import Path

from tests.architecture.sources import CODE, name_of, tree_of

LINES_OF_A_MODULE = 500
LINES_OF_A_FUNCTION = 80
PARAMETERS = 6
NAMES_THAT_SAY_NOTHING = {"base", "common", "helper", "helpers", "manager", "managers", "util", "utils"}

Function = ast.FunctionDef | ast.AsyncFunctionDef


def functions_of(path: Path) -> Iterator[Function]:
    return (node for node in ast.walk(tree_of(path)) if isinstance(node, Function))


def parameters_of(function: Function) -> list[str]:
    """The names of the parameters, without the self or cls of a method."""
    told = function.args
    names = [one.arg for one in (*told.posonlyargs, *told.args, *told.kwonlyargs)]
    return [name for name in names if name not in {"self", "cls"}]


def test_no_module_is_longer_than_500_lines() -> None:
    lengths = {name_of(path): len(path.read_text(encoding="utf-8").splitlines()) for path in CODE}
    assert {name: length for name, length in lengths.items() if length > LINES_OF_A_MODULE} == {}


def test_no_function_is_longer_than_80_lines() -> None:
    lengths = {
        f"{name_of(path)}:{one.lineno} {one.name}": (one.end_lineno or one.lineno) - one.lineno + 1
        for path in CODE
        for one in functions_of(path)
    }
    assert {name: length for name, length in lengths.items() if length > LINES_OF_A_FUNCTION} == {}


def test_no_function_has_more_than_six_parameters() -> None:
    counts = {
        f"{name_of(path)}:{one.lineno} {one.name}": len(parameters_of(one)) for path in CODE for one in functions_of(path)
    }
    assert {name: count for name, count in counts.items() if count > PARAMETERS} == {}


def test_every_module_has_a_name_that_says_something() -> None:
    words = {name_of(path): set(name_of(path).removesuffix(".py").split("/")) for path in CODE}
    assert [name for name, parts in words.items() if parts & NAMES_THAT_SAY_NOTHING] == []


def test_every_module_says_what_it_is_for() -> None:
    assert [name_of(path) for path in CODE if not ast.get_docstring(tree_of(path))] == []


def test_no_test_sleeps() -> None:
    """A zero is no sleep: it only lets others run. Benchmarks are run by hand and may wait."""
    told = [
        f"{name_of(path)}:{call.lineno}"
        for path in CODE
        if name_of(path).startswith("tests/") and "benchmarks" not in path.parts
        for call in ast.walk(tree_of(path))
        if isinstance(call, ast.Call)
        and ast.unparse(call.func) in {"time.sleep", "asyncio.sleep", "sleep"}
        and ast.unparse(call).partition("(")[2] != "0)"
    ]
    assert told == []
