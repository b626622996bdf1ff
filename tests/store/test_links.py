"""Start links let somebody in once, until they expire."""

from datetime import timedelta
from pathlib import Path

import pytest

from companion.store import LinkState, LinkUse, Store
from companion.store.errors import AlreadyThere
from tests.store.people import LATER, NOW, everything, going_wrong

PAYLOAD = "Zk3q_T-9abcdEFGH01234w"


@pytest.fixture
async def invited(home: Store) -> Store:
    """Karl has a link that is good until LATER."""
    async with home.writing() as tx:
        await tx.add_link(PAYLOAD, "karl", LATER)
    return home


async def test_a_link_is_good_once(invited: Store) -> None:
    async with invited.writing() as tx:
        assert await tx.use_link(PAYLOAD, NOW) == LinkUse(LinkState.GOOD, "karl")
        assert await tx.use_link(PAYLOAD, NOW) == LinkUse(LinkState.USED, "karl")
    async with invited.writing() as tx:
        assert await tx.use_link(PAYLOAD, NOW) == LinkUse(LinkState.USED, "karl")


async def test_a_link_is_expired_from_its_moment_on(invited: Store) -> None:
    async with invited.writing() as tx:
        assert await tx.use_link(PAYLOAD, LATER) == LinkUse(LinkState.EXPIRED, "karl")
        assert await tx.use_link(PAYLOAD, LATER - timedelta(seconds=1)) == LinkUse(LinkState.GOOD, "karl")


@pytest.mark.parametrize("payload", ["", "guessed", PAYLOAD.lower(), PAYLOAD + "x", "\ud800"])
async def test_a_guessed_link_is_unknown(invited: Store, payload: str) -> None:
    async with invited.writing() as tx:
        assert await tx.use_link(payload, NOW) == LinkUse(LinkState.UNKNOWN, None)


async def test_a_link_is_not_used_up_by_a_transaction_that_goes_wrong(invited: Store) -> None:
    async with going_wrong(invited) as tx:
        assert (await tx.use_link(PAYLOAD, NOW)).state is LinkState.GOOD
    async with invited.writing() as tx:
        assert (await tx.use_link(PAYLOAD, NOW)).state is LinkState.GOOD


async def test_the_database_does_not_hold_the_payload(invited: Store, database: Path) -> None:
    assert len(everything(database)["link"]) == 1
    assert PAYLOAD not in str(everything(database))


async def test_older_links_of_a_person_are_closed_and_only_theirs(invited: Store) -> None:
    async with invited.writing() as tx:
        await tx.add_link("of alva", "alva", LATER)
        await tx.close_links("karl", NOW)
        await tx.add_link("the newer one", "karl", LATER)
    async with invited.writing() as tx:
        assert (await tx.use_link(PAYLOAD, NOW)).state is LinkState.EXPIRED
        assert (await tx.use_link("of alva", NOW)).state is LinkState.GOOD
        assert (await tx.use_link("the newer one", NOW)).state is LinkState.GOOD


async def test_a_used_link_stays_used_when_links_are_closed(invited: Store) -> None:
    async with invited.writing() as tx:
        await tx.use_link(PAYLOAD, NOW)
        await tx.close_links("karl", NOW)
    async with invited.writing() as tx:
        assert (await tx.use_link(PAYLOAD, NOW)).state is LinkState.USED


async def test_the_same_link_can_not_be_made_twice(invited: Store) -> None:
    with pytest.raises(AlreadyThere):
        async with invited.writing() as tx:
            await tx.add_link(PAYLOAD, "alva", LATER)
