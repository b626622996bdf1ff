"""What the operator sets, each setting named once: from the environment, a file, or an option.

An option wins over the environment, and that over the file. The name in the environment and in the file is
`COMPANION_` and the field's name in capitals; the option is `--` and the field's name with dashes. The token
has no option, for other users of the machine can read a command line.
"""

import re
import shlex
from collections.abc import Mapping
from pathlib import Path
from typing import Annotated, Any
from urllib.parse import urlsplit

from pydantic import AfterValidator, Field, SecretStr, ValidationError
from pydantic_settings import BaseSettings, SettingsConfigDict

from companion.errors import UsedWrong

PREFIX = "COMPANION_"
TOKEN = re.compile(r"\d{1,20}:[A-Za-z0-9_-]{10,}")
# Short numbers such as 112 and whole ones with a country's code; spaces and dashes only between digits.
NUMBER = re.compile(r"\+?\d(?:[ -]?\d){1,14}")


def _token(value: SecretStr) -> SecretStr:
    if not TOKEN.fullmatch(value.get_secret_value()):
        raise ValueError("has not the form of a token: digits, a colon, letters and digits. Copy it whole")
    return value


def _base_url(value: str) -> str:
    wrong = ValueError("is no address. Give one that begins with https:// (or http:// on your own network)")
    try:
        parts = urlsplit(value)
        known = parts.scheme in {"http", "https"} and bool(parts.hostname) and parts.port != 0
    except ValueError:
        raise wrong from None
    if not known or parts.query or parts.fragment:
        raise wrong
    return value.rstrip("/")


def _database(value: Path) -> Path:
    if "://" in str(value) or re.match(r"\w+:/", str(value)):
        raise ValueError("is an address. Give the path of a file, such as companion.sqlite3")
    return value


def _emergency_number(value: str) -> str:
    if not NUMBER.fullmatch(value.strip()):
        raise ValueError("can not be dialled. Give digits only, such as 112")
    return value.strip()


def _command(value: str) -> str:
    try:
        words = shlex.split(value)
    except ValueError:
        words = []
    if not words:
        raise ValueError("is no command. Give a program and its arguments, quoted where they hold spaces")
    return value


class Settings(BaseSettings):
    """The settings. `None` where nothing was given and there is no default; `needed` refuses that."""

    model_config = SettingsConfigDict(env_prefix=PREFIX, env_ignore_empty=True, extra="forbid", frozen=True)

    telegram_token: Annotated[SecretStr, AfterValidator(_token)] | None = Field(
        None, description="the bot's token, as the platform gave it to you. A secret: no option takes it"
    )
    telegram_api: Annotated[str, AfterValidator(_base_url)] = Field(
        "https://api.telegram.org", description="where the Bot API is served"
    )
    database: Annotated[Path, AfterValidator(_database)] = Field(
        Path("companion.sqlite3"), description="the file that everything is kept in"
    )
    emergency_number: Annotated[str, AfterValidator(_emergency_number)] | None = Field(
        None, description="the number to call in an emergency where your clients live. There is no default"
    )
    content: Path | None = Field(
        None, description="the folder of exercises, rules and texts; without it, what came with the program"
    )
    alert_command: Annotated[str, AfterValidator(_command)] | None = Field(
        None, description="a command to run, without a shell, when an alert can not be delivered; it gets it as JSON"
    )
    rate: float = Field(25.0, gt=0, le=30, description="messages a second over all chats, at most 30")

    def needed(self, *fields: str) -> None:
        """Refuses to go on, with UsedWrong that names each of `fields` which is not set."""
        missing = [name for name in fields if getattr(self, name) is None]
        if missing:
            told = [f"{variable(name)} is not set: {described(name)}." for name in missing]
            told.append("Set it in the environment, or in a file named with --settings.")
            raise UsedWrong("\n".join(told))

    @property
    def alert_words(self) -> tuple[str, ...]:
        """The alert command as a program and its arguments; () if there is none."""
        return tuple(shlex.split(self.alert_command)) if self.alert_command is not None else ()

    @property
    def token(self) -> str:
        """The token itself; UsedWrong if there is none."""
        self.needed("telegram_token")
        assert self.telegram_token is not None
        return self.telegram_token.get_secret_value()


def variable(field: str) -> str:
    """The name of a setting in the environment and in the file."""
    return PREFIX + field.upper()


def described(field: str) -> str:
    """What a setting is, as a clause."""
    return str(Settings.model_fields[field].description)


def load(file: Path | None = None, options: Mapping[str, Any] | None = None) -> Settings:
    """The settings in force. `options` by field, those that are None were not given.

    UsedWrong names every setting that is wrong, its value (unless it is secret) and what to do.
    """
    if file is not None and not file.is_file():
        raise UsedWrong(f"There is no file {file}. Give --settings the path of a file of lines NAME=value.")
    given: dict[str, Any] = {name: value for name, value in (options or {}).items() if value is not None}
    given |= {"_env_file": file, "_env_file_encoding": "utf-8"}
    try:
        return Settings(**given)
    except UnicodeDecodeError:
        raise UsedWrong(f"{file} is not a text file in UTF-8. Write it as lines NAME=value.") from None
    except ValidationError as wrong:
        told = [_sentence(error["loc"][0], error) for error in wrong.errors(include_url=False)]
    # Outside the except clause, so that no traceback of it can carry a secret value along.
    raise UsedWrong("\n".join(told))


def _sentence(place: int | str, error: Mapping[str, Any]) -> str:
    field = str(place)
    if error["type"] == "extra_forbidden":
        known = ", ".join(variable(name) for name in Settings.model_fields)
        return f"There is no setting {field.upper()}. Take it out, or correct its name: {known}."
    value = "" if field == "telegram_token" else f" {str(error['input'])!r}"
    why = str(error["msg"]).removeprefix("Value error, ")
    if error["type"] != "value_error":
        why = f"does not fit ({why[0].lower()}{why[1:]}). It is {described(field)}"
    return f"{variable(field)}{value} {why}."
