"""Twelve weeks as pictures: each is drawn small enough to send, and says what is particular about it."""

import os
from pathlib import Path

import pytest

from companion.reports.caption import LIMIT, caption, length
from companion.reports.figure import draw
from companion.reports.page import png
from tests.reports.samples import wording
from tests.reports.test_figure import Chart
from tests.reports.twelve_weeks import TWELVE

KEEP = "PICTURES"
"""The environment variable that names a folder in which the pictures are kept."""


@pytest.mark.parametrize("name", list(TWELVE))
def test_each_week_is_a_picture_that_can_be_sent(name: str, tmp_path: Path) -> None:
    shown = TWELVE[name]()
    folder = Path(os.environ.get(KEEP) or tmp_path)
    folder.mkdir(parents=True, exist_ok=True)
    file = folder / f"{name}.png"
    file.write_bytes(png(draw(shown, wording(shown))))
    assert 10_000 < file.stat().st_size < 1_000_000 and length(caption(shown, wording(shown))) <= LIMIT


def test_a_new_plan_in_the_week_splits_sessions_and_what_it_asks_anew() -> None:
    chart = Chart(TWELVE["06_two_plans"]())
    assert chart.texts("parts") == ["Plan 3: 3 of 3 due.", "Plan 4, from Thu 26: 3 of 4 due, unknown 1."]
    assert chart.texts("stance") == [
        "Feet together, 60 s, hovering",
        "Heel-to-toe, foot in front, 30 s, fingertips, plan 3",
        "Heel-to-toe, foot in front, 60 s, hovering, plan 4",
    ]
    numbers = chart.texts("number:heel_to_toe:open:weaker")
    assert numbers == ["3 of 3", "none", "0 of 3", "0 of 3", "3rd", "new plan"]
    assert chart.texts("more-than-70") == []


def test_an_early_notice_stands_with_flags_and_falls_and_says_reported() -> None:
    told = " ".join(Chart(TWELVE["10_missing_days"]()).texts("lower"))
    assert told.endswith("taken together, were among the lowest of the last 38 (reported).")
    assert Chart(TWELVE["01_perfect"]()).texts("lower") == []


def test_a_step_that_was_proposed_waits_for_the_therapist() -> None:
    told = " ".join(Chart(TWELVE["01_perfect"]()).texts("decision"))
    assert told == "Waiting for you: Heel to toe, a step up, proposed Sat 28 Nov 11:00."


def test_thirty_sessions_are_days_and_sessions_and_every_bout_has_its_bar() -> None:
    chart = Chart(TWELVE["12_thirty_sessions"]())
    assert chart.texts("reported") == ["Done or partly: 7 of 7 due"] and chart.texts("parts") == ["30 sessions on 7 days."]
    bars = [mark for mark in chart.marks("bout:feet_together:") if str(mark.get_gid()).endswith(":outline")]
    assert len(bars) == 30
