"""A client is made in the chat through the handler and the store: a draft outlives restarts, and is written down once."""

from itertools import count

from companion.core.dialogues import Enrolling
from companion.core.events import Press
from companion.core.observations import BaselineNoted
from companion.core.person import Part, own
from companion.runtime.transport import Inbound, InPress, InText
from tests.runtime.hands import World, at

TESS, USER = "tess", 90
ANSWERS = ("left", "right", "none", "no", "one", "voice", "always")
numbers = count(1)


async def receive(world: World, what: InPress | InText) -> None:
    number = next(numbers)
    await world.runtime.handler.receive(Inbound(f"tg:{number}:{USER}:{number}", USER, USER, what, 1000 + number))


async def dialogue(world: World) -> Enrolling:
    async with world.store.reading() as reading:
        tess = await reading.person(TESS)
    assert tess is not None and isinstance(tess.dialogue, Enrolling)
    return tess.dialogue


async def choose(world: World, choice: str) -> Press:
    there = await dialogue(world)
    press = Press(own(TESS), there.id, there.at, choice)
    await receive(world, InPress(press))
    return press


async def to_the_summary(world: World) -> None:
    await receive(world, InText("/new"))
    await receive(world, InText("Ann"))
    for answer in ANSWERS:
        await choose(world, answer)
    await receive(world, InText("Ben"))


async def test_a_draft_is_in_the_record_after_every_answer_and_nobody_else_knows_of_it(world: World) -> None:
    await to_the_summary(world)
    draft = await dialogue(world)
    assert draft.at == "summary" and dict(draft.answers)["carer"] == "Ben"
    async with world.store.reading() as reading:
        assert await reading.client(draft.client) is None and await reading.person(draft.client) is None


async def test_written_down_twice_the_client_the_carer_and_their_links_are_made_once(world: World) -> None:
    await to_the_summary(world)
    client = (await dialogue(world)).client
    world.clock.tokens += ["one", "two"]
    press = await choose(world, "write")
    await receive(world, InPress(press))
    await world.clock.move(at(20))
    async with world.store.reading() as reading:
        made = await reading.client(client)
        persons = [await reading.person(one) for one in (client, f"{client}.k")]
        tess = await reading.person(TESS)
        noted = [one for _, one in await reading.observations(client, at(-60), at(60)) if isinstance(one, BaselineNoted)]
    assert made is not None and made.baseline is not None and made.people.carer == f"{client}.k"
    assert [one.role for one in persons if one is not None] == [Part.CLIENT, Part.CARER]
    assert tess is not None and tess.clients.count(client) == 1
    assert len(noted) == 1 and noted[0].by == TESS
    links = [sent.out.text for sent in world.platform.sent if sent.out.text and "enrol-link" in sent.out.text]
    assert len(links) == 2
