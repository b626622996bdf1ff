"""The drawing process, a real one, over a real database: asked, killed, interrupted, given up, closed."""

import asyncio
import os
import pickle
import signal
import subprocess
import sys
from collections.abc import AsyncIterator
from contextlib import suppress
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from companion.content.folders import content_dir
from companion.core.care import Client, Hold, People
from companion.core.effects import Paper, Sheet
from companion.core.media import SoundCheck
from companion.core.observations import Observation, PlanPrescribed
from companion.core.programme import Level
from companion.errors import UsedWrong
from companion.reports import assessor as asking_side
from companion.reports.asking import LENGTH, Drawn, Task, packed
from companion.reports.assessor import CHILD, ChildAssessor, NotDrawn
from companion.runtime.clock import RealClock
from companion.store import Store
from tests.reports.course_of_reviews import COURSE, reviewed
from tests.reports.weeks import (
    MONDAY,
    MONDAY_MORNING,
    SUNDAY,
    ZONE,
    at,
    case,
    closed,
    dated,
    day,
    fell,
    plan,
    session,
)

PNG = b"\x89PNG\r\n\x1a\n"
A_WEEK = timedelta(days=7)
ODDA = Client(
    id="odda",
    name="Odda Fennimore",
    zone=ZONE,
    people=People(client="p-odda", therapist="p-thea", carer="bram"),
    looked_at=MONDAY_MORNING,
    reported_at=MONDAY_MORNING,
    plan=plan("feet_together", "heel_to_toe", "one_leg", "one_leg_toes"),
)


class StandingClock(RealClock):
    """It is Monday morning."""

    def now(self) -> datetime:
        return MONDAY_MORNING


@pytest.fixture
async def store(tmp_path: Path) -> AsyncIterator[Store]:
    opened = await Store.open(tmp_path / "companion.sqlite3")
    yield opened
    await opened.close()


@pytest.fixture
async def assessor(store: Store) -> AsyncIterator[ChildAssessor]:
    made = ChildAssessor(store, content_dir(), StandingClock())
    yield made
    await made.close()


async def keep(store: Store, client: Client, *observations: Observation) -> None:
    async with store.writing() as tx:
        await tx.add_client(client, None, 0)
        for observation in observations:
            await tx.record(client.id, observation)


def pid(assessor: ChildAssessor) -> int:
    process = assessor._child._process
    assert process is not None
    return process.pid


async def test_a_week_in_the_database_becomes_a_picture_and_a_caption(store: Store, assessor: ChildAssessor) -> None:
    before = [what for number in range(-7, 0) for what in session(day(number), None, 1)]
    await keep(store, ODDA, *before, *session(day(0)), *session(day(1)), closed(day(2)))
    drawing = await assessor.draw("odda", MONDAY, SUNDAY, "en")
    assert drawing.file.startswith(PNG)
    assert "Days with no answer: 1 of 7 due (Wed 25)." in drawing.caption
    assert "Days with no record: 4 of 7 due (Thu 26, Fri 27, Sat 28, Sun 29)." in drawing.caption
    assert "Heel-to-toe, foot in front, 60 s: weaker 2 of 2 (7 of 7); stronger 2 of 2 (0 of 7)." in drawing.caption


async def test_the_week_before_the_first_plan_began_claims_no_silence(store: Store, assessor: ChildAssessor) -> None:
    await keep(store, replace(ODDA, since=at(day(2), 12)))
    last = (await assessor.draw("odda", MONDAY - A_WEEK, SUNDAY - A_WEEK, "en")).caption
    assert "none counted as due" in last
    assert "no answer" not in last and "no record" not in last
    this = (await assessor.draw("odda", MONDAY, SUNDAY, "en")).caption
    assert "Days with no record: 4 of 4 due (Thu 26, Fri 27, Sat 28, Sun 29)." in this and "no answer" not in this


async def test_a_flag_raised_long_before_the_week_is_shown_while_it_is_open(store: Store, assessor: ChildAssessor) -> None:
    raised = day(-40)
    hold = Hold("f1", "fall", Level.EMERGENCY, ("fall",), "bram", at(raised, 10, 14))
    await keep(store, replace(ODDA, hold=hold), *fell(raised), *[closed(day(number)) for number in range(7)])
    drawing = await assessor.draw("odda", MONDAY, SUNDAY, "en")
    assert "OPEN: emergency flag, Wed 14 Oct 10:14. Fall," in drawing.caption
    assert "Reported by the carer." in drawing.caption


async def test_a_flag_raised_long_before_the_week_is_shown_if_it_was_lifted_in_it(
    store: Store, assessor: ChildAssessor
) -> None:
    await keep(store, ODDA, *fell(day(-40), lifted=day(2)))
    assert "Lifted Wed 25 Nov 15:02" in (await assessor.draw("odda", MONDAY, SUNDAY, "en")).caption


async def test_what_was_measured_at_reviews_is_drawn_without_a_plan_and_without_what_was_practised(
    store: Store, assessor: ChildAssessor
) -> None:
    await keep(store, replace(ODDA, plan=None), *session(day(0)), *reviewed(*COURSE))
    drawing = await assessor.draw("odda", MONDAY, SUNDAY, "en", (Sheet.REVIEWS, Paper.A4))
    assert drawing.file.startswith(PNG) and "Reviews: 5. The newest: 23 Nov 2026." in drawing.caption
    with pytest.raises(UsedWrong, match='no client "ulf"'):
        await assessor.draw("ulf", MONDAY, SUNDAY, "en", (Sheet.REVIEWS, Paper.A4))


async def test_a_plan_that_was_changed_twice_since_still_says_what_was_due_on_its_days(
    store: Store, assessor: ChildAssessor
) -> None:
    first, second, third = (replace(ODDA.plan or plan(), version=version) for version in (1, 2, 3))
    second = replace(second, practice=plan(weekdays=(6,)).practice)
    third = replace(third, practice=plan(weekdays=(6,)).practice)
    changes = [PlanPrescribed(at(day(on), 8), own.version, "thea", "step", own) for on, own in ((-40, first), (2, second))]
    changes.append(PlanPrescribed(at(day(3), 8), third.version, "thea", "step", third))
    await keep(store, replace(ODDA, since=at(day(-40), 8), previous=second, plan=third), *changes)
    caption = (await assessor.draw("odda", MONDAY, SUNDAY, "en")).caption
    assert "Days with no record: 3 of 3 due (Mon 23, Tue 24, Sun 29)" in caption


async def test_plans_that_had_ended_long_before_change_nothing_of_the_week(store: Store, assessor: ChildAssessor) -> None:
    own = [replace(ODDA.plan or plan(), version=version) for version in (1, 2, 3, 4)]
    changes = [
        PlanPrescribed(at(day(on), 8), one.version, "thea", "step", one)
        for on, one in zip((-80, -60, -40, 2), own, strict=True)
    ]
    odda = replace(ODDA, since=at(day(-80), 8), previous=own[2], plan=own[3])
    await keep(store, odda, *changes, *session(day(1)))
    await keep(store, replace(odda, id="few"), *changes[2:], *session(day(1)))
    whole = await assessor.draw("odda", MONDAY, SUNDAY, "en")
    assert whole == await assessor.draw("few", MONDAY, SUNDAY, "en")
    assert "Plan 4" in whole.caption


async def test_whom_it_can_not_draw_it_says(store: Store, assessor: ChildAssessor) -> None:
    await keep(store, replace(ODDA, plan=None))
    with pytest.raises(UsedWrong, match="no plan yet"):
        await assessor.draw("odda", MONDAY, SUNDAY, "en")
    with pytest.raises(UsedWrong, match='no client "ulf"'):
        await assessor.draw("ulf", MONDAY, SUNDAY, "en")


async def test_two_weeks_asked_for_at_once_each_get_their_own_answer(store: Store, assessor: ChildAssessor) -> None:
    await keep(store, ODDA)
    this, last = await asyncio.gather(
        assessor.draw("odda", MONDAY, SUNDAY, "en"), assessor.draw("odda", MONDAY - A_WEEK, SUNDAY - A_WEEK, "en")
    )
    assert "Week 48" in this.caption and "Week 47" in last.caption


MAKES_SOUNDS = """
from companion.media import maker

def make(media, language, library, texts, speaks):
    if media.tones > 5:
        raise ValueError("too many tones to tell apart")
    exercises = len(library.without_number.exercises) > 0
    return f"{media.tones} tones in {language}, {exercises}, {'en' in texts.languages}, {speaks}".encode()

maker.make = make
"""


@pytest.fixture
def made_up(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """In the drawing process sounds are made in a moment."""
    (tmp_path / "sitecustomize.py").write_text(MAKES_SOUNDS)
    monkeypatch.setenv("PYTHONPATH", str(tmp_path))


@pytest.mark.usefixtures("made_up")
async def test_a_sound_is_made_in_the_child_from_the_content(assessor: ChildAssessor) -> None:
    assert await assessor.make(SoundCheck((), 10, 3), "en") == b"3 tones in en, True, True, True"


@pytest.mark.usefixtures("made_up")
async def test_nothing_is_spoken_for_who_wants_it_so(store: Store) -> None:
    quiet = ChildAssessor(store, content_dir(), StandingClock(), speaks=False)
    try:
        assert await quiet.make(SoundCheck((), 10, 3), "en") == b"3 tones in en, True, True, False"
    finally:
        await quiet.close()


@pytest.mark.usefixtures("made_up")
async def test_what_can_not_be_made_says_why_and_the_child_goes_on(assessor: ChildAssessor) -> None:
    with pytest.raises(NotDrawn, match="too many tones to tell apart"):
        await assessor.make(SoundCheck((), 10, 6), "en")
    before = pid(assessor)
    assert await assessor.make(SoundCheck((), 10, 4), "nb") == b"4 tones in nb, True, True, True"
    assert pid(assessor) == before


async def test_what_takes_too_long_is_given_up_and_the_next_is_made_by_another_child(
    store: Store, assessor: ChildAssessor, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(asking_side, "MOST_S", 0)
    with pytest.raises(TimeoutError):
        await assessor.make(SoundCheck((), 10, 3), "en")
    await keep(store, ODDA, *session(day(0)))
    assert (await assessor.draw("odda", MONDAY, SUNDAY, "en")).file.startswith(PNG)


async def test_a_child_that_was_got_ready_is_the_one_that_draws(store: Store, assessor: ChildAssessor) -> None:
    await keep(store, ODDA)
    await assessor.get_ready()
    ready = pid(assessor)
    await assessor.get_ready()
    await assessor.draw("odda", MONDAY, SUNDAY, "en")
    assert pid(assessor) == ready


async def test_a_child_that_was_killed_is_replaced(store: Store, assessor: ChildAssessor) -> None:
    await keep(store, ODDA)
    first = await assessor.draw("odda", MONDAY, SUNDAY, "en")
    killed = pid(assessor)
    os.kill(killed, signal.SIGKILL)
    assert await assessor.draw("odda", MONDAY, SUNDAY, "en") == first
    assert pid(assessor) != killed


async def test_an_interrupt_of_the_bots_terminal_does_not_reach_the_child(store: Store, assessor: ChildAssessor) -> None:
    await keep(store, ODDA)
    await assessor.draw("odda", MONDAY, SUNDAY, "en")
    assert os.getsid(pid(assessor)) != os.getsid(0)


async def test_a_drawing_given_up_half_way_is_not_taken_for_the_next_one(store: Store, assessor: ChildAssessor) -> None:
    await keep(store, ODDA)
    await assessor.draw("odda", MONDAY, SUNDAY, "en")
    given_up = asyncio.create_task(assessor.draw("odda", MONDAY, SUNDAY, "en"))
    while not assessor._child._turn.locked():
        await asyncio.wait({given_up}, timeout=0)
    given_up.cancel()
    with suppress(asyncio.CancelledError):
        await given_up
    assert "Week 47" in (await assessor.draw("odda", MONDAY - A_WEEK, SUNDAY - A_WEEK, "en")).caption


async def test_a_week_that_can_not_be_drawn_says_why_and_the_child_goes_on(store: Store, assessor: ChildAssessor) -> None:
    await keep(store, ODDA)
    with pytest.raises(NotDrawn, match="there is no text"):
        await assessor.draw("odda", MONDAY, SUNDAY, "xx")
    same = pid(assessor)
    assert (await assessor.draw("odda", MONDAY, SUNDAY, "en")).file.startswith(PNG)
    assert pid(assessor) == same


async def test_a_child_that_can_not_start_is_an_error_and_not_a_wait(store: Store, tmp_path: Path) -> None:
    await keep(store, ODDA)
    assessor = ChildAssessor(store, tmp_path / "nowhere", StandingClock())
    with pytest.raises(NotDrawn, match="died twice"):
        await assessor.draw("odda", MONDAY, SUNDAY, "en")


async def test_closing_ends_the_child_and_twice_is_fine(store: Store, assessor: ChildAssessor) -> None:
    await assessor.close()
    await keep(store, ODDA)
    await assessor.draw("odda", MONDAY, SUNDAY, "en")
    process = assessor._child._process
    await assessor.close()
    await assessor.close()
    assert process is not None and process.returncode is not None


def test_the_child_ends_when_its_input_ends_however_the_bot_went() -> None:
    task = Task(case(), MONDAY, SUNDAY, tuple(dated(session(day(0)))), MONDAY_MORNING, "en")
    with subprocess.Popen(
        [sys.executable, "-m", CHILD, str(content_dir())], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    ) as child:
        assert child.stdin is not None and child.stdout is not None
        child.stdin.write(packed(task))
        child.stdin.flush()
        answer = pickle.loads(child.stdout.read(LENGTH.unpack(child.stdout.read(LENGTH.size))[0]))
        child.stdin.close()
        assert child.wait() == 0
    assert isinstance(answer, Drawn) and answer.file.startswith(PNG)


def test_the_bots_side_never_loads_what_draws() -> None:
    check = (
        "import companion.reports.assessor, sys; "
        "print(sorted({'matplotlib', 'numpy', 'scipy', 'PIL'} & {name.partition('.')[0] for name in sys.modules}))"
    )
    done = subprocess.run([sys.executable, "-c", check], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
