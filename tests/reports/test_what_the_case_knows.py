"""What a chart takes from the client's own record, where the records of two weeks do not hold it."""

from dataclasses import replace
from datetime import datetime
from pathlib import Path

from companion.content.folders import content_dir
from companion.core.baseline import Baseline
from companion.core.care import Client, Pause, People
from companion.core.observations import Proposed
from companion.core.programme import Direction
from companion.reports.assessor import ChildAssessor, _case
from companion.runtime.clock import RealClock
from companion.store import Store
from tests.reports.weeks import MONDAY, MONDAY_MORNING, SUNDAY, ZONE, at, closed, day, plan

PLAN = plan("heel_to_toe")
TOUCHING = replace(PLAN, exercises=(replace(PLAN.exercises[0], form="touching", hardest="touching"),))
ODDA = Client("odda", "Odda Fennimore", ZONE, People("p-odda", "p-thea", "bram"), at(day(7)), at(day(7)), plan=TOUCHING)


class MondayMorning(RealClock):
    """It is always the morning after the week."""

    def now(self) -> datetime:
        return MONDAY_MORNING


def test_the_weaker_side_is_that_of_the_baseline_and_a_pause_that_of_the_client() -> None:
    assert _case(ODDA, TOUCHING).weaker_side == "unknown" and _case(ODDA, TOUCHING).pause is None
    baseline = Baseline("right", "either", "none", "no", "none", "voice")
    known = _case(replace(ODDA, baseline=baseline, pause=Pause("unwell", at(day(-30)), day(9))), TOUCHING)
    assert known.weaker_side == "right" and known.pause is not None
    assert (known.pause.at, known.pause.why, known.pause.until) == (at(day(-30)), "unwell", day(9))


async def test_what_a_step_would_change_comes_with_the_chart_of_a_real_drawing_process(tmp_path: Path) -> None:
    store = await Store.open(tmp_path / "companion.sqlite3")
    assessor = ChildAssessor(store, content_dir(), MondayMorning())
    async with store.writing() as tx:
        await tx.add_client(ODDA, None, 0)
        await tx.record("odda", Proposed(at(day(5)), "p1", "heel_to_toe", Direction.UP, "less_hand", 1, (day(5),)))
        await tx.record("odda", closed(day(6)))
    try:
        told = (await assessor.draw("odda", MONDAY, SUNDAY, "en")).caption
    finally:
        await assessor.close()
        await store.close()
    assert "Less hand support, both sides. Now: heel touches toes, hand hovers, 60 s. Then: heel touches toes, hand off" in told
