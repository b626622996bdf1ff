"""Ten thousand weekly reports on two cores: from records in the database to files.

    [REPORTS=10000] [CHILDREN=2] [BY_THE_LOOP=300] .venv/bin/pytest -qs tests/benchmarks/ten_thousand.py

One process reads, as the bot does, and has as many drawing processes draw as there are cores; each report becomes a file.
Beside it is what the bot does with as many reports as BY_THE_LOOP says: its drawing loop takes each out of the database, has it
drawn by its one child, and writes down what is to be sent. Clients have four weeks of records; they take turns. What is worked
out from fewer than ten thousand is said to be so.
"""

import asyncio
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from pathlib import Path
from time import perf_counter, process_time

from companion.chat.doors import StartLinks
from companion.content.folders import content_dir
from companion.core.effects import Report
from companion.core.person import Part, Person
from companion.reports.assessor import ChildAssessor
from companion.runtime.clock import RealClock
from companion.runtime.drawing import DrawingLoop
from companion.runtime.handler import Handler
from companion.runtime.routing import PERSON_WAKE_CLASS
from companion.store import Store
from tests.benchmarks import courses
from tests.benchmarks.five_years import child_ms, pid
from tests.benchmarks.table import Line, number, show
from tests.playing import CONTENT

ALL = 10_000
CLIENTS = 50
SUNDAY = date(2026, 11, 29)
MONDAY = SUNDAY - timedelta(days=6)
FIRST = SUNDAY - timedelta(days=27)
GOAL_MIN = 8
THERAPIST = "thea"


class SundayEvening(RealClock):
    """The clock stands still."""

    def now(self) -> datetime:
        return courses.at(SUNDAY, 19)


@dataclass(frozen=True, slots=True)
class Took:
    """So many reports, in seconds by the clock, and of the processor here and in all children."""

    reports: int
    seconds: float
    worked: float

    @property
    def all_min(self) -> float:
        """Minutes for all ten thousand."""
        return self.seconds / self.reports * ALL / 60


def worked(assessors: Sequence[ChildAssessor]) -> float:
    """Seconds of the processor up to now, of this process and of these drawing processes."""
    return process_time() + sum(child_ms(pid(one)) for one in assessors) / 1000


async def ready(store: Store) -> ChildAssessor:
    """One that has drawn a report: a drawing process loads for two seconds, once."""
    assessor = ChildAssessor(store, content_dir(), SundayEvening())
    await assessor.draw("c0", MONDAY, SUNDAY, "en")
    return assessor


async def as_files(store: Store, folder: Path, reports: int, children: int) -> Took:
    """Draw so many reports into the folder with so many children."""
    numbers = iter(range(reports))
    assessors = [await ready(store) for _ in range(children)]

    async def some(assessor: ChildAssessor) -> None:
        for place in numbers:
            made = await assessor.draw(f"c{place % CLIENTS}", MONDAY, SUNDAY, "en")
            (folder / f"{place}.png").write_bytes(made.file)

    began, before = perf_counter(), worked(assessors)
    await asyncio.gather(*(some(one) for one in assessors))
    took = Took(reports, perf_counter() - began, worked(assessors) - before)
    for one in assessors:
        await one.close()
    return took


async def by_the_loop(store: Store, reports: int) -> Took:
    """Have so many that were asked for drawn as the bot does."""
    everybody = tuple(f"c{place}" for place in range(CLIENTS))
    async with store.writing() as tx:
        await tx.add_person(
            Person(THERAPIST, Part.THERAPIST, "Thea", "Etc/GMT", everybody, user_id=90), None, PERSON_WAKE_CLASS
        )
        for place in range(reports):
            await tx.request_report(f"c{place % CLIENTS}", Report(THERAPIST, MONDAY, SUNDAY))
    clock, rules = SundayEvening(), CONTENT.library.rules("112")
    assessor = await ready(store)
    handler = Handler(store, rules, CONTENT.texts, StartLinks("invented_bot"), clock, {})
    loop = DrawingLoop(handler, assessor, said := asyncio.Event())
    began, before = perf_counter(), worked([assessor])
    running = asyncio.create_task(loop.run())
    while await _waits(store):
        said.clear()
        await said.wait()
    took = Took(reports, perf_counter() - began, worked([assessor]) - before)
    running.cancel()
    await assessor.close()
    return took


async def _waits(store: Store) -> bool:
    async with store.reading() as reading:
        return await reading.next_report() is not None


async def test_ten_thousand_weekly_reports(tmp_path: Path) -> None:
    reports, children, few = number("REPORTS", ALL), number("CHILDREN", 2), number("BY_THE_LOOP", 300)
    database, folder = tmp_path / "companion.sqlite3", tmp_path / "reports"
    folder.mkdir()
    await courses.write(database, range(CLIENTS), FIRST, SUNDAY)
    store = await Store.open(database)
    try:
        files, loop = await as_files(store, folder, reports, children), await by_the_loop(store, few)
        async with store.reading() as reading:
            assert len(await reading.waiting(few + 1, SundayEvening().now())) == few
    finally:
        await store.close()
    assert len(list(folder.iterdir())) == reports
    lines = [
        Line("reports", files.reports, loop.reports),
        Line("seconds", files.seconds, loop.seconds),
        Line("ms of the processor a report", 1000 * files.worked / files.reports, 1000 * loop.worked / loop.reports),
        Line("processors busy", files.worked / files.seconds, loop.worked / loop.seconds),
        Line(f"minutes for {ALL:,}", files.all_min, loop.all_min, f"under {GOAL_MIN}"),
    ]
    show("weekly reports from the database", f"{children} children, to files", "1 child, by the bot's loop", lines)
    for took in (files, loop):
        if took.reports != ALL:
            print(f"{took.all_min:.1f} minutes for {ALL:,} are worked out from {took.reports}")
