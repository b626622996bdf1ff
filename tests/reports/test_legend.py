"""The legend says every part of a bar and every mark of a day that occurs in the week, and nothing else."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from matplotlib.patches import Rectangle

from companion.content.texts import key_of
from companion.core.observations import Ending, Quality
from companion.core.programme import Side
from companion.reports.legend import OF_DAY, SAMPLES, Sign, signs
from companion.reports.week import Week
from tests.reports.samples import SAMPLES as WEEKS_OF_EACH_KIND
from tests.reports.samples import TEXTS
from tests.reports.test_any_week import WEEKS
from tests.reports.test_figure import Chart
from tests.reports.twelve_weeks import two_plans
from tests.reports.weeks import bout, claps, closed, day, ended, session, unanswered, unwell, week

OVER = {
    "between": {Sign.BROKE, Sign.BROKE_UNKNOWN, Sign.COUNT_BETWEEN},
    "sure": {Sign.HELD, Sign.COUNTED, Sign.HELD_OR_COUNTED},
    "practised": {Sign.RAN, Sign.EARLY, Sign.STOPPED},
    "white": {Sign.NOT_RUN, Sign.EARLY, Sign.NOT_DONE, Sign.STOPPED},
    "stopped": {Sign.STOPPED},
    "unknown": {Sign.NO_ANSWER},
}
"""What a part that is seen in a bar may be called."""

OF_A_DAY = set(OF_DAY.values())


def seen(chart: Chart) -> set[str]:
    """The parts that can be seen in the bars of a chart, from its shapes alone."""
    shapes = [(str(patch.get_gid()).rpartition(":")[2], patch) for patch in chart.marks("bout:")]
    found = {part for part, _ in shapes if part in ("unknown", "stopped")}
    for what, frame in shapes:
        if what != "outline":
            continue
        assert isinstance(frame, Rectangle)
        tops = {
            part: (frame.get_y() + frame.get_height() - patch.get_y()) / frame.get_height()
            for part, patch in shapes
            if isinstance(patch, Rectangle) and part != "outline" and inside(patch, frame)
        }
        told = max((tops[part] for part in ("sure", "between") if part in tops), default=0.0)
        found |= tops.keys() & {"sure", "between"}
        if tops.get("practised", 0.0) > told + 1e-6:
            found.add("practised")
        if max(tops.values(), default=0.0) < 1 - 1e-6:
            found.add("white")
    return found


def inside(patch: Rectangle, frame: Rectangle) -> bool:
    below = frame.get_y() + frame.get_height() + 1e-6
    return abs(patch.get_x() - frame.get_x()) < 1e-6 and frame.get_y() - 1e-6 <= patch.get_y() < below


def explained(chart: Chart) -> set[Sign]:
    return {sign for sign in Sign if chart.texts(f"key:{sign}")}


def check(shown: Week) -> None:
    chart = Chart(shown)
    told = explained(chart)
    for part in seen(chart):
        assert told & OVER[part], part
    days = {sign for sign in OF_A_DAY if chart.marks(f"{sign}:") or chart.texts(f"{sign}:")}
    assert days == told & OF_A_DAY
    for part, names in OVER.items():
        assert part in seen(chart) or not told & (names - {Sign.EARLY, Sign.STOPPED}), part
    assert not {Sign.HELD, Sign.COUNTED} <= told  # one look, one word


@pytest.mark.parametrize("name", list(WEEKS_OF_EACH_KIND))
def test_the_legend_has_all_that_occurs_and_no_more(name: str) -> None:
    check(WEEKS_OF_EACH_KIND[name]())


@given(shown=WEEKS)
@settings(max_examples=25, suppress_health_check=[HealthCheck.too_slow])
def test_so_it_has_of_any_week(shown: Week) -> None:
    check(shown)


@pytest.mark.parametrize("language", TEXTS.languages)
def test_every_sign_has_a_word_and_a_sample(language: str) -> None:
    assert [sign for sign in Sign if key_of("report", "key", sign) not in TEXTS.keys(language)] == []
    assert set(SAMPLES) | OF_A_DAY == set(Sign)


def test_one_kind_of_bar_is_told_from_another() -> None:
    lost = replace(bout(day(0), quarter=2), practised_s=None, first_break=None)
    early = replace(bout(day(1)), quality=Quality.ENDED_EARLY, practised_s=30.0, first_break=None)
    fewer = replace(claps(day(0), Side.WEAKER, 2), done=None)
    each = {
        Sign.BROKE_UNKNOWN: lost,
        Sign.EARLY: early,
        Sign.COUNT_BETWEEN: fewer,
        Sign.NO_ANSWER: unanswered(bout(day(0))),
        Sign.NOT_DONE: claps(day(0), Side.WEAKER, 1),
        Sign.RAN: bout(day(0), quarter=1),
        Sign.STOPPED: unwell(bout(day(0)), 20.0),
        Sign.NOT_RUN: replace(bout(day(0), quarter=1), practised_s=15.0),
    }
    for sign, hold in each.items():
        shown = week(hold, [ended(day(number)) for number in range(7)])
        assert sign in signs(shown.stances, shown.days), sign
        assert not (set(each) - {sign, Sign.NOT_RUN, Sign.NOT_DONE}) & set(signs(shown.stances, shown.days)), sign


def test_a_row_of_a_plan_is_blank_on_a_silent_day_of_another_plan() -> None:
    chart = Chart(two_plans())
    assert [len(chart.texts(f"day_unknown:2026-11-{number}")) for number in (27, 28)] == [0, 3]
    assert len(chart.texts("side:")) == 5  # feet together, and two rows of each plan


def test_a_day_without_a_bout_shows_why_and_a_day_not_due_stays_empty() -> None:
    endings = {1: Ending.NO_ANSWER, 2: Ending.DECLINED, 3: Ending.HELD, 4: Ending.PAUSED}
    chart = Chart(week(session(day(0)), [closed(day(number), ending) for number, ending in endings.items()]))
    assert chart.texts("day_unknown:2026-11-24") == ["?"] * 7
    for sign, number in ((Sign.DAY_MISSED, 25), (Sign.DAY_HELD, 26), (Sign.DAY_PAUSED, 27)):
        assert chart.marks(f"{sign}:2026-11-{number}")
    first = Chart(WEEKS_OF_EACH_KIND["first"]())
    assert not [mark for mark in first.marks("day_") if "2026-11-23" in str(mark.get_gid())]


def test_several_bars_on_a_day_are_said_to_be_in_order_of_time_only_where_there_are_some() -> None:
    told = " ".join(Chart(WEEKS_OF_EACH_KIND["one_side"]()).texts("key-order"))
    assert told == "Several bars on a day: in order of time, from left to right."
    assert Chart(WEEKS_OF_EACH_KIND["usual"]()).texts("key-order") == []
