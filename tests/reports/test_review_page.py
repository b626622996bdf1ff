"""The page of what was measured at reviews, read as its artists; its words and numbers against sources are in tests/outside."""

import os
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from matplotlib.text import Text

from companion.core.observations import Observation, Reviewed
from companion.core.review_values import GoalLevel, ReviewValues, four_stage
from companion.reports.asking import ReviewsTask
from companion.reports.caption import LIMIT, length
from companion.reports.page import ALARM, DPI, SHADE, WIDTH, png
from companion.reports.review_page import drawn
from companion.reports.review_wording import MINUS
from companion.reports.reviews import reviews
from tests.reports.course_of_reviews import COURSE, DAYS, FIRST, FOURTH, LONG, NEWEST, SAMPLES, SECOND, Shown, reviewed
from tests.reports.on_page import shapes_on, texts_on
from tests.reports.samples import LONG as LONG_NAME
from tests.reports.samples import TEXTS
from tests.reports.test_figure import contrast
from tests.reports.test_twelve_weeks import KEEP
from tests.reports.weeks import MONDAY_MORNING, ZONE, at, dated, day, fell, session


@pytest.fixture(params=list(SAMPLES))
def shown(request: pytest.FixtureRequest) -> Shown:
    return Shown(*SAMPLES[request.param])


def boxes(shown: Shown) -> list[tuple[Text, float, float, float, float]]:
    renderer = shown.figure.canvas.get_renderer()  # type: ignore[attr-defined]
    found = [(text, text.get_window_extent(renderer)) for text in texts_on(shown.figure)]
    return [(text, box.x0, box.x1, box.y0, box.y1) for text, box in found]


# what holds of every page


def test_no_text_overlaps_another_leaves_the_page_or_its_column(shown: Shown) -> None:
    found = boxes(shown)
    for (one, left, right, low, high), (other, left_2, right_2, low_2, high_2) in combinations(found, 2):
        apart = right <= left_2 or right_2 <= left or high <= low_2 or high_2 <= low
        assert apart, (one.get_text(), other.get_text())
    assert all(left >= 30 and right <= WIDTH - 30 for _, left, right, _, _ in found)


def test_every_text_is_large_enough_on_a_phone_and_stands_out(shown: Shown) -> None:
    # WCAG 2.2, 1.4.3: 4.5 to 1; the newest review stands on the darkest ground there is
    for text in texts_on(shown.figure):
        assert float(text.get_fontsize()) * DPI / 72 * 360 / WIDTH >= 10, text.get_text()
        assert contrast(text.get_color(), SHADE) >= 4.5, text.get_text()


def test_what_is_in_the_colour_of_alarm_says_so_in_words_too(shown: Shown) -> None:
    assert {text.get_text() for text in texts_on(shown.figure) if text.get_color() == ALARM} <= {"flag", "worse"}


def test_every_page_says_who_measured_and_that_home_practice_is_not_on_it(shown: Shown) -> None:
    note = "Measured by the therapist at review; home practice is not shown here."
    assert shown.said("note") == note and shown.caption.endswith(note) and length(shown.caption) <= LIMIT


@pytest.mark.parametrize("name", list(SAMPLES))
def test_each_page_is_a_picture_that_can_be_sent(name: str, tmp_path: Path) -> None:
    folder = Path(os.environ.get(KEEP) or tmp_path)
    folder.mkdir(parents=True, exist_ok=True)
    file = folder / f"reviews_{name}.png"
    file.write_bytes(png(Shown(*SAMPLES[name]).figure))
    assert 5_000 < file.stat().st_size < 1_000_000


# what is on it


def test_the_last_four_reviews_are_columns_by_date_and_the_newest_has_a_ground_of_its_own() -> None:
    shown = Shown(*COURSE)
    assert shown.said("count") == "Reviews on record: 5, the last 4 shown"
    assert shown.row("day") == ["4 May", "6 Jul", "7 Sep", "23 Nov"] and set(shown.row("year")) == {"2026"}
    (place,) = {patch.get_x() for patch in shapes_on(shown.figure) if patch.get_gid() == "newest"}  # type: ignore[attr-defined]
    (newest,) = (text for text in texts_on(shown.figure) if text.get_gid() == f"day:{DAYS[-1]}")
    assert place < newest.get_position()[0] < WIDTH - 40


def test_a_row_shows_what_was_measured_at_each_review_and_nothing_where_it_was_left_out() -> None:
    shown = Shown(*COURSE)
    assert shown.row("stage:heel_to_toe") == ["2.99", "7.2", "9.99", "10"]
    assert shown.row("stage:one_leg") == ["–", "–", "–", "3"]
    assert shown.row("sit-to-stand") == ["16.1", "", "13.25", "12.5"]
    assert shown.row("against:sit-to-stand") == ["worse", "", "worse", "not worse"]
    assert shown.row("berg") == ["36", "41", "43", "46"]
    assert shown.row("goals") == ["42.6", "", "", "60.0"]


def test_where_the_four_stages_ended_is_told_in_words() -> None:
    def ended(*held: float) -> str:
        return Shown(ReviewValues(held)).said("four-stage")

    assert ended(10, 4.2).startswith("23 Nov: stopped at half-step, 4.2 s. Heel-to-toe not reached: fall risk flag")
    assert ended(10, 10, 10, 10).startswith("23 Nov: all 4 stages held for 10 s.")
    assert ended(10, 10) == "23 Nov: not finished, next: heel-to-toe. Heel-to-toe not tried: fall risk unknown."
    assert ended(10, 10, 10).startswith("23 Nov: not finished, next: one leg. Heel-to-toe held for 10 s: no fall risk flag")


def test_a_change_is_against_the_review_at_which_the_same_was_measured_last() -> None:
    shown = Shown(*COURSE)
    assert shown.said("changed") == (
        f"Since 7 Sep 2026: {MINUS}0.75 s. Since 7 Sep 2026: weaker +3.6 s, stronger {MINUS}0.3 s. Since 7 Sep 2026: +3 points."
    )
    earlier = Shown(replace(FIRST, one_leg_stronger=None), SECOND, ReviewValues(one_leg_weaker=3.0), ReviewValues(berg=30))
    assert earlier.said("changed") == (
        f"4 May 2026 to 6 Jul 2026: {MINUS}2.2 s. 6 Jul 2026 to 7 Sep 2026: weaker +0.1 s. Since 6 Jul 2026: {MINUS}6 points."
    )


def test_a_change_of_nothing_is_0_and_one_review_alone_shows_no_change() -> None:
    assert "Since 7 Sep 2026: weaker 0 s, stronger 0 s." in Shown(NEWEST, NEWEST).said("changed")
    assert not Shown(NEWEST).names() & {"changed", "reached", "detectable", "threshold"}


def test_what_was_never_measured_is_named_and_has_no_row() -> None:
    shown = Shown(ReviewValues(berg=40))
    assert shown.said("not-measured") == (
        "Not measured at these reviews: 4-stage balance test, Five sit to stands, One leg, goal attainment."
    )
    assert not any(name.startswith(("row:stage", "row:sit", "row:one", "row:goals")) for name in shown.names())
    assert "row:one-leg-stronger" not in Shown(ReviewValues(one_leg_weaker=3)).names()


def test_goals_stand_with_level_and_weight_and_are_those_of_that_review_alone() -> None:
    assert Shown(*COURSE).said("goal") == "Level +1, weight 3: “Walk to the gate and back on my own”"
    goals = (GoalLevel(None, -2, 5), GoalLevel("Stand at\nthe sink", 0, 1))
    told = Shown(ReviewValues(goals=goals)).said("goal")
    assert told == f"Level {MINUS}2, weight 5: Goal 1 Level 0, weight 1: “Stand at the sink”"


def test_an_age_that_was_not_told_is_said_to_be_so_and_gets_no_norm() -> None:
    shown = Shown(replace(NEWEST, decade=None))
    assert (shown.newest("against:sit-to-stand"), shown.newest("against:one-leg-weaker")) == ("age ?", "age ?")
    assert "Age not told, so no norm" in shown.said("norm") and "no norm" in shown.caption


def test_each_review_is_judged_by_the_age_then() -> None:
    shown = Shown(ReviewValues(sit_to_stand_5=12, decade=60), ReviewValues(sit_to_stand_5=12, decade=70))
    assert shown.row("against:sit-to-stand") == ["worse", "not worse"]
    assert "above 11.4 s at 60 to 69, above 12.6 s at 70 to 79" in shown.said("norm")


def test_in_the_caption_the_newest_of_each_measure_says_of_which_day_it_is() -> None:
    one, other = Shown(ReviewValues(one_leg_stronger=6, berg=37), ReviewValues(sit_to_stand_5=19)), DAYS[-2:]
    days = [f"{when.day} {when:%b}" for when in other]
    for what, when in (("One leg, stronger", days[0]), ("Berg total", days[0]), ("Five sit to stands", days[1])):
        assert f"{what}, {when}: " in one.caption


def test_without_a_review_the_page_says_so() -> None:
    shown = Shown()
    assert shown.said("count") == "No review is on record yet." and "No review is on record yet." in shown.caption


def test_what_is_entered_again_on_one_day_is_one_review_and_the_last_of_each_counts() -> None:
    first = Reviewed(at(day(0), 9), "thea", ReviewValues((10, 8), 14, None, 5, 40, (), 70))
    again = Reviewed(at(day(0), 15), "thea", ReviewValues((10, 10, 8), None, 3, None, 41))
    (found,) = reviews(dated(again, first)[::-1], MONDAY_MORNING, ZONE)
    assert found.values == ReviewValues((10, 10, 8), 14, 3, 5, 41, (), 70)


def test_a_review_belongs_to_the_clients_local_day_and_is_not_known_before_it_was_entered() -> None:
    late = Reviewed(at(day(0), 23, 30), "thea", FOURTH)
    assert [one.day for one in reviews([(late.at, late)], MONDAY_MORNING, "Asia/Tokyo")] == [day(1)]
    assert reviews([(late.at, late)], at(day(0), 23), ZONE) == ()


def test_home_practice_changes_nothing_on_the_page() -> None:
    def file(*more: list[Observation]) -> bytes:
        observations = tuple(dated(reviewed(*COURSE), *more))
        return drawn(ReviewsTask("Odda Fennimore", ZONE, observations, MONDAY_MORNING, "en"), TEXTS).file

    assert file() == file(session(day(-1)), fell(day(-2)))


def test_a_long_name_and_long_goals_still_fit() -> None:
    shown = Shown(LONG, LONG, LONG, replace(LONG, four_stage=(10, 10, 10, 9.99)), name=LONG_NAME * 3)
    assert length(shown.caption) <= LIMIT and max(right for _, _, right, _, _ in boxes(shown)) <= WIDTH - 30
    assert len(png(shown.figure)) < 1_000_000


SECONDS = st.one_of(st.none(), st.floats(0, 600).map(lambda seconds: round(seconds, 2)))
STAGES = st.lists(st.floats(0, 10).map(lambda seconds: round(seconds, 2)), max_size=4)
GOAL = st.builds(GoalLevel, st.one_of(st.none(), st.text(max_size=60)), st.integers(-2, 2), st.integers(1, 5))
VALUES = st.builds(
    ReviewValues,
    STAGES.map(lambda held: tuple(held[: next((n + 1 for n, one in enumerate(held) if one < 10), 4)])),
    SECONDS,
    SECONDS,
    SECONDS,
    st.one_of(st.none(), st.integers(0, 56)),
    st.lists(GOAL, max_size=3).map(tuple),
    st.sampled_from([None, 50, 60, 70, 80, 90]),
)


@settings(max_examples=40, deadline=None)
@given(st.lists(VALUES, min_size=1, max_size=5))
def test_whatever_was_measured_is_drawn_and_its_caption_can_be_sent(values: list[ReviewValues]) -> None:
    shown = Shown(*values)
    assert length(shown.caption) <= LIMIT
    for one in shown.reviews[-4:]:
        if one.values.four_stage:
            flagged = shown.said(f"risk:{one.day}") == "flag"
            assert flagged == bool(four_stage(one.values.four_stage).at_risk)
