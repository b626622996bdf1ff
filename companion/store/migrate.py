"""Brings the tables up to date when the program starts. Runs in a thread: Alembic knows no async."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, inspect
from sqlalchemy.exc import DBAPIError

from companion.store.engines import migrator
from companion.store.errors import DatabaseUnusable

VERSION_TABLE = "alembic_version"


def is_up_to_date(database: Path) -> bool:
    """Whether the tables are those of this program. False if they are older, or if there are none yet.

    Raises `DatabaseUnusable`: no database, not ours, or of a newer version.
    """
    with opened(database) as connection:
        return _is_up_to_date(connection, database)


def bring_up_to_date(database: Path) -> None:
    """Make the tables, or change older ones, in one transaction: all of it or nothing. Raises as above."""
    with opened(database) as connection:
        if not _is_up_to_date(connection, database):
            settings = config()
            settings.attributes["connection"] = connection
            command.upgrade(settings, "head")


def config() -> Config:
    """Alembic's settings: where the migrations lie. Nothing is read from a file."""
    settings = Config()
    settings.set_main_option("script_location", "companion:store/migrations")
    settings.set_main_option("path_separator", "newline")
    return settings


@contextmanager
def opened(database: Path) -> Iterator[Connection]:
    """One transaction with the writer's settings, on a connection of its own. Raises `DatabaseUnusable`."""
    engine = migrator(database)
    try:
        with engine.begin() as connection:
            yield connection
    except DBAPIError as error:
        raise unusable(database, error) from error
    finally:
        engine.dispose()


def unusable(database: Path, error: DBAPIError) -> DatabaseUnusable:
    """The same said for an operator."""
    return DatabaseUnusable(
        f"The database {database} can not be used: {error.orig}. Look whether the folder and the file are there, may be "
        "read and written, and have room; if the file is damaged or is no database, restore a backup, "
        "or set COMPANION_DATABASE to another file."
    )


def _is_up_to_date(connection: Connection, database: Path) -> bool:
    tables = set(inspect(connection).get_table_names())
    if not tables:
        return False
    revision = MigrationContext.configure(connection).get_current_revision()
    if revision is None:
        raise DatabaseUnusable(
            f"{database} is a database, but not the companion's: it is left as it is. Set COMPANION_DATABASE to another file."
        )
    scripts = ScriptDirectory.from_config(config())
    if revision not in {script.revision for script in scripts.walk_revisions()}:
        raise DatabaseUnusable(
            f"The database {database} was written by a newer companion (its tables are {revision}). "
            "Install that version again, or restore a backup from before."
        )
    return revision == scripts.get_current_head()
