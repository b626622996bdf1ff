"""The command line. Exit codes: 0 fine, 1 something was found wrong, 2 it was used wrong.

What a person can mend is told as plain sentences on stderr, without a traceback.
"""

import argparse
import asyncio
import logging
import re
import shutil
import sys
from collections.abc import Awaitable, Callable, Sequence
from datetime import date
from pathlib import Path
from typing import TypeVar

from telegram.error import InvalidToken, TelegramError

from companion import __version__, app
from companion.chat.doors import StartLinks
from companion.chat.wire import connect
from companion.content import checking, enrolment, hazard_file
from companion.content.folders import content_dir, folder_of_tests, scenarios_dir
from companion.errors import CompanionError, Fault, FoundWrong, UsedWrong
from companion.reports.assessor import ChildAssessor
from companion.runtime.clock import RealClock
from companion.runtime.transport import Drawing
from companion.settings import Settings, described, load, variable
from companion.store import Store
from companion.store.backup import backup

T = TypeVar("T")
Command = Callable[[argparse.Namespace], int]
BOT = re.compile(r"@?[A-Za-z][A-Za-z0-9_]{3,31}")
WEEK = re.compile(r"(\d{4})-W(\d{2})")


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; its exit code."""
    try:
        arguments = _parser().parse_args(argv)
    except SystemExit as end:  # argparse has said why
        return int(end.code or 0)
    try:
        command: Command = arguments.command
        return command(arguments)
    except CompanionError as wrong:
        print(wrong, file=sys.stderr)
        return wrong.exit_code
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:
        return 1


# --- the commands ---------------------------------------------------------------------------------------------


def _run(arguments: argparse.Namespace) -> int:
    setup = app.Setup.of(_settings(arguments))
    logging.basicConfig(level=logging.WARNING, format="%(asctime)s %(levelname)s %(name)s: %(message)s")
    logging.getLogger("companion").setLevel(logging.INFO)
    asyncio.run(app.run(setup))
    return 0


def _check(arguments: argparse.Namespace) -> int:
    chosen = arguments.folder or _settings(arguments).content
    content = content_dir(chosen)
    # The scenarios that came with the program are for the content that came with it.
    faults = checking.check(content, None if chosen else scenarios_dir())
    if not faults and not chosen:
        faults = _scenario_faults(content)
    if faults:
        raise FoundWrong(faults)
    print("Nothing wrong was found.")
    return 0


def _hazards(arguments: argparse.Namespace) -> int:
    """Print the hazards; faults where a control names a test that does not exist."""
    folder = content_dir(arguments.folder or _settings(arguments).content)
    file = hazard_file.load(folder)
    for hazard in file.hazards:
        print(f"{hazard.id}: {hazard.hazard}\n  cause   {hazard.cause}\n  harm    {hazard.harm}")
        print(f"  before  {_risk(file, hazard.before)}\n  after   {_risk(file, hazard.after)}")
        for control in hazard.controls:
            print(f"  {control.kind:<10}{control.what} ({control.owner})\n            {control.proof}")
    print(f"{len(file.hazards)} hazards, {sum(len(hazard.controls) for hazard in file.hazards)} controls.")
    tests = folder_of_tests()
    if tests is None:
        print("The tests are not part of this installation, so it was not looked whether each is there.")
        return 0
    faults = hazard_file.unproved(folder, tests.parent)
    if faults:
        raise FoundWrong(faults)
    print("Each control names a test that is there.")
    return 0


def _risk(file: hazard_file.HazardsShape, risk: hazard_file.RiskShape) -> str:
    severity, likelihood = file.severity[str(risk.severity)], file.likelihood[str(risk.likelihood)]
    return f"severity {risk.severity} ({severity}), likelihood {risk.likelihood} ({likelihood})"


def _scenario_faults(content: Path) -> list[Fault]:
    from companion.rehearsal import scenario_file

    folder = scenarios_dir()
    faults: list[Fault] = []
    read = app.Content.read(content)
    readers = scenario_file.Readers(folder, read.library, read.texts)
    for name in scenario_file.names(folder):
        try:
            scenario_file.load(scenario_file.path_of(name, folder), readers)
        except FoundWrong as wrong:
            faults += wrong.faults
    return faults


def _enrol(arguments: argparse.Namespace) -> int:
    settings = _settings(arguments)
    content = app.Content.read(settings.content)
    enrolled = enrolment.load(arguments.file, content.library, content.texts)
    bot = arguments.bot or asyncio.run(_bot_name(settings))

    async def write(store: Store) -> app.Enrolled:
        return await app.enrol(store, enrolled, content, RealClock())

    done = asyncio.run(_with_store(settings, write, make=True))
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


def _rehearse(arguments: argparse.Namespace) -> int:
    # Only here: the bot's process needs neither the loopback platform nor the progress bar.
    from companion.rehearsal.player import rehearse_command

    return rehearse_command(arguments.scenarios, arguments.out)


def _report(arguments: argparse.Namespace) -> int:
    settings = _settings(arguments)
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

    drawing = asyncio.run(_with_store(settings, draw))
    _write(arguments.out, drawing.png)
    print(drawing.caption)
    return 0


def _migrate(arguments: argparse.Namespace) -> int:
    settings = _settings(arguments)

    async def nothing(store: Store) -> None:
        """Opening has brought the tables up to date."""

    asyncio.run(_with_store(settings, nothing, make=True))
    print(f"{settings.database} is up to date.")
    return 0


def _backup(arguments: argparse.Namespace) -> int:
    settings = _settings(arguments)
    _must_be_there(settings)
    backup(settings.database, arguments.file)
    print(f"{settings.database} is copied to {arguments.file}.")
    return 0


def _doctor(arguments: argparse.Namespace) -> int:
    """Each part is looked at, also when one before it is not well."""
    code = 0
    for name, look in (
        ("settings", _look_at_settings),
        ("content", _look_at_content),
        ("database", _look_at_database),
        ("platform", _look_at_platform),
    ):
        try:
            print(f"{name}: {look(_settings(arguments))}")
        except CompanionError as wrong:
            print(f"{name}: NOT WELL. {wrong}")
            code = max(code, wrong.exit_code)
    return code


def _look_at_settings(settings: Settings) -> str:
    command = app.Setup.of(settings).alert_command
    if command and shutil.which(command[0]) is None:
        raise UsedWrong(f"There is no program {command[0]} to run. Correct {variable('alert_command')}, or take it out.")
    return f"all that is needed is set; the emergency number is {settings.emergency_number}"


def _look_at_content(settings: Settings) -> str:
    content = content_dir(settings.content)
    faults = checking.check(content)
    if faults:
        raise FoundWrong(faults)
    return f"nothing wrong in {content}"


def _look_at_database(settings: Settings) -> str:
    async def count(store: Store) -> str:
        async with store.reading() as reading:
            return f"clients: {len(await reading.clients())}, people: {len(await reading.people())}"

    return f"{settings.database} can be used; {asyncio.run(_with_store(settings, count))}"


def _look_at_platform(settings: Settings) -> str:
    return f"{settings.telegram_api} answers; the bot is @{asyncio.run(_bot_name(settings))}"


# --- what they share ------------------------------------------------------------------------------------------


async def _with_store(settings: Settings, work: Callable[[Store], Awaitable[T]], make: bool = False) -> T:
    if not make:
        _must_be_there(settings)
    store = await Store.open(settings.database, active=False)
    try:
        return await work(store)
    finally:
        await store.close()


def _must_be_there(settings: Settings) -> None:
    """Opening a database makes it; who wants to look at one does not want a new one."""
    if not settings.database.exists():
        raise UsedWrong(
            f"There is no database {settings.database}. Enrol somebody first, or set {variable('database')} to the file."
        )


async def _bot_name(settings: Settings) -> str:
    wire = connect(settings.token, settings.telegram_api)
    try:
        return (await wire.get_me()).username or ""
    except InvalidToken:
        # Nothing of the library's exception is kept: it carries the token.
        problem = f"{settings.telegram_api} does not know the bot's token. Set {variable('telegram_token')} anew."
    except TelegramError as error:
        problem = f"{settings.telegram_api} can not be reached ({type(error).__name__}). Look at the network."
    finally:
        await wire.shutdown()
    raise UsedWrong(problem)


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


def _settings(arguments: argparse.Namespace) -> Settings:
    options = {field: getattr(arguments, field, None) for field in Settings.model_fields}
    return load(arguments.settings, options)


# --- what can be called ---------------------------------------------------------------------------------------


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="companion", description="A home-practice companion in a chat.")
    parser.add_argument("--version", action="version", version=f"companion {__version__}")
    commands = parser.add_subparsers(title="commands", required=True, metavar="COMMAND")

    def add(name: str, command: Command, told: str, *fields: str) -> argparse.ArgumentParser:
        one = commands.add_parser(name, help=told, description=f"{told[0].upper()}{told[1:]}.", epilog=_secret(fields))
        one.set_defaults(command=command)
        if not fields:  # a rehearsal has settings of its own
            return one
        settings = one.add_argument_group("settings", "from an option, the environment, or the file, in this order")
        settings.add_argument("--settings", type=Path, metavar="FILE", help="a file of lines NAME=value")
        for field in fields:
            if field != "telegram_token":
                told = f"{described(field)} [{variable(field)}{_usually(field)}]"
                settings.add_argument(f"--{field.replace('_', '-')}", metavar="VALUE", help=told)
        return one

    add("run", _run, "run the bot until it is told to end", *Settings.model_fields)
    one = add("rehearse", _rehearse, "play scenarios, without token, network or server")
    one.add_argument("scenarios", nargs="*", metavar="SCENARIO", help="a name; without any, a first fortnight")
    one.add_argument("--out", type=Path, metavar="DIR", help="where transcript, charts and database go")
    one = add(
        "enrol",
        _enrol,
        "enrol people and plans from a file, and print one-time start links",
        *("database", "content", "telegram_token", "telegram_api"),
    )
    one.add_argument("file", type=Path, metavar="FILE", help="people and plans, in YAML")
    one.add_argument("--bot", type=_bot, metavar="NAME", help="the bot's name; without it, the platform is asked")
    one = add("check", _check, "check content and scenarios: every fault with file, line and what to do", "content")
    one.add_argument("folder", nargs="?", type=Path, metavar="DIR", help="a folder of content to check instead")
    one = add("hazards", _hazards, "print the hazards and controls; each must name a test that is there", "content")
    one.add_argument("folder", nargs="?", type=Path, metavar="DIR", help="a folder of content to read instead")
    one = add("report", _report, "draw a client's week as the therapist gets it", "database", "content")
    one.add_argument("client", metavar="CLIENT", help="the client's id")
    one.add_argument("--week", required=True, metavar="YYYY-Www", help="the week, such as 2026-W48")
    one.add_argument("--out", required=True, type=Path, metavar="FILE", help="where the picture (PNG) goes")
    add("migrate", _migrate, "make the database, or bring an older one up to date", "database")
    add("doctor", _doctor, "look whether everything that the bot needs is well", *Settings.model_fields)
    one = add("backup", _backup, "write the database to another file; the bot may run meanwhile", "database")
    one.add_argument("file", type=Path, metavar="FILE", help="the file to write; it must not be there")
    return parser


def _bot(text: str) -> str:
    if not BOT.fullmatch(text):
        raise argparse.ArgumentTypeError(f"{text!r} is not a bot's name: 5 to 32 letters, digits and _")
    return text.removeprefix("@")


def _secret(fields: Sequence[str]) -> str | None:
    if "telegram_token" not in fields:
        return None
    return f"{variable('telegram_token')}: {described('telegram_token')}."


def _usually(field: str) -> str:
    default = Settings.model_fields[field].default
    return "" if default is None else f", usually {default}"


if __name__ == "__main__":
    sys.exit(main())
