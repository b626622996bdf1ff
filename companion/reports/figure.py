"""The weekly chart: one portrait page that a therapist reads on a phone in ten seconds, gravest things first.

What is not on it: means of capped holds, scores, norms, one overall mark, and anything that makes silence look like zero.
"""

from collections.abc import Sequence

from matplotlib.figure import Figure
from matplotlib.patches import Polygon

from companion.measures.due import Day, State
from companion.reports import bar, marks, table
from companion.reports.bar import Call
from companion.reports.flags import Flag
from companion.reports.page import (
    ALARM,
    ALARM_GROUND,
    ASIDE,
    BODY,
    INK,
    KEY,
    MARGIN,
    PAPER,
    POINTS,
    QUIET,
    SHADE,
    SMALL,
    SMALL_STRONG,
    STRONG,
    TITLE,
    Page,
    Type,
)
from companion.reports.week import Week
from companion.reports.wording import Wording

QUIET_BODY = Type(BODY.size, colour=QUIET)
STRONG_ON_DARK = Type(STRONG.size, bold=True, colour=PAPER)
MOST_QUOTES = 2


def draw(week: Week, wording: Wording) -> Figure:
    """The chart of one week. Pixels are counted from the upper left corner."""
    page = Page()
    one_line = page.width(week.name, TITLE) <= page.room
    page.paragraph(week.name, TITLE if one_line else KEY, most=3, name="name")
    page.paragraph(wording.span(week), QUIET_BODY, name="span")
    _bar(page, week, wording)
    _flags(page, week, wording)
    _sessions(page, week, wording)
    table.draw(page, week, wording)
    _support(page, week, wording)
    _words(page, week, wording)
    return page.finish()


def _bar(page: Page, week: Week, wording: Wording) -> None:
    """What waits, or is to be checked: each line with its sign; a dark band for a stop, a thick edge for a step."""
    page.y += 10
    for line in bar.lines(week, wording):
        top = page.y
        stop = line.call is Call.STOP
        colour = {Call.STOP: PAPER, Call.NOTHING: QUIET}.get(line.call, INK)
        page.y += 8
        marks.call(page, MARGIN + 48, page.y + 27, line.call, colour, f"call:{line.call}")
        look = {Call.STOP: STRONG_ON_DARK, Call.NOTHING: BODY}.get(line.call, STRONG)
        page.paragraph(line.text, look, indent=20 if line.call is Call.NOTHING else 90, name="bar")
        if line.more:
            page.paragraph(line.more, indent=90, name="bar")
        page.y += 16
        high = page.y - top
        page.box((MARGIN, top, page.room, high), face=ALARM if stop else SHADE, name=f"call-ground:{line.call}")
        if line.call is Call.DECIDE:
            page.box((MARGIN, top, 12, high), face=colour, name="call-edge")
        page.y += 4


def _flags(page: Page, week: Week, wording: Wording) -> None:
    page.section(wording.say("heading-flags"), "flags")
    for text in wording.no_flag(week):
        page.paragraph(text, name="no-flag")
    for text in wording.falls(week):
        page.paragraph(text, STRONG, name="falls")
        page.y += 8
    shown = wording.gravest(week)
    for flag in shown:
        _flag(page, flag, wording)
    if len(week.flags) > len(shown):
        page.paragraph(wording.say("flags-more", count=len(week.flags) - len(shown)), name="flags-more")
    for text in wording.near_falls(week.near_falls):
        page.paragraph(text, name="near-fall")
    for text in wording.silences(week):
        page.paragraph(text, name="silence")
    for text in wording.answered(week):
        page.paragraph(text, name="answered")
    if week.lower is not None:
        _lower(page, wording.lower(week.lower))


def _lower(page: Page, words: tuple[str, str]) -> None:
    """An early notice: no red flag, so no triangle and no alarm colour."""
    title, told = words
    page.y += 8
    top = page.y
    marks.lower(page, MARGIN + 40, page.y + 34, "lower-sign")
    page.paragraph(title, STRONG, indent=76, name="lower")
    page.paragraph(told, indent=76, name="lower")
    page.y += 12
    page.box((MARGIN, top, page.room, page.y - top), edge=INK, line=3)
    page.y += 6


def _flag(page: Page, flag: Flag, wording: Wording) -> None:
    """A box with a triangle, filled while the flag is open."""
    top = page.y
    page.y += 8
    colour = ALARM if flag.open else QUIET
    x, y = MARGIN + 40, page.y + 24
    triangle = Polygon([(x - 24, y + 20), (x, y - 22), (x + 24, y + 20)], closed=True, edgecolor=colour)
    triangle.set(facecolor=colour if flag.open else PAPER, linewidth=4 * POINTS, joinstyle="round")
    page.add(triangle, f"flag:{'open' if flag.open else 'lifted'}")
    page.paragraph(wording.flag_title(flag), STRONG, indent=76, most=2, name="flag")
    page.paragraph(f"{wording.flag_facts(flag)} {wording.flag_course(flag)}", indent=76, most=5, name="flag")
    page.y += 12
    ground = ALARM_GROUND if flag.open else SHADE
    page.box((MARGIN, top, page.room, page.y - top), face=ground, edge=colour, line=3 if flag.open else 0)
    page.y += 10


def _sessions(page: Page, week: Week, wording: Wording) -> None:
    page.section(wording.say("heading-sessions"), "sessions")
    page.paragraph(wording.reported(week.tally, ".title"), KEY, name="reported")
    if week.more_than_70:
        page.paragraph(wording.say("more-than-70"), ASIDE, name="more-than-70")
    if week.tally.states != ((State.DONE, week.tally.due),):
        page.paragraph(wording.states(week.tally, kinds=True), name="states")
    for text in (*wording.parts(week), *wording.sessions(week)):
        page.paragraph(text, name="parts")
    for text in wording.pause(week):
        page.paragraph(text, name="pause")
    page.y += 10
    width = page.room / len(week.days)
    bottom = page.y
    changes = {part.first for part in week.parts[1:]}
    flagged = wording.flag_days(week)
    for place, day in enumerate(week.days):
        column = (MARGIN + width * (place + 0.5), width)
        also = [wording.say("plan", plan=day.version)] if day.day in changes else []
        also += [wording.say("state-flag")] if day.day in flagged else []
        bottom = max(bottom, _day(page, column, day, wording, also))
    page.y = bottom


def _day(page: Page, column: tuple[float, float], day: Day, wording: Wording, also: Sequence[str]) -> float:
    """One column of the strip, by its middle and width, with what else was on that day; the y below it."""
    x, width = column
    y = page.y + SMALL.size
    page.write(x, y, wording.day(day.day), SMALL_STRONG, align="center", name=f"day:{day.day}")
    state = day.state or "not_due"
    part = day.state is State.DONE and day.reported < day.asked
    marks.session(page, x, y + 46, State.PARTLY if part else day.state, f"session:{day.day}:{state}")
    y += 74
    lines = page.wrap(wording.state(day), SMALL, width - 8)
    for line, look in (*((line, SMALL) for line in lines), *((line, SMALL_STRONG) for line in also)):
        y += SMALL.size * 1.16
        page.write(x, y, line, look, align="center", name=f"state:{day.day}")
    return y + 10


def _support(page: Page, week: Week, wording: Wording) -> None:
    if not week.support.bouts:
        return
    page.section(wording.say("heading-support"), "support")
    for text in wording.support(week):
        page.paragraph(text, name="support")


def _words(page: Page, week: Week, wording: Wording) -> None:
    page.section(wording.say("heading-words"), "words")
    page.paragraph(wording.effort(week.effort), name="effort")
    page.paragraph(wording.carer(week), name="carer")
    for text in wording.carer_saw_more(week.carer_saw_more):
        page.paragraph(text, name="carer-saw-more")
    for text in wording.confidence(week.confidence):
        page.paragraph(text, name="confidence")
    if not week.said:
        page.paragraph(wording.say("words-none"), name="own-words")
    for said in week.said[-MOST_QUOTES:]:
        page.paragraph(wording.quote(said), most=3, name="own-words")
    if len(week.said) > MOST_QUOTES:
        page.paragraph(wording.say("words-more", count=len(week.said) - MOST_QUOTES), name="own-words")
    page.y += 12
    page.paragraph(wording.footer(week), ASIDE, name="footer")
