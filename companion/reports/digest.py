"""The digest's picture: the weeks of all clients side by side, a line each, who needs a look first at the top.

The marks are those of the weekly chart. There is no score and no order by how well anybody does.
"""

from dataclasses import dataclass
from datetime import date, timedelta

from matplotlib.figure import Figure
from matplotlib.patches import Polygon

from companion.measures.due import State
from companion.reports import marks
from companion.reports.page import ALARM, MARGIN, PAPER, POINTS, QUIET, SHADE, SMALL, SMALL_STRONG, STRONG, TITLE, Page, Type
from companion.reports.week import Week
from companion.reports.wording import Wording

MOST = 40
"""More lines than this nobody reads on a phone; the rest are in the therapist's list."""

NAME = 330.0
COUNT = 150.0
LINE = 78.0
STEP = 38.0
HIGHEST = 8000.0
"""From here on no line is begun, in pixels: the platform takes no picture much higher."""
NAMES = Type(33)


@dataclass(frozen=True, slots=True)
class Line:
    """A client's line. `week` None: no plan yet. `reasons` for a look, gravest first, by key."""

    name: str
    week: Week | None
    reasons: tuple[str, ...] = ()


def draw(lines: tuple[Line, ...], first: date, last: date, wording: Wording) -> Figure:
    """The weeks `first` to `last`, local dates, both included, of at most `MOST` clients."""
    page = Page()
    page.paragraph(wording.say("digest-heading", total=len(lines)), TITLE, name="heading")
    page.paragraph(wording.dates(first, last), Type(33, colour=QUIET), name="span")
    days = [first + timedelta(days=step) for step in range((last - first).days + 1)]
    _heads(page, days, wording)
    shown: list[Line] = []
    for place, line in enumerate(lines[:MOST]):
        if page.y > HIGHEST:
            break
        _line(page, place, line, wording)
        shown.append(line)
    if len(lines) > len(shown):
        page.paragraph(wording.say("digest-rest", count=len(lines) - len(shown)), name="rest")
    page.y += 12
    _key(page, [state for line in shown if line.week is not None for state in _states(line.week)], wording)
    page.paragraph(wording.say("digest-footer"), Type(30, colour=QUIET), name="footer")
    return page.finish()


def _column(page: Page, place: int, days: int) -> float:
    """The middle of a day's column."""
    width = (page.room - NAME - COUNT) / days
    return MARGIN + NAME + width * (place + 0.5)


def _heads(page: Page, days: list[date], wording: Wording) -> None:
    page.y += 44
    for place, day in enumerate(days):
        page.write(
            _column(page, place, len(days)), page.y, wording.letter(day), SMALL_STRONG, align="center", name=f"day:{day}"
        )
    page.write(MARGIN + page.room, page.y, wording.say("digest-count"), SMALL, align="right", name="count-head")
    page.y += 14


def _line(page: Page, place: int, line: Line, wording: Wording) -> None:
    week = line.week
    flagged = week is not None and bool(week.flags)
    look = STRONG if flagged or line.reasons else NAMES
    name = page.wrap(line.name, look, NAME - (60 if flagged else 16))
    why = wording.many(wording.reason(one) for one in line.reasons)
    reasons = page.wrap(why, SMALL, page.room, most=2) if why else []
    high = LINE + (len(name) - 1) * STEP
    top, middle = page.y, page.y + high / 2
    if place % 2 == 0:
        page.box((MARGIN - 10, top, page.room + 20, high + len(reasons) * STEP + (10 if reasons else 0)), face=SHADE)
    for at, part in enumerate(name):
        page.write(MARGIN, top + LINE / 2 + 12 + at * STEP, part, look, name=f"name:{place}")
    for at, part in enumerate(reasons):
        page.write(MARGIN, top + high + 26 + at * STEP, part, SMALL, name=f"reason:{place}")
    if week is None:
        page.write(MARGIN + NAME, middle + 12, wording.say("digest-no-plan"), SMALL, name=f"none:{place}")
    else:
        if flagged:
            _flag(page, MARGIN + NAME - 34, middle, open_now=bool(week.to_lift), name=f"flag:{place}")
        for at, day in enumerate(week.days):
            marks.session(page, _column(page, at, len(week.days)), middle, day.state, f"session:{place}:{day.day}")
        page.write(MARGIN + page.room, middle + 12, _count(week, wording), SMALL_STRONG, align="right", name=f"count:{place}")
    page.y += high + len(reasons) * STEP + (10 if reasons else 0)


def _count(week: Week, wording: Wording) -> str:
    if not week.tally.due:
        return wording.say("digest-none-due")
    if week.tally.unknown == week.tally.due:  # silence is not zero
        return wording.say("digest-unknown", due=week.tally.due)
    return wording.say("digest-of", reported=week.tally.reported, due=week.tally.due)


def _flag(page: Page, x: float, y: float, *, open_now: bool, name: str) -> None:
    colour = ALARM if open_now else QUIET
    triangle = Polygon([(x - 20, y + 17), (x, y - 18), (x + 20, y + 17)], closed=True, edgecolor=colour)
    triangle.set(facecolor=colour if open_now else PAPER, linewidth=4 * POINTS, joinstyle="round")
    page.add(triangle, f"{name}:{'open' if open_now else 'lifted'}")


def _states(week: Week) -> list[State]:
    return [day.state for day in week.days if day.state is not None]


def _key(page: Page, states: list[State], wording: Wording) -> None:
    """What the marks mean, those that are there, two columns."""
    present = [state for state in State if state in states]
    half = page.room / 2
    for place, state in enumerate(present):
        x, y = MARGIN + half * (place % 2), page.y + 40
        marks.session(page, x + 28, y, state, f"key:{state}")
        page.write(x + 66, y + 11, wording.say(f"state-{state}"), SMALL, name=f"key-word:{state}")
        if place % 2 or place == len(present) - 1:
            page.y += 66
    if present:
        page.y += 10
