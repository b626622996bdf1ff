"""How many lines of messages a second a rehearsal plays.

    .venv/bin/pytest -qs tests/benchmarks/lines.py

The fortnight, and beside it one session: the real app, real HTTP, a real database, charts drawn. Reading content and
scenarios is not counted, for it is done once.
"""

from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path
from time import perf_counter

from companion.rehearsal.player import read_scenarios, rehearse
from companion.rehearsal.scenario import Scenario
from tests.benchmarks.table import Line, show
from tests.playing import CONTENT


@dataclass(frozen=True, slots=True)
class Played:
    """How long it took, how many lines and how much time were played."""

    seconds: float
    lines: int
    span: timedelta


async def played(name: str, folder: Path) -> Played:
    """Play that scenario once. AssertionError if it does not come to pass as written."""
    scenarios = read_scenarios([name], CONTENT)

    def tell(scenario: Scenario, span: timedelta) -> None:
        """Nobody watches."""

    began = perf_counter()
    [rehearsed] = await rehearse(scenarios, folder, CONTENT, tell)
    seconds = perf_counter() - began
    assert rehearsed.faults == ()
    return Played(seconds, rehearsed.files.lines, scenarios[0].ends - scenarios[0].starts)


async def test_lines_a_second(tmp_path: Path) -> None:
    one, fortnight = await played("first_session", tmp_path), await played("fortnight", tmp_path)
    lines = [
        Line("seconds", fortnight.seconds, one.seconds, "under 30"),
        Line("lines", fortnight.lines, one.lines),
        Line("lines a second", fortnight.lines / fortnight.seconds, one.lines / one.seconds, "250"),
        Line(
            "faster than life, times",
            fortnight.span.total_seconds() / fortnight.seconds,
            one.span.total_seconds() / one.seconds,
        ),
    ]
    show("playing a rehearsal", "the fortnight", "one session", lines)
