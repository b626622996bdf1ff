"""The example of an own exercise, as the README shows it."""

import re
from pathlib import Path

from tests.architecture.sources import ROOT

NAME = "weight_forward"


def example() -> str:
    """The whole file."""
    found = re.search(r"<!-- exercise -->\n```yaml\n(.*?)```\n", (ROOT / "README.md").read_text(encoding="utf-8"), re.DOTALL)
    assert found is not None, "the README has no example of an exercise"
    return found[1]


def write(folder: Path, old: str = "", new: str = "", name: str = NAME) -> Path:
    """Write it into a folder, with `old` replaced once by `new`."""
    text = example()
    assert old in text, f"the example has no {old!r}"
    path = folder / f"{name}.yaml"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    return path


def line_of(path: Path, part: str) -> int:
    """The line, from 1, on which `part` first stands."""
    lines = path.read_text(encoding="utf-8").splitlines()
    return next(number for number, line in enumerate(lines, 1) if part in line)
