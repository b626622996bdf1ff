"""A red flag whose alert can not be delivered: the next contact hears of it at once, and the operator's hook is called."""

from dataclasses import replace

import pytest

from companion.core.person import Part, Person
from companion.runtime.transport import Inbound, InText, NoWay, Undeliverable, Unreachable
from tests.runtime.hands import START, World, at

TESS, INES = 90, 91


@pytest.fixture
async def with_contact(world: World) -> World:
    """Ada's next contact is Ines, who is in the chat. All are invented."""
    async with world.store.writing() as tx:
        await tx.add_person(Person("ines", Part.CONTACT, "Ines", "Europe/London", ("c1",), user_id=INES), None, 2)
        client = await tx.client("c1")
        assert client is not None
        names = (*client.people.names, ("ines", "Ines"))
        people = replace(client.people, contacts=("ines",), names=names)
        await tx.save_client(replace(client, people=people, joined=("ada", "ben", "tess", "ines")), None, 2)
    return world


async def something_is_wrong(world: World) -> None:
    await world.runtime.handler.receive(Inbound("tg:1:11:1", 11, 11, InText("Something is wrong"), 1001, START))


def told_at(world: World, user: int) -> list[float]:
    """When something was tried to be said to somebody, in seconds."""
    return [sent.s for sent in world.platform.sent if sent.out.chat_id == user]


async def test_while_the_therapist_can_be_reached_the_contact_waits(with_contact: World) -> None:
    await something_is_wrong(with_contact)
    await with_contact.clock.move(at(20))
    assert told_at(with_contact, TESS) and not told_at(with_contact, INES)
    assert with_contact.stuck == []


@pytest.mark.parametrize("why", [NoWay.BLOCKED, NoWay.REFUSED])
async def test_the_contact_is_told_at_once_where_the_therapist_can_not_be(with_contact: World, why: NoWay) -> None:
    with_contact.platform.judge = lambda out: Undeliverable(why) if out.chat_id == TESS else None
    await something_is_wrong(with_contact)
    await with_contact.clock.move(at(20))
    assert told_at(with_contact, INES) and told_at(with_contact, INES)[0] < 5
    assert [(alert.client, alert.why) for alert in with_contact.stuck][:1] == [("c1", "undeliverable")]


async def test_a_therapist_who_never_joined_can_not_be_told_and_the_contact_is(with_contact: World) -> None:
    async with with_contact.store.writing() as tx:
        tess = await tx.person("tess")
        assert tess is not None
        await tx.save_person(replace(tess, user_id=None), None, 2)
    await something_is_wrong(with_contact)
    await with_contact.clock.move(at(20))
    assert told_at(with_contact, INES)[0] < 5


async def test_while_the_network_is_down_the_hook_is_called_after_30_seconds(with_contact: World) -> None:
    with_contact.platform.judge = lambda out: Unreachable()
    await something_is_wrong(with_contact)
    await with_contact.clock.move(at(29))
    assert with_contact.stuck == []
    await with_contact.clock.move(at(60))
    assert {(alert.client, alert.why) for alert in with_contact.stuck} == {("c1", "it waits")}
