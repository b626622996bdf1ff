"""The weekly chart: one portrait page that a therapist reads on a phone in ten seconds, gravest things first.

What is not on it: means of capped holds, scores, norms, one overall mark, and anything that makes silence look like zero.
"""

from matplotlib.figure import Figure
from matplotlib.patches import Polygon

from companion.core.observations import CarerSeen
from companion.measures.due import Day
from companion.reports import marks, table
from companion.reports.flags import Flag
from companion.reports.page import (
    ALARM,
    ALARM_GROUND,
    ASIDE,
    BODY,
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
MOST_QUOTES = 2


def draw(week: Week, wording: Wording) -> Figure:
    """The chart of one week. Pixels of the figure are points of its only axes, from the upper left corner."""
    page = Page()
    one_line = page.width(week.name, TITLE) <= page.room
    page.paragraph(week.name, TITLE if one_line else KEY, most=3, name="name")
    page.paragraph(wording.span(week), QUIET_BODY, name="span")
    _flags(page, week, wording)
    _sessions(page, week, wording)
    table.draw(page, week, wording)
    _support(page, week, wording)
    _words(page, week, wording)
    return page.finish()


def _flags(page: Page, week: Week, wording: Wording) -> None:
    page.section(wording.say("heading-flags"), "flags")
    silent = bool(week.tally.unknown or week.no_word_days)
    if not week.flags:
        page.paragraph(wording.say("no-flag"), BODY if silent else STRONG, name="no-flag")
    shown = wording.gravest(week)
    for flag in shown:
        _flag(page, flag, wording)
    if len(week.flags) > len(shown):
        page.paragraph(wording.say("flags-more", count=len(week.flags) - len(shown)), name="flags-more")
    for text in wording.near_falls(week.near_falls):
        page.paragraph(text, STRONG, name="near-fall")
    for text in wording.silences(week):
        page.paragraph(text, STRONG, name="silence")
    for text in wording.answered(week):
        page.paragraph(text, name="answered")
    for text in wording.lower(week.lower):
        page.paragraph(text, STRONG, name="lower")


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
    page.paragraph(wording.states(week.tally), name="states")
    for text in (*wording.parts(week), *wording.sessions(week)):
        page.paragraph(text, name="parts")
    page.y += 10
    width = page.room / len(week.days)
    bottom = page.y
    changes = {part.first for part in week.parts[1:]}
    for place, day in enumerate(week.days):
        column = (MARGIN + width * (place + 0.5), width)
        bottom = max(bottom, _day(page, column, day, wording, new_plan=day.day in changes))
    page.y = bottom


def _day(page: Page, column: tuple[float, float], day: Day, wording: Wording, *, new_plan: bool) -> float:
    """One column of the strip, by its middle and width; the y below it."""
    x, width = column
    y = page.y + SMALL.size
    page.write(x, y, wording.day(day.day), SMALL_STRONG, align="center", name=f"day:{day.day}")
    state = day.state or "not_due"
    marks.session(page, x, y + 46, day.state, f"session:{day.day}:{state}")
    y += 74
    lines = page.wrap(wording.state(day), SMALL, width - 8)
    looks = [SMALL] * len(lines)
    if new_plan:
        lines.append(wording.say("plan", plan=day.version))
        looks.append(SMALL_STRONG)
    for line, look in zip(lines, looks, strict=True):
        y += SMALL.size * 1.16
        page.write(x, y, line, look, align="center", name=f"state:{day.day}")
    return y + 10


def _support(page: Page, week: Week, wording: Wording) -> None:
    if not week.support.bouts:
        return
    page.section(wording.say("heading-support"), "support")
    for text in wording.support(week.support):
        page.paragraph(text, name="support")


def _words(page: Page, week: Week, wording: Wording) -> None:
    page.section(wording.say("heading-words"), "words")
    page.paragraph(wording.effort(week.effort), name="effort")
    absent = any(seen is CarerSeen.ABSENT for seen, _ in week.carer)
    page.paragraph(wording.carer(week.carer), STRONG if absent else BODY, name="carer")
    for text in wording.carer_saw_more(week.carer_saw_more):
        page.paragraph(text, STRONG, name="carer-saw-more")
    for text in wording.confidence(week.confidence):
        page.paragraph(text, name="confidence")
    if not week.said:
        page.paragraph(wording.say("words-none"), name="own-words")
    for said in week.said[-MOST_QUOTES:]:
        page.paragraph(wording.quote(said), most=3, name="own-words")
    if len(week.said) > MOST_QUOTES:
        page.paragraph(wording.say("words-more", count=len(week.said) - MOST_QUOTES), name="own-words")
    _decision(page, week, wording)
    page.y += 12
    page.paragraph(wording.footer(week), ASIDE, name="footer")


def _decision(page: Page, week: Week, wording: Wording) -> None:
    page.y += 16
    top = page.y
    page.y += 8
    for text in wording.decisions(week):
        page.paragraph(text, KEY, indent=18, name="decision")
    page.y += 16
    page.box((MARGIN, top, page.room, page.y - top), face=ALARM_GROUND if week.to_lift else SHADE)
