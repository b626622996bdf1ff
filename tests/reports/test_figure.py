"""The chart is read as its artists, never as pixels: these differ between machines."""

import re
import warnings
from collections.abc import Iterator
from dataclasses import replace
from io import BytesIO
from itertools import combinations

import pytest
from matplotlib.colors import to_rgb, to_rgba
from matplotlib.figure import Figure
from matplotlib.patches import Circle, Patch, Polygon, Rectangle, RegularPolygon, Wedge
from matplotlib.text import Text
from matplotlib.transforms import Bbox
from PIL import Image

from companion.core.observations import Ending, FallKind, FallReported, Quality
from companion.core.programme import Side, Stance
from companion.reports.figure import draw
from companion.reports.page import BODY, DPI, PAPER, SMALL, WIDTH, Page, png
from companion.reports.week import Week
from tests.reports.on_page import shapes_on, texts_on
from tests.reports.samples import LONG, SAMPLES, wording
from tests.reports.weeks import bout, case, closed, day, ended, fell, said, session, unanswered, week

HEADINGS = ["flags", "sessions", "stances", "support", "words"]


class Chart:
    """A drawn week and what is on it, read from top to bottom and from left to right."""

    def __init__(self, shown: Week) -> None:
        self.figure: Figure = draw(shown, wording(shown))
        self.height = self.figure.bbox.height

    def texts(self, name: str = "") -> list[str]:
        return [text.get_text() for text in self.written(name)]

    def written(self, name: str = "") -> list[Text]:
        found = [text for text in texts_on(self.figure) if (text.get_gid() or "").startswith(name)]
        return sorted(found, key=lambda text: (text.get_position()[1], text.get_position()[0]))

    def marks(self, name: str) -> list[Patch]:
        return [patch for patch in shapes_on(self.figure) if (patch.get_gid() or "").startswith(name)]

    def bars(self, name: str) -> dict[str, tuple[float, float]]:
        """The parts of one bout's bar, bottom and top as shares of its outline."""
        parts = {str(patch.get_gid()).rpartition(":")[2]: patch for patch in self.marks(name)}
        frame = parts.pop("outline")
        assert isinstance(frame, Rectangle)
        low = frame.get_y() + frame.get_height()
        found = {}
        for part, patch in parts.items():
            assert isinstance(patch, Rectangle)
            bottom = (low - patch.get_y() - patch.get_height()) / frame.get_height()
            found[part] = (round(bottom, 6), round((low - patch.get_y()) / frame.get_height(), 6))
        return found

    def boxes(self) -> Iterator[tuple[Text, Bbox]]:
        renderer = self.figure.canvas.get_renderer()  # type: ignore[attr-defined]
        for text in texts_on(self.figure):
            yield text, text.get_window_extent(renderer)


@pytest.fixture(scope="module")
def charts() -> dict[str, Chart]:
    return {name: Chart(make()) for name, make in SAMPLES.items()}


@pytest.fixture(params=list(SAMPLES))
def chart(request: pytest.FixtureRequest, charts: dict[str, Chart]) -> Chart:
    return charts[request.param]


# what holds of every chart


def test_no_two_texts_overlap(chart: Chart) -> None:
    boxes = [(text.get_text(), box) for text, box in chart.boxes()]
    assert [(one, two) for (one, first), (two, second) in combinations(boxes, 2) if first.overlaps(second)] == []


def test_no_text_leaves_the_page(chart: Chart) -> None:
    for text, box in chart.boxes():
        assert box.x0 >= 30 and box.x1 <= WIDTH - 30 and box.y0 >= 10 and box.y1 <= chart.height - 10, text.get_text()


def test_no_text_leaves_its_column(chart: Chart) -> None:
    days = [(text, box) for text, box in chart.boxes() if str(text.get_gid()).startswith(("day:", "state:"))]
    assert days
    for text, box in days:
        assert box.width <= (WIDTH - 80) / 7, text.get_text()


def test_every_text_is_at_least_10_pixels_high_on_a_page_of_360(chart: Chart) -> None:
    assert min(float(text.get_fontsize()) * DPI / 72 for text in texts_on(chart.figure)) * 360 / WIDTH >= 10


def test_every_text_stands_out_from_its_ground(chart: Chart) -> None:
    # WCAG 2.2, success criterion 1.4.3: 4.5 to 1
    for text in texts_on(chart.figure):
        assert contrast(text.get_color(), ground(chart, text)) >= 4.5, text.get_text()


def bold(text: Text) -> bool:
    return str(text.get_fontproperties().get_file()).endswith("Bold.ttf")


def luminance(colour: object) -> float:
    """Relative luminance, WCAG 2.2."""
    parts = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in to_rgb(colour)]  # type: ignore[arg-type]
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]


def contrast(one: object, two: object) -> float:
    light, dark = sorted((luminance(one), luminance(two)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def ground(chart: Chart, text: Text) -> object:
    """The colour of the uppermost filled shape under a text."""
    x, y = text.get_position()
    left, low = text.get_transform().transform((x, y - 8))
    under = [patch for patch in shapes_on(chart.figure) if patch.get_fill() and patch.contains_point((left, low))]
    under = [patch for patch in under if to_rgba(patch.get_facecolor())[3] > 0]
    return max(under, key=lambda patch: patch.get_zorder()).get_facecolor() if under else PAPER


def test_nothing_joins_two_bouts_or_two_days(chart: Chart) -> None:
    assert all(isinstance(artist, Text | Patch) for artist in chart.figure.artists)
    assert len(chart.figure.get_children()) == 1 + len(chart.figure.artists), "the ground, and nothing else"
    for patch in chart.marks("bout:"):
        assert isinstance(patch, Rectangle | RegularPolygon) and patch.get_extents().width <= 49


def test_the_sections_come_in_their_order(chart: Chart) -> None:
    found = [str(text.get_gid()).removeprefix("heading:") for text in chart.written("heading:")]
    assert found == [name for name in HEADINGS if name in found]
    assert {"flags", "sessions", "stances", "words"} <= set(found)
    tops = [chart.written(name)[0].get_position()[1] for name in ("name", "span", "bar", "heading:flags")]
    assert tops == sorted(tops)


def test_what_is_reported_says_so(chart: Chart) -> None:
    for name in ("sessions", "stances", "support"):
        assert all("REPORTED" in heading for heading in chart.texts(f"heading:{name}"))


def test_seven_days_each_have_one_mark_and_its_word(chart: Chart) -> None:
    days = [str(text.get_gid()).removeprefix("day:") for text in chart.written("day:")]
    assert len(days) == 7
    for each in days:
        assert chart.marks(f"session:{each}:") and chart.texts(f"state:{each}")


def test_there_is_no_score_no_mean_and_no_all_well(chart: Chart) -> None:
    ours = [text for text in texts_on(chart.figure) if text.get_gid() not in ("own-words", "name")]
    everything = " ".join(text.get_text() for text in ours).lower()
    assert not re.search(r"score|average|mean\b|all well|good|great|\bon track\b|\d\.\d", everything)


# single claims


def test_a_day_without_an_answer_is_a_question_mark_and_no_bar() -> None:
    chart = Chart(week(session(day(0)), closed(day(1))))
    (mark,) = chart.marks("session:2026-11-24:no_answer")
    assert isinstance(mark, Circle) and mark.get_facecolor()[:3] == to_rgb(PAPER)
    assert chart.texts("session:2026-11-24:no_answer") == ["?"]
    assert chart.texts("state:2026-11-24") == ["no", "answer"]
    assert not [patch for patch in chart.marks("bout:") if ":2026-11-24:" in str(patch.get_gid())]
    assert [patch for patch in chart.marks("bout:") if ":2026-11-23:" in str(patch.get_gid())]


def test_silence_is_said_before_anything_else_and_louder_than_no_flag() -> None:
    chart = Chart(SAMPLES["empty"]())
    (bar,), (no_flag, *rest) = (chart.written(name) for name in ("bar", "no-flag"))
    assert bar.get_text() == "To check: 7 of 7 days due are unknown." and chart.marks("call:unknown")
    assert " ".join(text.get_text() for text in (no_flag, *rest)) == (
        "No answer on any of the 7 days due: practice and falls unknown. No red flag on record."
    )
    assert not chart.texts("silence")  # it would say the same again
    assert bold(bar) and not bold(no_flag) and bar.get_position()[1] < no_flag.get_position()[1]
    assert chart.texts("reported") == ["Done or partly: 0 of 7 days due, unknown 7"]


def test_a_bout_nobody_answered_is_a_frame_with_a_question_mark_and_has_no_height() -> None:
    chart = Chart(week(unanswered(bout(day(0))), ended(day(0))))
    marks = chart.marks("bout:heel_to_toe:open:weaker:2026-11-23")
    assert [str(mark.get_gid()).rpartition(":")[2] for mark in marks] == ["unknown"]
    assert marks[0].get_facecolor()[:3] == to_rgb(PAPER) and marks[0].get_linestyle() != "solid"
    assert chart.texts("bout:heel_to_toe:open:weaker:2026-11-23") == ["?"]
    assert chart.texts("number:heel_to_toe:open:weaker") == ["unknown", ""]


def test_a_break_in_the_second_quarter_is_drawn_as_its_bounds() -> None:
    chart = Chart(week(bout(day(0), quarter=2), ended(day(0))))
    bars = chart.bars("bout:heel_to_toe:open:weaker:2026-11-23")
    assert bars == {"sure": (0.0, 0.25), "between": (0.25, 0.5), "practised": (0.0, 1.0)}
    (between,) = chart.marks("bout:heel_to_toe:open:weaker:2026-11-23:between")
    assert between.get_hatch()


def test_a_clean_bout_is_solid_to_the_top_and_one_ended_early_claims_nothing_solid() -> None:
    early = replace(bout(day(1)), quality=Quality.ENDED_EARLY, practised_s=30.0, first_break=None)
    chart = Chart(week(bout(day(0)), early, ended(day(0)), ended(day(1), Ending.PARTLY)))
    assert chart.bars("bout:heel_to_toe:open:weaker:2026-11-23")["sure"] == (0.0, 1.0)
    ended_early = chart.bars("bout:heel_to_toe:open:weaker:2026-11-24")
    assert ended_early.pop("end")[1] == 0.5 and ended_early == {"practised": (0.0, 0.5)}


def test_a_paused_day_is_drawn_as_paused_and_its_column_is_shaded() -> None:
    chart = Chart(week(session(day(0)), closed(day(1), Ending.PAUSED), closed(day(2), Ending.HELD)))
    paused, held = (chart.marks(f"session:2026-11-{day}") for day in ("24:paused", "25:held"))
    assert [type(mark) for mark in paused] == [Rectangle, Rectangle, Rectangle]
    assert [type(mark) for mark in held] == [Rectangle, Polygon]
    assert chart.texts("state:2026-11-24") == ["paused"] and chart.texts("state:2026-11-25") == ["held"]
    assert chart.marks("day_paused:2026-11-24") and chart.marks("day_held:2026-11-25")
    assert not [mark for mark in chart.marks("day_") if ":2026-11-23" in str(mark.get_gid())]
    assert chart.texts("states") == ["done 1, unknown 4 (no record 4), paused 1, held 1"]


def test_the_open_flag_stands_above_everything_and_asks_for_a_decision() -> None:
    chart = Chart(SAMPLES["red_flag"]())
    order = [text.get_text() for text in chart.written("flag")]
    assert order[0] == "OPEN: emergency flag, Thu 26 Nov 10:14"
    assert order.index("OPEN: emergency flag, Thu 26 Nov 10:14") < order.index("Lifted: emergency flag, Mon 23 Nov 10:14")
    assert chart.written("flag")[0].get_position()[1] < chart.written("heading:sessions")[0].get_position()[1]
    assert len(chart.marks("flag:open")) == len(chart.marks("flag:lifted")) == 1
    assert " ".join(chart.texts("bar")) == "Waiting for you: lift the stop, or keep it. Open since Thu 26 Nov 10:14."
    assert chart.marks("call:stop") and not chart.marks("call-edge")


def test_falls_are_counted_above_their_flags_and_named_on_their_days() -> None:
    chart = Chart(SAMPLES["red_flag"]())
    assert (
        chart.texts("falls") == ["Falls reported: 2 (Mon 23, Thu 26)."]
        and chart.written("falls")[0].get_position()[1] < (chart.written("flag")[0].get_position()[1])
    )
    assert chart.texts("state:2026-11-23") == ["done", "red flag"] and chart.texts("state:2026-11-26") == [
        "stopped",
        "red flag",
    ]
    assert chart.texts("state:2026-11-25") == ["done"]
    older = Chart(week(fell(day(-2)), session(day(0))))
    assert older.texts("flag") and not older.texts("falls"), "a fall of the week before is not one of this week"
    unsure = [what for what in fell(day(1)) if not (isinstance(what, FallReported) and what.fall is FallKind.FALL)]
    told = " ".join(Chart(week(unsure, session(day(0)))).texts("falls"))
    assert told == "Falls reported: 1 (Tue 24); not told apart from a near-fall: 1."


def test_a_bout_that_was_stopped_is_told_below_what_was_clean_and_what_came_after_it_is_no_gap() -> None:
    chart = Chart(SAMPLES["red_flag"]())
    assert chart.texts("number:feet_together:open:none") == ["2 of 3", "–", "7 of 7"], "nothing broke"
    assert chart.texts("stopped:feet_together:open:none") == ["1 stopped"]
    assert not chart.marks("day_stopped:2026-11-23") and len(chart.marks("key:day_stopped")) == 2
    stopped = [mark for mark in chart.marks("day_stopped:2026-11-26") if isinstance(mark, RegularPolygon)]
    assert len(stopped) == 6, "every row but that of the bout that was stopped"


@pytest.mark.parametrize(("answered", "told"), [(7, ""), (6, " on the days with an answer")])
def test_no_fall_is_claimed_of_a_day_without_an_answer(answered: int, told: str) -> None:
    chart = Chart(
        week([ended(day(number)) for number in range(answered)], [closed(day(number)) for number in range(answered, 7)])
    )
    assert chart.texts("no-flag") == [f"No red flag. No fall reported{told}."]


def test_a_day_with_one_session_of_two_is_half_full_and_sessions_are_counted_beside_the_days() -> None:
    chart = Chart(SAMPLES["one_side"]())
    assert [type(mark) for mark in chart.marks("session:2026-11-23")] == [Circle, Wedge]
    assert [type(mark) for mark in chart.marks("session:2026-11-24")] == [Circle]
    assert chart.texts("state:2026-11-23") == ["done 1", "of 2"]
    assert chart.texts("parts") == ["Sessions reported done or partly: 10 of 14 due, unknown 2."]


def test_open_flags_are_shown_before_many_lifted_ones() -> None:
    lifted = [fell(day(number), f"f{number}", lifted=day(number)) for number in range(1, 7)]
    chart = Chart(week(fell(day(0), "f0"), *lifted))
    assert chart.texts("flag")[0].startswith("OPEN")
    assert chart.texts("flags-more") == ["More flags, not shown here: 3."]


def test_a_first_week_has_no_column_for_a_week_before() -> None:
    chart = Chart(SAMPLES["first"]())
    assert "last week" not in chart.texts()
    assert chart.texts("first-week") == ["No record of the week before."]
    assert "last week" in Chart(SAMPLES["usual"]()).texts()


def test_an_empty_week_claims_no_bout_and_no_effort() -> None:
    chart = Chart(SAMPLES["empty"]())
    assert chart.texts("no-bout") == ["No bout was reported."]
    assert not chart.marks("bout:") and not chart.marks("key:")
    assert chart.texts("effort") == ["Effort: no session on record."]


def test_a_much_weaker_side_is_seen_in_bars_and_numbers() -> None:
    chart = Chart(SAMPLES["one_side"]())
    assert sorted(chart.texts("number:one_leg:open:weaker")) == ["0 of 10", "0 of 12", "1st"]
    assert chart.texts("worst:one_leg:open:weaker") == ["earliest 1st"]
    assert chart.texts("number:one_leg:open:stronger") == ["10 of 10", "–", "12 of 12"]
    assert chart.texts("worst:one_leg:open:stronger") == []
    solid = {side: len(chart.marks(f"bout:one_leg:open:{side}")) for side in Side}
    assert solid[Side.STRONGER] > 0 and chart.bars("bout:one_leg:open:stronger:2026-11-23")["sure"] == (0.0, 1.0)
    assert "sure" not in chart.bars("bout:one_leg:open:weaker:2026-11-23")


def test_quarters_and_counts_stand_under_heads_of_their_own_which_name_the_median() -> None:
    chart = Chart(SAMPLES["usual"]())
    assert chart.texts("head:column-break") == ["first break", "in quarter,", "median"]
    assert chart.texts("head:column-count") == ["count,", "median"]
    assert chart.texts("head:column-clean") == ["clean", "of tried"] * 2
    toes = chart.written("side:one_leg_toes")[0].get_position()[1]
    holds = [text.get_position()[1] for text in chart.written("side:") if "toes" not in str(text.get_gid())]
    assert max(holds) < chart.written("head:column-count")[0].get_position()[1] < toes


def test_confidence_stands_between_carer_and_own_words_and_is_left_out_where_nobody_answered() -> None:
    chart = Chart(SAMPLES["usual"]())
    assert chart.texts("confidence") == ["Confidence reported: a little sure."]
    (carer,), (confidence,), (own, *_) = (chart.written(name) for name in ("carer", "confidence", "own-words"))
    assert carer.get_position()[1] < confidence.get_position()[1] < own.get_position()[1]
    assert Chart(SAMPLES["empty"]()).texts("confidence") == []


def test_a_week_of_which_everything_is_known_and_nothing_waits_says_no_more_than_that() -> None:
    chart = Chart(SAMPLES["clean"]())
    assert chart.texts("bar") == ["No decision waits for you."]
    assert not chart.marks("call:") and not chart.marks("call-edge")


def test_a_median_that_is_not_reached_is_called_so_and_the_earliest_break_stands_below_it() -> None:
    holds = [bout(day(number), quarter=2 if number == 1 else None) for number in range(3)]
    chart = Chart(week(holds, [ended(day(number)) for number in range(3)]))
    boxes = {text.get_text(): box for text, box in chart.boxes()}
    median, earliest = boxes["not reached"], boxes["earliest 2nd"]
    assert median.y0 >= earliest.y1 and abs(median.x0 + median.x1 - earliest.x0 - earliest.x1) < 6
    assert chart.texts("number:heel_to_toe:open:weaker")[0] == "not reached"
    assert not any(text in chart.texts() for text in ("none", "3 of 3"))


def test_no_word_stands_on_a_line_alone_below_a_long_one() -> None:
    page = Page()
    lines = page.wrap("Steps reported 22, hand touches 0. Legs leaned on the chair 1.", BODY, page.room)
    assert len(lines) == 2 and lines[1].count(" ") > 0
    assert page.wrap("not today", SMALL, 135) == ["not", "today"]


def test_an_eased_hold_on_one_leg_is_not_drawn_among_the_half_steps() -> None:
    eased = replace(bout(day(0), Stance.HALF_STEP), exercise="one_leg", eased=1)
    chart = Chart(week(bout(day(0), Stance.HALF_STEP), eased, ended(day(0))))
    assert chart.texts("stance") == [
        "One leg (half-step, foot in front), 60 s, hovering",
        "Half-step, foot in front, 60 s, hovering",
    ]
    assert chart.texts("number:one_leg:open:weaker") == ["1 of 1", "–"]


def test_last_week_stands_beside_this_week() -> None:
    chart = Chart(SAMPLES["usual"]())
    weaker, toes = ("heel_to_toe:open:weaker", "one_leg_toes:open:weaker")
    assert sorted(chart.texts(f"number:{weaker}")) == ["0 of 5", "1 of 4", "3rd"]
    assert chart.texts(f"worst:{weaker}") == ["earliest 2nd"]
    assert sorted(chart.texts(f"number:{toes}")) == ["0 of 4", "0 of 5", "2 of 3"]
    assert chart.texts(f"worst:{toes}") == ["least 2"]


def test_a_stance_not_tried_this_week_says_so() -> None:
    chart = Chart(week(session(day(-7)), bout(day(0)), ended(day(0))))
    assert chart.texts("number:one_leg:open:weaker") == ["not tried", "", "1 of 1"]


def test_eight_exercises_and_a_long_name_fit() -> None:
    chart = Chart(SAMPLES["eight"]())
    headings = " ".join(chart.texts("stance"))
    for name in (
        "Seated foot press, count of 10, two hands",
        "Feet together, 60 s, hovering",
        "Feet together, eyes closed, 60 s, one hand",
        "Half-step, foot in front, 60 s, hovering",
        "Heel-to-toe, foot in front, 60 s, hovering",
        "One leg, 60 s, hovering",
        "Up on your toes (one leg, on the toes), count of 3, fingertips",
        "Heel-to-toe walk, count of 1, fingertips",
    ):
        assert name in headings
    assert " ".join(chart.texts("name")) == LONG


def test_a_name_without_a_space_is_broken_and_not_clipped() -> None:
    chart = Chart(week(of=case("Q" * 70)))
    assert "".join(chart.texts("name")) == "Q" * 70
    test_no_text_leaves_the_page(chart)


def test_more_than_70_percent_is_said_with_its_source_and_less_is_not_judged() -> None:
    assert Chart(SAMPLES["usual"]()).texts("more-than-70") == ["More than 70 % of the sessions due (SS-MAHE 2019)."]
    assert Chart(SAMPLES["red_flag"]()).texts("more-than-70") == []


def test_hand_stage_steps_touches_and_easing_are_counted_with_their_denominator() -> None:
    assert Chart(SAMPLES["one_side"]()).texts("support") == [
        "Hand as set up: fingertips 20, hovering 20 (of 40 bouts).",
        "Steps reported 20, hand touches 0.",
        "Made easier, reported: 20 of 40 bouts (Heel-to-toe, foot in",
        "front weaker 10 of 10, One leg weaker 10 of 10).",
    ]


def test_a_dollar_sign_in_own_words_is_no_mathematics() -> None:
    chart = Chart(SAMPLES["red_flag"]())
    assert "costs $5 to ring the ward and $6" in " ".join(chart.texts("own-words"))
    assert not any(text.get_parse_math() for text in texts_on(chart.figure))
    png(chart.figure)


def test_a_character_the_font_lacks_becomes_a_box_and_no_warning() -> None:
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        chart = Chart(
            week(
                said(day(0), "tired \N{MECHANICAL LEG}\x00 today"),
                of=case("Bj\N{LATIN SMALL LETTER O WITH STROKE}rn \N{CJK UNIFIED IDEOGRAPH-5F35}"),
            )
        )
        png(chart.figure)
    assert chart.texts("name") == ["Bj\N{LATIN SMALL LETTER O WITH STROKE}rn \N{WHITE SQUARE}"]
    assert "tired \N{WHITE SQUARE}\N{WHITE SQUARE} today" in " ".join(chart.texts("own-words"))


def test_the_same_week_gives_the_same_picture_with_no_date_in_it() -> None:
    pictures = {png(Chart(SAMPLES["usual"]()).figure) for _ in range(2)}
    assert len(pictures) == 1
    image = Image.open(BytesIO(pictures.pop()))
    assert set(image.info) <= {"dpi"}


@pytest.mark.parametrize("name", list(SAMPLES))
def test_the_picture_is_one_that_the_platform_takes(name: str, charts: dict[str, Chart]) -> None:
    # the public Bot API manual, sendPhoto: width and height together at most 10,000, one at most 20 times the other
    width, height = (size * DPI for size in charts[name].figure.get_size_inches())
    assert width == pytest.approx(WIDTH)
    assert width + height <= 10_000 and height <= 20 * width


def test_only_stances_with_bouts_have_bars() -> None:
    chart = Chart(week(bout(day(0), Stance.HALF_STEP), ended(day(0))))
    assert {str(mark.get_gid()).split(":")[1] for mark in chart.marks("bout:")} == {"half_step"}
