"""The lists that a therapist asks for: who needs a look first, a page at a time, and who else works here."""

from dataclasses import replace

from companion.core.care import Client, People
from companion.core.caseload import Look
from companion.core.effects import PAGE
from companion.core.events import Entry
from companion.core.person import Part, Person
from companion.store import Store
from companion.store.transactions import Tx
from tests.store.people import CLIENT, NOW, TORA


async def add(tx: Tx, id: str, name: str, rank: int = 0, *reasons: str, seeing: tuple[str, ...] = ("tora",)) -> Client:
    client = replace(CLIENT, id=id, name=name, people=People(id, "tora"))
    await tx.add_client(client, None, 2)
    await tx.set_caseload(client, seeing, Look(rank, reasons))
    return client


async def names(store: Store, person: str = "tora", first: int = 0) -> list[str]:
    async with store.reading() as reading:
        page = await reading.caseload(person, first)
    return [entry.name for entry in page.entries]


async def test_who_needs_a_look_comes_first_and_the_rest_by_name(home: Store) -> None:
    async with home.writing() as tx:
        for id, name, rank in (("a", "Zoe", 0), ("b", "Bo", 3), ("c", "Ada", 0), ("d", "Cy", 9), ("e", "Al", 3)):
            await add(tx, id, name, rank)
    assert await names(home) == ["Cy", "Al", "Bo", "Ada", "Zoe"]


async def test_a_line_says_who_and_why(home: Store) -> None:
    async with home.writing() as tx:
        await add(tx, "a", "Ada", 9, "open-flag", "silent[days]")
    async with home.reading() as reading:
        page = await reading.caseload("tora")
    assert page.entries == (Entry("a", "Ada", ("open-flag", "silent[days]")),) and page.total == 1


async def test_a_list_comes_in_pages(home: Store) -> None:
    async with home.writing() as tx:
        for number in range(PAGE + 3):
            await add(tx, f"c{number + 10}", f"Client {number:02}")
    assert await names(home) == [f"Client {number:02}" for number in range(PAGE)]
    assert await names(home, first=PAGE) == [f"Client {number:02}" for number in range(PAGE, PAGE + 3)]
    async with home.reading() as reading:
        assert (await reading.caseload("tora", PAGE)).total == PAGE + 3


async def test_a_line_moves_when_the_client_changes_and_there_is_one_only(home: Store) -> None:
    async with home.writing() as tx:
        first = await add(tx, "a", "Ada")
        await add(tx, "b", "Bo", 1)
    async with home.writing() as tx:
        await tx.set_caseload(replace(first, name="Ada B."), ("tora",), Look(2, ("fell",)))
    assert await names(home) == ["Ada B.", "Bo"]


async def test_who_covers_has_the_line_too_until_they_no_longer_see_to_the_client(home: Store) -> None:
    async with home.writing() as tx:
        client = await add(tx, "a", "Ada", seeing=("tora", "una"))
        await add(tx, "b", "Bo")
    assert (await names(home), await names(home, "una")) == (["Ada", "Bo"], ["Ada"])
    async with home.writing() as tx:
        await tx.set_caseload(client, ("tora",), Look())
    assert (await names(home), await names(home, "una")) == (["Ada", "Bo"], [])


async def test_several_clients_may_leave_all_lists_at_once(home: Store) -> None:
    async with home.writing() as tx:
        clients = [await add(tx, id, id) for id in "abc"]
    async with home.writing() as tx:
        for client in clients[:2]:
            await tx.set_caseload(client, (), Look())
    assert await names(home) == ["c"]


async def test_a_list_is_seen_in_the_transaction_that_changes_it(home: Store) -> None:
    async with home.writing() as tx:
        await add(tx, "a", "Ada")
        assert (await tx.caseload("tora")).total == 1


async def test_colleagues_are_the_other_therapists_who_have_joined(home: Store) -> None:
    una = Person("una", Part.THERAPIST, "Una", "Europe/Oslo", (), user_id=71)
    async with home.writing() as tx:
        await tx.add_person(una, None, 2)
        await tx.add_person(replace(una, id="vera", name="Vera", user_id=None), None, 2)
        await tx.add_person(replace(una, id="abe", name="Abe", user_id=72, role=Part.CARER), None, 2)
        await tx.add_person(replace(una, id="bea", name="Bea", user_id=73), None, 2)
    async with home.reading() as reading:
        assert (await reading.colleagues("tora")).entries == (Entry("bea", "Bea"), Entry("una", "Una"))
        assert (await reading.colleagues("una")).entries == (Entry("bea", "Bea"), Entry("tora", TORA.name))
    async with home.writing() as tx:
        vera = await tx.person("vera")
        assert vera is not None
        await tx.save_person(replace(vera, user_id=74), NOW, 2)
    async with home.reading() as reading:
        page = await reading.colleagues("tora")
    assert [entry.id for entry in page.entries] == ["bea", "una", "vera"] and page.total == 3


async def test_a_colleague_is_listed_under_their_new_name(home: Store) -> None:
    async with home.writing() as tx:
        await tx.save_person(replace(TORA, name="Tora Marie"), None, 2)
    async with home.reading() as reading:
        assert (await reading.colleagues("somebody else")).entries == (Entry("tora", "Tora Marie"),)
