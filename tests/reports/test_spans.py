"""Many weeks side by side, and the client's own picture: gaps are gaps, and silence is no zero."""

from dataclasses import replace
from datetime import timedelta

from companion.core.observations import Ending, Observation
from companion.reports import four_weeks, multiples, own_week, whole_course
from companion.reports.asking import Task
from companion.reports.caption import LIMIT
from companion.reports.spans import MOST_COLUMNS, span
from companion.reports.spans_wording import SpansWording
from tests.reports.samples import TEXTS
from tests.reports.weeks import MONDAY, MONDAY_MORNING, SUNDAY, ZONE, case, closed, dated, day, fell, session


def records(first: int) -> list[Observation]:
    """From `first` on: the weaker side breaks, a week is paused, a day in five is unanswered, one fall."""
    found: list[Observation] = []
    for number in range(first, 7):
        if -14 <= number < -7:
            found.append(closed(day(number), Ending.PAUSED))
        elif number % 5 == 0:
            found.append(closed(day(number)))
        else:
            found += session(day(number), None, None, 2, None, 2)
    return found + fell(day(-16), "f3", lifted=day(-15))


def task(first: int) -> Task:
    return Task(case(), MONDAY, SUNDAY, tuple(dated(records(first))), MONDAY_MORNING, "en")


def texts(first: int, *, trends: bool) -> dict[str, list[str]]:
    of = task(first)
    found = span(of.case, MONDAY + timedelta(days=first), SUNDAY, of.observations, of.as_of)
    figure = multiples.draw(found, SpansWording(TEXTS, "en", ZONE, trends=trends))
    told: dict[str, list[str]] = {}
    for text in figure.axes[0].texts:
        told.setdefault(str(text.get_gid()), []).append(text.get_text())
    for patch in figure.axes[0].patches:
        told.setdefault(f"shape:{patch.get_gid()}", []).append("")
    return told


def test_a_paused_week_is_a_gap_with_no_bar_and_no_number() -> None:
    told = texts(-21, trends=False)
    assert told["share:heel_to_toe:weaker:2026-11-23"] == ["0/5"]
    assert not [name for name in told if "share:" in name and "2026-11-09" in name]
    assert "shape:gap:2026-11-09" in told and "sessions:2026-11-09" not in told


def test_unanswered_days_stay_due_and_are_told_apart() -> None:
    told = texts(-21, trends=False)
    assert told["sessions:2026-11-23"] == ["5/7"] and told["unknown:2026-11-23"] == ["?2"]


def test_a_fall_stands_in_its_week() -> None:
    told = texts(-21, trends=False)
    assert told["flags:2026-11-02"] == ["▲1"]


def test_two_sides_are_told_as_sessions_and_a_trend_only_with_ten_weeks() -> None:
    few = " ".join(texts(-21, trends=True)["measure"])
    assert "weaker side shorter in" in few and "too few weeks" in few and "rising" not in few
    many = " ".join(texts(-84, trends=True)["measure"])
    assert "No trend shown" in many and "no change" not in many.lower()


def test_a_long_course_has_no_more_columns_than_can_be_read() -> None:
    of = task(-200)
    found = span(of.case, MONDAY - timedelta(days=200), SUNDAY, of.observations, of.as_of)
    assert len(found.columns) <= MOST_COLUMNS and found.weeks_each == 3


def test_captions_keep_the_platforms_limit() -> None:
    for sheet in (four_weeks, whole_course, own_week):
        assert 0 < len(sheet.drawn(replace(task(-60), case=case("Q" * 900)), TEXTS).caption) <= LIMIT
