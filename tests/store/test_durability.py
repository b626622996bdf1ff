"""A commit waits for the disk, but for a database that may be lost with the machine."""

from pathlib import Path

import pytest
from sqlalchemy import text

from companion.store import Store

FULL, OFF = 2, 0


@pytest.mark.parametrize(("durable", "synchronous"), [(True, FULL), (False, OFF)])
async def test_only_a_database_that_need_not_last_does_without_waiting_for_the_disk(
    tmp_path: Path, durable: bool, synchronous: int
) -> None:
    store = await Store.open(tmp_path / "companion.db", durable=durable)
    async with store._writer.begin() as connection:
        assert connection.execute(text("PRAGMA synchronous")).scalar() == synchronous
    await store.close()


async def test_a_commit_waits_for_the_disk_unless_it_is_told_not_to(tmp_path: Path) -> None:
    store = await Store.open(tmp_path / "companion.db")
    async with store._writer.begin() as connection:
        assert connection.execute(text("PRAGMA synchronous")).scalar() == FULL
    await store.close()
