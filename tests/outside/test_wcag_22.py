"""WCAG 2.2: text has a contrast of 4.5:1 or more with what it stands on (1.4.3), shapes that carry meaning 3:1 (1.4.11).

The formula of contrast and relative luminance is WCAG's own; black on white is 21:1.
"""

from collections import Counter
from datetime import date
from io import BytesIO
from itertools import product

import pytest
from PIL import Image

from companion.core.observations import Quality
from companion.media.pictures import canvas
from companion.reports import marks, page
from companion.reports.stances import BoutMark


def luminance(colour: str) -> float:
    shares = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = [share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4 for share in shares]
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def test_the_formula_gives_the_known_values() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#ffffff", "#ffffff") == pytest.approx(1)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)  # from memory: just too pale


@pytest.mark.parametrize(
    ("text", "ground"),
    list(product([page.INK, page.QUIET, page.ALARM], [page.PAPER, page.SHADE, page.ALARM_GROUND])),
)
def test_every_text_colour_of_the_chart_can_be_read_on_every_ground(text: str, ground: str) -> None:
    assert contrast(text, ground) >= 4.5


@pytest.mark.parametrize("shape", [page.SOLID, page.HATCH, page.ALARM, page.INK, page.QUIET])
def test_every_shape_that_means_something_stands_out_from_the_paper(shape: str) -> None:
    assert contrast(shape, page.PAPER) >= 3


def seen_from_afar(mark: BoutMark) -> float:
    """The mean luminance of a bar as it is drawn, strokes and ground of a hatch together."""
    sheet = page.Page()
    marks.bout(sheet, (100, 20, 200, 200), mark, "bar")
    sheet.y = 260
    drawn = Image.open(BytesIO(page.png(sheet.finish()))).convert("RGB").crop((110, 30, 290, 210))
    pixels = bytes(drawn.tobytes())
    counts = Counter(pixels[at : at + 3] for at in range(0, len(pixels), 3))
    return sum(count * luminance(f"#{colour.hex()}") for colour, count in counts.items()) / counts.total()


def test_what_did_not_break_what_broke_and_what_was_practised_on_are_told_apart_in_grey_and_without_strokes() -> None:
    held, broke, ran = (
        seen_from_afar(mark)
        for mark in (
            BoutMark(date.min, Quality.CLEAN, 1.0, 1.0),
            BoutMark(date.min, Quality.BROKE, 0.0, 1.0),
            BoutMark(date.min, Quality.BROKE, 0.0, 0.0, 1.0),
        )
    )
    assert (broke + 0.05) / (held + 0.05) >= 3
    assert (ran + 0.05) / (broke + 0.05) >= 3


def test_the_strokes_of_a_hatch_stand_out_from_its_ground_and_white_words_from_the_band_of_a_stop() -> None:
    assert contrast(page.HATCH, page.HATCH_GROUND) >= 3
    assert contrast(page.PAPER, page.ALARM) >= 4.5


@pytest.mark.parametrize("ground", [canvas.PAPER, canvas.FLOOR])
@pytest.mark.parametrize("shape", [canvas.INK, canvas.BLUE, canvas.GREY])
def test_people_hands_and_supports_of_a_picture_stand_out_from_wall_and_floor(shape: str, ground: str) -> None:
    assert contrast(shape, ground) >= 3


@pytest.mark.parametrize(("text", "ground"), [(canvas.INK, canvas.PAPER), (canvas.PAPER, canvas.BLUE)])
def test_letters_in_a_picture_can_be_read(text: str, ground: str) -> None:
    assert contrast(text, ground) >= 4.5
