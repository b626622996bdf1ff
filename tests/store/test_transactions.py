"""One event, one transaction: all of it or nothing, once, and nobody's update is lost."""

import asyncio
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from companion.core.caseload import Look
from companion.core.effects import Pass, Report, Subject, TakeBack
from companion.core.events import Event, Joined, Press, Pressed, Woke
from companion.core.media import SignsPicture
from companion.core.observations import DayClosed, Ending, PlanPrescribed, Reviewed
from companion.core.review_values import ReviewValues
from companion.store import CardRow, DigestRow, JournalRow, OutboxState, ReportState, Store
from companion.store.errors import AlreadyHandled, AlreadyThere
from companion.store.reading import UNPACKED_AT_ONCE
from companion.store.transactions import Tx
from tests.store.people import (
    ALVA,
    CLIENT,
    KARL,
    LATER,
    NOW,
    ONE,
    PEOPLE,
    TORA,
    everything,
    going_wrong,
    in_session,
    message,
    script,
)

PRESSED = Pressed(NOW, "alva", Press("c1", "s1", "7", "ready"), seed=4711)


async def write_everything(tx: Tx) -> None:
    """Something of every kind that a transaction can write."""
    await tx.journal("tg:1", ONE, PRESSED, ())
    await tx.save_client(in_session(CLIENT, script("s1", "hello")), LATER, 0)
    await tx.save_person(replace(ALVA, reachable=False), LATER, 1)
    await tx.save_person(replace(TORA, name="Tora Marie"), LATER, 1)
    await tx.set_caseload(CLIENT, ["tora"], Look(1, ("fell",)))
    row = await tx.put_outbox(message())
    await tx.set_on_wire(row)
    await tx.set_sent(row, 5, NOW)
    await tx.set_card(CardRow("alva", "session", 5, has_buttons=True, editable=True))
    await tx.set_last_message("alva", 5)
    await tx.record("c1", DayClosed(NOW, NOW.date(), Ending.NO_ANSWER))
    await tx.put_pass(Subject("person", "tora"), Woke(NOW))
    await tx.request_report("c1", Report("tora", NOW.date(), NOW.date()))
    await tx.request_digest(DigestRow("tora", NOW.date(), NOW.date(), "All is well."))
    await tx.add_link("secret", "karl", LATER)
    await tx.want(SignsPicture(("eyes",)), "en", "1", NOW)
    await tx.set_offset(12)


async def test_a_key_is_handled_once(home: Store) -> None:
    async with home.writing() as tx:
        assert not await tx.was_handled("tg:1")
        await tx.journal("tg:1", ONE, PRESSED, ())
    async with home.writing() as tx:
        assert await tx.was_handled("tg:1")
        assert not await tx.was_handled("tg:2")


async def test_a_second_event_of_the_same_key_leaves_nothing(home: Store, database: Path) -> None:
    async with home.writing() as tx:
        await tx.journal("tg:1", ONE, PRESSED, ())
    before = everything(database)
    with pytest.raises(AlreadyHandled):
        async with home.writing() as tx:
            await write_everything(tx)
    assert everything(database) == before


async def test_the_journal_tells_what_was_asked_for(home: Store) -> None:
    effects = (TakeBack("session"), Pass(Subject("person", "tora"), Joined(NOW, "karl")))
    async with home.writing() as tx:
        await tx.journal("tg:1", ONE, PRESSED, effects)
    async with home.reading() as r:
        assert await r.journal("tg:1") == JournalRow("tg:1", ONE, PRESSED, effects)
        assert await r.journal("tg:2") is None


async def test_a_transaction_that_goes_wrong_leaves_nothing(home: Store, database: Path) -> None:
    before = everything(database)
    async with going_wrong(home) as tx:
        await write_everything(tx)
    assert everything(database) == before
    async with home.writing() as tx:
        await write_everything(tx)
    after = everything(database)
    assert [table for table in before if after[table] == before[table]] == []


async def test_a_transaction_that_is_cut_off_leaves_nothing_and_lets_the_next_one_in(home: Store, database: Path) -> None:
    before = everything(database)
    written, never = asyncio.Event(), asyncio.Event()

    async def cut_off() -> None:
        async with home.writing() as tx:
            await write_everything(tx)
            written.set()
            await never.wait()

    task = asyncio.create_task(cut_off())
    await written.wait()
    task.cancel()
    with pytest.raises(asyncio.CancelledError):
        await task
    assert everything(database) == before
    async with home.writing() as tx:
        await tx.set_offset(1)
    assert everything(database)["update_offset"] == [(1, 1)]


async def count_one_session_more(store: Store) -> None:
    async with store.writing() as tx:
        client = await tx.client("c1")
        assert client is not None
        await tx.save_client(replace(client, sessions=client.sessions + 1), NOW, 1)


async def test_of_200_writers_at_once_none_loses_its_update(home: Store) -> None:
    await asyncio.gather(*(count_one_session_more(home) for _ in range(200)))
    async with home.reading() as r:
        client, wake = await r.client("c1"), await r.next_wake(NOW)
    assert client is not None and client.sessions == 200
    assert wake is not None and wake.version == 201


async def test_writers_of_two_processes_wait_for_each_other(home: Store, database: Path) -> None:
    beside = await Store.open(database, active=False)
    await asyncio.gather(*(count_one_session_more(store) for store in (home, beside) for _ in range(30)))
    async with beside.reading() as r:
        client = await r.client("c1")
    await beside.close()
    assert client is not None and client.sessions == 60


async def test_readers_do_not_wait_for_a_writer_and_see_none_of_it_before_the_end(home: Store) -> None:
    async with home.writing() as tx:
        await tx.save_client(replace(CLIENT, name="Alva Maria"), NOW, 1)
        await tx.set_offset(7)
        assert await tx.offset() == 7
        async with home.reading() as r:
            assert await r.client("c1") == CLIENT
            assert await r.offset() is None
    async with home.reading() as r:
        assert await r.offset() == 7


async def test_a_reading_is_one_snapshot(home: Store) -> None:
    async with home.reading() as r:
        assert await r.offset() is None
        async with home.writing() as tx:
            await tx.set_offset(7)
        assert await r.offset() is None


async def test_every_saving_raises_the_version_by_one(home: Store) -> None:
    async with home.writing() as tx:
        assert await tx.save_client(CLIENT, NOW, 1) == 2
        assert await tx.save_client(CLIENT, NOW, 1) == 3
        assert await tx.save_person(ALVA, None, 2) == 2
    async with home.writing() as tx:
        assert await tx.client("c1") == CLIENT
        assert await tx.save_client(CLIENT, NOW, 1) == 4
        assert await tx.person_by_user(11) == ALVA
        assert await tx.save_person(ALVA, None, 2) == 3


async def test_a_client_can_be_put_off_without_reading_the_record(home: Store) -> None:
    async with home.writing() as tx:
        assert await tx.postpone(ONE, LATER) == 2
        assert await tx.postpone(Subject("person", "karl"), LATER) == 2
        assert await tx.save_person(KARL, LATER, 2) == 3
    async with home.reading() as r:
        assert await r.next_wake(NOW) is None
        assert await r.client("c1") == CLIENT
        wake = await r.next_wake(LATER)
    assert wake is not None and (wake.subject, wake.version, wake.wake_class) == (ONE, 2, 1)


async def test_who_is_not_there_can_not_be_saved_or_put_off(home: Store) -> None:
    async with home.writing() as tx:
        assert await tx.client("c9") is None
        assert await tx.person("nobody") is None
        assert await tx.person_by_user(99) is None
        with pytest.raises(LookupError):
            await tx.save_client(replace(CLIENT, id="c9"), NOW, 1)
        with pytest.raises(LookupError):
            await tx.save_person(replace(ALVA, id="nobody"), None, 2)
        with pytest.raises(LookupError):
            await tx.postpone(Subject("client", "c9"), NOW)


async def test_two_people_can_not_have_one_user_id(home: Store) -> None:
    with pytest.raises(AlreadyThere, match="one user id is one person"):
        async with home.writing() as tx:
            await tx.add_person(replace(ALVA, id="other"), None, 2)
    with pytest.raises(AlreadyThere, match="One user id is one person"):
        async with home.writing() as tx:
            await tx.save_person(replace(KARL, user_id=ALVA.user_id), None, 2)
    async with home.reading() as r:
        assert await r.people() == list(PEOPLE)


async def test_a_client_can_not_be_added_twice(home: Store) -> None:
    with pytest.raises(AlreadyThere, match="another id"):
        async with home.writing() as tx:
            await tx.add_client(CLIENT, NOW, 1)


async def test_people_without_a_user_id_may_be_many(store: Store) -> None:
    async with store.writing() as tx:
        for person in PEOPLE:
            await tx.add_person(replace(person, user_id=None), None, 2)
    async with store.reading() as r:
        assert len(await r.people()) == 3


async def test_a_moment_without_a_time_zone_is_refused(home: Store, database: Path) -> None:
    before = everything(database)
    with pytest.raises(Exception, match="no time zone"):
        async with home.writing() as tx:
            await tx.save_client(CLIENT, NOW.replace(tzinfo=None), 1)
    assert everything(database) == before


async def test_a_wake_class_that_no_alarm_asks_for_is_refused(home: Store, database: Path) -> None:
    before = everything(database)
    with pytest.raises(Exception, match="wake_class"):
        async with home.writing() as tx:
            await tx.save_client(CLIENT, NOW, 3)
    assert everything(database) == before


async def take_pass(store: Store) -> tuple[int, Subject, Event]:
    """The oldest passed event, which is then done."""
    async with store.writing() as tx:
        row = await tx.next_pass()
        assert row is not None
        await tx.pass_done(row.id)
    return row.id, row.subject, row.event


async def test_passed_events_come_oldest_first_and_their_numbers_are_never_used_again(home: Store) -> None:
    tora, karl = Subject("person", "tora"), Subject("person", "karl")
    async with home.writing() as tx:
        assert await tx.next_pass() is None
        first = await tx.put_pass(tora, PRESSED)
        second = await tx.put_pass(karl, Woke(NOW))
    seen = [await take_pass(home), await take_pass(home)]
    assert seen == [(first, tora, PRESSED), (second, karl, Woke(NOW))]
    async with home.writing() as tx:
        assert await tx.next_pass() is None
        assert await tx.put_pass(karl, Woke(NOW)) > second > first


async def test_observations_come_by_time_between_two_moments(home: Store) -> None:
    days = [DayClosed(NOW + timedelta(days=n), NOW.date(), Ending.NO_ANSWER) for n in (3, 1, 2, 1)]
    async with home.writing() as tx:
        for day in days:
            await tx.record("c1", day)
    async with home.reading() as r:
        found = await r.observations("c1", NOW + timedelta(days=1), NOW + timedelta(days=2))
        assert found == [(days[n].at, days[n]) for n in (1, 3, 2)]
        assert await r.observations("c2", NOW, NOW + timedelta(days=9)) == []


async def test_of_what_is_older_only_some_kinds_come_in_order_of_time(home: Store) -> None:
    days = [DayClosed(NOW + timedelta(days=n), NOW.date(), Ending.NO_ANSWER) for n in range(4)]
    plans = [PlanPrescribed(NOW + timedelta(days=n), n, "tora") for n in (3, 0)]
    async with home.writing() as tx:
        for day in days:
            await tx.record("c1", day)
        for plan in plans:
            await tx.record("c1", plan)
    async with home.reading() as r:
        found = await r.since("c1", NOW + timedelta(days=2), NOW + timedelta(days=3), ("plan_prescribed", "discharged"))
        assert found == [(what.at, what) for what in (plans[1], days[2], days[3], plans[0])]
        assert await r.since("c1", NOW + timedelta(days=2), NOW + timedelta(days=2), ()) == [(days[2].at, days[2])]


async def test_of_some_kinds_only_the_last_of_what_is_older_comes(home: Store) -> None:
    plans = [PlanPrescribed(NOW + timedelta(days=n), version, "tora") for version, n in enumerate((0, 1, 1, 3))]
    closed = DayClosed(NOW, NOW.date(), Ending.NO_ANSWER)
    async with home.writing() as tx:
        for plan in plans:
            await tx.record("c1", plan)
        await tx.record("c1", closed)
    kinds = ("plan_prescribed", "discharged")
    async with home.reading() as r:
        found = await r.since("c1", NOW + timedelta(days=2), NOW + timedelta(days=3), (), kinds)
        assert found == [(what.at, what) for what in plans[1:]], "both of the same moment, and what comes after"
        assert await r.since("c1", NOW, NOW, (), kinds) == [(what.at, what) for what in (plans[0], closed)], "nothing is older"
        assert await r.of_kinds("c1", NOW, NOW + timedelta(days=9), ("day_closed",)) == [(closed.at, closed)]


async def test_while_the_observations_of_years_are_unpacked_others_have_their_turn(home: Store) -> None:
    many = UNPACKED_AT_ONCE + 1
    async with home.writing() as tx:
        for n in range(many):
            await tx.record("c1", DayClosed(NOW + timedelta(days=n), NOW.date(), Ending.NO_ANSWER))
    others = asyncio.Event()
    asyncio.get_running_loop().call_soon(others.set)
    async with home.reading() as r:
        assert len(await r.observations("c1", NOW, NOW + timedelta(days=UNPACKED_AT_ONCE - 1))) == UNPACKED_AT_ONCE
        assert not others.is_set(), "a few are unpacked in one go"
        assert len(await r.observations("c1", NOW, NOW + timedelta(days=many))) == many
        assert others.is_set()


async def test_of_reviews_alone_come_those_up_to_a_moment(home: Store) -> None:
    measured = [Reviewed(NOW + timedelta(days=n), "tora", ReviewValues(berg=n)) for n in (2, 1, 3)]
    async with home.writing() as tx:
        await tx.record("c1", DayClosed(NOW, NOW.date(), Ending.NO_ANSWER))
        for one in measured:
            await tx.record("c1", one)
    async with home.reading() as r:
        assert await r.of_kinds("c1", NOW, NOW + timedelta(days=2), ("reviewed",)) == [
            (measured[n].at, measured[n]) for n in (1, 0)
        ]
        assert await r.of_kinds("c2", NOW, NOW + timedelta(days=9), ("reviewed",)) == []


async def test_charts_are_asked_for_in_order(home: Store) -> None:
    monday, sunday = NOW.date(), NOW.date() + timedelta(days=6)
    async with home.writing() as tx:
        first = await tx.request_report("c1", Report("tora", monday, sunday))
        second = await tx.request_report("c1", Report("karl", monday, monday))
    async with home.reading() as r:
        row = await r.next_report()
    assert row is not None
    assert (row.id, row.client_id, row.person_id, row.first, row.last) == (first, "c1", "tora", monday, sunday)
    async with home.writing() as tx:
        await tx.set_report(first, ReportState.DRAWN)
        await tx.set_report(second, ReportState.FAILED)
    async with home.reading() as r:
        assert await r.next_report() is None


async def test_a_message_that_was_sent_stays_as_it_was_written(home: Store) -> None:
    async with home.writing() as tx:
        row = await tx.put_outbox(message(tag="s1:7", buttons=(("Ready", Press("c1", "s1", "7", "ready")),)))
        await tx.set_on_wire(row)
        await tx.set_sent(row, 2**40, LATER)
    async with home.reading() as r:
        assert await r.outbox(row) == message(
            tag="s1:7",
            buttons=(("Ready", Press("c1", "s1", "7", "ready")),),
            id=row,
            state=OutboxState.SENT,
            attempts=1,
            message_id=2**40,
            sent_at=LATER,
        )
