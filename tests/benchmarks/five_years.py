"""What a report costs with five years of records, and with few.

    [TIMES=40] .venv/bin/pytest -qs tests/benchmarks/five_years.py

A week is set against that of a client of four weeks. What also tells the client's own spread, or sets their last sessions
against forty before, is set against that of a client of half a year, who has so many. What is on record of the time that they
share is the same; others are in the database beside them. Measured is a whole report as the bot has it made, one by one in
turn: reading here, drawing in the child; the processor's time of both, and the clock's. What looks at a whole course has more
to do with more of it: it is told, and has no goal.
"""

import os
from collections.abc import AsyncIterator, Awaitable, Callable, Iterator, Sequence
from contextlib import asynccontextmanager
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from pathlib import Path
from statistics import mean, median
from time import perf_counter, process_time

from companion.content.folders import content_dir
from companion.core.care import Client
from companion.core.effects import Paper, Sheet
from companion.core.observations import Observation
from companion.reports.assessor import ChildAssessor
from companion.runtime.clock import RealClock
from companion.store import Store
from tests.benchmarks import courses
from tests.benchmarks.table import Line, number, show

SUNDAY = date(2026, 11, 29)
MONDAY = SUNDAY - timedelta(days=6)
FOUR_WEEKS, HALF_A_YEAR, FIVE_YEARS = (SUNDAY + timedelta(days=1) - timedelta(weeks=many) for many in (4, 26, 5 * 52))
OTHERS = 20
LONG, HALF, SHORT = "five years", "half a year", "four weeks"
GOAL = "0.91 or more"
"""At most 1.1 times as much."""
TICK = os.sysconf("SC_CLK_TCK")


class SundayEvening(RealClock):
    """The clock stands still."""

    def now(self) -> datetime:
        return courses.at(SUNDAY, 19)


async def write(store: Store) -> None:
    """Clients of five years, of four weeks, of half a year, who are alike else; and others."""
    oldest = courses.client(0, FIVE_YEARS, SUNDAY)
    for name, first in ((LONG, FIVE_YEARS), (HALF, HALF_A_YEAR), (SHORT, FOUR_WEEKS)):
        seen = (what for what in courses.course(0, FIVE_YEARS, SUNDAY) if what.at >= courses.at(first, 0))
        await keep(store, replace(oldest, id=name, since=courses.at(first, 8)), seen)
    for other in range(1, OTHERS + 1):
        await keep(store, courses.client(other, HALF_A_YEAR, SUNDAY), courses.course(other, HALF_A_YEAR, SUNDAY))


async def keep(store: Store, client: Client, observations: Iterator[Observation]) -> None:
    async with store.writing() as tx:
        await tx.add_client(client, None, 0)
        for what in observations:
            await tx.record(client.id, what)


@dataclass(frozen=True, slots=True)
class Cost:
    """Milliseconds of the processor, here and in the child, and of the clock."""

    worked: float
    waited: float


Report = Callable[[str], Awaitable[object]]


def pid(assessor: ChildAssessor) -> int:
    """The number of its drawing process, which has drawn something."""
    process = assessor._child._process
    assert process is not None
    return process.pid


def child_ms(child: int) -> float:
    """Milliseconds that the process worked since it began."""
    fields = Path(f"/proc/{child}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
    return 1000 * (int(fields[11]) + int(fields[12])) / TICK


async def cost(report: Report, client: str, child: int) -> Cost:
    """Of one report. The system counts a child's work in hundredths of a second: only of many together it says something."""
    began, here, there = perf_counter(), process_time(), child_ms(child)
    await report(client)
    worked = 1000 * (process_time() - here) + child_ms(child) - there
    return Cost(worked, 1000 * (perf_counter() - began))


def whole(costs: Sequence[Cost]) -> Cost:
    """Of many reports: the mean of the work, and the middle one by the clock."""
    return Cost(mean(one.worked for one in costs), median(one.waited for one in costs))


@asynccontextmanager
async def assessor(database: Path) -> AsyncIterator[ChildAssessor]:
    """What draws, over the database."""
    store = await Store.open(database)
    try:
        await write(store)
        found = ChildAssessor(store, content_dir(), SundayEvening())
        try:
            yield found
        finally:
            await found.close()
    finally:
        await store.close()


def reports(of: ChildAssessor) -> dict[str, tuple[Report, str, str]]:
    """Each report by its name, with the client that the one of five years is set against, and the goal."""

    def sheet(what: Sheet) -> Report:
        return lambda client: of.draw(client, MONDAY, SUNDAY, "en", (what, Paper.A4))

    return {
        "week": (sheet(Sheet.WEEK), SHORT, GOAL),
        "week as PDF": (sheet(Sheet.PDF_WEEK), SHORT, GOAL),
        "the client's own week": (sheet(Sheet.OWN_WEEK), SHORT, GOAL),
        "four weeks": (sheet(Sheet.FOUR_WEEKS), HALF, GOAL),
        "assessment after a session": (of.assess, HALF, GOAL),
        "whole course": (sheet(Sheet.COURSE), HALF, ""),
        "review as PDF": (sheet(Sheet.PDF_REVIEW), HALF, ""),
    }


async def test_a_report_costs_no_more_after_five_years(tmp_path: Path) -> None:
    times, lines = number("TIMES", 40), []
    async with assessor(tmp_path / "companion.sqlite3") as drawing:
        weeks = [(await drawing.draw(client, MONDAY, SUNDAY, "en")).file for client in (LONG, HALF, SHORT)]
        assert weeks[0] == weeks[1] == weeks[2]
        child = pid(drawing)
        for name, (report, beside, goal) in reports(drawing).items():
            costs: dict[str, list[Cost]] = {LONG: [], beside: []}
            for _ in range(times if goal else 1):
                for client, found in costs.items():
                    found.append(await cost(report, client, child))
            long, short = (whole(found) for found in costs.values())
            lines.append(Line(f"{name}, {beside}: ms of work", long.worked, short.worked, goal))
            lines.append(Line("  ms of the clock", long.waited, short.waited))
    show(f"a report, {OTHERS + 3} clients in the database", LONG, "less", lines)
