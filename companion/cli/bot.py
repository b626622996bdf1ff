"""The commands for the bot itself: run it, look whether all is well, rehearse it without a network."""

import argparse
import asyncio
import logging
import shutil
from pathlib import Path

from companion import app
from companion.cli.opening import Commands, bot_name, settings_of, with_store
from companion.content import checking
from companion.content.folders import content_dir
from companion.errors import CompanionError, FoundWrong, UsedWrong
from companion.settings import Settings, variable
from companion.store import Store


def offer(commands: Commands) -> None:
    """Offer them."""
    commands.add("run", _run, "run the bot until it is told to end", *Settings.model_fields)
    one = commands.add("rehearse", _rehearse, "play scenarios, without token, network or server")
    one.add_argument("scenarios", nargs="*", metavar="SCENARIO", help="a name; without any, a first fortnight")
    one.add_argument("--out", type=Path, metavar="DIR", help="where transcript, charts and database go")
    commands.add("doctor", _doctor, "look whether everything that the bot needs is well", *Settings.model_fields)


def _run(arguments: argparse.Namespace) -> int:
    setup = app.Setup.of(settings_of(arguments))
    logging.basicConfig(level=logging.WARNING, format="%(asctime)s %(levelname)s %(name)s: %(message)s")
    logging.getLogger("companion").setLevel(logging.INFO)
    asyncio.run(app.run(setup))
    return 0


def _rehearse(arguments: argparse.Namespace) -> int:
    # Only here: the bot's process needs neither the loopback platform nor the progress bar.
    from companion.rehearsal.player import rehearse_command

    return rehearse_command(arguments.scenarios, arguments.out)


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
            print(f"{name}: {look(settings_of(arguments))}")
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

    return f"{settings.database} can be used; {asyncio.run(with_store(settings, count))}"


def _look_at_platform(settings: Settings) -> str:
    return f"{settings.telegram_api} answers; the bot is @{asyncio.run(bot_name(settings))}"
