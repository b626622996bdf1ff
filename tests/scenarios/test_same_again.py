"""One scenario is one transcript, however the platform's answers are delayed."""

from pathlib import Path
from random import Random
from time import perf_counter

import pytest

from tests.scenarios.playing import Rehearsals

RUNS = 20
SLOWEST_S = 0.006


def told(rehearsals: Rehearsals, name: str, folder: Path, run: int) -> tuple[str, str]:
    """What one rehearsal left, its answers delayed by the chance of that run (the first run: not at all)."""
    chance = Random(run)
    began = perf_counter()
    played = rehearsals.play(name, folder, (lambda: chance.uniform(0, SLOWEST_S)) if run else None)
    took = perf_counter() - began
    assert played.faults == ()
    print(f"{name}, run {run + 1}: {played.files.lines} lines in {took:.1f} s, {played.files.lines / took:.0f} a second")
    path = played.files.transcript
    return path.read_text(encoding="utf-8"), path.with_name("messages.jsonl").read_text(encoding="utf-8")


def test_20_rehearsals_under_random_latency_are_one_to_the_letter(tmp_path: Path, rehearsals: Rehearsals) -> None:
    assert len({told(rehearsals, "first_session", tmp_path / str(run), run) for run in range(RUNS)}) == 1


def test_the_fortnight_too_is_one_to_the_letter(tmp_path: Path, rehearsals: Rehearsals, fortnights: int) -> None:
    if not fortnights:
        pytest.skip("played only with --fortnights")
    assert len({told(rehearsals, "fortnight", tmp_path / str(run), run) for run in range(fortnights)}) == 1
