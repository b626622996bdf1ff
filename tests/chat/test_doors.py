"""Start links as the platform opens them, and their pictures as a camera reads them."""

from io import BytesIO

import pytest
import segno
from PIL import Image

from companion.chat.doors import DOT, StartLinks

LINK = "https://t.me/invented_bot?start=Zk3q_T-9abcdEFGH01234w"
QUIET = 4
"""The standard asks for so many empty dots around a code (ISO/IEC 18004)."""


def dots(png: bytes) -> list[list[bool]]:
    """The picture read back: a row for each row of dots, True where it is dark."""
    with Image.open(BytesIO(png)) as file:
        picture = file.convert("L")
    width, height = picture.width // DOT, picture.height // DOT
    return [[picture.getpixel((x * DOT + DOT // 2, y * DOT + DOT // 2)) == 0 for x in range(width)] for y in range(height)]


def test_a_link_starts_a_chat_with_the_bot() -> None:
    doors = StartLinks()
    doors.named("invented_bot")
    assert doors.link("Zk3q_T-9abcdEFGH01234w") == LINK


def test_there_is_no_link_before_the_bot_s_name_is_known() -> None:
    with pytest.raises(LookupError):
        StartLinks().link("payload")


def test_the_picture_shows_the_code_of_the_link_dot_by_dot() -> None:
    shown = dots(StartLinks().picture(LINK))
    inner = [row[QUIET:-QUIET] for row in shown[QUIET:-QUIET]]
    code = segno.make(LINK, micro=False, error="m")
    assert inner == [[bool(dot) for dot in row] for row in code.matrix]
    assert shown != dots(StartLinks().picture(LINK + "x"))


def test_the_picture_has_an_empty_edge_and_is_small_enough_to_send_at_once() -> None:
    png = StartLinks().picture(LINK)
    shown = dots(png)
    edge = [*shown[:QUIET], *shown[-QUIET:], *(row[:QUIET] for row in shown), *(row[-QUIET:] for row in shown)]
    assert not any(dark for row in edge for dark in row)
    assert len(png) < 10_000
