"""Lines of text: how wide they are, and how they get onto a page.

The font is the one that matplotlib brings along, so a text is as wide on every machine. Letters are drawn as the font has them,
not fitted to pixels: on a phone the page is smaller anyway, and fitting them is a quarter of the work.
"""

from contextlib import AbstractContextManager
from dataclasses import dataclass
from functools import cache, lru_cache
from math import ceil
from pathlib import Path
from typing import Any

import numpy as np
from matplotlib import get_data_path, rc_context
from matplotlib.backend_bases import GraphicsContextBase, RendererBase
from matplotlib.backends.backend_agg import RendererAgg
from matplotlib.font_manager import FontProperties, get_font
from matplotlib.ft2font import FT2Font, LoadFlags
from matplotlib.text import Text

DPI = 100
POINTS = 72 / DPI
"""Points of a line or a letter in one pixel."""

INK = "#18202e"

_FONTS = Path(get_data_path()) / "fonts" / "ttf"
_FACES = {False: _FONTS / "DejaVuSans.ttf", True: _FONTS / "DejaVuSans-Bold.ttf"}

_CHARACTERS = frozenset(get_font(str(_FACES[False])).get_charmap()) & frozenset(get_font(str(_FACES[True])).get_charmap())

SHORT = 24
"""Characters of a line that is likely to stand on other sheets too; of a longer one that is likely of each of its words."""

_AROUND = 3
"""Pixels on both sides of a line, for letters that lean out of it."""


@dataclass(frozen=True, slots=True)
class Type:
    """How text looks; `size` is in pixels."""

    size: float
    bold: bool = False
    colour: str = INK

    @property
    def font(self) -> FontProperties:
        """As matplotlib wants it."""
        return _font(self.bold, self.size * POINTS)


def unfitted() -> AbstractContextManager[None]:
    """Meanwhile letters are drawn as the font has them."""
    return rc_context({"text.hinting": "no_hinting"})


def drawable(text: str) -> str:
    """The text with a box for every character that the font does not have (an emoji in somebody's words)."""
    return "".join(one if ord(one) in _CHARACTERS else "\N{WHITE SQUARE}" for one in text)


@lru_cache(maxsize=10_000)
def width(text: str, look: Type) -> float:
    """How wide a text is drawn at the most, pixels: letters that are drawn nearer together are not counted off."""
    return sum(_advance(one, look.bold, look.size * POINTS) for one in drawable(text))


@cache
def _font(bold: bool, points: float) -> FontProperties:
    return FontProperties(fname=_FACES[bold], size=points)


@lru_cache(maxsize=10_000)
def _advance(character: str, bold: bool, points: float) -> float:
    """How far a character moves the pen, pixels."""
    font = get_font(str(_FACES[bold]))
    font.set_size(points, DPI)
    return font.load_char(ord(character), LoadFlags.NO_HINTING).horiAdvance / 64


@lru_cache(maxsize=2_000)
def _reach(word: str, look: Type) -> float:
    """How far a word moves the pen, pixels: its letters may be drawn nearer together, or two as one."""
    font = get_font(str(_FACES[look.bold]))
    font.set_size(look.size * POINTS, DPI)
    with_word, without = (_ink(font, f"|{between}|") for between in (word, ""))
    return with_word - without


def _ink(font: FT2Font, text: str) -> float:
    """From the left of what is seen of a text to the right of it, pixels."""
    font.set_text(text, flags=LoadFlags.NO_HINTING)
    return font.get_width_height()[0] / 64


class Line(Text):
    """A line of text whose left end is at its place. The page laid it out, so that drawing it need not do so again."""

    def __init__(self, x: float, y: float, text: str, look: Type) -> None:
        super().__init__(x, y, drawable(text), color=look.colour, fontproperties=look.font, va="baseline", parse_math=False)
        self._look = look

    def draw(self, renderer: RendererBase) -> None:
        """Only the letters; in pixels, those of a short line or of a word as they were when it was first drawn."""
        text = self.get_text()
        x, y = self.get_transform().transform(self.get_position())
        ink = renderer.new_gc()
        if isinstance(renderer, RendererAgg):
            _, below = _heights(self._look)
            for word in [text] if len(text) <= SHORT else text.split(" "):
                if word:
                    renderer.draw_image(ink, round(x) - _AROUND, round(y) - below, _pixels(word, self._look))
                x += _reach(word, self._look) + width(" ", self._look)
        elif text:
            y = renderer.get_canvas_width_height()[1] - y if renderer.flipy() else y
            _letters(renderer, ink, (x, y), text, self._look)
        ink.restore()


def _letters(renderer: RendererBase, ink: GraphicsContextBase, at: tuple[float, float], text: str, look: Type) -> None:
    ink.set_foreground(look.colour)
    renderer.draw_text(ink, *at, text, look.font, 0)


def _heights(look: Type) -> tuple[int, int]:
    """Pixels of a line above its baseline and below it."""
    return ceil(look.size * 1.2), ceil(look.size * 0.4)


@lru_cache(maxsize=2_000)
def _pixels(text: str, look: Type) -> np.ndarray[Any, np.dtype[np.uint8]]:
    """A line on nothing: rows from the lowest up, columns, then red, green, blue and how much of it."""
    above, below = _heights(look)
    wide = ceil(width(text, look)) + 2 * _AROUND
    renderer = RendererAgg(wide, above + below, DPI)  # type: ignore[no-untyped-call]
    ink = renderer.new_gc()
    with unfitted():
        _letters(renderer, ink, (_AROUND, above), text, look)
    return np.ascontiguousarray(np.asarray(renderer.buffer_rgba())[::-1])  # type: ignore[no-untyped-call]
