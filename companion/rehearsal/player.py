"""Plays scenarios: the real app, real HTTP, a real database; the people press, type and wait as the scenario says.

    settle -> look at what came -> the next cause: an act that is due, or a jump to the earliest moment a loop waits for

One cause at a time, each played out to the end before the next. So one scenario makes one transcript, to the letter.
"""

import asyncio
import contextlib
import logging
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import timedelta
from functools import partial
from pathlib import Path

from rich.console import Console
from rich.progress import BarColumn, Progress, TaskProgressColumn, TextColumn, TimeElapsedColumn

from companion.app import Content
from companion.content.folders import scenarios_dir, shown
from companion.errors import UsedWrong
from companion.rehearsal.play import Files, Play
from companion.rehearsal.scenario import Scenario
from companion.rehearsal.scenario_file import Readers, load, path_of

DEFAULT = "fortnight"
OUT = Path("rehearsal-out")

Tell = Callable[[Scenario, timedelta], None]
"""Told how much of a scenario's time has been played."""


@dataclass(frozen=True, slots=True)
class Rehearsed:
    """What a scenario left. `faults`: what did not come to pass as written; then the files hold what was played so far."""

    scenario: Scenario
    files: Files
    faults: tuple[str, ...]


def read_scenarios(names: Sequence[str], content: Content) -> list[Scenario]:
    """The scenarios of those names, from the folder that came with this installation. Raises UsedWrong, FoundWrong."""
    folder = scenarios_dir()
    readers = Readers(folder, content.library, content.texts)
    return [load(path_of(name, folder), readers) for name in names]


async def rehearse(
    scenarios: Sequence[Scenario], out: Path, content: Content, tell: Tell, latency: Callable[[], float] | None = None
) -> list[Rehearsed]:
    """Play them one after the other, each into a folder of its own name in `out`.

    `latency` gives real seconds by which the platform answers later; it must not change a letter.
    """
    results = []
    for scenario in scenarios:
        folder = out / scenario.name
        with _log_in(folder):
            files, faults = await Play(scenario, folder, content, latency).run(partial(tell, scenario))
        results.append(Rehearsed(scenario, files, faults))
    return results


def rehearse_command(names: list[str], out: Path | None = None) -> int:
    """Play scenarios by name (default: the fortnight) and say where everything is. The exit code."""
    content = Content.read()
    scenarios = read_scenarios(names or [DEFAULT], content)
    target = _folder(out or OUT)
    with _bar(scenarios) as tell:
        results = asyncio.run(rehearse(scenarios, target, content, tell))
    for result in results:
        _report(result)
    return 1 if any(result.faults for result in results) else 0


def _folder(out: Path) -> Path:
    """The folder, made if need be. UsedWrong if it can not be one."""
    try:
        out.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise UsedWrong(f"{out} can not be written: {error.strerror}. Give --out a folder.") from None
    return out


def _report(result: Rehearsed) -> None:
    print(f"{result.scenario.title}")
    print(f"  transcript  {shown(result.files.transcript)}")
    for chart in result.files.charts:
        print(f"  chart       {shown(chart)}")
    files = result.files
    for kind, kept in (("pictures", files.pictures), ("sounds", files.sounds), ("documents", files.documents)):
        if kept:
            print(f"  {kind:<11} {len(kept)} in {shown(kept[0].parent)}")
    print(f"  beside it   messages.jsonl ({result.files.lines} lines), companion.db, companion.log")
    for fault in result.faults:
        print(f"  WRONG       {fault}")


@contextlib.contextmanager
def _bar(scenarios: Sequence[Scenario]) -> Iterator[Tell]:
    """A progress bar for each scenario, in simulated days."""
    columns = (
        TextColumn("{task.description}"),
        BarColumn(),
        TaskProgressColumn(),
        TextColumn("day {task.fields[day]} of {task.fields[days]}"),
        TimeElapsedColumn(),
    )
    with Progress(*columns, console=Console(stderr=True)) as progress:
        bars = {}
        for scenario in scenarios:
            days = _days(scenario.ends - scenario.starts)
            total = (scenario.ends - scenario.starts).total_seconds()
            bars[scenario.name] = progress.add_task(scenario.title, total=total, day=0, days=days, start=False)

        def tell(scenario: Scenario, played: timedelta) -> None:
            bar = bars[scenario.name]
            progress.start_task(bar)
            progress.update(bar, completed=played.total_seconds(), day=_days(played))

        yield tell


def _days(span: timedelta) -> int:
    """Days begun."""
    return -(-span // timedelta(days=1))


@contextlib.contextmanager
def _log_in(folder: Path) -> Iterator[None]:
    """What the app logs goes into the scenario's folder, not across the progress bar."""
    folder.mkdir(parents=True, exist_ok=True)
    handler = logging.FileHandler(folder / "companion.log", mode="w", encoding="utf-8")
    handler.setFormatter(logging.Formatter("%(levelname)s %(name)s: %(message)s"))
    logger = logging.getLogger("companion")
    logger.addHandler(handler)
    try:
        yield
    finally:
        logger.removeHandler(handler)
        handler.close()
