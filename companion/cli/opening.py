"""What commands have in common: the settings, the store and the platform, opened for one command; and how one is offered."""

import argparse
from collections.abc import Awaitable, Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from telegram.error import InvalidToken, TelegramError

from companion.chat.wire import connect
from companion.errors import UsedWrong
from companion.settings import Settings, described, load, variable
from companion.store import Store

if TYPE_CHECKING:
    _Parsers = argparse._SubParsersAction[argparse.ArgumentParser]

T = TypeVar("T")
Command = Callable[[argparse.Namespace], int]


class Commands:
    """What can be called, command by command."""

    def __init__(self, parsers: "_Parsers") -> None:
        self._parsers = parsers

    def add(self, name: str, command: Command, told: str, *fields: str) -> argparse.ArgumentParser:
        """Offer one command; `told` stands in the help. `fields` are the settings that it takes as options."""
        one = self._parsers.add_parser(name, help=told, description=f"{told[0].upper()}{told[1:]}.", epilog=_secret(fields))
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


def settings_of(arguments: argparse.Namespace) -> Settings:
    options = {field: getattr(arguments, field, None) for field in Settings.model_fields}
    return load(arguments.settings, options)


async def with_store(settings: Settings, work: Callable[[Store], Awaitable[T]], make: bool = False) -> T:
    if not make:
        must_be_there(settings)
    store = await Store.open(settings.database, active=False)
    try:
        return await work(store)
    finally:
        await store.close()


def must_be_there(settings: Settings) -> None:
    """Opening a database makes it; who wants to look at one does not want a new one."""
    if not settings.database.exists():
        raise UsedWrong(
            f"There is no database {settings.database}. Enrol somebody first, or set {variable('database')} to the file."
        )


async def bot_name(settings: Settings) -> str:
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


def _secret(fields: Sequence[str]) -> str | None:
    if "telegram_token" not in fields:
        return None
    return f"{variable('telegram_token')}: {described('telegram_token')}."


def _usually(field: str) -> str:
    default = Settings.model_fields[field].default
    return "" if default is None else f", usually {default}"
