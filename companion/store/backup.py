"""Writes a copy of the database while it is in use, as it was at one moment (SQLite's own online backup)."""

import sqlite3
from contextlib import closing
from pathlib import Path

from companion.errors import UsedWrong
from companion.store.engines import connect_file
from companion.store.lock import OWNER_ONLY
from companion.store.migrate import is_up_to_date


def backup(database: Path, file: Path) -> None:
    """Copy `database` into the new file `file`, readable by its owner only, for it holds what people said.

    Blocks until it is done. Raises UsedWrong if the file is there or can not be written, DatabaseUnusable if the
    database is none of ours. What was half written is taken away again.
    """
    is_up_to_date(database)
    try:
        file.touch(mode=OWNER_ONLY, exist_ok=False)
    except FileExistsError:
        raise UsedWrong(f"{file} is there already. Name a file that is not: a backup overwrites nothing.") from None
    except OSError as error:
        raise UsedWrong(f"{file} can not be written: {error.strerror}. Name a file elsewhere.") from None
    try:
        with closing(connect_file(database)) as source, closing(connect_file(file)) as copy:
            source.backup(copy)
            # One file is easier to carry than three.
            copy.execute("PRAGMA journal_mode = DELETE")
    except sqlite3.Error as error:
        file.unlink()
        raise UsedWrong(f"{file} can not be written: {error}. Name a file where there is room.") from None
