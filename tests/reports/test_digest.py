"""The digest's picture: all weeks side by side, nothing joined, nothing scored, silence never a zero."""

from dataclasses import replace

import pytest
from matplotlib.figure import Figure
from matplotlib.text import Text

from companion.reports.digest import MOST, Line, draw
from companion.reports.page import WIDTH, png
from companion.reports.wording import Wording
from tests.reports import samples
from tests.reports.on_page import shapes_on, texts_on

WORDING = Wording(samples.TEXTS, "en", "Europe/London")
FIRST, LAST = samples.usual().first, samples.usual().last


def picture(*lines: Line) -> Figure:
    return draw(lines, FIRST, LAST, WORDING)


def texts(figure: Figure) -> dict[str, str]:
    return {str(text.get_gid()): text.get_text() for text in texts_on(figure)}


def shapes(figure: Figure) -> set[str]:
    return {str(patch.get_gid()) for patch in shapes_on(figure)}


def line(name: str, sample: str) -> Line:
    return Line(name, replace(getattr(samples, sample)(), name=name))


def test_each_client_has_a_line_with_a_mark_for_each_day_in_the_order_given() -> None:
    figure = picture(line("Edda", "clean"), line("Tove", "usual"))
    told = texts(figure)
    assert (told["name:0"], told["name:1"]) == ("Edda", "Tove")
    for place in (0, 1):
        assert sum(name.startswith(f"session:{place}:") for name in shapes(figure)) == 7


def test_silence_all_week_is_question_marks_and_no_zero() -> None:
    figure = picture(line("Edda", "empty"))
    assert texts(figure)["count:0"] == "? of 7"
    marks = [text.get_text() for text in texts_on(figure) if str(text.get_gid()).startswith("session:0:")]
    assert marks == ["?"] * 7


def test_reported_days_stand_beside_those_due() -> None:
    assert texts(picture(line("Edda", "clean")))["count:0"] == "7 of 7"


def test_an_open_flag_is_filled_and_bold_and_who_has_none_has_no_mark() -> None:
    figure = picture(line("Edda", "red_flag"), line("Tove", "clean"))
    assert "flag:0:open" in shapes(figure) and not any(name.startswith("flag:1") for name in shapes(figure))


def test_a_client_without_a_plan_says_so() -> None:
    told = texts(picture(Line("Neu", None)))
    assert told["none:0"] == "no plan yet" and "count:0" not in told


def test_more_clients_than_can_be_read_are_counted() -> None:
    told = texts(picture(*[line(f"Client {place}", "clean") for place in range(MOST + 3)]))
    assert f"name:{MOST - 1}" in told and f"name:{MOST}" not in told
    assert "3 more" in told["rest"]


def test_the_key_explains_the_marks_that_are_there_and_no_others() -> None:
    told = texts(picture(line("Edda", "clean")))
    assert {name for name in told if name.startswith("key-word:")} == {"key-word:done"}


@pytest.mark.parametrize("sample", sorted(samples.SAMPLES))
def test_no_text_leaves_the_page_or_overlaps_another(sample: str) -> None:
    figure = picture(Line("Ottoline Vane-Harrowby-Smithson", samples.SAMPLES[sample]()), line("Edda", "usual"))
    figure.canvas.draw()
    boxes = [(text.get_text(), text.get_window_extent()) for text in texts_on(figure) if isinstance(text, Text)]
    for words, box in boxes:
        assert box.x0 >= 0 and box.x1 <= WIDTH, words
    for place, (one, a) in enumerate(boxes):
        for other, b in boxes[place + 1 :]:
            assert not a.overlaps(b), (one, other)


def test_the_same_weeks_give_the_same_picture() -> None:
    assert png(picture(line("Edda", "usual"))) == png(picture(line("Edda", "usual")))
