"""Switches one safety control off, for one run of the tests: a line of the program or of its content is replaced as it is read.

`SWITCHED_OFF` in the environment names the control; `switches.yaml` says in which file, what stands there, and what shall stand
there instead. The files themselves stay as they are.
"""

import os
import shutil
import sys
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from importlib.abc import MetaPathFinder
from importlib.machinery import ModuleSpec, PathFinder, SourceFileLoader
from pathlib import Path
from types import ModuleType

import yaml

from tests.hazards.driver import VARIABLE

ROOT = Path(__file__).resolve().parents[2]
FILE = Path(__file__).with_name("switches.yaml")


@dataclass(frozen=True)
class Switch:
    """How a control is switched off: in `file`, `old` (which stands there once) becomes `new`."""

    control: str
    file: str
    old: str
    new: str

    def turned(self, text: str) -> str:
        """The text with the control off. AssertionError if what it replaces is not there once."""
        assert text.count(self.old) == 1, f"{self.file} has {self.old!r} {text.count(self.old)} times, not once"
        return text.replace(self.old, self.new)


def switches() -> dict[str, Switch]:
    """All switches, by control."""
    return {control: Switch(control, **how) for control, how in yaml.safe_load(FILE.read_text(encoding="utf-8")).items()}


def switch_off() -> None:
    """Switch off what the environment names; nothing without a name. Called before anything of the companion is imported."""
    control = os.environ.get(VARIABLE)
    if not control:
        return
    switch = switches()[control]
    if switch.file.startswith("content/"):
        _in_content(switch)
    else:
        _in_program(switch)


def _in_content(switch: Switch) -> None:
    from companion.content import folders  # nothing of the companion is imported before a switch in it is set

    copied = Path(tempfile.mkdtemp()) / "content"
    shutil.copytree(ROOT / "content", copied)
    path = copied / switch.file.removeprefix("content/")
    path.write_text(switch.turned(path.read_text(encoding="utf-8")), encoding="utf-8")
    own = folders._own
    folders._own = lambda name: copied if name == "content" else own(name)


class _Loader(SourceFileLoader):
    switch: Switch

    def get_code(self, fullname: str) -> object:  # type: ignore[override]
        source = Path(self.path).read_text(encoding="utf-8")
        return compile(self.switch.turned(source), self.path, "exec")


def _in_program(switch: Switch) -> None:
    name = switch.file.removesuffix(".py").replace("/", ".")
    assert name not in sys.modules, f"{name} is imported already"

    class Finder(MetaPathFinder):
        def find_spec(self, fullname: str, path: Sequence[str] | None, target: ModuleType | None = None) -> ModuleSpec | None:
            if fullname != name:
                return None
            spec = PathFinder.find_spec(fullname, path)
            assert spec is not None and spec.origin is not None
            loader = _Loader(fullname, spec.origin)
            loader.switch = switch
            spec.loader = loader
            return spec

    sys.meta_path.insert(0, Finder())
