"""A portrait page for a phone, filled from the top down in pixels: text that wraps and fits, rules, boxes.

1,080 pixels wide, so that a phone shows it at a third: text of 30 pixels is then as large as 10 pixels of a web page. The
page is as high as what is on it. Only matplotlib's object API is used; pyplot keeps every figure for ever.
"""

from io import BytesIO
from typing import Literal

import numpy as np
from matplotlib.artist import Artist
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.patches import Patch, Rectangle
from matplotlib.transforms import Affine2D
from PIL import Image

from companion.reports import letters
from companion.reports.letters import DPI as DPI
from companion.reports.letters import INK as INK
from companion.reports.letters import POINTS as POINTS
from companion.reports.letters import Line
from companion.reports.letters import Type as Type

WIDTH = 1080
MARGIN = 40

COMPRESSION = 1
"""Of zlib's nine: the most takes three times as long and makes a file an eighth smaller."""

COLOURS = 256
"""So many a palette of a PNG can have."""

COUNTED = 1 << 14
"""No sheet has nearly so many colours."""

_PLACES = np.zeros(1 << 24, dtype=np.uint32)
"""The place of a colour in the palette, by its code; only those of the picture at hand are right."""

PAPER = "#ffffff"
QUIET = "#4b5567"
RULE = "#c2cad4"
SHADE = "#eceff3"
SOLID = "#08404a"
HATCH = "#7a3d08"
HATCH_GROUND = "#e5ab60"
PRACTISED = "#eef5f5"
ALARM = "#9c1322"
ALARM_GROUND = "#fbe9ea"
"""The palette: told apart by lightness as well, so that it works in grey; text has 4.5:1 or more (WCAG 2.2)."""

Align = Literal["left", "center", "right"]
_BEFORE: dict[Align, float] = {"left": 0.0, "center": 0.5, "right": 1.0}
"""The share of a line that lies before its place."""

Area = tuple[float, float, float, float]
"""Left, top, width, height, in pixels from the upper left corner."""


TITLE = Type(46, bold=True)
KEY = Type(37, bold=True)
STRONG = Type(33, bold=True)
BODY = Type(33)
SMALL = Type(30)
SMALL_STRONG = Type(30, bold=True)
ASIDE = Type(30, colour=QUIET)
HEADING = Type(30, bold=True, colour=QUIET)


class Page:
    """One page. `y` is the cursor, in pixels from the top. What is on it lies on the figure itself: to set up axes takes longer
    than to draw half of it."""

    def __init__(self) -> None:
        self.figure = Figure(figsize=(WIDTH / DPI, 1), dpi=DPI, facecolor=PAPER)
        FigureCanvasAgg(self.figure)
        self._place = Affine2D()
        self._to_figure = self._place + self.figure.dpi_scale_trans
        self.y = float(MARGIN)

    @property
    def room(self) -> float:
        """The width between the margins, pixels."""
        return float(WIDTH - 2 * MARGIN)

    def width(self, text: str, look: Type) -> float:
        """How wide a text is drawn at the most, pixels: letters that are drawn nearer together are not counted off."""
        return letters.width(text, look)

    def wrap(self, text: str, look: Type, width: float, most: int = 99) -> list[str]:
        """The text in lines that fit `width`; at most `most`, the last then ends in an ellipsis."""
        lines: list[str] = []
        line = ""
        for word in text.split():
            for piece in self._pieces(word, look, width):
                longer = f"{line} {piece}" if line else piece
                if line and self.width(longer, look) > width:
                    lines.append(line)
                    line = piece
                else:
                    line = longer
        lines.append(line)
        if len(lines) > most:
            return [*lines[: most - 1], self._cut(f"{lines[most - 1].rstrip(' .')}…", look, width)]
        if len(lines) > 1 and " " not in line:
            lines[-2:] = self._evened(lines[-2], line, look, width)
        return lines

    def _evened(self, line: str, last: str, look: Type, width: float) -> list[str]:
        """A line and the last one, a word that stood alone, with words moved down until that is half as long, if they fit."""
        while line.count(" ") > 1 and self.width(last, look) < self.width(line, look) / 2:
            rest, moved = line.rsplit(" ", 1)
            if self.width(f"{moved} {last}", look) > width:
                break
            line, last = rest, f"{moved} {last}"
        return [line, last]

    def write(
        self, x: float, y: float, text: str, look: Type = BODY, *, align: Align = "left", name: str | None = None
    ) -> None:
        """One line with its baseline at `y`. A dollar sign is a dollar sign, not mathematics."""
        x -= _BEFORE[align] * self.width(text, look)
        line = Line(x, y, text, look)
        line.set(gid=name, zorder=5)
        self._put(line)

    def paragraph(self, text: str, look: Type = BODY, *, indent: float = 0, most: int = 99, name: str | None = None) -> None:
        """Wrapped lines from the cursor on, `indent` pixels in on the left; the cursor moves below them."""
        for line in self.wrap(text, look, self.room - indent - min(indent, 20), most):
            self.y += look.size * 1.28
            self.write(MARGIN + indent, self.y - look.size * 0.3, line, look, name=name)

    def section(self, title: str, name: str) -> None:
        """A rule across the page and a heading."""
        self.y += 20
        self.box((MARGIN, self.y, self.room, 3), face=RULE)
        self.y += 8
        self.paragraph(title, HEADING, name=f"heading:{name}")
        self.y += 2

    def box(self, area: Area, *, face: str = "none", edge: str = "none", line: float = 0, name: str | None = None) -> None:
        """A rectangle under everything else; `line` is the width of its edge, pixels."""
        left, top, width, height = area
        rectangle = Rectangle((left, top), width, height, facecolor=face, edgecolor=edge, linewidth=line * POINTS)
        self.add(rectangle, name, level=1)

    def add(self, patch: Patch, name: str | None = None, level: float = 2) -> None:
        """Any shape, in pixels of the page; higher levels lie above lower ones."""
        patch.set_gid(name)
        patch.set_zorder(level)
        self._put(patch)

    def _put(self, artist: Artist) -> None:
        artist.set_transform(self._to_figure)
        self.figure.add_artist(artist)

    def finish(self) -> Figure:
        """Make the page as high as what is on it."""
        height = round(self.y + MARGIN)
        self._place.clear().scale(1 / DPI, -1 / DPI).translate(0, height / DPI)
        self.figure.set_size_inches(WIDTH / DPI, height / DPI)
        return self.figure

    def _pieces(self, word: str, look: Type, width: float) -> list[str]:
        """The word, or what it must be broken into to fit."""
        pieces: list[str] = []
        while len(word) > 1 and self.width(word, look) > width:
            cut = next((n for n in range(len(word) - 1, 1, -1) if self.width(word[:n], look) <= width), 1)
            pieces.append(word[:cut])
            word = word[cut:]
        return [*pieces, word]

    def _cut(self, text: str, look: Type, width: float) -> str:
        """The text, which ends in an ellipsis, shortened before it until it fits."""
        while len(text) > 2 and self.width(text, look) > width:
            text = f"{text[:-2].rstrip()}…"
        return text


def png(figure: Figure) -> bytes:
    """The figure as a PNG, with nothing in it that depends on when or by what it was drawn."""
    canvas = FigureCanvasAgg(figure)
    with letters.unfitted():
        canvas.draw()  # type: ignore[no-untyped-call]
    drawn = np.asarray(canvas.buffer_rgba())  # type: ignore[no-untyped-call]
    buffer = BytesIO()
    _with_palette(drawn).save(buffer, "PNG", dpi=(DPI, DPI), compress_level=COMPRESSION)
    return buffer.getvalue()


def _with_palette(drawn: np.ndarray) -> Image.Image:
    """A picture, rows x columns x 4, in its most frequent colours: a file of half the size, made in half the time.

    Beside those of the palette above there are only the edges of letters and shapes. What is rare among them, a hundredth
    of the pixels, becomes the nearest of the others. Paper lets nothing through, so there is no alpha to keep. What is looked
    at are the runs of pixels of one colour, of which a sheet has a fifteenth as many.
    """
    high, wide, _ = drawn.shape
    pixels = drawn.view("<u4").ravel()
    begins = np.append(0, 1 + np.flatnonzero(pixels[1:] != pixels[:-1]))
    lengths = np.diff(begins, append=len(pixels))
    codes = pixels[begins] & 0xFFFFFF
    found = np.unique(codes)
    if len(found) > COUNTED:
        return Image.frombuffer("RGBA", (wide, high), drawn, "raw", "RGBA", 0, 1).convert("RGB")
    _PLACES[found] = np.arange(len(found))
    found = found[np.argsort(-np.bincount(_PLACES[codes], lengths), kind="stable")]
    colours = found.view(np.uint8).reshape(-1, 4)[:, :3]
    kept, rare = colours[:COLOURS], colours[COLOURS:].astype(int)
    far = (kept.astype(int) ** 2).sum(axis=1) - 2 * rare @ kept.T.astype(int)
    _PLACES[found] = np.concatenate([np.arange(len(kept)), far.argmin(axis=1)])
    places = np.repeat(_PLACES[codes].astype(np.uint8), lengths)
    with_palette = Image.frombuffer("P", (wide, high), places, "raw", "P", 0, 1)
    with_palette.putpalette(kept.tobytes())
    return with_palette
