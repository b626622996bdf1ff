"""Events handled once, each in its own transaction, whatever goes wrong."""

from dataclasses import replace
from datetime import timedelta
from itertools import count

import pytest

from companion.core import client as clients
from companion.core.effects import Pass, Record, Reply, Report, Say, Subject, TakeBack, Urgency, words
from companion.core.events import Control, Controlled, Event, Joined, Press, Pressed, Typed
from companion.core.observations import OwnWords, Reporter
from companion.core.programme import Rules
from companion.runtime.transport import Inbound, InGone, InOther, InPress, InStart, InText, ReplyText
from companion.store import OutboxState, Store
from companion.store.errors import DatabaseUnusable
from companion.store.transactions import Tx
from tests.runtime.hands import ADA, CEM, START, World, at, message

C1 = Subject("client", "c1")
numbers = count(1)


def inbound(what: InText | InPress | InStart | InOther | InGone, user: int = 11) -> Inbound:
    number = next(numbers)
    return Inbound(f"tg:{number}:{user}:{number}", user, user, what, 1000 + number)


async def journaled(world: World, key: str) -> Event | None:
    async with world.store.reading() as reading:
        row = await reading.journal(key)
    return row.event if row is not None else None


async def client_of(world: World, client_id: str = "c1") -> clients.Client:
    async with world.store.reading() as reading:
        client = await reading.client(client_id)
    assert client is not None
    return client


def deciding(monkeypatch: pytest.MonkeyPatch, *effects: object) -> None:
    """Let a client's step change nothing and ask for these effects, as often as it is called for Typed."""

    def step(client: clients.Client, event: Event, rules: Rules) -> clients.Decision:
        asked = effects if isinstance(event, Typed) else ()
        return clients.Decision(client, asked)  # type: ignore[arg-type]

    monkeypatch.setattr(clients, "step", step)


TYPED = Typed(START, "ada", "hello")


async def test_an_event_is_handled_once_however_often_it_comes(world: World) -> None:
    first = await world.runtime.handler.handle(C1, TYPED, "tg:1:11:1")
    assert isinstance(first, clients.Decision) and first.effects
    assert await world.runtime.handler.handle(C1, TYPED, "tg:1:11:1") is None
    await world.clock.move(at(5))
    assert [text.split("\n")[0] for text in world.platform.texts()] == ["typed-kept[therapist=tess]"]
    async with world.store.reading() as reading:
        assert len(await reading.observations("c1", at(-1), at(1))) == 1


async def test_the_same_update_twice_is_answered_once(world: World) -> None:
    typed = inbound(InText("hello"))
    await world.runtime.handler.receive(typed)
    await world.runtime.handler.receive(typed)
    await world.clock.move(at(5))
    assert len(world.platform.sent) == 1


async def test_state_journal_words_and_observations_are_written_together(world: World, monkeypatch: pytest.MonkeyPatch) -> None:
    own = OwnWords(START, Reporter.CLIENT, "hello")
    deciding(
        monkeypatch,
        Record(own),
        Say("ada", (words("one"), words("two", n=2)), urgency=Urgency.ANSWER),
        Report("tess", START.date(), START.date()),
    )
    await world.runtime.handler.handle(C1, TYPED, "k")
    async with world.store.reading() as reading:
        row = await reading.journal("k")
        assert row is not None and row.event == TYPED and len(row.effects) == 3
        assert [found for _, found in await reading.observations("c1", START, START)] == [own]
    await world.clock.move(at(5))
    assert world.platform.texts() == ["one\ntwo[n=2]", f"week of {START.date()}"]
    assert world.draughtsman.drawn == [("c1", START.date(), START.date())]


async def test_what_is_taken_back_by_an_event_is_not_sent(world: World, monkeypatch: pytest.MonkeyPatch) -> None:
    deciding(monkeypatch, TakeBack("session"), Say("ada", (words("stopped"),), urgency=Urgency.ALERT))
    [row_id] = await world.say(message("next exercise"))
    await world.runtime.handler.handle(C1, TYPED, "k")
    await world.clock.move(at(5))
    assert world.platform.texts() == ["stopped"]
    assert (await world.row(row_id)).state is OutboxState.TAKEN_BACK


async def test_what_is_passed_on_is_handled_next_under_a_key_of_its_own(world: World, monkeypatch: pytest.MonkeyPatch) -> None:
    deciding(
        monkeypatch,
        Pass(Subject("person", "tess"), Typed(START, "ada", "first")),
        Pass(Subject("client", "c2"), Joined(START, "cem")),
    )
    await world.runtime.handler.handle(C1, TYPED, "k")
    assert await journaled(world, "pass:1") == Typed(START, "ada", "first")
    assert await journaled(world, "pass:2") == Joined(START, "cem")
    async with world.store.writing() as tx:
        assert await tx.next_pass() is None


async def test_what_was_passed_on_before_a_crash_is_handled_at_the_start(world: World) -> None:
    await world.runtime.stop()
    async with world.store.writing() as tx:
        await tx.put_pass(Subject("client", "c2"), Joined(START, "cem"))
    await world.runtime.start()
    assert (await client_of(world, "c2")).joined == ("cem",)


async def test_a_broken_passed_event_does_not_stop_the_next(world: World) -> None:
    async with world.store.writing() as tx:
        await tx.put_pass(Subject("client", "nobody"), Joined(START, "cem"))
        await tx.put_pass(Subject("client", "c2"), Joined(START, "cem"))
    await world.runtime.handler.drain()
    assert (await client_of(world, "c2")).joined == ("cem",)


# --- who is who


async def test_a_control_of_the_fixed_row_stops_everything_at_once(world: World) -> None:
    await world.runtime.handler.receive(replace(inbound(InText("Something is wrong")), sent=at(-3)))
    assert (await client_of(world)).hold is not None
    await world.clock.move(at(5))
    assert "emergency" in world.platform.texts()[0]


async def test_a_control_is_known_however_it_is_typed_and_carries_when_it_was_sent(world: World) -> None:
    came = replace(inbound(InText("  /MORE ")), sent=at(-3))
    await world.runtime.handler.receive(came)
    assert await journaled(world, came.key) == Controlled(START, "ada", Control.MORE, at(-3), seed=1)


async def test_for_a_therapist_the_label_of_a_control_is_just_words(world: World) -> None:
    came = inbound(InText("Something is wrong"), user=90)
    await world.runtime.handler.receive(came)
    assert await journaled(world, came.key) == Typed(START, "tess", "Something is wrong", seed=1)
    assert (await client_of(world)).hold is None


async def test_a_press_goes_to_its_client_and_is_answered_at_once(world: World, monkeypatch: pytest.MonkeyPatch) -> None:
    def step(client: clients.Client, event: Event, rules: Rules) -> clients.Decision:
        return clients.Decision(client, (Reply(words("noted")),))

    monkeypatch.setattr(clients, "step", step)
    press = Press("c1", "s1", "3", "ready")
    came = inbound(InPress(press), user=12)
    assert await world.runtime.handler.receive(came) == ReplyText("noted")
    assert await journaled(world, came.key) == Pressed(START, "ben", press, seed=1)


async def test_a_press_on_somebody_elses_button_changes_nothing_and_is_told_kindly(world: World) -> None:
    came = inbound(InPress(Press("c2", "s1", "3", "ready")))
    assert await world.runtime.handler.receive(came) == ReplyText("press-not-yours")
    assert await journaled(world, came.key) is None


async def test_a_carer_of_two_means_the_one_who_is_practising(world: World) -> None:
    async with world.store.writing() as tx:
        both = replace(ADA, id="both", user_id=13, clients=("c1", "c2"))
        await tx.add_person(both, None, 2)
    came = inbound(InOther("photo"), user=13)
    await world.runtime.handler.receive(came)
    async with world.store.reading() as reading:
        row = await reading.journal(came.key)
    assert row is not None and row.subject == C1


async def test_a_stranger_gets_one_plain_line_an_hour_and_is_not_written_down(world: World) -> None:
    for _ in range(5):
        assert await world.runtime.handler.receive(inbound(InText("hi"), user=666)) is None
    await world.clock.move(at(3599))
    assert [(sent.out.chat_id, sent.out.text) for sent in world.platform.sent] == [(666, "stranger")]
    await world.clock.move(at(3601))
    await world.runtime.handler.receive(inbound(InText("hi"), user=666))
    await world.clock.move(at(3700))
    assert world.platform.texts() == ["stranger"] * 2


async def test_a_strangers_press_is_answered_and_a_strangers_leaving_is_not(world: World) -> None:
    press = inbound(InPress(Press("c1", "s1", "3", "ready")), user=666)
    assert await world.runtime.handler.receive(press) == ReplyText("stranger")
    assert await world.runtime.handler.receive(inbound(InGone(), user=666)) is None
    await world.clock.move(at(5))
    assert world.platform.sent == []


async def link(world: World, payload: str, person: str, hours: int = 1) -> None:
    async with world.store.writing() as tx:
        await tx.add_link(payload, person, START + timedelta(hours=hours))


async def test_a_start_link_lets_its_person_in_once(world: World) -> None:
    async with world.store.writing() as tx:
        await tx.save_person(replace(CEM, user_id=None), None, 2)
    await link(world, "payload", "cem")
    await world.runtime.handler.receive(inbound(InStart("payload"), user=777))
    assert (await client_of(world, "c2")).joined == ("cem",)
    async with world.store.reading() as reading:
        cem = await reading.person_by_user(777)
    assert cem is not None and cem.id == "cem"
    await world.runtime.handler.receive(inbound(InStart("payload"), user=778))
    await world.clock.move(at(20))
    assert [sent.out.text for sent in world.platform.sent if sent.out.chat_id == 778] == ["link-used"]


async def test_an_expired_or_unknown_link_lets_nobody_in(world: World) -> None:
    await link(world, "old", "cem", hours=-1)
    await world.runtime.handler.receive(inbound(InStart("old"), user=777))
    await world.runtime.handler.receive(inbound(InStart("never"), user=777))
    await world.clock.move(at(20))
    assert world.platform.texts() == ["link-expired", "link-unknown"]


async def test_a_phone_that_joined_as_somebody_else_does_not_use_the_link_up(world: World) -> None:
    await link(world, "payload", "cem")
    await world.runtime.handler.receive(inbound(InStart("payload"), user=11))
    await world.clock.move(at(5))
    assert world.platform.texts() == ["link-taken"]
    async with world.store.writing() as tx:
        assert (await tx.use_link("payload", START)).person_id == "cem"
        raise_nothing = await tx.person_by_user(11)
    assert raise_nothing is not None and raise_nothing.id == "ada"


async def test_start_pressed_again_says_hello_again(world: World) -> None:
    came = inbound(InStart())
    await world.runtime.handler.receive(came)
    assert await journaled(world, came.key) == Joined(START, "ada", again=True, seed=1)


async def test_whoever_shuts_us_out_and_comes_back_is_known_to(world: World) -> None:
    await world.runtime.handler.receive(inbound(InGone()))
    async with world.store.reading() as reading:
        ada = await reading.person("ada")
        assert ada is not None and not ada.reachable
    await world.runtime.handler.receive(inbound(InGone(back=True)))
    async with world.store.reading() as reading:
        ada = await reading.person("ada")
    assert ada is not None and ada.reachable


# --- what goes wrong


def breaking(monkeypatch: pytest.MonkeyPatch) -> None:
    def step(client: clients.Client, event: Event, rules: Rules) -> clients.Decision:
        if client.id == "c1":
            raise ValueError("they wrote: my secret words")
        return clients.Decision(client, ())

    monkeypatch.setattr(clients, "step", step)


async def test_a_crash_leaves_the_state_is_logged_without_words_and_the_next_event_is_handled(
    world: World, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    before = await client_of(world)
    with monkeypatch.context() as broken:
        breaking(broken)
        came = inbound(InText("my secret words"))
        await world.runtime.handler.receive(came)
    assert await client_of(world) == before
    assert came.key in caplog.text and "ValueError" in caplog.text and "secret" not in caplog.text
    await world.runtime.handler.receive(inbound(InText("hello")))
    await world.clock.move(at(5))
    assert world.platform.texts()[0] == "fault[number=000]"
    assert world.platform.texts()[1].startswith("typed-kept")


async def test_after_a_crash_the_same_update_is_not_tried_again(world: World, monkeypatch: pytest.MonkeyPatch) -> None:
    breaking(monkeypatch)
    came = inbound(InText("hello"))
    await world.runtime.handler.receive(came)
    await world.runtime.handler.receive(came)
    await world.clock.move(at(5))
    assert world.platform.texts() == ["fault[number=000]"]


async def test_a_press_that_crashes_is_answered_with_the_emergency_number(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    breaking(monkeypatch)
    press = inbound(InPress(Press("c1", "s1", "3", "ready")))
    assert await world.runtime.handler.receive(press) == ReplyText("fault[number=000]")


async def test_a_cry_for_help_that_crashes_is_answered_first_of_all(world: World, monkeypatch: pytest.MonkeyPatch) -> None:
    breaking(monkeypatch)
    await world.say(message("live"))
    await world.runtime.handler.receive(inbound(InText("Something is wrong")))
    await world.clock.move(at(5))
    assert world.platform.texts() == ["fault[number=000]", "live"]


async def test_words_that_do_not_exist_undo_the_whole_event(
    world: World, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    deciding(
        monkeypatch,
        Record(OwnWords(START, Reporter.CLIENT, "hello")),
        Say("ada", (words("fine"),)),
        Say("ada", (words("no-such-words"),)),
    )
    assert await world.runtime.handler.handle(C1, TYPED, "k") is None
    await world.clock.move(at(5))
    assert world.platform.sent == []
    async with world.store.reading() as reading:
        assert await reading.observations("c1", START, START) == []
    assert "secret" not in caplog.text


async def test_an_event_for_nobody_is_set_aside(world: World) -> None:
    assert await world.runtime.handler.handle(Subject("client", "nobody"), TYPED, "k") is None
    assert await journaled(world, "k") == TYPED


async def test_a_database_that_fails_once_loses_nothing(world: World, monkeypatch: pytest.MonkeyPatch) -> None:
    journal, failures = Tx.journal, iter([True, False])

    async def failing(tx: Tx, *args: object) -> None:
        if next(failures, False):
            raise DatabaseUnusable("busy")
        await journal(tx, *args)  # type: ignore[arg-type]

    monkeypatch.setattr(Tx, "journal", failing)
    await world.runtime.handler.receive(inbound(InText("hello")))
    await world.clock.move(at(5))
    assert [text.split("[")[0] for text in world.platform.texts()] == ["typed-kept"]


async def test_a_database_that_can_not_be_written_is_no_fault_of_the_event(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    came = inbound(InText("hello"))
    with monkeypatch.context() as broken:
        broken.setattr(Store, "writing", _unusable)
        with pytest.raises(DatabaseUnusable):
            await world.runtime.handler.receive(came)
    await world.runtime.handler.receive(came)
    assert await journaled(world, came.key) is not None


def _unusable(store: Store) -> None:
    raise DatabaseUnusable("the disk is full")
