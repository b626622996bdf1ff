"""Clients made in the chat, links that let people in, lists that are looked up, and what is passed on."""

import logging
from dataclasses import replace
from itertools import count
from pathlib import Path

import pytest

from companion.core import person as people
from companion.core.effects import Effect, Enrol, Invite, LookUp, NewPerson, PassOn, Report, Say, Subject, Urgency, words
from companion.core.events import Control, Controlled, Entry, Event, Found, Typed
from companion.core.media import Medium
from companion.core.person import Part, Person
from companion.core.programme import Rules
from companion.runtime.transport import File, Inbound, InOther, InStart, NotThere, NoWay, Op, Undeliverable
from companion.store import OutboxState
from tests.runtime.hands import START, World, at
from tests.store.people import everything

TESS = Subject("person", "tess")
TOKEN = "invented-payload"
LINK = f"https://door.example/{TOKEN}"
HANA = NewPerson("tess.1", "client", "Hana", "Europe/Oslo")
PAUL = NewPerson("tess.1.k", "carer", "Paul", "Europe/Oslo")
INES = NewPerson("tess.1.n1", "contact", "Ines", "Europe/Oslo")
ENROL = Enrol(
    "tess.1", "Hana", "Europe/Oslo", "tess", "Tess", (HANA, PAUL, NewPerson("tess.1.n1", "contact", "Ines", "Europe/Oslo"))
)
INVITE = Invite("tess", "tess.1", words("their-link", name="Hana"))
numbers = count(1)


class Desk:
    """The therapist's own row, which asks for whatever the test wants. `heard` is what was passed to it."""

    def __init__(self, world: World, monkeypatch: pytest.MonkeyPatch) -> None:
        self.world = world
        self.heard: list[Event] = []
        self._patch = monkeypatch

    async def asks(self, *effects: Effect) -> people.Decision | None:
        """Its step changes nothing and asks for these effects, once."""

        def step(person: Person, event: Event, rules: Rules) -> people.Decision:
            self.heard.append(event)
            return people.Decision(person, effects if isinstance(event, Controlled) else ())

        with self._patch.context() as patched:
            patched.setattr(people, "step", step)
            asked = Controlled(self.world.clock.now(), "tess", Control.NEW_CLIENT)
            decision = await self.world.runtime.handler.handle(TESS, asked, f"tg:{next(numbers)}:90:1")
        assert decision is None or isinstance(decision, people.Decision)
        return decision


@pytest.fixture
def desk(world: World, monkeypatch: pytest.MonkeyPatch) -> Desk:
    return Desk(world, monkeypatch)


async def start(world: World, user: int, payload: str) -> None:
    number = next(numbers)
    await world.runtime.handler.receive(Inbound(f"tg:{number}:{user}:{number}", user, user, InStart(payload), 1000 + number))


async def test_a_client_made_in_the_chat_is_there_with_their_people(world: World, desk: Desk) -> None:
    await desk.asks(ENROL)
    async with world.store.reading() as reading:
        client = await reading.client("tess.1")
        persons = [await reading.person(id) for id in ("tess.1", "tess.1.k", "tess.1.n1")]
        page = await reading.caseload("tess")
    assert client is not None and (client.name, client.zone, client.plan) == ("Hana", "Europe/Oslo", None)
    people_of = client.people
    assert (people_of.client, people_of.therapist, people_of.carer) == ("tess.1", "tess", "tess.1.k")
    assert people_of.contacts == ("tess.1.n1",) and people_of.name("tess") == "Tess"
    assert [(one.role, one.clients) for one in persons if one] == [
        (Part.CLIENT, ("tess.1",)),
        (Part.CARER, ("tess.1",)),
        (Part.CONTACT, ("tess.1",)),
    ]
    assert [entry.id for entry in page.entries] == ["tess.1"]


async def test_a_contact_who_is_here_already_gets_the_further_client(world: World, desk: Desk) -> None:
    ben = NewPerson("ben", "contact", "Benjamin", "Europe/Oslo")
    await desk.asks(Enrol("n.1", "Hana", "Europe/Oslo", "tess", "Tess", (replace(HANA, id="n.1"), ben)))
    async with world.store.reading() as reading:
        known = await reading.person("ben")
    assert known is not None and (known.role, known.name, known.clients) == (Part.CARER, "Ben", ("c1", "n.1"))


async def test_a_client_whose_id_is_taken_is_not_made_and_the_other_one_stays(world: World, desk: Desk) -> None:
    taken = Enrol("c1", "Eve", "Europe/Oslo", "tess", "Tess", (NewPerson("c1", "client", "Eve", "Europe/Oslo"),))
    assert await desk.asks(taken) is None
    async with world.store.reading() as reading:
        client = await reading.client("c1")
        assert await reading.person("c1") is None
    assert client is not None and client.name == "Ada"


async def test_a_carer_may_be_added_by_the_client_s_therapist_and_by_no_other(world: World, desk: Desk) -> None:
    await desk.asks(ENROL)
    olga = NewPerson("tess.1.k2", "carer", "Olga", "Europe/Oslo")
    assert await desk.asks(Enrol("tess.1", "Hana", "Europe/Oslo", "una", "Una", (olga,))) is None
    async with world.store.reading() as reading:
        assert await reading.person("tess.1.k2") is None
    await desk.asks(Enrol("tess.1", "Another name", "Europe/Oslo", "tess", "Tess", (olga,)))
    async with world.store.reading() as reading:
        client, added = await reading.client("tess.1"), await reading.person("tess.1.k2")
    assert client is not None and (client.name, client.people.carer) == ("Hana", "tess.1.k")
    assert added is not None and added.clients == ("tess.1",)


async def test_people_who_come_later_are_made_and_the_client_stays_as_they_are(world: World, desk: Desk) -> None:
    async with world.store.reading() as reading:
        before = await reading.client("c1")
    await desk.asks(
        Enrol("c1", "Ada", "Europe/Oslo", "tess", "Tess", (NewPerson("c1.k9.tess", "carer", "Paul", "Europe/Oslo"),))
    )
    async with world.store.reading() as reading:
        paul = await reading.person("c1.k9.tess")
        after = await reading.client("c1")
    assert paul is not None and (paul.role, paul.clients) == (Part.CARER, ("c1",)) and after == before


async def test_an_invitation_is_words_and_a_picture_and_lets_one_person_in(world: World, desk: Desk) -> None:
    await desk.asks(ENROL, INVITE)
    await world.clock.move(at(5))
    said, shown = [sent.out for sent in world.platform.sent]
    assert (said.chat_id, said.text, said.op) == (90, f"their-link[name=Hana link={LINK}]", Op.TEXT)
    assert (shown.chat_id, shown.file, shown.op) == (90, File(Medium.PHOTO, f"picture of {LINK}".encode()), Op.FILE)
    await start(world, 31, TOKEN)
    await start(world, 32, TOKEN)
    async with world.store.reading() as reading:
        hana = await reading.person("tess.1")
        assert await reading.person_by_user(32) is None
    assert hana is not None and hana.user_id == 31


async def test_a_new_invitation_closes_the_one_before(world: World, desk: Desk) -> None:
    await desk.asks(ENROL, INVITE)
    world.clock.tokens = ["the-second"]
    await desk.asks(INVITE)
    await start(world, 32, TOKEN)
    async with world.store.reading() as reading:
        assert await reading.person_by_user(32) is None
    await start(world, 31, "the-second")
    async with world.store.reading() as reading:
        assert await reading.person_by_user(31) is not None


async def test_an_invitation_opens_no_door_after_14_days(world: World, desk: Desk) -> None:
    await desk.asks(ENROL, INVITE)
    world.clock.set(at(14 * 86_400))
    await start(world, 31, TOKEN)
    async with world.store.reading() as reading:
        assert await reading.person_by_user(31) is None


async def test_the_payload_is_in_no_record_and_in_no_log_once_it_was_shown(
    world: World, desk: Desk, caplog: pytest.LogCaptureFixture, tmp_path: Path
) -> None:
    caplog.set_level(logging.DEBUG)
    database = tmp_path / "companion.sqlite3"
    await desk.asks(ENROL, INVITE)
    tables = everything(database)
    assert TOKEN in str(tables.pop("outbox")), "it waits to be shown"
    assert TOKEN not in str(tables)
    await world.clock.move(at(5))
    assert [sent.out.op for sent in world.platform.sent] == [Op.TEXT, Op.FILE]
    await start(world, 31, TOKEN)
    await world.clock.move(at(10))
    assert TOKEN not in str(everything(database))
    assert TOKEN not in caplog.text


async def test_an_invitation_for_nobody_is_set_aside(world: World, desk: Desk) -> None:
    assert await desk.asks(INVITE) is None
    await world.clock.move(at(5))
    assert world.platform.sent == []


async def test_a_list_that_is_looked_up_comes_back_as_an_event(world: World, desk: Desk) -> None:
    await desk.asks(ENROL, LookUp("caseload"), LookUp("colleagues"))
    found = [event for event in desk.heard if isinstance(event, Found)]
    assert found == [
        Found(START, "caseload", 0, 1, (Entry("tess.1", "Hana", found[0].entries[0].reasons),)),
        Found(START, "colleagues", 0, 0, ()),
    ]


async def test_a_voice_note_is_passed_on_after_the_words_that_announce_it(world: World, desk: Desk) -> None:
    announced = Say("tess", (words("a-voice-note"),), urgency=Urgency.REPORT)
    await desk.asks(announced, PassOn("tess", "ada", 4711, urgency=Urgency.REPORT))
    await world.clock.move(at(5))
    said, copied = [sent.out for sent in world.platform.sent]
    assert said.op is Op.TEXT
    assert (copied.op, copied.chat_id, copied.from_chat, copied.message_id) == (Op.COPY, 90, 11, 4711)


async def test_what_was_taken_away_before_it_was_passed_on_is_not_mentioned(world: World, desk: Desk) -> None:
    world.platform.answers.append(NotThere())
    await desk.asks(PassOn("tess", "ada", 4711))
    await world.clock.move(at(60))
    assert [sent.out.op for sent in world.platform.sent] == [Op.COPY]
    assert world.stuck == []


async def test_what_somebody_sent_who_never_joined_is_not_there_to_pass_on(world: World, desk: Desk) -> None:
    await desk.asks(PassOn("tess", "nobody", 4711))
    await world.clock.move(at(5))
    assert world.platform.sent == []
    assert (await world.row(1)).state is OutboxState.SENT


async def test_a_copy_that_is_refused_does_not_make_its_reader_unreachable(world: World, desk: Desk) -> None:
    world.platform.answers.append(Undeliverable(NoWay.REFUSED))
    await desk.asks(PassOn("tess", "ada", 4711))
    await world.clock.move(at(5))
    async with world.store.reading() as reading:
        tess = await reading.person("tess")
    assert tess is not None and tess.reachable


async def test_a_voice_note_names_its_message_so_that_it_can_be_passed_on(world: World) -> None:
    await world.runtime.handler.receive(Inbound("tg:900:11:4711", 11, 11, InOther("voice"), 4711))
    async with world.store.reading() as reading:
        row = await reading.journal("tg:900:11:4711")
    assert row is not None and isinstance(row.event, Typed)
    assert (row.event.form, row.event.message_id) == ("voice", 4711)


async def test_the_phone_of_somebody_who_has_no_part_any_more_may_become_somebody_new_s(world: World, desk: Desk) -> None:
    await desk.asks(ENROL, Invite("tess", "tess.1.k", words("their-link")))
    async with world.store.writing() as tx:
        ben = await tx.person("ben")
        assert ben is not None
        await tx.save_person(replace(ben, clients=()), None, 2)
    await start(world, 12, TOKEN)
    async with world.store.reading() as reading:
        paul, ben = await reading.person_by_user(12), await reading.person("ben")
    assert paul is not None and paul.id == "tess.1.k"
    assert ben is not None and ben.user_id is None


async def test_who_has_no_part_any_more_is_not_welcomed_again(world: World) -> None:
    async with world.store.writing() as tx:
        ben = await tx.person("ben")
        assert ben is not None
        await tx.save_person(replace(ben, clients=()), None, 2)
    await start(world, 12, "")
    await world.clock.move(at(5))
    assert [sent.out.text.partition("\n")[0] for sent in world.platform.sent] == ["helps-nobody"]
    assert world.platform.sent[0].out.fixed_row == ()


async def test_a_chart_is_not_drawn_for_a_therapist_who_no_longer_sees_to_the_client(world: World) -> None:
    async with world.store.writing() as tx:
        tess = await tx.person("tess")
        assert tess is not None
        await tx.request_report("c1", Report("tess", START.date(), START.date()))
        await tx.save_person(replace(tess, clients=("c2",)), None, 2)
    world.runtime.wake()
    await world.clock.move(at(5))
    assert world.draughtsman.drawn == [] and world.platform.sent == []
