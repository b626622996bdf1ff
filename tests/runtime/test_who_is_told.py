"""Red flags out of hours and undeliverable alerts through the handler, the store and the sender: who is told, who may press."""

from dataclasses import replace
from datetime import time, timedelta
from itertools import count

from companion.core.client import Client
from companion.core.duty import Hours
from companion.core.effects import Subject
from companion.core.events import Joined, Press
from companion.core.person import Part, Person
from companion.runtime.transport import Inbound, InPress, InText, NoWay, Outcome, Outgoing, ReplyText, Undeliverable
from tests.runtime.hands import START, TESS, World, at

UMA = Person("uma", Part.THERAPIST, "Uma", "Europe/London", (), user_id=91)
DOV = Person("dov", Part.CONTACT, "Dov", "Europe/London", ("c1",), user_id=92)
USERS = {"ada": 11, "tess": 90, "uma": 91}
numbers = count(1)


async def receive(world: World, who: str, what: InPress | InText) -> ReplyText | None:
    number, user = next(numbers), USERS[who]
    return await world.runtime.handler.receive(Inbound(f"tg:{number}:{user}:{number}", user, user, what, 1000 + number))


async def care(world: World) -> Client:
    async with world.store.reading() as reading:
        client = await reading.client("c1")
    assert client is not None
    return client


async def flag_in_the_night(world: World) -> str:
    """Tess works on Saturdays only, Uma is her deputy; Ada presses on a Monday. The flag's id."""
    async with world.store.writing() as tx:
        await tx.add_person(UMA, None, 2)
        await tx.add_person(DOV, None, 2)
        tess = replace(TESS, hours=Hours((5,), time(9), time(12)), deputy="uma", deputy_name="Uma")
        await tx.save_person(tess, None, 2)
        known = await tx.client("c1")
        assert known is not None
        people = replace(known.people, contacts=("dov",))
        await tx.save_client(replace(known, people=people, joined=("ada", "ben", "tess", "dov")), None, 2)
    await world.runtime.handler.handle(Subject("person", "tess"), Joined(START, "tess", again=True), "joined")
    await receive(world, "ada", InText("Something is wrong"))
    await world.clock.move(at(20))
    hold = (await care(world)).hold
    assert hold is not None
    return hold.id


def said_to(world: World, user: int) -> list[str]:
    return [sent.out.text for sent in world.platform.sent if sent.out.chat_id == user]


async def test_a_deputy_gets_the_alert_out_of_hours_may_acknowledge_and_is_out_again_once_it_is_lifted(world: World) -> None:
    flag = await flag_in_the_night(world)
    assert any("alert-as-deputy" in text for text in said_to(world, 91))
    assert any("told-off-duty[who=tess]" in text for text in said_to(world, 11))
    seen = InPress(Press("c1", flag, "alert", "seen"))
    await receive(world, "uma", seen)
    hold = (await care(world)).hold
    assert hold is not None and hold.contact_saw == "uma" and hold.acknowledged_at is None
    for press in (Press("c1", flag, "alert", "lift"), Press("c1", flag, "lift", "spoke")):
        await receive(world, "tess", InPress(press))
    assert (await care(world)).hold is None
    reply = await receive(world, "uma", seen)
    assert reply is not None and reply.text == "press-not-yours"
    async with world.store.reading() as reading:
        uma = await reading.person("uma")
    assert uma is not None and uma.clients == ()


async def test_alerts_that_can_not_be_delivered_reach_the_next_contact_at_once_and_home_hears_of_it(
    world: World,
) -> None:
    def refuses(outgoing: Outgoing) -> Outcome | None:
        return Undeliverable(NoWay.BLOCKED) if outgoing.chat_id in (90, 91) else None

    world.platform.judge = refuses
    await flag_in_the_night(world)
    contact = [sent for sent in world.platform.sent if sent.out.chat_id == 92]
    assert contact and "alert-contact-alone" in contact[0].out.text and contact[0].at < START + timedelta(seconds=10)
    assert sum("told-not[who=tess]" in text for text in said_to(world, 11)) == 1
    assert sum("told-not[who=Uma]" in text for text in said_to(world, 11)) == 1
    assert world.stuck, "the operator's hook was not called"
