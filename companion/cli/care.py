"""The commands for the people and their records: enrol, a week's chart, the database and its copy."""

import argparse
import asyncio
import re
import sys
from datetime import date
from pathlib import Path

from companion import app
from companion.chat.doors import StartLinks
from companion.cli.opening import Commands, bot_name, must_be_there, settings_of, with_store
from companion.content import enrolment
from companion.content.folders import content_dir
from companion.errors import UsedWrong
from companion.reports.assessor import ChildAssessor
from companion.runtime.clock import RealClock
from companion.runtime.transport import Drawing
from companion.store import Store
from companion.store.backup import backup

BOT = re.compile(r"@?[A-Za-z][A-Za-z0-9_]{3,31}")
WEEK = re.compile(r"(\d{4})-W(\d{2})")


def offer(commands: Commands) -> None:
    """Offer them."""
    one = commands.add(
        "enrol",
        _enrol,
        "enrol people and plans from a file, and print one-time start links",
        *("database", "content", "telegram_token", "telegram_api"),
    )
    one.add_argument("file", type=Path, metavar="FILE", help="people and plans, in YAML")
    one.add_argument("--bot", type=_bot, metavar="NAME", help="the bot's name; without it, the platform is asked")
    one = commands.add("report", _report, "draw a client's week as the therapist gets it", "database", "content")
    one.add_argument("client", metavar="CLIENT", help="the client's id")
    one.add_argument("--week", required=True, metavar="YYYY-Www", help="the week, such as 2026-W48")
    one.add_argument("--out", required=True, type=Path, metavar="FILE", help="where the picture (PNG) goes")
    commands.add("migrate", _migrate, "make the database, or bring an older one up to date", "database")
    one = commands.add("backup", _backup, "write the database to another file; the bot may run meanwhile", "database")
    one.add_argument("file", type=Path, metavar="FILE", help="the file to write; it must not be there")


def _enrol(arguments: argparse.Namespace) -> int:
    settings = settings_of(arguments)
    content = app.Content.read(settings.content)
    enrolled = enrolment.load(arguments.file, content.library, content.texts)
    bot = arguments.bot or asyncio.run(bot_name(settings))

    async def write(store: Store) -> app.Enrolled:
        return await app.enrol(store, enrolled, content, RealClock())

    done = asyncio.run(with_store(settings, write, make=True))
    for client in done.already:
        what = "has the plan of this file from now on" if client in done.renewed else "was left as they are"
        print(f"{client} is enrolled already and {what}.", file=sys.stderr)
    doors = StartLinks(bot)
    for one in done.invitations:
        print(f"{one.person.id} ({one.person.name}, {one.person.role}): {doors.link(one.payload)}")
    if done.invitations:
        until = done.invitations[0].until
        print(f"Each link works once, until {until:%Y-%m-%d %H:%M} UTC. Give each person theirs only.", file=sys.stderr)
    return 0


def _report(arguments: argparse.Namespace) -> int:
    settings = settings_of(arguments)
    first, last = _week(arguments.week)
    folder = content_dir(settings.content)

    async def draw(store: Store) -> Drawing:
        async with store.reading() as reading:
            client = await reading.client(arguments.client)
            if client is None:
                known = ", ".join(one.id for one in await reading.clients()) or "nobody yet"
                raise UsedWrong(f'There is no client "{arguments.client}". Enrolled are: {known}.')
            therapist = await reading.person(client.people.therapist)
        assessor = ChildAssessor(store, folder, RealClock())
        try:
            return await assessor.draw(client.id, first, last, therapist.language if therapist else "en")
        finally:
            await assessor.close()

    drawing = asyncio.run(with_store(settings, draw))
    _write(arguments.out, drawing.file)
    print(drawing.caption)
    return 0


def _migrate(arguments: argparse.Namespace) -> int:
    settings = settings_of(arguments)

    async def nothing(store: Store) -> None:
        """Opening has brought the tables up to date."""

    asyncio.run(with_store(settings, nothing, make=True))
    print(f"{settings.database} is up to date.")
    return 0


def _backup(arguments: argparse.Namespace) -> int:
    settings = settings_of(arguments)
    must_be_there(settings)
    backup(settings.database, arguments.file)
    print(f"{settings.database} is copied to {arguments.file}.")
    return 0


def _week(text: str) -> tuple[date, date]:
    found = WEEK.fullmatch(text)
    try:
        if found is None:
            raise ValueError
        year, week = int(found[1]), int(found[2])
        return date.fromisocalendar(year, week, 1), date.fromisocalendar(year, week, 7)
    except ValueError:
        raise UsedWrong(f"{text!r} is not a week. Write it like 2026-W48.") from None


def _write(file: Path, content: bytes) -> None:
    try:
        file.write_bytes(content)
    except OSError as error:
        raise UsedWrong(f"{file} can not be written: {error.strerror}. Name another file with --out.") from None


def _bot(text: str) -> str:
    if not BOT.fullmatch(text):
        raise argparse.ArgumentTypeError(f"{text!r} is not a bot's name: 5 to 32 letters, digits and _")
    return text.removeprefix("@")
