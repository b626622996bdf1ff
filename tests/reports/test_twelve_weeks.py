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
    assert chart.texts("parts") == ["Plan 3: 3 of 3 days due.", "Plan 4, from Thu 26: 3 of 4 days due, unknown 1."]
    assert chart.texts("stance") == [
        "Feet together, 60 s, hovering",
        "Heel-to-toe, foot in front, 30 s, fingertips, plan 3",
        "Heel-to-toe, foot in front, 60 s, hovering, plan 4",
    ]
    numbers = chart.texts("number:heel_to_toe:open:weaker")
    assert numbers == ["3 of 3", "–", "0 of 3", "3rd", "0 of 3", "new plan"]
    assert chart.texts("worst:heel_to_toe:open:weaker") == ["earliest 1st"]
    assert chart.texts("more-than-70") == []


def test_an_early_notice_has_a_sign_of_its_own_and_says_what_is_lower_against_what() -> None:
    chart = Chart(TWELVE["10_missing_days"]())
    told = " ".join(chart.texts("lower"))
    assert told.startswith("Early notice Sun 29 Nov: holds break earlier Time to the first break, against their own holds")
    assert told.endswith("taken together, were among the lowest, set against the 38 before (reported).")
    assert chart.marks("lower-sign") and not chart.marks("flag:")
    other = Chart(TWELVE["01_perfect"]())
    assert other.texts("lower") == [] and not other.marks("lower-sign")


def test_a_step_that_was_proposed_waits_for_the_therapist_from_what_to_what() -> None:
    chart = Chart(TWELVE["01_perfect"]())
    assert " ".join(chart.texts("bar")) == (
        "Waiting for you: Heel to toe, a step up, proposed Sat 28 Nov 11:00. Less hand support, both sides. "
        "Now: heel touches toes, hand hovers, 60 s. Then: heel touches toes, hand off, 60 s."
    )
    assert chart.texts("weaker-side") == ["Weaker side: left (baseline)."]


def test_thirty_sessions_are_days_and_sessions_and_every_bout_has_its_bar() -> None:
    chart = Chart(TWELVE["12_thirty_sessions"]())
    assert chart.texts("reported") == ["Done or partly: 7 of 7 days due"]
    assert chart.texts("parts") == ["Sessions reported done or partly: 28 of 28 due; 30 in all."]
    assert chart.texts("state:2026-11-23") == ["done 4", "of 4"] and chart.texts("state:2026-11-24") == ["done 5,", "due 4"]
    bars = [mark for mark in chart.marks("bout:feet_together:") if str(mark.get_gid()).endswith(":outline")]
    assert len(bars) == 30


def test_of_many_sessions_a_day_each_has_a_row_so_that_tiring_is_seen_in_bars_and_numbers() -> None:
    chart = Chart(TWELVE["12_thirty_sessions"]())
    rows = [chart.texts(f"turn:heel_to_toe:open:weaker:{turn}") for turn in range(1, 6)]
    assert rows == [["7 of 7", "–"], ["0 of 7", "last"], ["0 of 7", "3rd"], ["0 of 7", "2nd"], ["0 of 2", "1st"]]
    (first, *_) = chart.written("turn-row:heel_to_toe:open:weaker")
    own = [mark for mark in chart.marks("bout:heel_to_toe:open:weaker:2026-11-24") if str(mark.get_gid()).endswith(":outline")]
    tops = [mark.get_extents().y0 for mark in own]
    assert len(set(tops)) == 5 and first.get_text() == "session 1"
    assert chart.texts("key-turns") and not Chart(TWELVE["07_one_side_weaker"]()).texts("key-turns")


def test_a_pause_says_who_since_when_and_until_when() -> None:
    chart = Chart(TWELVE["05_paused"]())
    told = "Paused by the client on Sun 22 Nov (holiday, reported). Paused up to and including Wed 2 Dec."
    assert " ".join(chart.texts("pause")) == told
    assert " ".join(chart.texts("bar")) == "To check: paused all week, up to and including Wed 2 Dec."
    assert chart.texts("no-flag") == ["Paused: falls were not asked about. No red flag on record."]


def test_a_day_of_an_absent_carer_is_named_and_no_session_is_done_under_a_stop() -> None:
    shown = TWELVE["09_eight_exercises"]()
    chart = Chart(shown)
    assert " ".join(chart.texts("carer")) == (
        "Carer present: verified 3, absent 1 (of 4 sessions). Absent: Fri 27 (session not begun)."
    )
    (stop,) = shown.to_lift
    assert all(not day.sessions for day in shown.days if day.day >= stop.at.date())
    assert " ".join(chart.texts("bar")) == (
        "Waiting for you: lift the stop, or keep it. Open since Fri 27 Nov 09:00, not acknowledged. "
        "To check: 0 of 4 clean: half-step weaker; 0 of 3 clean: feet together with eyes closed, heel-to-toe weaker, "
        "one leg weaker, up on your toes weaker."
    )
