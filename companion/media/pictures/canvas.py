"""A portrait sheet of 800 x 1000 pixels and the few strokes that all pictures are made of.

Pixels run from the lower left corner, y upwards. What is added later lies above. Black, white, greys and one blue, told apart
by lightness as well, so that it works in grey. Only matplotlib's object API is used; pyplot keeps every figure for ever.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from io import BytesIO
from itertools import pairwise
from pathlib import Path as File

import numpy as np
from matplotlib import get_data_path
from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.collections import LineCollection
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties
from matplotlib.lines import Line2D
from matplotlib.patches import Circle, Polygon
from matplotlib.path import Path
from PIL import Image
from PIL.PngImagePlugin import PngInfo

WIDTH, HEIGHT = 800, 1000
DPI = 100
POINTS = 72 / DPI
"""Points of a line or a letter in one pixel."""
COLOURS = 48
"""As many are kept in the file; edges stay smooth."""

PAPER = "#ffffff"
INK = "#111111"
BLUE = "#1257a8"
PALE = "#d3e3f5"
FLOOR = "#efefef"
SOLID = "#8c8c8c"
LIGHT = "#d9d9d9"
GREY = "#6a6a6a"

Point = tuple[float, float]
_FONT = File(get_data_path()) / "fonts" / "ttf" / "DejaVuSans-Bold.ttf"


@dataclass(frozen=True, slots=True)
class Look:
    """How a shape looks: `line` is the width of its edge in pixels; `hatched` shapes are of the weaker side."""

    fill: str = PAPER
    edge: str = INK
    line: float = 5
    hatched: bool = False
    dashed: bool = False


PLAIN = Look()
GHOST = Look(fill=PALE, edge=BLUE, line=5)
"""Where something moves to."""
GHOST_WEAK = replace(GHOST, hatched=True)
"""The same, of the weaker side."""


def clipped(points: Sequence[Point], width: float) -> list[list[Point]]:
    """The outlines of a thick line with round ends: one capsule a piece, `width` across."""
    return [_capsule(start, end, width / 2) for start, end in pairwise(points)]


def _capsule(start: Point, end: Point, radius: float) -> list[Point]:
    turn = math.atan2(end[1] - start[1], end[0] - start[0])
    half = np.linspace(math.pi / 2, 3 * math.pi / 2, 12)
    back = [(start[0] + radius * math.cos(turn + a), start[1] + radius * math.sin(turn + a)) for a in half]
    return back + [(end[0] + radius * math.cos(turn + a), end[1] + radius * math.sin(turn + a)) for a in half + math.pi]


def smooth(points: Sequence[Point], steps: int = 6) -> list[Point]:
    """A closed outline through these points (Catmull-Rom)."""
    ring = np.asarray(points, dtype=float)
    before, after, last = np.roll(ring, 1, 0), np.roll(ring, -1, 0), np.roll(ring, -2, 0)
    t = np.linspace(0, 1, steps, endpoint=False)[:, None, None]
    curve = 0.5 * (
        2 * ring
        + (after - before) * t
        + (2 * before - 5 * ring + 4 * after - last) * t**2
        + (3 * ring - before - 3 * after + last) * t**3
    )
    return [(float(x), float(y)) for x, y in curve.transpose(1, 0, 2).reshape(-1, 2)]


def curve(start: Point, bend: Point, end: Point) -> list[Point]:
    """A line that leaves `start` towards `bend` and comes to `end` from there."""
    turns = [n / 16 for n in range(17)]
    return [
        (
            (1 - t) ** 2 * start[0] + 2 * t * (1 - t) * bend[0] + t**2 * end[0],
            (1 - t) ** 2 * start[1] + 2 * t * (1 - t) * bend[1] + t**2 * end[1],
        )
        for t in turns
    ]


class Canvas:
    """One picture under way."""

    def __init__(self) -> None:
        self.figure = Figure(figsize=(WIDTH / DPI, HEIGHT / DPI), dpi=DPI, facecolor=PAPER)
        self._agg = FigureCanvasAgg(self.figure)
        self.axes: Axes = self.figure.add_axes((0.0, 0.0, 1.0, 1.0))
        self.axes.set_axis_off()
        self.axes.set_xlim(0, WIDTH)
        self.axes.set_ylim(0, HEIGHT)
        self._level = 1

    def shape(self, points: Sequence[Point], look: Look = PLAIN, name: str | None = None) -> None:
        """A filled outline."""
        style = (0, (2.2, 1.6)) if look.dashed else "solid"
        shape = Polygon(np.asarray(points), closed=True, facecolor=look.fill, edgecolor=look.edge)
        shape.set(linewidth=look.line * POINTS, linestyle=style, joinstyle="round")
        if look.hatched:
            fill = Polygon(np.asarray(points), closed=True, facecolor=look.fill, edgecolor="none")
            fill.set_zorder(self._next())
            self.axes.add_patch(fill)
            self._hatch(points, look)
            shape.set_facecolor("none")
        shape.set_gid(name)
        shape.set_zorder(self._next())
        self.axes.add_patch(shape)

    def circle(self, centre: Point, radius: float, look: Look = PLAIN, name: str | None = None) -> None:
        """A disc."""
        disc = Circle(centre, radius, facecolor=look.fill, edgecolor=look.edge, linewidth=look.line * POINTS)
        disc.set_linestyle((0, (2.2, 1.6)) if look.dashed else "solid")
        disc.set_gid(name)
        disc.set_zorder(self._next())
        self.axes.add_patch(disc)

    def line(
        self, points: Iterable[Point], width: float, colour: str = INK, *, dashed: bool = False, name: str | None = None
    ) -> None:
        """A stroke with round ends."""
        xs, ys = zip(*points, strict=True)
        line = Line2D(xs, ys, color=colour, linewidth=width * POINTS, solid_capstyle="round", solid_joinstyle="round")
        if dashed:
            line.set(linestyle=(0, (1.6, 1.3)), dash_capstyle="butt")
        line.set_gid(name)
        line.set_zorder(self._next())
        self.axes.add_line(line)

    def limb(self, points: Sequence[Point], width: float, look: Look = PLAIN, name: str | None = None) -> None:
        """A thick line with round ends and an edge: an arm, a leg, a body."""
        self.line(points, width + 2 * look.line, look.edge, name=name)
        self.line(points, width, look.fill)
        if look.hatched:
            for outline in clipped(points, width):
                self._hatch(outline, look)

    def arrow(
        self, points: Sequence[Point], width: float = 9, colour: str = BLUE, *, both: bool = False, name: str | None = None
    ) -> None:
        """A line with a head at its end, or one at each end."""
        size = 3.2 * width
        ends = [(points[-2], points[-1])] + ([(points[1], points[0])] if both else [])
        shaft = list(points)
        for (fx, fy), (x, y) in ends:
            turn = math.atan2(y - fy, x - fx)
            back = (x - 0.8 * size * math.cos(turn), y - 0.8 * size * math.sin(turn))
            shaft[shaft.index((x, y))] = back
            sides = [
                (back[0] + size * 0.62 * math.cos(turn + a), back[1] + size * 0.62 * math.sin(turn + a))
                for a in (1.571, -1.571)
            ]
            self.shape([(x, y), *sides], Look(colour, colour, 2), name)
        self.line(shaft, width, colour, name=name)

    def write(self, at: Point, text: str, size: float, colour: str = INK, name: str | None = None) -> None:
        """A word with its middle there; `size` in pixels. A dollar sign is a dollar sign, not mathematics."""
        font = FontProperties(fname=str(_FONT), size=size * POINTS)
        self.axes.text(
            *at, text, color=colour, fontproperties=font, ha="center", va="center_baseline", parse_math=False, gid=name,
            zorder=self._next(),
        )  # fmt: skip

    def png(self, description: str) -> bytes:
        """The picture as a file, with what it shows in words, and nothing of when or by what it was drawn."""
        self._agg.draw()  # type: ignore[no-untyped-call]
        size = self._agg.get_width_height()
        picture = Image.frombytes("RGBA", size, bytes(self._agg.buffer_rgba())).convert("RGB")  # type: ignore[no-untyped-call]
        told, buffer = PngInfo(), BytesIO()
        told.add_itxt("Description", description) if not description.isascii() else told.add_text("Description", description)
        few = picture.quantize(COLOURS, Image.Quantize.FASTOCTREE, dither=Image.Dither.NONE)
        few.save(buffer, "PNG", pnginfo=told)
        return buffer.getvalue()

    def _hatch(self, outline: Sequence[Point], look: Look) -> None:
        """Slanting lines inside an outline; of shapes that touch, they run on."""
        corners = np.asarray(outline)
        (left, low), (right, high) = corners.min(0), corners.max(0)
        step, height = 15.0, high - low
        first = math.floor((left - high) / step) * step
        lines = [[(at + low, low), (at + low + height, high)] for at in np.arange(first, right - low + step, step)]
        hatch = LineCollection(lines, colors=[look.edge], linewidths=4.5 * POINTS)
        hatch.set_zorder(self._next())
        self.axes.add_collection(hatch, autolim=False)
        hatch.set_clip_path(Path([*outline, outline[0]]), self.axes.transData)

    def _next(self) -> int:
        self._level += 1
        return self._level
