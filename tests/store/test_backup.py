"""A backup is the database as it was at one moment, in one file; nothing is overwritten and nothing half done is left."""

import sqlite3
import stat
from pathlib import Path

import pytest

from companion.errors import UsedWrong
from companion.store import Store
from companion.store.backup import backup
from companion.store.errors import DatabaseUnusable
from tests.store.people import CLIENT


async def test_a_backup_taken_while_the_database_is_read_holds_what_was_committed(
    home: Store, database: Path, tmp_path: Path
) -> None:
    copy = tmp_path / "copy.sqlite3"
    async with home.writing() as tx:
        await tx.set_offset(4711)
    async with home.reading() as reading:
        assert await reading.offset() == 4711
        backup(database, copy)
    restored = await Store.open(copy)
    async with restored.reading() as reading:
        assert await reading.offset() == 4711
        assert await reading.client(CLIENT.id) == CLIENT
    await restored.close()


async def test_a_backup_is_one_file_that_only_its_owner_may_read(home: Store, database: Path, tmp_path: Path) -> None:
    folder = tmp_path / "copies"
    folder.mkdir()
    backup(database, folder / "copy.sqlite3")
    assert [path.name for path in folder.iterdir()] == ["copy.sqlite3"]
    assert stat.S_IMODE((folder / "copy.sqlite3").stat().st_mode) == 0o600


async def test_a_backup_overwrites_nothing(home: Store, database: Path, tmp_path: Path) -> None:
    there = tmp_path / "there"
    there.write_text("mine")
    with pytest.raises(UsedWrong, match="is there already"):
        backup(database, there)
    assert there.read_text() == "mine"


async def test_a_backup_to_nowhere_is_told(home: Store, database: Path, tmp_path: Path) -> None:
    with pytest.raises(UsedWrong, match="can not be written"):
        backup(database, tmp_path / "no" / "such" / "folder")


def test_what_is_no_database_is_not_backed_up(tmp_path: Path) -> None:
    notes = tmp_path / "notes.txt"
    notes.write_text("no database at all " * 100)
    with pytest.raises(DatabaseUnusable):
        backup(notes, tmp_path / "copy.sqlite3")
    assert not (tmp_path / "copy.sqlite3").exists()


async def test_a_backup_that_fails_half_way_leaves_nothing(
    home: Store, database: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> sqlite3.Connection:
        raise sqlite3.OperationalError("database or disk is full")

    monkeypatch.setattr("companion.store.backup.connect_file", full)
    with pytest.raises(UsedWrong, match="disk is full"):
        backup(database, tmp_path / "copy.sqlite3")
    assert not (tmp_path / "copy.sqlite3").exists()
