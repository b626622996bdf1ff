"""Each safety control, switched off alone: the test that proves it must fail. So each is proved by a test that can fail."""

import json
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.hazards.controls_table import controls
from tests.hazards.driver import Ended
from tests.hazards.switching import ROOT, switches


class Driver:
    """The process that runs proofs (`driver.py`), asked one at a time."""

    def __init__(self, process: subprocess.Popen[str]) -> None:
        self._process = process

    def run(self, control: str | None, *proofs: str) -> Ended:
        assert self._process.stdin is not None and self._process.stdout is not None
        self._process.stdin.write(json.dumps({"control": control, "proofs": proofs}) + "\n")
        self._process.stdin.flush()
        return Ended(**json.loads(self._process.stdout.readline()))


@pytest.fixture(scope="module")
def driver() -> Iterator[Driver]:
    command = [sys.executable, str(Path(__file__).with_name("driver.py"))]
    environment = {name: value for name, value in os.environ.items() if not name.startswith("PYTEST_")}
    pipe = subprocess.PIPE
    with subprocess.Popen(command, cwd=ROOT, env=environment, stdin=pipe, stdout=pipe, text=True) as process:
        yield Driver(process)
        assert process.stdin is not None
        process.stdin.close()


def in_a_test(ended: Ended) -> bool:
    """Whether a test noticed, and not the program itself broke."""
    return ended.raised == "Failed" or Path(ended.where).is_relative_to(ROOT / "tests")


def test_with_every_control_on_all_their_tests_pass(driver: Driver) -> None:
    """So that in the other test it is the control that is missed, and not something that this way to run them lacks."""
    ended = driver.run(None, *sorted({control.proof for control in controls().values()}))
    assert ended.passed >= len(controls()) and not ended.raised, ended.told


@pytest.mark.parametrize("control", sorted(switches()))
def test_without_the_control_its_test_fails(control: str, driver: Driver) -> None:
    switch = switches()[control]
    switch.turned((ROOT / switch.file).read_text(encoding="utf-8"))
    ended = driver.run(control, controls()[control].proof)
    assert ended.raised, f"it does not notice: {ended.told}"
    assert in_a_test(ended), f"the program itself breaks, by {ended.raised} in {ended.where}: that switches nothing off"
