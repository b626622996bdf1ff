"""The page itself: its file, its colours, its letters."""

from io import BytesIO

import numpy as np
import pytest
from PIL import Image

from companion.reports import letters, page
from companion.reports.letters import Type
from companion.reports.page import ALARM, BODY, SOLID, Page, png

TEXTS = ("done", "To: 7/10, Wave", "fjord", "Mon 23", "3 of 5", "AVAVAV", "(wait)")


def drawn(sheet: Page) -> Image.Image:
    return Image.open(BytesIO(png(sheet.finish())))


def with_colours(colours: list[tuple[int, int, int]]) -> np.ndarray:
    """A picture of one row: every colour once, the first one often."""
    row = [(*colour, 255) for colour in [colours[0]] * 1000 + colours]
    return np.array([row], dtype=np.uint8)


def test_a_colour_of_the_page_is_that_colour_in_the_file() -> None:
    sheet = Page()
    sheet.box((100, 100, 50, 50), face=SOLID)
    sheet.box((200, 100, 50, 50), face=ALARM)
    sheet.write(400, 140, "fjord, 7 of 10")
    sheet.y = 300
    picture = drawn(sheet)
    assert picture.mode == "P"
    seen = picture.convert("RGB")
    assert [f"#{seen.getpixel((x, 125))[0]:02x}" for x in (125, 225)] == [SOLID[:3], ALARM[:3]]  # type: ignore[index]
    assert seen.getpixel((5, 5)) == (255, 255, 255)


def test_of_more_colours_than_a_palette_holds_the_rare_ones_become_near_ones() -> None:
    shades = [(value, value, value // 2) for value in range(256)] + [(value, 255 - value, 40) for value in range(0, 256, 2)]
    picture = with_colours(shades)
    wanted = picture[0, :, :3].astype(int)
    found = np.asarray(page._with_palette(picture).convert("RGB"))[0].astype(int)
    kept = np.unique(found, axis=0)
    away = np.abs(found - wanted).sum(axis=1)
    assert len(kept) == page.COLOURS and (away[:1000] == 0).all() and (away > 0).any()
    assert (away == np.abs(wanted[:, None] - kept).sum(axis=2).min(axis=1)).all()


def test_what_has_too_many_colours_for_a_palette_stays_as_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(page, "COUNTED", 10)
    picture = with_colours([(value, 0, 0) for value in range(20)])
    found = page._with_palette(picture)
    assert found.mode == "RGB" and (np.asarray(found) == picture[..., :3]).all()


@pytest.mark.parametrize("text", TEXTS)
@pytest.mark.parametrize("bold", [False, True])
def test_no_line_is_drawn_wider_than_was_reckoned(text: str, bold: bool) -> None:
    sheet, look = Page(), Type(33, bold=bold)
    sheet.write(100, 100, text, look)
    sheet.y = 150
    columns = np.flatnonzero((np.asarray(drawn(sheet).convert("L")) < 200).any(axis=0))
    assert columns[0] >= 96 and columns[-1] <= 100 + letters.width(text, look) + 2
    assert columns[-1] >= 100 + 0.8 * letters.width(text, look)


def test_a_line_and_the_words_of_a_long_one_are_kept_and_drawn_as_the_first_time() -> None:
    def sheet(*lines: str) -> bytes:
        one = Page()
        for line in lines:
            one.write(100, 100, line, BODY)
            one.y = 150
        return png(one.finish())

    letters._pixels.cache_clear()
    first = sheet("kept", "of this line each word is kept")
    assert letters._pixels.cache_info().misses == 7
    assert sheet("kept", "of this line each word is kept") == first
    sheet("this is kept", "each line of another order of this")
    assert letters._pixels.cache_info().misses == 7 + 3, "this is kept, another, order"


@pytest.mark.parametrize("bold", [False, True])
def test_words_of_a_long_line_stand_as_far_apart_as_where_it_is_drawn_in_one(bold: bool) -> None:
    text, look = 'To AVA, effort 48: "flat" — fjord, 7 of 10 W.', Type(33, bold=bold)
    sheets = []
    for short in (letters.SHORT, len(text)):
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(letters, "SHORT", short)
            sheet = Page()
            sheet.write(100, 100, text, look)
            sheet.y = 150
            sheets.append((np.asarray(drawn(sheet).convert("L")) < 128).any(axis=0))
    words, whole = (np.flatnonzero(columns) for columns in sheets)
    assert abs(words[0] - whole[0]) <= 1 and abs(words[-1] - whole[-1]) <= 1
    assert (sheets[0] != sheets[1]).sum() < 40, "edges may lie a pixel apart"


def test_a_short_line_and_a_long_one_stand_on_the_same_line() -> None:
    sheet = Page()
    sheet.write(100, 100, "H", BODY)
    sheet.write(300, 100, "H" * (letters.SHORT + 1), BODY)
    sheet.y = 150
    dark = np.asarray(drawn(sheet).convert("L")) < 100
    rows = [np.flatnonzero(dark[:, left:right].any(axis=1)) for left, right in ((100, 200), (300, 900))]
    assert abs(rows[0][0] - rows[1][0]) <= 1 and abs(rows[0][-1] - rows[1][-1]) <= 1
