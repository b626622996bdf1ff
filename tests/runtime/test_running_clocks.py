"""Countdowns on the phones: read off the state, drawn when there is room, never written down."""

import asyncio
from dataclasses import replace

import pytest

from companion.core import client as clients
from companion.core.effects import Button, Countdown, Put, Subject, Urgency, words
from companion.core.events import Press, Typed
from companion.core.media import Medium, Recorded
from companion.core.programme import Rules
from companion.runtime import envelope, outbox
from companion.runtime.envelope import Phones
from companion.runtime.transport import Inbound, InText, NotThere, Op, Outgoing, TryLater, Unreachable
from companion.store import CardRow
from tests.runtime.hands import START, World, at, message

STEP = Button(words("b-step"), Press("c1", "s1", "7", "tap"))
ADAS = Countdown("ada", "session", (words("left"),), START, 60, (STEP,))
CEMS = replace(ADAS, to="cem", buttons=())
GO = replace(message("go"), card="session", tag="s1:7")


class Running:
    """Which countdowns the state of each client shows."""

    def __init__(self) -> None:
        self.now: dict[str, tuple[Countdown, ...]] = {"c1": (ADAS,)}

    def read(self, client: clients.Client, rules: Rules) -> tuple[Countdown, ...]:
        return self.now.get(client.id, ())


@pytest.fixture
def running(monkeypatch: pytest.MonkeyPatch) -> Running:
    made = Running()
    monkeypatch.setattr(clients, "countdowns", made.read)
    monkeypatch.setattr(clients, "step", lambda client, event, rules: clients.Decision(client, ()))
    return made


def drawn(world: World, chat: int = 11) -> list[tuple[float, str]]:
    return [
        (round(sent.s, 1), sent.out.text)
        for sent in world.platform.sent
        if sent.out.op is Op.EDIT and sent.out.chat_id == chat and sent.out.text.startswith("left")
    ]


def left(*seconds: int) -> list[str]:
    return [f"left[left={one}]" for one in seconds]


async def changes(world: World, client_id: str = "c1") -> None:
    """Something happens to a client, so that the state is read again."""
    key = f"k{world.clock.seed()}"
    await world.runtime.handler.handle(Subject("client", client_id), Typed(world.clock.now(), "ada", ""), key)


async def test_it_starts_with_the_receipt_and_is_drawn_every_five_seconds_on_its_card(world: World, running: Running) -> None:
    await world.say(GO)
    await world.clock.move(at(100))
    assert drawn(world) == list(zip(range(5, 60, 5), left(*range(55, 0, -5)), strict=True))
    out = world.platform.sent[-1].out
    assert (out.message_id, out.rows) == (101, (("b-step", STEP.press),))


async def test_on_a_picture_it_is_drawn_as_its_words_and_the_picture_stays(world: World, running: Running) -> None:
    await world.say(replace(GO, media=Recorded(Medium.PHOTO, "AgAC"), media_key="feet"))
    await world.clock.move(at(11))
    asked = [(sent.out.op, sent.out.text, sent.out.message_id) for sent in world.platform.sent]
    assert asked == [(Op.FILE, "go", None), *((Op.CAPTION, text, 101) for text in left(55, 50))]


async def test_it_leaves_no_row_behind(world: World, running: Running) -> None:
    [row_id] = await world.say(GO)
    await world.clock.move(at(31))
    async with world.store.reading() as reading:
        assert await reading.waiting(9, at(1e6)) == [] and await reading.outbox(row_id + 1) is None


async def test_it_ends_when_the_state_shows_none(world: World, running: Running) -> None:
    await world.say(GO)
    await world.clock.move(at(12))
    running.now.clear()
    await changes(world)
    await world.clock.move(at(60))
    assert [text for _, text in drawn(world)] == left(55, 50)


async def test_it_is_not_drawn_on_a_card_that_has_scrolled_away(world: World, running: Running) -> None:
    await world.say(GO)
    await world.clock.move(at(7))
    await world.runtime.handler.receive(Inbound("tg:1:11:900", 11, 11, InText("is this right?"), 900))
    await world.clock.move(at(60))
    assert [text for _, text in drawn(world)] == left(55)


async def test_any_other_message_to_that_chat_drops_it(world: World, running: Running) -> None:
    await world.say(GO)
    await world.clock.move(at(7))
    await world.say(message("by the way", urgency=Urgency.ANSWER))
    await world.clock.move(at(60))
    assert [text for _, text in drawn(world)] == left(55)


async def test_a_change_of_its_own_card_does_not_drop_it(world: World, running: Running) -> None:
    await world.say(GO)
    await world.clock.move(at(7))
    await world.say(replace(message("noted"), card="session", put=Put.IN_PLACE))
    await world.clock.move(at(16))
    assert [text for _, text in drawn(world)] == left(55, 50, 45)


async def test_the_buttons_taken_off_an_older_card_do_not_drop_it(world: World, running: Running) -> None:
    await world.say(replace(GO, text="ready?", tag=None, buttons=(("b-ready", STEP.press),)), GO)
    await world.clock.move(at(11))
    assert [sent.out.op for sent in world.platform.sent] == [Op.TEXT, Op.TEXT, Op.CLEAR, Op.EDIT, Op.EDIT]


async def test_messages_that_matter_more_go_first(world: World, running: Running) -> None:
    await world.say(GO)
    await world.clock.move(at(4.9))
    world.clock.set(at(5))
    await world.say(message("live", "cem"), message("answer", "ben", Urgency.ANSWER))
    await world.clock.move(at(5.2))
    assert world.platform.texts()[1:] == ["live", "answer", "left[left=55]"]


async def test_a_quarter_goes_before_a_reminder_and_a_mere_step_after_it(world: World, running: Running) -> None:
    await world.say(GO)
    await world.clock.move(at(9.9))
    world.clock.set(at(10))
    await world.say(message("reminder 1", "cem", Urgency.REMINDER))
    await world.clock.move(at(14.9))
    world.clock.set(at(15))
    await world.say(message("reminder 2", "cem", Urgency.REMINDER))
    await world.clock.move(at(16))
    assert world.platform.texts()[2:] == ["reminder 1", "left[left=50]", "left[left=45]", "reminder 2"]


async def test_a_message_waiting_for_the_same_chat_holds_it(world: World, running: Running) -> None:
    await world.say(GO)
    await world.clock.move(at(1))
    world.platform.answers.append(TryLater(7))
    await world.say(message("live", urgency=Urgency.LIVE))
    await world.clock.move(at(7.9))
    assert drawn(world) == []


async def test_it_leaves_some_of_the_edits_of_a_minute_to_others(world: World, running: Running) -> None:
    await world.say(GO)
    for second in range(11):
        await world.clock.move(at(1 + second / 10))
        await world.say(replace(message(f"screen {second}"), card="session", put=Put.IN_PLACE))
    await world.clock.move(at(60))
    edits = [sent for sent in world.platform.sent if sent.out.op is Op.EDIT]
    assert len(edits) == 15
    assert len(drawn(world)) == 4


@pytest.mark.parametrize("answer", [TryLater(6), Unreachable(), RuntimeError("cut")])
async def test_one_that_fails_is_not_tried_again_and_the_next_is_drawn(
    world: World, running: Running, answer: Unreachable
) -> None:
    await world.say(GO)
    await world.clock.move(at(4))
    world.platform.answers.append(answer)
    await world.clock.move(at(16))
    times = [time for time, _ in drawn(world)]
    assert times[0] == 5 and times[-1] == 15 and len(times) == len(set(times))


async def test_one_whose_message_is_gone_is_dropped(world: World, running: Running) -> None:
    await world.say(GO)
    await world.clock.move(at(4))
    world.platform.judge = lambda out: NotThere() if out.op is Op.EDIT else None
    await world.clock.move(at(60))
    assert len(drawn(world)) == 1


async def test_one_without_words_is_dropped_and_the_loop_goes_on(world: World, running: Running) -> None:
    running.now["c1"] = (replace(ADAS, words=(words("no-such-words"),)),)
    await world.say(GO)
    await world.clock.move(at(12))
    await world.say(message("live", "cem"))
    await world.clock.move(at(13))
    assert world.platform.texts() == ["go", "live"]


async def test_one_that_is_replaced_while_we_look_is_not_drawn(
    world: World, running: Running, monkeypatch: pytest.MonkeyPatch
) -> None:
    look = envelope.card_in_place

    async def state_changes_meanwhile(phones: Phones, person_id: str, card: str | None) -> CardRow | None:
        running.now.clear()
        await changes(world)
        return await look(phones, person_id, card)

    await world.say(GO)
    await world.clock.move(at(4))
    monkeypatch.setattr(outbox, "card_in_place", state_changes_meanwhile)
    await world.clock.move(at(60))
    assert drawn(world) == [] and running.now == {}


async def test_what_is_written_while_one_is_on_the_wire_is_seen_at_once(world: World, running: Running) -> None:
    await world.say(GO)
    await world.clock.move(at(4))
    written: list[asyncio.Task[list[int]]] = []

    def judge(out: Outgoing) -> None:
        if out.text == "left[left=55]":
            written.append(asyncio.create_task(world.say(message("news", to="cem"))))

    world.platform.judge = judge
    await world.clock.move(at(5))
    await asyncio.gather(*written)
    await world.clock.move(at(6))
    assert [(round(sent.s, 1), sent.out.text) for sent in world.platform.sent[-2:]] == [(5.0, "left[left=55]"), (5.0, "news")]


async def test_a_restart_reads_it_off_the_state_again(world: World, running: Running) -> None:
    await world.say(GO)
    await world.clock.move(at(7))
    await world.runtime.stop()
    await world.runtime.start()
    await world.clock.move(at(16))
    assert [text for _, text in drawn(world)] == left(55, 50, 45)


async def test_countdowns_of_two_phones_run_side_by_side(world: World, running: Running) -> None:
    running.now["c2"] = (CEMS,)
    cems = replace(GO, person_id="cem", client_id="c2", subject=Subject("client", "c2"))
    await world.say(GO, cems)
    await world.clock.move(at(11))
    assert [text for _, text in drawn(world, 11)] == [text for _, text in drawn(world, 21)] == left(55, 50)


async def test_an_end_cue_is_not_kept_waiting_by_countdowns_of_others(world: World, running: Running) -> None:
    running.now["c2"] = (CEMS,)
    cems = replace(GO, person_id="cem", client_id="c2", subject=Subject("client", "c2"))
    await world.say(GO, cems)
    await world.clock.move(at(14.98))
    # while one goes out the end cue must wait for its slot; by then both countdowns are due, at their quarter
    await world.say(message("news", to="tess"))
    await world.clock.move(at(14.99))
    await world.say(replace(message("relax"), tag="s1:8"))
    await world.clock.move(at(16))
    sent = [(sent.s, sent.out.text) for sent in world.platform.sent if sent.s > 14.985]
    assert [text for _, text in sent] == ["relax", "left[left=45]"]
    assert sent[0][0] <= 15.03
