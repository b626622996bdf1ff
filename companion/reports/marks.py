"""The marks of the chart. Every state has a shape of its own and its word beside it, so that colour is never needed.

A session that nobody answered for is a question mark, never an empty bar or a zero.
"""

from matplotlib.patches import Circle, Polygon, Rectangle, RegularPolygon, Wedge

from companion.core.observations import Quality
from companion.measures.due import UNKNOWN, State
from companion.reports.bar import Call
from companion.reports.legend import Sign
from companion.reports.page import (
    ALARM,
    HATCH,
    HATCH_GROUND,
    INK,
    PAPER,
    POINTS,
    PRACTISED,
    QUIET,
    SHADE,
    SMALL_STRONG,
    SOLID,
    STRONG,
    Area,
    Page,
    Type,
)
from companion.reports.stances import BoutMark

DASHES = (0, (3, 2))
STROKE = 6.5 * POINTS
"""How thick the strokes of a hatch are: coarse, so that it is seen at the width of a phone."""


def session(page: Page, x: float, y: float, state: State | None, name: str) -> None:
    """One session's mark, centred at (x, y), 52 pixels high. None: none was due."""
    thick = 4 * POINTS
    if state is State.DONE:
        page.add(Circle((x, y), 25, facecolor=SOLID, edgecolor=SOLID, linewidth=thick), name)
    elif state is State.PARTLY:
        page.add(Circle((x, y), 25, facecolor=PAPER, edgecolor=SOLID, linewidth=thick), name)
        page.add(Wedge((x, y), 25, 90, 270, facecolor=SOLID, edgecolor="none"), name, level=2.1)
    elif state is State.STOPPED:
        _stop(page, (x, y), 27, name)
    elif state is State.NO_WORD:
        _box(page, x, y, name, dashed=True)
        _question(page, x, y, name)
    elif state in UNKNOWN:
        page.add(Circle((x, y), 25, facecolor=PAPER, edgecolor=INK, linewidth=3 * POINTS, linestyle=DASHES), name)
        _question(page, x, y, name)
    elif state in (State.HELD, State.PAUSED):
        _box(page, x, y, name, dashed=False, face=SHADE)
        _still(page, (x, y), state, ALARM if state is State.HELD else QUIET, name)
    elif state in (State.NOT_READY, State.DECLINED):
        _missed(page, x, y, 25, name)
    elif state is State.TO_COME:
        page.add(Circle((x, y), 25, facecolor=PAPER, edgecolor=QUIET, linewidth=2 * POINTS), name)
        for shift in (-11, 0, 11):
            page.add(Circle((x + shift, y), 3.5, facecolor=QUIET, edgecolor="none"), name, level=2.1)
    else:
        page.add(Circle((x, y), 5, facecolor=QUIET, edgecolor="none"), name)


def _still(page: Page, at: tuple[float, float], state: State, colour: str, name: str) -> None:
    """What practice stands still for, 26 pixels high: the sign of a red flag, or two bars for a pause."""
    x, y = at
    if state is State.HELD:
        corners = [(x - 15, y + 12), (x, y - 14), (x + 15, y + 12)]
        page.add(Polygon(corners, facecolor=colour, edgecolor="none"), name, level=2.1)
        return
    for shift in (-11, 3):
        page.add(Rectangle((x + shift, y - 13), 8, 26, facecolor=colour, edgecolor="none"), name, level=2.1)


def _stop(page: Page, at: tuple[float, float], radius: float, name: str, level: float = 2) -> None:
    """An octagon with a bar in it."""
    (x, y), wide = at, radius * 0.96
    page.add(RegularPolygon(at, 8, radius=radius, orientation=0.393, facecolor=ALARM, edgecolor="none"), name, level=level)
    bar = Rectangle((x - wide / 2, y - radius * 0.15), wide, radius * 0.3, facecolor=PAPER, edgecolor="none")
    page.add(bar, f"{name}:bar", level=level + 0.1)


def _missed(page: Page, x: float, y: float, radius: float, name: str) -> None:
    """An empty circle with a bar in it, half as wide."""
    page.add(Circle((x, y), radius, facecolor=PAPER, edgecolor=QUIET, linewidth=max(radius / 6, 3) * POINTS), name)
    page.add(Rectangle((x - radius / 2, y - 2), radius, 4, facecolor=QUIET, edgecolor="none"), name, level=2.1)


def day(page: Page, box: Area, sign: Sign, name: str) -> None:
    """What stands in the place of bars on a day without one, in a box (left, top, width, height)."""
    left, top, width, height = box
    x, y = left + width / 2, top + height / 2
    if sign in (Sign.DAY_HELD, Sign.DAY_PAUSED):
        page.add(Rectangle((left, top), width, height, facecolor=SHADE, edgecolor="none"), name, level=1)
        _still(page, (x, y), State.HELD if sign is Sign.DAY_HELD else State.PAUSED, QUIET, name)
    elif sign is Sign.DAY_UNKNOWN:
        page.write(x, y + 12, "?", SMALL_STRONG, align="center", name=name)
    elif sign is Sign.DAY_MISSED:
        _missed(page, x, y, 13, name)
    elif sign is Sign.DAY_STOPPED:
        _stop(page, (x, y), 13, name)
    else:
        for shift in (-9, 0, 9):
            page.add(Circle((x + shift, y), 3, facecolor=QUIET, edgecolor="none"), name)


def lower(page: Page, x: float, y: float, name: str) -> None:
    """The sign of an early notice, centred at (x, y): an arrow that points down."""
    page.add(Rectangle((x - 5, y - 22), 10, 24, facecolor=INK, edgecolor="none"), name)
    page.add(Polygon([(x - 20, y), (x + 20, y), (x, y + 22)], facecolor=INK, edgecolor="none"), name)


def call(page: Page, x: float, y: float, call: Call, colour: str, name: str) -> None:
    """The sign of a line, centred at (x, y): the triangle of a flag for a stop, a filled box for a step, one to be ticked off
    for a look, with a question mark where something is unknown; for nothing there is none."""
    if call is Call.NOTHING:
        return
    if call is Call.STOP:
        page.add(Polygon([(x - 25, y + 20), (x, y - 23), (x + 25, y + 20)], facecolor=colour, edgecolor="none"), name)
        return
    box = Rectangle((x - 23, y - 23), 46, 46, facecolor=PAPER, edgecolor=colour, linewidth=4 * POINTS)
    page.add(box, name)
    if call is Call.DECIDE:
        box.set(facecolor=colour)
        page.write(x, y + 13, "!", Type(37, bold=True, colour=PAPER), align="center", name=name)
    else:
        box.set(linestyle=DASHES)
        if call is Call.UNKNOWN:
            _question(page, x, y, name)


def _box(page: Page, x: float, y: float, name: str, *, dashed: bool, face: str = PAPER) -> None:
    style = DASHES if dashed else "solid"
    page.add(
        Rectangle((x - 24, y - 24), 48, 48, facecolor=face, edgecolor=INK, linewidth=3 * POINTS, linestyle=style),
        name,
    )


def _question(page: Page, x: float, y: float, name: str) -> None:
    page.write(x, y + 12, "?", STRONG, align="center", name=name)


def bout(page: Page, box: Area, mark: BoutMark, name: str) -> None:
    """One bout in a box (left, top, width, height): from the bottom up, a target high.

    Solid: no break, or counted. Hatched: the first break, or the count, lies in here. Pale: practised on after it. An
    octagon, as that of a session, where it was stopped for a symptom.
    """
    left, top, width, height = box
    if mark.quality is Quality.UNKNOWN:
        frame = Rectangle((left, top), width, height, facecolor=PAPER, edgecolor=INK)
        frame.set(linewidth=2 * POINTS, linestyle=DASHES)
        page.add(frame, f"{name}:unknown")
        page.write(left + width / 2, top + height / 2 + 11, "?", SMALL_STRONG, align="center", name=name)
        return

    def part(low: float, high: float, what: str, **look: object) -> None:
        if high > low:
            bar = Rectangle((left, top + height * (1 - high)), width, height * (high - low))
            bar.set(linewidth=0, **look)
            page.add(bar, f"{name}:{what}")

    ran = mark.practised or 0
    part(0, ran, "practised", facecolor=PRACTISED)
    if max(mark.sure, mark.at_most) < ran < 1:  # pale is near white: a line says where it ends
        part(ran - 2 / height, ran, "end", facecolor=QUIET)
    part(0, mark.sure, "sure", facecolor=SOLID)
    part(mark.sure, mark.at_most, "between", facecolor=HATCH_GROUND, edgecolor=HATCH, hatch="//", hatch_linewidth=STROKE)
    if mark.quality is Quality.UNWELL:
        radius = min(14.0, width / 2)
        y = top + height * (1 - max(mark.practised or 0, mark.at_most))
        middle = (left + width / 2, min(max(y, top + radius), top + height - radius))
        _stop(page, middle, radius, f"{name}:stopped", level=4)
    outline = Rectangle((left, top), width, height, facecolor="none", edgecolor=QUIET, linewidth=2 * POINTS)
    page.add(outline, f"{name}:outline", level=3)
