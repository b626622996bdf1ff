"""The marks of the chart. Every state has a shape of its own and its word beside it, so that colour is never needed.

A session that nobody answered for is a question mark, never an empty bar or a zero.
"""

from matplotlib.patches import Circle, Rectangle, RegularPolygon, Wedge

from companion.core.observations import Quality
from companion.measures.due import UNKNOWN, State
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
    Page,
)
from companion.reports.stances import BoutMark

DASHES = (0, (3, 2))


def session(page: Page, x: float, y: float, state: State | None, name: str) -> None:
    """One session's mark, centred at (x, y), 52 pixels high. None: none was due."""
    thick = 4 * POINTS
    if state is State.DONE:
        page.add(Circle((x, y), 25, facecolor=SOLID, edgecolor=SOLID, linewidth=thick), name)
    elif state is State.PARTLY:
        page.add(Circle((x, y), 25, facecolor=PAPER, edgecolor=SOLID, linewidth=thick), name)
        page.add(Wedge((x, y), 25, 90, 270, facecolor=SOLID, edgecolor="none"), name, level=2.1)
    elif state is State.STOPPED:
        page.add(RegularPolygon((x, y), 8, radius=27, orientation=0.393, facecolor=ALARM, edgecolor="none"), name)
        page.add(Rectangle((x - 13, y - 4), 26, 8, facecolor=PAPER, edgecolor="none"), name, level=2.1)
    elif state is State.NO_WORD:
        _box(page, x, y, name, dashed=True)
        _question(page, x, y, name)
    elif state in UNKNOWN:
        page.add(Circle((x, y), 25, facecolor=PAPER, edgecolor=INK, linewidth=3 * POINTS, linestyle=DASHES), name)
        _question(page, x, y, name)
    elif state in (State.HELD, State.PAUSED):
        _box(page, x, y, name, dashed=False, face=SHADE)
        for shift in (-11, 3):
            bar = Rectangle((x + shift, y - 13), 8, 26, facecolor=ALARM if state is State.HELD else QUIET)
            page.add(bar, name, level=2.1)
    elif state in (State.NOT_READY, State.DECLINED):
        page.add(Circle((x, y), 25, facecolor=PAPER, edgecolor=QUIET, linewidth=thick), name)
        page.add(Rectangle((x - 12, y - 2.5), 24, 5, facecolor=QUIET, edgecolor="none"), name, level=2.1)
    else:
        page.add(Circle((x, y), 5, facecolor=QUIET, edgecolor="none"), name)


def _box(page: Page, x: float, y: float, name: str, *, dashed: bool, face: str = PAPER) -> None:
    style = DASHES if dashed else "solid"
    page.add(
        Rectangle((x - 24, y - 24), 48, 48, facecolor=face, edgecolor=INK, linewidth=3 * POINTS, linestyle=style),
        name,
    )


def _question(page: Page, x: float, y: float, name: str) -> None:
    page.write(x, y + 12, "?", STRONG, align="center", name=name)


def bout(page: Page, box: tuple[float, float, float, float], mark: BoutMark, name: str) -> None:
    """One bout in a box (left, top, width, height): from the bottom up, a target high.

    Solid: no break, or counted. Hatched: the first break, or the count, lies in here. Pale: practised on after it.
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

    part(0, mark.practised or 0, "practised", facecolor=PRACTISED)
    part(0, mark.sure, "sure", facecolor=SOLID)
    part(mark.sure, mark.at_most, "between", facecolor=HATCH_GROUND, edgecolor=HATCH, hatch="////")
    outline = Rectangle((left, top), width, height, facecolor="none", edgecolor=QUIET, linewidth=2 * POINTS)
    page.add(outline, f"{name}:outline", level=3)
