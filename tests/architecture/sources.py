"""The repository as text and as syntax trees, for the tests that judge how it is written."""

import ast
import functools
import subprocess
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parents[2]
CODE = tuple(sorted(path for folder in ("companion", "tests") for path in (ROOT / folder).rglob("*.py")))


def name_of(path: Path) -> str:
    """The path as written in a message: from the top of the repository."""
    return path.relative_to(ROOT).as_posix()


@functools.cache
def tree_of(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"), filename=name_of(path))


def imports_of(path: Path) -> Iterator[tuple[int, str]]:
    """Line and full dotted name of everything that a module imports, relative names made absolute.

    `from a import b` gives `a.b`: whether b is a module or a name in one can not be told from the text.
    """
    package = path.relative_to(ROOT).parent.parts
    for node in ast.walk(tree_of(path)):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            above = package[: len(package) - node.level + 1] if node.level else ()
            origin = ".".join([*above, *([node.module] if node.module else [])])
            yield from ((node.lineno, f"{origin}.{alias.name}") for alias in node.names)


def files_kept() -> list[Path]:
    """What git keeps, or would keep at the next commit. Raises CalledProcessError outside a checkout."""
    told = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT,
        check=True,
        capture_output=True,
        text=True,
    )
    paths = (ROOT / name for name in told.stdout.split("\0") if name)
    return sorted(path for path in paths if path.is_file())
