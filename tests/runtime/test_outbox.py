"""What is sent, in which order and when."""

from dataclasses import replace
from datetime import timedelta
from itertools import pairwise

import pytest

from companion.core.effects import Urgency
from companion.core.events import Arrived, Lost, Why
from companion.runtime import outbox
from companion.runtime.envelope import NoChat, NoSound, NothingToDo, Phones, outgoing
from companion.runtime.transport import NoWay, Op, Outgoing, TryLater, Undeliverable, Unknown, Unreachable
from companion.store import OutboxRow, OutboxState
from tests.runtime.hands import ADA, START, World, at, message


async def event_of(world: World, row_id: int) -> object:
    """What the core was told of a message."""
    async with world.store.reading() as reading:
        row = await reading.journal(f"sent:{row_id}")
    return row.event if row is not None else None


async def test_the_most_urgent_goes_first_whoever_wrote_first(world: World) -> None:
    await world.say(
        message("report", "tess", Urgency.REPORT),
        message("reminder", "ben", Urgency.REMINDER),
        message("answer", "cem", Urgency.ANSWER),
        message("relax", "ada", Urgency.LIVE),
        message("alert", "tess", Urgency.ALERT),
    )
    await world.clock.move(at(1))
    assert world.platform.texts() == ["alert", "relax", "answer", "reminder", "report"]


async def test_what_begins_or_ends_a_clock_goes_before_other_live_news_and_keeps_its_place_in_its_chat(world: World) -> None:
    await world.say(
        message("news for ada"),
        message("news for cem", "cem"),
        replace(message("cue for ada"), not_after=at(3)),
        replace(message("go for ben", "ben"), not_after=at(10)),
        replace(message("relax for tess", "tess"), not_after=at(3)),
        message("alert", "tess", Urgency.ALERT),
    )
    await world.clock.move(at(1))
    first = ["alert", "relax for tess", "go for ben"]
    assert world.platform.texts() == [*first, "news for ada", "cue for ada", "news for cem"]


async def test_requests_are_evenly_spaced(world: World) -> None:
    people = ("ada", "ben", "cem", "tess")
    await world.say(*(message(f"{n}", to) for n in range(3) for to in people))
    await world.clock.move(at(1))
    gaps = {round(later.s - earlier.s, 4) for earlier, later in pairwise(world.platform.sent)}
    assert (len(world.platform.sent), gaps) == (12, {0.0407})


async def test_what_takes_time_to_get_ready_still_goes_in_its_slot(world: World, monkeypatch: pytest.MonkeyPatch) -> None:
    async def slow(phones: Phones, row: OutboxRow) -> Outgoing | NoChat | NothingToDo | NoSound:
        world.clock.set(world.clock.now() + timedelta(milliseconds=4))
        return await outgoing(phones, row)

    monkeypatch.setattr(outbox, "outgoing", slow)
    await world.say(*(message(f"{n}", to) for n in range(3) for to in ("ada", "ben", "cem", "tess")))
    await world.clock.move(at(1))
    times = [round(sent.s, 4) for sent in world.platform.sent]
    assert times == [round(0.004 + n * 1.018 / 25, 4) for n in range(12)]


async def test_a_chat_gets_three_at_once_and_then_one_a_second_while_others_go_on(world: World) -> None:
    await world.say(*(message(f"ada {n}") for n in range(5)), message("cem", "cem"))
    await world.clock.move(at(10))
    times = {sent.out.text: round(sent.s, 2) for sent in world.platform.sent}
    assert times == {"ada 0": 0, "ada 1": 0.04, "ada 2": 0.08, "cem": 0.12, "ada 3": 1.0, "ada 4": 2.0}


async def test_a_waiting_message_holds_back_its_own_class_and_lower_ones_of_its_chat_only(world: World) -> None:
    world.platform.answers.append(Unreachable())
    await world.say(message("live"))
    await world.clock.quiet()
    await world.say(
        message("later live"),
        message("answer", urgency=Urgency.ANSWER),
        message("alert", urgency=Urgency.ALERT),
        message("other chat", "cem", Urgency.REMINDER),
    )
    world.platform.answers.append(Unreachable())  # the alert fails too, and waits longer than the first
    await world.clock.move(at(0.99))
    assert world.platform.texts() == ["live"]
    await world.clock.move(at(20))
    assert world.platform.texts() == ["live", "alert", "alert", "live", "later live", "other chat", "answer"]


async def test_a_refused_chat_waits_and_the_others_go_on(world: World) -> None:
    world.platform.answers.append(TryLater(30))
    await world.say(message("ada"), message("cem", "cem"))
    await world.clock.move(at(29))
    assert world.platform.texts() == ["ada", "cem"]
    await world.clock.move(at(31))
    assert world.platform.texts() == ["ada", "cem", "ada"]
    assert world.platform.sent[-1].at == at(30)


async def test_two_refused_chats_pause_everybody_even_alerts(world: World) -> None:
    world.platform.answers.extend([TryLater(30), TryLater(20)])
    await world.say(message("ada"), message("cem", "cem"))
    await world.clock.move(at(0.1))
    await world.say(message("alert", "tess", Urgency.ALERT))
    await world.clock.move(at(19))
    assert world.platform.texts() == ["ada", "cem"]
    await world.clock.move(at(40))
    assert world.platform.texts() == ["ada", "cem", "alert", "cem", "ada"]


async def test_a_lost_network_is_tried_again_with_back_off_until_it_is_there(world: World) -> None:
    world.platform.answers.extend([Unreachable()] * 4)
    [row_id] = await world.say(message("live"))
    await world.clock.move(at(60))
    assert [round(sent.s, 2) for sent in world.platform.sent] == [0, 1, 3, 7, 15]
    row = await world.row(row_id)
    assert (row.state, row.attempts) == (OutboxState.SENT, 5)


async def test_acceptance_comes_back_as_arrived_at_the_moment_of_the_receipt(world: World) -> None:
    [row_id] = await world.say(replace(message("go"), tag="s1:4"))
    await world.clock.quiet()
    assert await event_of(world, row_id) == Arrived(START, "s1:4", seed=0)
    row = await world.row(row_id)
    assert (row.state, row.message_id, row.sent_at) == (OutboxState.SENT, 101, START)


async def test_a_message_later_than_it_may_be_is_not_sent_and_comes_back_as_lost(world: World) -> None:
    world.platform.answers.append(TryLater(10))
    first, second = await world.say(message("x"), replace(message("relax"), tag="s1:5", not_after=at(3)))
    await world.clock.move(at(20))
    assert world.platform.texts() == ["x", "x"]
    lost = await event_of(world, second)
    assert isinstance(lost, Lost) and (lost.tag, lost.why) == ("s1:5", Why.EXPIRED)
    assert (await world.row(second)).state is OutboxState.LOST
    assert (await world.row(first)).state is OutboxState.SENT


async def test_a_message_at_the_very_moment_of_its_limit_is_still_sent(world: World) -> None:
    world.platform.answers.append(TryLater(3))
    await world.say(replace(message("relax"), not_after=at(3)))
    await world.clock.move(at(20))
    assert world.platform.texts() == ["relax", "relax"]


async def test_what_is_taken_back_in_time_is_not_sent(world: World) -> None:
    world.platform.answers.append(TryLater(5))
    ids = await world.say(message("a"), message("b"), message("other topic", urgency=Urgency.ALERT))
    await world.clock.quiet()
    async with world.store.writing() as tx:
        await tx.take_back("c1", "session")
    await world.clock.move(at(30))
    assert world.platform.texts() == ["other topic"]
    assert [(await world.row(row_id)).state for row_id in ids] == [OutboxState.TAKEN_BACK] * 3


async def test_a_reminder_whose_end_is_unknown_is_not_repeated(world: World) -> None:
    world.platform.answers.append(Unknown())
    [row_id] = await world.say(replace(message("reminder", urgency=Urgency.REMINDER), tag="r1"))
    await world.clock.move(at(300))
    assert world.platform.texts() == ["reminder"]
    lost = await event_of(world, row_id)
    assert isinstance(lost, Lost) and lost.why is Why.UNKNOWN


async def test_live_news_that_somebody_waits_for_is_told_as_lost_when_its_end_is_unknown(world: World) -> None:
    world.platform.answers.append(Unknown())
    [row_id] = await world.say(replace(message("go"), tag="s1:4"))
    await world.clock.move(at(300))
    assert world.platform.texts() == ["go"]
    lost = await event_of(world, row_id)
    assert isinstance(lost, Lost) and lost.why is Why.UNKNOWN


async def test_an_alert_whose_end_is_unknown_is_repeated_until_it_is_known(world: World) -> None:
    world.platform.answers.extend([Unknown()] * 7)
    await world.say(message("alert", "tess", Urgency.ALERT))
    await world.clock.move(at(300))
    assert [round(sent.s) for sent in world.platform.sent] == [0, 1, 3, 7, 15, 31, 61, 91]


async def test_a_screen_that_nobody_waits_for_is_repeated_twice_at_most(world: World) -> None:
    world.platform.answers.extend([Unknown()] * 5)
    [row_id] = await world.say(message("screen"))
    await world.clock.move(at(300))
    assert world.platform.texts() == ["screen"] * 3
    assert (await world.row(row_id)).state is OutboxState.LOST


async def test_a_request_that_breaks_counts_as_unknown_and_the_loop_goes_on(
    world: World, caplog: pytest.LogCaptureFixture
) -> None:
    world.platform.answers.append(RuntimeError("token 12:secret"))
    await world.say(message("first", urgency=Urgency.REMINDER))
    await world.clock.quiet()
    await world.say(message("second", "cem"))
    await world.clock.move(at(5))
    assert world.platform.texts() == ["first", "second"]
    assert "secret" not in caplog.text


async def test_a_person_who_shut_us_out_is_known_to_have_left_and_it_is_said_once(world: World) -> None:
    world.platform.judge = lambda out: Undeliverable(NoWay.BLOCKED) if out.chat_id == 12 else None
    ids = await world.say(replace(message("one", "ben"), tag="t1"), replace(message("two", "ben"), tag="t2"))
    await world.clock.move(at(5))
    for row_id, tag in zip(ids, ("t1", "t2"), strict=True):
        lost = await event_of(world, row_id)
        assert isinstance(lost, Lost) and (lost.tag, lost.why) == (tag, Why.UNDELIVERABLE)
    async with world.store.reading() as reading:
        ben = await reading.person("ben")
        assert await reading.journal(f"left:{ids[0]}") is not None
        assert await reading.journal(f"left:{ids[1]}") is None
    assert ben is not None and not ben.reachable
    assert [text for text in world.platform.texts() if text.startswith("left-therapist")] == [
        "left-therapist[name=Ada who=ben]"
    ]


async def test_a_person_who_never_joined_gets_nothing_and_that_comes_back_as_lost(world: World) -> None:
    async with world.store.writing() as tx:
        await tx.save_person(replace(ADA, user_id=None), None, 2)
    [row_id] = await world.say(replace(message("go"), tag="t"))
    await world.clock.quiet()
    assert world.platform.sent == []
    lost = await event_of(world, row_id)
    assert isinstance(lost, Lost) and lost.why is Why.UNDELIVERABLE


async def test_an_alert_that_does_not_get_through_takes_the_operators_hook_once(world: World) -> None:
    world.platform.judge = lambda out: Unreachable()
    row_id, _ = await world.say(message("alert", "tess", Urgency.ALERT), message("live"))
    await world.clock.move(at(29))
    assert world.stuck == []
    await world.clock.move(at(200))
    assert [(alert.row, alert.client) for alert in world.stuck] == [(row_id, "c1")]


async def test_an_alert_that_nobody_can_get_takes_the_operators_hook_at_once(world: World) -> None:
    world.platform.answers.append(Undeliverable(NoWay.REFUSED))
    [row_id] = await world.say(message("alert", "tess", Urgency.ALERT))
    await world.clock.quiet()
    assert [(alert.row, alert.why) for alert in world.stuck] == [(row_id, "undeliverable")]


async def test_the_fixed_row_is_laid_with_the_most_urgent_control_across_the_whole_width(world: World) -> None:
    await world.say(replace(message("hello"), fixed_row=("Something is wrong", "Enough", "More")))
    await world.clock.quiet()
    [sent] = world.platform.sent
    assert sent.out.op is Op.TEXT
    assert sent.out.fixed_row == (("Something is wrong",), ("Enough", "More"))


async def test_nothing_waits_means_no_moment_to_wait_for(world: World) -> None:
    await world.say(message("x"))
    await world.clock.move(at(10))
    assert world.clock.next_at() is None
