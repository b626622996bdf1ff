"""A new database for each test, and the same one with invented people in it."""

from collections.abc import AsyncIterator
from pathlib import Path

import pytest

from companion.store import Store
from tests.store.people import CLIENT, NOW, PEOPLE


@pytest.fixture
def database(tmp_path: Path) -> Path:
    return tmp_path / "companion.sqlite3"


@pytest.fixture
async def store(database: Path) -> AsyncIterator[Store]:
    opened = await Store.open(database)
    yield opened
    await opened.close()


@pytest.fixture
async def home(store: Store) -> Store:
    """The store with one client at home, who is due in an hour."""
    async with store.writing() as tx:
        for person in PEOPLE:
            await tx.add_person(person, None, 2)
        await tx.add_client(CLIENT, NOW, 1)
    return store
