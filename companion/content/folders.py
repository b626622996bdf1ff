"""Where content/ and demo_scenarios/ are: a checkout uses its own folders, a wheel carries them as `companion/_data`."""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parents[1]


def content_dir(chosen: Path | None = None) -> Path:
    """The folder of content: the chosen one, else the one that came with this installation."""
    return chosen if chosen is not None else _own("content")


def scenarios_dir(chosen: Path | None = None) -> Path:
    """The folder of demo scenarios: the chosen one, else the one that came with this installation."""
    return chosen if chosen is not None else _own("demo_scenarios")


def folder_of_tests() -> Path | None:
    """The folder of tests beside a checkout's program; None where it is installed without."""
    tests = _PACKAGE.parent / "tests"
    return tests if tests.is_dir() and not (_PACKAGE / "_data").is_dir() else None


def shown(path: Path) -> str:
    """A path as a person would write it here: relative to the working directory where it lies inside."""
    try:
        return str(path.resolve().relative_to(Path.cwd()))
    except ValueError:
        return str(path)


def _own(name: str) -> Path:
    inside = _PACKAGE / "_data"
    return (inside if inside.is_dir() else _PACKAGE.parent) / name
