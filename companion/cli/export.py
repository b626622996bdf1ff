"""The records of clients as documents and data, each client in a folder of its own: `companion export`."""

import argparse
import asyncio
import re
import sys
from calendar import monthrange
from datetime import date, timedelta
from pathlib import Path

from rich.console import Console
from rich.progress import BarColumn, Progress, TaskProgressColumn, TextColumn

from companion.cli.opening import Commands, settings_of, with_store
from companion.content.folders import content_dir
from companion.core.care import Client
from companion.core.effects import Paper, Sheet
from companion.core.schedule import local_day
from companion.errors import CompanionError, UsedWrong
from companion.reports.assessor import ChildAssessor
from companion.runtime.clock import RealClock
from companion.store import Store

ONLY = {"pdf": (Sheet.PDF_REVIEW,), "csv": (Sheet.DATA,)}
BOTH = (Sheet.PDF_REVIEW, Sheet.DATA)


def offer(commands: Commands) -> None:
    """Offer it."""
    one = commands.add(
        "export", _export, "write clients' records: a review as PDF, and all data as CSV in a ZIP", "database", "content"
    )
    one.add_argument("clients", nargs="*", metavar="CLIENT", help="ids of clients; without one, all with a plan")
    one.add_argument("--out", required=True, type=Path, metavar="DIR", help="the folder; each client gets one in it")
    one.add_argument("--paper", choices=[paper.value for paper in Paper], default=Paper.A4.value, help="of the PDF [a4]")
    one.add_argument("--only", choices=sorted(ONLY), help="one of the two alone")
    asked = "the day on which somebody asked for a copy, as 2026-09-03: says by when it is due"
    one.add_argument("--asked-on", type=_day, metavar="DAY", help=asked)


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r} is no day; write one as 2026-09-03") from None


def due_by(asked: date) -> date:
    """The last day to answer who asked for a copy of their records: in a month, as the ICO counts it.

    The same day of the next month, or its last where there is no such day; from a weekend on to Monday. Public holidays are
    not known here.
    """
    year, month = divmod(asked.year * 12 + asked.month, 12)
    due = date(year, month + 1, min(asked.day, monthrange(year, month + 1)[1]))
    return due + timedelta(days=7 - due.weekday() if due.weekday() >= 5 else 0)


def _export(arguments: argparse.Namespace) -> int:
    settings = settings_of(arguments)
    folder = content_dir(settings.content)
    sheets = ONLY[arguments.only] if arguments.only else BOTH

    async def write(store: Store) -> list[str]:
        clients = await _chosen(store, arguments.clients)
        assessor = ChildAssessor(store, folder, RealClock())
        columns = (TextColumn("{task.description}"), BarColumn(), TaskProgressColumn())
        wrong = []
        try:
            with Progress(*columns, console=Console(stderr=True), disable=len(clients) < 2) as progress:
                for client in progress.track(clients, description="Exporting"):
                    try:
                        await _one(assessor, client, sheets, arguments)
                    except (CompanionError, OSError) as error:
                        wrong.append(f"{client.id}: {error}")
        finally:
            await assessor.close()
        return wrong

    wrong = asyncio.run(with_store(settings, write))
    if arguments.asked_on is not None:
        asked, due = arguments.asked_on, due_by(arguments.asked_on)
        said = f"A copy asked for on {asked.day} {asked:%B %Y} is due by {due:%A} {due.day} {due:%B %Y}"
        print(f"{said}; public holidays not counted.", file=sys.stderr)
    for line in wrong:
        print(line, file=sys.stderr)
    return 1 if wrong else 0


async def _chosen(store: Store, names: list[str]) -> list[Client]:
    async with store.reading() as reading:
        known = {client.id: client for client in await reading.clients()}
    missing = [name for name in names if name not in known]
    if missing:
        raise UsedWrong(f'There is no client "{missing[0]}". Enrolled are: {", ".join(known) or "nobody yet"}.')
    return [known[name] for name in names] if names else [client for client in known.values() if client.plan is not None]


async def _one(assessor: ChildAssessor, client: Client, sheets: tuple[Sheet, ...], arguments: argparse.Namespace) -> None:
    today = local_day(RealClock().now(), client.zone)
    first = local_day(client.since, client.zone) if client.since is not None else today
    # an id has letters that are no part of a folder's name everywhere
    folder = arguments.out / re.sub(r"[^A-Za-z0-9_.-]", "-", client.id)
    for sheet in sheets:
        made = await assessor.draw(client.id, min(first, today), today, "en", (sheet, Paper(arguments.paper)))
        folder.mkdir(parents=True, exist_ok=True)
        (folder / made.name).write_bytes(made.file)
        print(folder / made.name)
