"""Every promise in DEVELOPERS.md names the test that keeps it, and the test is there."""

import ast
import re

import pytest

from tests.architecture.sources import ROOT

NAMED = re.compile(r"`(tests/[\w/]+\.py)(?:::(\w+))?`")


def rows() -> list[str]:
    """The rows of the table of promises."""
    page = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    table = page.split("<!-- promises -->")[1].split("<!-- /promises -->")[0]
    return [line for line in table.splitlines() if line.startswith("|")][2:]


def test_there_are_promises() -> None:
    assert len(rows()) >= 20


@pytest.mark.parametrize("row", rows(), ids=lambda row: row.split("|")[1].strip()[:60])
def test_a_promise_is_kept_by_a_test_that_exists(row: str) -> None:
    named = NAMED.findall(row)
    assert named, "no test is named"
    for file, test in named:
        tree = ast.parse((ROOT / file).read_text(encoding="utf-8"))
        tests = {one.name for one in ast.walk(tree) if isinstance(one, ast.FunctionDef | ast.AsyncFunctionDef)}
        assert any(name.startswith("test_") for name in tests), f"{file} has no test"
        assert not test or test in tests, f"{file} has no {test}"
