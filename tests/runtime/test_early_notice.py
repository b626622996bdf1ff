"""A session over, its records are assessed by the drawing process and the care hears of it: a real store, a real child."""

from collections.abc import AsyncIterator
from dataclasses import replace
from datetime import timedelta

import pytest

from companion.content.folders import content_dir
from companion.core.care import Client
from companion.core.effects import Report, Sheet, Subject
from companion.core.events import Assessed, Control, Controlled
from companion.core.observations import Bout, Course, CourseNoted, Observation
from companion.core.person import Part, Person
from companion.reports.assessor import ChildAssessor
from tests.core.home import holding
from tests.core.practice import CARER, CLIENT, CONTACT, THERAPIST, ZONE, plan, planned
from tests.measures.records import broke, session
from tests.runtime.hands import CARE_OF_ADA, START, World

CARED_FOR = replace(CARE_OF_ADA, plan=plan(planned("together")), since=START - timedelta(days=200))


@pytest.fixture
async def child(world: World) -> AsyncIterator[ChildAssessor]:
    made = ChildAssessor(world.store, content_dir(), world.clock)
    world.draughtsman.assess = made.assess  # type: ignore[method-assign]
    yield made
    await made.close()


def practised(*seconds: float, before: timedelta = timedelta(days=1)) -> list[Observation]:
    """The holds of a session a day, two that broke about then, the last one so long before the start."""
    found: list[Observation] = []
    first = START - before - timedelta(days=len(seconds) - 1)
    for number, second in enumerate(seconds):
        shift = first + timedelta(days=number) - session(number, broke(second))[0][1].at
        for _, what in session(number, broke(second), broke(second + 3)):
            if isinstance(what, Bout):
                found.append(replace(what, at=what.at + shift, session=f"{before.days}.{number}"))
    return found


USUAL = [30.0 + day * 7 % 11 for day in range(40)]
LOW = [9.0, 8.0, 11.0, 10.0]


async def keep(world: World, *observations: Observation) -> None:
    """Ada has a plan, and these records."""
    async with world.store.writing() as tx:
        assert await tx.client("c1") is not None
        await tx.save_client(CARED_FOR, None, 2)
        for observation in observations:
            await tx.record("c1", observation)


async def assess(world: World) -> Client:
    """A session is over: have the records assessed. The client afterwards."""
    async with world.store.writing() as tx:
        await tx.request_report("c1", Report("ada", START.date(), START.date(), Sheet.ASSESSED))
    world.runtime.wake()
    await world.clock.quiet()
    async with world.store.reading() as reading:
        assert await reading.next_report() is None
        client = await reading.client("c1")
    assert client is not None
    return client


async def noted(world: World) -> list[CourseNoted]:
    async with world.store.reading() as reading:
        found = await reading.observations("c1", START - timedelta(days=1), START + timedelta(days=9))
    return [what for _, what in found if isinstance(what, CourseNoted)]


async def test_four_low_sessions_reach_the_care_and_the_therapist_and_nobody_at_home(
    world: World, child: ChildAssessor
) -> None:
    await keep(world, *practised(*USUAL, *LOW))
    client = await assess(world)
    assert client.lower_since == START
    (found,) = await noted(world)
    assert (found.course, found.earlier) == (Course.LOW, 40) and found.p is not None and found.p <= 0.01
    (sent,) = world.platform.sent
    assert sent.out.chat_id == 90 and sent.out.silent
    assert sent.out.text.startswith("lower-noticed[name=Ada earlier=40]")


async def test_a_usual_course_says_nothing_to_anybody(world: World, child: ChildAssessor) -> None:
    await keep(world, *practised(*USUAL, *USUAL[:4]))
    assert (await assess(world)).lower_since is None
    assert world.platform.sent == [] and await noted(world) == []


async def test_it_is_over_when_the_last_sessions_are_usual_again(world: World, child: ChildAssessor) -> None:
    await keep(world, *practised(*USUAL, *LOW, before=timedelta(days=5)))
    assert (await assess(world)).lower_since is not None
    async with world.store.writing() as tx:
        for number, second in enumerate(USUAL[:4]):
            for _, what in session(number, broke(second), broke(second + 3)):
                if isinstance(what, Bout):
                    at = START - timedelta(days=4 - number)
                    await tx.record("c1", replace(what, at=at, session=f"later{number}"))
    assert (await assess(world)).lower_since is None
    assert [one.course for one in await noted(world)] == [Course.LOW, Course.USUAL]
    assert len(world.platform.sent) == 1


async def test_too_few_sessions_say_nothing(world: World, child: ChildAssessor) -> None:
    await keep(world, *practised(*USUAL[:12], *LOW))
    assert (await assess(world)).lower_since is None and await noted(world) == []


async def test_what_lies_years_back_changes_nothing_where_the_last_months_are_full(world: World, child: ChildAssessor) -> None:
    await keep(world, *practised(*[5.0] * 20, before=timedelta(days=300)), *practised(*USUAL, *LOW, 9.5))
    assert (await assess(world)).lower_since == START


async def test_who_practises_seldom_is_set_against_sessions_of_long_ago(world: World, child: ChildAssessor) -> None:
    await keep(world, *practised(*USUAL, before=timedelta(days=300)), *practised(*LOW))
    assert (await assess(world)).lower_since == START


async def test_a_session_cut_off_by_a_red_flag_has_its_records_assessed_once(world: World) -> None:
    asked: list[str] = []
    usual = world.draughtsman.assess

    async def assess_and_count(client_id: str) -> Assessed:
        asked.append(client_id)
        return await usual(client_id)

    world.draughtsman.assess = assess_and_count  # type: ignore[method-assign]
    care = replace(holding().client, id="c9")
    async with world.store.writing() as tx:
        await tx.add_person(Person(CLIENT, Part.CLIENT, "Ann", ZONE, ("c9",), user_id=31), None, 2)
        for place, who in enumerate((CARER, THERAPIST, CONTACT), start=32):
            await tx.add_person(Person(who, Part.THERAPIST, who, ZONE, ("c9",), user_id=place), None, 2)
        await tx.add_client(care, None, 2)
    pressed = Controlled(START, CLIENT, Control.SOMETHING_WRONG)
    await world.runtime.handler.handle(Subject("client", "c9"), pressed, "wrong")
    world.runtime.wake()
    await world.clock.quiet()
    assert asked == ["c9"]
    assert all(sent.out.file is None for sent in world.platform.sent)
