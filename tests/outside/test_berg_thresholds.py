"""Thresholds of the Berg scale, cited without its wording: the category of one leg (item 14, NLM common data elements), what
time alone can not tell (items 6, 7, 13), and detectable change after stroke (Stevenson 2001; Hiengkaew 2012; PMC6136166)."""

from dataclasses import replace

import pytest

from companion.core.observations import Observation
from companion.core.programme import Eyes, Side, Stance
from companion.core.review_values import ReviewValues
from companion.measures.review import BERG_CHANGE, one_leg_category
from companion.reports.asking import ReviewsTask
from companion.reports.review_page import drawn
from tests.outside.practice_at_home import TEXTS
from tests.reports.course_of_reviews import COURSE, Shown, reviewed
from tests.reports.weeks import MONDAY_MORNING, ZONE, bout, dated, day

# item 14


@pytest.mark.parametrize(("seconds", "category"), [(2.9, 1), (3, 2), (4.9, 2), (5, 3), (10, 3), (10.1, 4)])
def test_the_category_of_one_leg_stands_on_the_page_of_reviews_alone_and_is_named(seconds: float, category: int) -> None:
    told = Shown(ReviewValues(one_leg_weaker=seconds)).said("category")
    assert told == f"Berg item 14 by time, 1 to 4, 23 Nov: weaker {category}, stronger not measured."


def test_0_s_does_not_tell_whether_it_was_tried() -> None:
    assert one_leg_category(0) is None
    assert "weaker unknown at 0 s" in Shown(ReviewValues(one_leg_weaker=0)).said("category")


@pytest.mark.parametrize("seconds", [-1, float("nan")])
def test_what_is_no_time_has_no_category(seconds: float) -> None:
    with pytest.raises(ValueError, match="no time"):
        one_leg_category(seconds)


# items 6, 7, 13: feet together for 1 min, eyes closed for 10 s, heel-to-toe for 30 s; supervision tells the top score from the
# next, so what was done at home, carer beside or not, is never one


def test_a_hold_at_home_that_lasts_as_long_as_the_top_score_asks_shows_up_nowhere_among_the_reviews() -> None:
    together = bout(day(0), Stance.FEET_TOGETHER, None)
    holds: list[Observation] = [together, replace(together, eyes=Eyes.CLOSED), bout(day(0), Stance.HEEL_TO_TOE, Side.WEAKER)]

    def page(*more: list[Observation]) -> tuple[bytes, str]:
        made = drawn(ReviewsTask("Odda", ZONE, tuple(dated(reviewed(*COURSE), *more)), MONDAY_MORNING, "en"), TEXTS)
        return made.file, made.caption

    assert page() == page(holds)


# change after stroke


@pytest.mark.parametrize(
    ("before", "now", "reached"),
    [
        (40, 46, ["beyond", "beyond", "beyond"]),
        (40, 45, ["within", "beyond", "beyond"]),
        (40, 43, ["within", "within", "beyond"]),
        (40, 42, ["within", "within", "within"]),
        (40, 34, ["beyond", "beyond", "beyond"]),
        (40, 40, ["within", "within", "within"]),
    ],
)
def test_a_change_stands_beside_each_detectable_change_and_each_is_named(before: int, now: int, reached: list[str]) -> None:
    shown = Shown(ReviewValues(berg=before), ReviewValues(berg=now))
    assert shown.said("reached").split() == reached
    assert shown.said("detectable") == (
        "MDC90 6 (Stevenson 2001; stroke rehabilitation) MDC95 5 (Hiengkaew 2012; chronic stroke) "
        "MDC95 2.7 (PMC6136166; chronic stroke)"
    )
    for one, how in zip(BERG_CHANGE, reached, strict=True):
        assert f"{how} MDC{one.level} {one.points:g} ({one.source})" in shown.caption


def test_for_times_after_stroke_no_threshold_is_made_up() -> None:
    shown = Shown(ReviewValues((10, 10, 4), one_leg_weaker=2), ReviewValues((10, 10, 8), one_leg_weaker=9))
    assert shown.said("threshold") == "No published threshold for a change after stroke."
    assert "MDC" not in shown.caption and "detectable" not in shown.names()
