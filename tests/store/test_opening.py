"""Opening the database: one process is active, and what can not be opened is said with what to do."""

import os
import signal
import sqlite3
import stat
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from companion.errors import CompanionError, UsedWrong
from companion.store import Store
from companion.store.errors import DatabaseUnusable
from tests.store.people import CLIENT, NOW, PEOPLE, everything

START = """
import asyncio, sys
from pathlib import Path
from companion.errors import CompanionError
from companion.store import Store

async def main():
    store = await Store.open(Path(sys.argv[1]))
    async with store.writing() as tx:
        await tx.set_offset(4711)
        assert await tx.offset() == 4711
        print("in the middle of writing", flush=True)
        await asyncio.Event().wait()

try:
    asyncio.run(main())
except CompanionError as error:
    print(error, file=sys.stderr)
    sys.exit(error.exit_code)
"""


def start(database: Path) -> "subprocess.Popen[str]":
    """Another process that opens the database and stays in the middle of a transaction."""
    return subprocess.Popen(
        [sys.executable, "-c", START, str(database)], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )


async def test_a_second_start_says_so_and_exits_2(store: Store, database: Path) -> None:
    second = start(database)
    told = second.communicate()[1]
    assert second.returncode == 2
    assert told.startswith(f"Another companion is running on {database}. Stop that one first")


async def test_the_lock_is_free_again_after_closing(database: Path) -> None:
    for _ in range(2):
        store = await Store.open(database)
        with pytest.raises(UsedWrong):
            await Store.open(database)
        await store.close()
        await store.close()


def test_the_lock_and_the_transaction_of_a_killed_process_are_gone(database: Path) -> None:
    first = start(database)
    assert first.stdout is not None
    assert first.stdout.readline() == "in the middle of writing\n"
    second = start(database)
    assert second.wait() == 2
    first.send_signal(signal.SIGKILL)
    assert first.wait() == -signal.SIGKILL
    assert everything(database)["update_offset"] == []
    third = start(database)
    assert third.stdout is not None
    assert third.stdout.readline() == "in the middle of writing\n"
    third.kill()
    third.wait()
    for process in (first, second, third):
        process.communicate()


def test_a_process_that_forgets_to_close_it_still_ends(database: Path) -> None:
    forgets = START.replace("await asyncio.Event().wait()", "return")
    ended = subprocess.run([sys.executable, "-c", forgets, str(database)], capture_output=True, text=True, timeout=60)
    assert (ended.returncode, ended.stdout) == (0, "in the middle of writing\n")
    assert everything(database)["update_offset"] == [(1, 4711)]


async def test_enrolment_may_open_it_beside_the_running_one(store: Store, database: Path) -> None:
    beside = await Store.open(database, active=False)
    async with beside.writing() as tx:
        for person in PEOPLE:
            await tx.add_person(person, None, 2)
        await tx.add_client(CLIENT, NOW, 1)
    await beside.close()
    async with store.reading() as r:
        wake = await r.next_wake(NOW)
    assert wake is not None and wake.subject.id == "c1"


async def test_enrolment_may_come_first_and_leaves_the_lock_free(database: Path) -> None:
    beside = await Store.open(database, active=False)
    running = await Store.open(database)
    await running.close()
    await beside.close()


@pytest.fixture
def careless() -> Iterator[None]:
    """A process whose files anybody may read and write, if nothing is said."""
    before = os.umask(0)
    yield
    os.umask(before)


def share(database: Path) -> None:
    database.chmod(0o640)


def rights(folder: Path) -> dict[str, int]:
    return {path.name: stat.S_IMODE(path.stat().st_mode) for path in folder.iterdir()}


both_ways = pytest.mark.parametrize("active", [True, False])


@both_ways
@pytest.mark.usefixtures("careless")
async def test_every_file_that_it_makes_is_its_owners_only(tmp_path: Path, active: bool) -> None:
    folder = tmp_path / "home"
    folder.mkdir()
    store = await Store.open(folder / "companion.sqlite3", active=active)
    async with store.writing() as tx:
        await tx.set_offset(4711)
    found = rights(folder)
    await store.close()
    assert {"companion.sqlite3", "companion.sqlite3-wal", "companion.sqlite3-shm"} <= set(found)
    assert set(found.values()) == {0o600}


@pytest.mark.usefixtures("careless")
async def test_the_lock_is_its_owners_only(tmp_path: Path) -> None:
    store = await Store.open(tmp_path / "companion.sqlite3")
    assert rights(tmp_path)["companion.sqlite3.lock"] == 0o600
    await store.close()


async def test_the_rights_of_a_file_that_is_there_are_the_operators(database: Path) -> None:
    await (await Store.open(database)).close()
    share(database)
    await (await Store.open(database)).close()
    assert rights(database.parent)[database.name] == 0o640


async def refusal(database: Path, active: bool) -> str:
    """What is said, after a look that the lock was let go."""
    with pytest.raises(DatabaseUnusable) as told:
        await Store.open(database, active=active)
    with pytest.raises(DatabaseUnusable):
        await Store.open(database, active=active)
    assert isinstance(told.value, CompanionError) and told.value.exit_code == 1
    assert str(database) in str(told.value)
    return str(told.value)


def read(database: Path) -> bytes:
    return database.read_bytes()


def write(database: Path, content: bytes) -> None:
    database.write_bytes(content)


@both_ways
async def test_a_file_that_is_no_database_is_refused_and_left_alone(database: Path, active: bool) -> None:
    diary = b"Dear diary, today I practised." * 200
    write(database, diary)
    assert "file is not a database" in await refusal(database, active)
    assert read(database) == diary


@both_ways
async def test_a_folder_in_place_of_the_file_is_refused(tmp_path_factory: pytest.TempPathFactory, active: bool) -> None:
    folder = tmp_path_factory.mktemp("companion.sqlite3")
    assert "set COMPANION_DATABASE to another file" in await refusal(folder, active)


@both_ways
async def test_a_folder_that_is_not_there_is_said(tmp_path: Path, active: bool) -> None:
    assert "folder" in await refusal(tmp_path / "nowhere" / "companion.sqlite3", active)
    assert os.listdir(tmp_path) == []


@both_ways
async def test_a_damaged_database_is_refused(database: Path, active: bool) -> None:
    await (await Store.open(database)).close()
    whole = read(database)
    write(database, whole[:100] + b"\xff" * (len(whole) - 100))
    assert "restore a backup" in await refusal(database, active)


@both_ways
async def test_another_programs_database_is_refused_and_left_alone(database: Path, active: bool) -> None:
    with sqlite3.connect(database) as connection:
        connection.execute("CREATE TABLE song (title TEXT)")
    assert "not the companion's" in await refusal(database, active)
    with sqlite3.connect(database) as connection:
        assert connection.execute("SELECT name FROM sqlite_master").fetchall() == [("song",)]


@both_ways
async def test_a_newer_database_is_refused_with_what_to_do(database: Path, active: bool) -> None:
    await (await Store.open(database)).close()
    with sqlite3.connect(database) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
    told = await refusal(database, active)
    assert "was written by a newer companion" in told
    assert "Install that version again, or restore a backup" in told


async def test_a_database_that_breaks_while_it_is_open_is_said(home: Store, database: Path) -> None:
    with sqlite3.connect(database) as connection:
        connection.execute("DROP TABLE passes")
    with pytest.raises(DatabaseUnusable, match="no such table: passes"):
        async with home.writing() as tx:
            await tx.next_pass()


async def test_a_reader_can_not_write(home: Store, database: Path) -> None:
    before = everything(database)
    with home._reader.begin() as connection, pytest.raises(Exception, match="readonly database"):
        connection.exec_driver_sql("DELETE FROM client")
    assert everything(database) == before
