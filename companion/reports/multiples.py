"""Draws many weeks side by side: small multiples of sessions, flags, falls, plans and each stance, column by column.

No line joins two weeks. A column without a bout stays empty, a paused one is shaded: neither is a zero.
"""

from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from companion.core.programme import Side
from companion.measures.due import State
from companion.reports import marks
from companion.reports.page import (
    ASIDE,
    BODY,
    MARGIN,
    PAPER,
    POINTS,
    QUIET,
    RULE,
    SHADE,
    SMALL,
    SMALL_STRONG,
    SOLID,
    STRONG,
    TITLE,
    Page,
)
from companion.reports.spans import Column, Span, key
from companion.reports.spans_wording import SpansWording
from companion.reports.stances import StanceLine

LEFT = MARGIN + 190
BAR_WIDTH, BAR = 40, 48
LINE = 36


def draw(span: Span, wording: SpansWording) -> Figure:
    """The sheet. `wording` says what is measured beside each stance."""
    page = Page()
    page.paragraph(span.name, TITLE, most=3, name="name")
    page.paragraph(wording.from_to(span), ASIDE, name="span")
    if span.weeks_each > 1:
        page.paragraph(wording.say("span-each", weeks=span.weeks_each), ASIDE, name="each")
    page.section(wording.say("heading-weeks"), "weeks")
    _head(page, span, wording)
    _counts(page, span, wording)
    for text in wording.plans(span):
        page.paragraph(text, name="adherence")
    page.section(wording.say("heading-span-stances"), "stances")
    if not span.lines:
        page.paragraph(wording.say("no-bout"), name="no-bout")
    else:
        page.paragraph(wording.say("span-key"), ASIDE, name="key")
    for line in span.lines:
        _stance(page, span, line, wording)
    for text in wording.allowed():
        page.paragraph(text, name="spread")
    page.y += 12
    page.paragraph(wording.as_known(span), ASIDE, name="footer")
    return page.finish()


def _middle(page: Page, span: Span, place: int) -> float:
    width = (MARGIN + page.room - LEFT) / len(span.columns)
    return LEFT + width * (place + 0.5)


def _head(page: Page, span: Span, wording: SpansWording) -> None:
    page.y += LINE
    for place, column in enumerate(span.columns):
        x = _middle(page, span, place)
        page.write(x, page.y, str(column.first.day), SMALL_STRONG, align="center", name=f"week:{column.first}")
        page.write(x, page.y + LINE, wording.month(column.first), SMALL, align="center", name=f"month:{column.first}")
    page.write(MARGIN, page.y, wording.say("span-from"), SMALL, name="from")
    page.y += LINE + 14


def _counts(page: Page, span: Span, wording: SpansWording) -> None:
    """A row each for sessions, flags, falls, near-falls and plans; those of which there is none at all are left out."""
    columns = span.columns
    _row(page, span, wording.say("row-reported"), [wording.of(c.tally.reported, c.tally.due) for c in columns], "sessions")
    for place, column in enumerate(columns):
        if column.still:
            marks.session(page, _middle(page, span, place), page.y - LINE / 2 - 2, State.PAUSED, f"still:{column.first}")
    rows = {
        "row-unknown": [_mark("?", column.tally.unknown) for column in columns],
        "row-flags": [_mark("▲", column.flags) for column in columns],
        "row-falls": [_mark("", column.falls) for column in columns],
        "row-near-falls": [_mark("", column.near_falls) for column in columns],
        "row-plans": [",".join(map(str, column.plans[-1:])) for column in columns],
    }
    for name, cells in rows.items():
        if any(cells):
            _row(page, span, wording.say(name), cells, name.removeprefix("row-"))
        elif name in ("row-flags", "row-falls"):
            page.paragraph(wording.say(f"{name}-none"), name=name.removeprefix("row-"))
    page.y += 6


def _mark(sign: str, count: int) -> str:
    return f"{sign}{count}" if count else ""


def _row(page: Page, span: Span, label: str, cells: list[str], name: str) -> None:
    page.y += LINE + 8
    page.write(MARGIN, page.y - 8, label, SMALL, name=f"row:{name}")
    for place, text in enumerate(cells):
        if text:
            x = _middle(page, span, place)
            page.write(x, page.y - 8, text, SMALL_STRONG, align="center", name=f"{name}:{span.columns[place].first}")


def _stance(page: Page, span: Span, line: StanceLine, wording: SpansWording) -> None:
    page.y += 6
    page.box((MARGIN, page.y, page.room, 2), face=RULE)
    page.paragraph(wording.stance(line, hand=True), STRONG, most=2, name="stance")
    _targets(page, span, line, wording)
    for side in line.sides:
        _side(page, span, line, side.side, wording)
    for text in wording.measures(span, line):
        page.paragraph(text, BODY, name="measure")
    page.y += 4


def _targets(page: Page, span: Span, line: StanceLine, wording: SpansWording) -> None:
    """The target of a column, where it is another than that of the column before; nothing where it never changes."""
    cells, last = [], None
    for column in span.columns:
        here = column.stances.get(key(line))
        new = here is not None and here.targets != last
        cells.append(str(here.targets[1]) if here is not None and new else "")
        last = here.targets if here is not None else last
    if sum(bool(cell) for cell in cells) > 1:
        _row(page, span, wording.say(f"row-target-{line.measure}"), cells, "target")


def _side(page: Page, span: Span, line: StanceLine, side: Side | None, wording: SpansWording) -> None:
    top = page.y + 8
    page.write(MARGIN, top + BAR - 8, wording.side(side), BODY, name=f"side:{side or 'none'}")
    for place, column in enumerate(span.columns):
        if column.still:
            page.box((_middle(page, span, place) - 30, top, 60, BAR + LINE), face=SHADE, name=f"gap:{column.first}")
        _cell(page, (_middle(page, span, place), top), column, line, side)
    page.y = top + BAR + LINE + 8


def _cell(page: Page, at: tuple[float, float], column: Column, line: StanceLine, side: Side | None) -> None:
    """The share of clean bouts of one column as a bar in a frame, with its numbers below; nothing where there was no bout."""
    here = column.stances.get(key(line))
    own = [one for one in here.sides if one.side is side] if here is not None else []
    if not own:
        return
    (x, top), tried = at, own[0].now
    left, name = x - BAR_WIDTH / 2, f"share:{key(line)[1]}:{side or 'none'}:{column.first}"
    if not tried.tried:
        frame = Rectangle((left, top), BAR_WIDTH, BAR, facecolor=PAPER, edgecolor=QUIET, linewidth=2 * POINTS, linestyle=":")
        page.add(frame, f"{name}:unknown")
        page.write(x, top + BAR / 2 + 11, "?", SMALL_STRONG, align="center", name=name)
        return
    high = BAR * tried.clean / tried.tried
    page.add(Rectangle((left, top + BAR - high), BAR_WIDTH, high, facecolor=SOLID, edgecolor="none"), f"{name}:clean")
    outline = Rectangle((left, top), BAR_WIDTH, BAR, facecolor="none", edgecolor=QUIET, linewidth=2 * POINTS)
    page.add(outline, f"{name}:outline", level=3)
    page.write(x, top + BAR + LINE - 6, f"{tried.clean}/{tried.tried}", SMALL, align="center", name=name)
