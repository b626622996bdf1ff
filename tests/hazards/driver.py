"""Runs proofs with a control off, each in a process of its own that begins where the imports of others are done.

What takes long at the start of a test run is not ours: pytest, its plugins, the database library and the like. So one process
imports all that once, forgets every module of ours again, and forks for each proof. A line in names a control (or none) and
proofs, a line out says what came of it, both as JSON. It is run as a file.
"""

import contextlib
import gc
import importlib
import io
import json
import os
import signal
import sys
import tempfile
from dataclasses import asdict, dataclass

import pytest

VARIABLE = "SWITCHED_OFF"
"""The variable of the environment that names the control which is off."""
MOST_S = 300
"""What takes longer than this is ended, by the alarm signal, which kills."""
_OF_OTHERS = ("hypothesis", "pytest_asyncio.plugin", "companion.app", "companion.rehearsal.player", "companion.reports.page")
_ARGUMENTS = ("-q", "-x", "-p", "no:cacheprovider", "-p", "no:xdist", "-p", "no:anyio", "--no-header", "--tb=line")


@dataclass(frozen=True, slots=True)
class Ended:
    """What came of proofs: how many of their cases passed, what was raised first and in which file ("" if nothing was), and
    what was printed."""

    passed: int
    raised: str
    where: str
    told: str


class _Watcher:
    """A plugin of pytest that counts what passed, and keeps what was raised first and where, also while tests are collected."""

    def __init__(self) -> None:
        self.passed = 0
        self.raised = ""
        self.where = ""

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        self.passed += report.when == "call" and report.passed

    def pytest_exception_interact(self, call: "pytest.CallInfo[object]") -> None:
        if call.excinfo is not None and not self.raised:
            self.raised = call.excinfo.typename
            self.where = str(call.excinfo.traceback[-1].path)


def _forget() -> None:
    for name in [name for name in sys.modules if name.partition(".")[0] in ("companion", "tests")]:
        del sys.modules[name]


def _prove(control: str | None, proofs: list[str]) -> Ended:
    """Run them here. Of the control nothing else is needed than the variable: the tests' own conftest reads it."""
    if control is not None:
        os.environ[VARIABLE] = control
    watcher, told = _Watcher(), io.StringIO()
    with contextlib.redirect_stdout(told), contextlib.redirect_stderr(told):
        pytest.main([*_ARGUMENTS, *proofs], plugins=[watcher])
    return Ended(watcher.passed, watcher.raised, watcher.where, told.getvalue()[-2000:])


def _in_a_child(control: str | None, proofs: list[str]) -> Ended:
    with tempfile.TemporaryFile() as said:
        child = os.fork()
        if child == 0:
            try:
                signal.alarm(MOST_S)
                said.write(json.dumps(asdict(_prove(control, proofs))).encode())
                said.flush()
            finally:
                os._exit(0)
        os.waitpid(child, 0)
        said.seek(0)
        text = said.read()
    return Ended(**json.loads(text)) if text else Ended(0, "", "", "the process ended without a word")


def main() -> None:
    """Serve until the input ends."""
    for name in _OF_OTHERS:
        importlib.import_module(name)
    _forget()
    gc.collect()
    gc.freeze()
    with tempfile.TemporaryDirectory() as folder:
        # what one child compiles the next one reads; a switch has its line compiled anew, and leaves nothing there
        sys.pycache_prefix, sys.dont_write_bytecode = folder, False
        for line in sys.stdin:
            asked = json.loads(line)
            print(json.dumps(asdict(_in_a_child(asked["control"], asked["proofs"]))), flush=True)


if __name__ == "__main__":
    main()
