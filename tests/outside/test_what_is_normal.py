"""Common practice, no source: a little sway and working ankles are normal; a step to save yourself is normal and is
recorded; breathe on; do not lean the legs on the chair behind. Footwear is the plan's, the same every time.
"""

from dataclasses import replace

import pytest

from companion.core.events import Prescribed
from companion.core.observations import BrokeBy, PlanPrescribed, Quality
from tests.core.practice import CLIENT
from tests.outside.practice_at_home import PLAN, TEXTS, after_a_hold, at_home, said, started


def reading(key: str) -> str:
    return TEXTS.readings(key, "en")[0]


def test_sway_working_ankles_and_breath_are_told_as_normal() -> None:
    assert "sway is normal" in reading("ex-feet-together.normal")
    assert "ankles" in reading("ex-heel-to-toe.normal") and "normal" in reading("ex-heel-to-toe.normal")
    assert "Keep breathing" in reading("ex-feet-together.normal")


def test_leaning_on_the_chair_is_advised_against_and_can_be_reported() -> None:
    assert "Do not lean your legs on the chair" in reading("ex-feet-together.caution")
    home = after_a_hold()
    for answer in ("not_quite", "q2", "leaned"):
        home.press(CLIENT, answer)
    assert home.bouts[-1].broke_by is BrokeBy.LEANED


def test_a_step_is_recorded_with_its_quarter_and_called_good() -> None:
    home = after_a_hold()
    for answer in ("not_quite", "q2", "step"):
        home.press(CLIENT, answer)
    bout = home.bouts[-1]
    assert bout.quality is Quality.BROKE and bout.broke_by is BrokeBy.STEP
    assert bout.first_break is not None and (bout.first_break.low, bout.first_break.high) == (15, 30)
    assert any("A step to save yourself is good." in text for text in said(home, CLIENT))


def test_the_footwear_is_the_plans() -> None:
    for key in TEXTS.keys("en"):
        if key.startswith("place-footwear-"):
            assert "as planned" in reading(key)


@pytest.mark.parametrize("footwear", ["barefoot", "shoes", "shoes_orthosis"])
def test_it_is_told_in_the_first_sessions_and_in_later_ones_the_same(footwear: str) -> None:
    feet, place = reading(f"place-footwear-{footwear}".replace("_", "-")), replace(PLAN.place, footwear=footwear)
    for home in (started(sessions=1, place=place), started(sessions=9, place=place)):
        assert feet in "\n".join(said(home.check().reach(".how"), CLIENT))


def test_it_is_kept_on_record_with_the_plan() -> None:
    home = at_home()
    home.do(Prescribed(home.now, replace(PLAN, place=replace(PLAN.place, footwear="shoes_orthosis"))))
    kept = home.all(PlanPrescribed)[-1].plan
    assert kept is not None and kept.place.footwear == "shoes_orthosis"
