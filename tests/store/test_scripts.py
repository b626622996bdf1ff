"""A session's script is frozen: stored once, beside the client's record, for as long as the session."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import replace
from pathlib import Path

from companion.core.care import Client
from companion.core.steps import Show
from companion.store import Store
from companion.store.questions import Scripts
from tests.store.people import CLIENT, NOW, everything, going_wrong, in_session, script


@asynccontextmanager
async def opened_again(database: Path) -> AsyncIterator[Store]:
    store = await Store.open(database)
    yield store
    await store.close()


async def test_a_session_keeps_its_script_across_a_restart(home: Store, database: Path) -> None:
    practising = in_session(CLIENT, script("s1", "hello", "goodbye"))
    async with home.writing() as tx:
        await tx.save_client(practising, NOW, 0)
        assert await tx.client("c1") == practising
    await home.close()
    async with opened_again(database) as store, store.reading() as r:
        assert await r.client("c1") == practising
        assert await r.clients() == [practising]


async def test_a_script_is_written_once_and_goes_with_its_session(home: Store, database: Path) -> None:
    async def save(client: Client) -> None:
        async with home.writing() as tx:
            assert await tx.client("c1") is not None
            await tx.save_client(client, NOW, 0)

    def names() -> list[str]:
        return [name for _, name, _ in everything(database)["script"]]

    practising = in_session(CLIENT, script("s1", "hello"))
    await save(practising)
    assert names() == ["s1"]
    record = everything(database)["client"][0][1]
    assert "hello" not in record and '"script":"s1"' in record
    await save(replace(practising, sessions=1))
    assert names() == ["s1"]
    await save(in_session(CLIENT, script("s2", "hello again")))
    assert names() == ["s2"]
    await save(CLIENT)
    assert names() == []


async def test_two_clients_may_each_have_a_session_of_the_same_name(home: Store) -> None:
    first = in_session(CLIENT, script("s1", "hello"))
    second = in_session(replace(CLIENT, id="c2"), script("s1", "good day"))
    async with home.writing() as tx:
        await tx.add_client(second, NOW, 0)
        await tx.save_client(first, NOW, 0)
    async with home.writing() as tx:
        await tx.save_client(CLIENT, NOW, 1)
    async with home.reading() as r:
        assert await r.clients() == [CLIENT, second]


async def test_a_script_under_way_can_not_be_changed(home: Store, database: Path) -> None:
    async with home.writing() as tx:
        await tx.save_client(in_session(CLIENT, script("s1", "hello")), NOW, 0)
    async with home.writing() as tx:
        await tx.save_client(in_session(CLIENT, script("s1", "something else")), NOW, 0)
    async with home.reading() as r:
        assert await r.client("c1") == in_session(CLIENT, script("s1", "hello"))


async def test_a_script_of_a_rolled_back_session_is_not_remembered(home: Store) -> None:
    async with going_wrong(home) as tx:
        await tx.save_client(in_session(CLIENT, script("s1", "never written")), NOW, 0)
    practising = in_session(CLIENT, script("s1", "hello"))
    async with home.writing() as tx:
        await tx.save_client(practising, NOW, 0)
    async with home.reading() as r:
        assert await r.client("c1") == practising


def test_what_is_equal_in_two_scripts_is_kept_once() -> None:
    kept, first, second = Scripts(), script("s1", "hello", "goodbye"), script("s2", "hello", "good day")
    assert kept.keep(("c1", "s1"), first) == first
    assert kept.keep(("c2", "s2"), second) == second
    one, other = (kept.get(name) for name in (("c1", "s1"), ("c2", "s2")))
    assert one is not None and other is not None
    shows = [step for found in (one, other) for step in found.steps if isinstance(step, Show)]
    assert [show.words[0].key for show in shows] == ["hello", "goodbye", "hello", "good day"]
    assert shows[0].words is shows[2].words


async def test_a_script_leaves_the_memory_with_its_session(home: Store) -> None:
    practising = in_session(CLIENT, script("s1", "hello"))
    async with home.writing() as tx:
        await tx.save_client(practising, NOW, 0)
    assert home._scripts.get(("c1", "s1")) is not None
    async with going_wrong(home) as tx:
        await tx.save_client(CLIENT, NOW, 1)
    assert home._scripts.get(("c1", "s1")) is not None
    async with home.writing() as tx:
        await tx.save_client(CLIENT, NOW, 1)
    assert home._scripts.get(("c1", "s1")) is None
