"""Who must be looked at next: live sessions before reminders, earlier before later, nobody forgotten."""

from dataclasses import replace
from datetime import datetime, timedelta

from companion.core.effects import Subject
from companion.store import Store, Wake
from tests.store.people import ALVA, CLIENT, LATER, NOW


def minutes(count: int) -> datetime:
    return NOW + timedelta(minutes=count)


async def add(store: Store, *rows: tuple[str, datetime | None, int]) -> None:
    """Clients, and persons by names of p, with when and in which class they are looked at."""
    async with store.writing() as tx:
        for name, wake_at, wake_class in rows:
            if name.startswith("p"):
                await tx.add_person(replace(ALVA, id=name, user_id=None), wake_at, wake_class)
            else:
                await tx.add_client(replace(CLIENT, id=name), wake_at, wake_class)


async def order(store: Store, now: datetime, classes: tuple[int, ...] = (0, 1, 2)) -> list[str]:
    """Who is looked at, one after another, each put off far once it was looked at."""
    seen: list[str] = []
    while True:
        async with store.reading() as r:
            wake = await r.next_wake(now, classes)
        if wake is None:
            return seen
        seen.append(wake.subject.id)
        async with store.writing() as tx:
            await tx.postpone(wake.subject, now + timedelta(days=1))


async def test_live_sessions_come_before_reminders_and_earlier_ones_before_later_ones(store: Store) -> None:
    await add(
        store,
        ("c-report", minutes(-9), 2),
        ("c-reminder-2", minutes(-5), 1),
        ("c-reminder-1", minutes(-8), 1),
        ("c-live-2", minutes(0), 0),
        ("c-live-1", minutes(-1), 0),
        ("c-not-yet", minutes(1), 0),
        ("c-never", None, 0),
    )
    assert await order(store, NOW) == ["c-live-1", "c-live-2", "c-reminder-1", "c-reminder-2", "c-report"]


async def test_persons_are_woken_too_and_ties_have_a_fixed_order(store: Store) -> None:
    await add(store, ("p2", NOW, 1), ("p1", NOW, 1), ("c2", NOW, 1), ("c1", NOW, 1), ("p0", minutes(-1), 1))
    assert await order(store, NOW) == ["p0", "c1", "c2", "p1", "p2"]


async def test_only_the_classes_asked_for_are_woken(store: Store) -> None:
    await add(store, ("c-reminder", NOW, 1), ("c-live", NOW, 0), ("c-report", NOW, 2))
    assert await order(store, NOW, (0, 2)) == ["c-live", "c-report"]
    async with store.reading() as r:
        assert await r.earliest_wake((1,)) == NOW
        assert await r.earliest_wake((0, 2)) == NOW + timedelta(days=1)


async def test_an_alarm_tells_whose_it_is_and_at_which_version(store: Store) -> None:
    await add(store, ("c1", NOW, 1))
    async with store.writing() as tx:
        await tx.save_client(CLIENT, LATER, 0)
    async with store.reading() as r:
        assert await r.next_wake(NOW) is None
        assert await r.next_wake(LATER) == Wake(Subject("client", "c1"), LATER, 2, 0)


async def test_the_earliest_moment_is_told_even_if_it_is_far_off(store: Store) -> None:
    async with store.reading() as r:
        assert await r.earliest_wake() is None
    await add(store, ("c1", minutes(90), 0), ("c2", minutes(50), 2), ("p1", minutes(70), 1), ("c3", None, 1))
    async with store.reading() as r:
        assert await r.earliest_wake() == minutes(50)
