"""The stances of the week: a small bar for every bout on its day, and beside it the counts in numbers.

Bouts stand alone: no line joins them, so a day without one is a gap and not a zero.
"""

from datetime import date
from math import ceil

from companion.core.observations import Quality
from companion.measures.due import Day, State
from companion.reports import marks
from companion.reports.page import ASIDE, BODY, MARGIN, RULE, SHADE, STRONG, Page
from companion.reports.stances import BoutMark, SideLine, StanceLine
from companion.reports.week import Week
from companion.reports.wording import Wording

ROW = 60
TIER = 3
"""So many bouts of a day stand side by side; more of them stand below."""
BAR = 48
GAP = 3
DAYS_LEFT, DAY = MARGIN + 150, 49
COLUMNS = (620.0, 790.0, 960.0)
"""Centres of the three columns of numbers, pixels."""


def draw(page: Page, week: Week, wording: Wording) -> None:
    """The whole section, from the cursor on."""
    page.section(wording.say("heading-stances"), "stances")
    if not week.practised:
        page.paragraph(wording.say("no-bout"), name="no-bout")
        return
    _key(page, wording)
    _head(page, week, wording)
    for line in week.stances:
        _stance(page, week, line, wording)
    if week.first_week:
        page.y += 6
        page.paragraph(wording.say("first-week"), ASIDE, name="first-week")


def _key(page: Page, wording: Wording) -> None:
    """What solid, hatched, pale and the question mark mean."""
    day = date.min
    samples = (
        ("key-held", BoutMark(day, Quality.CLEAN, 1.0, 1.0)),
        ("key-broke", BoutMark(day, Quality.BROKE, 0.0, 1.0)),
        ("key-ran", BoutMark(day, Quality.BROKE, 0.0, 0.0, 1.0)),
        ("key-unknown", BoutMark(day, Quality.UNKNOWN)),
    )
    x = float(MARGIN)
    page.y += 8
    for key, mark in samples:
        text = wording.say(key)
        marks.bout(page, (x, page.y, 26, 34), mark, f"key:{key}")
        page.write(x + 36, page.y + 28, text, ASIDE, name=f"key:{key}")
        x += 36 + page.width(text, ASIDE) + 30
    page.y += 40


def _head(page: Page, week: Week, wording: Wording) -> None:
    page.y += 14
    for place, day in enumerate(week.days):
        x = DAYS_LEFT + DAY * (place + 0.5)
        page.write(x, page.y + 98, wording.letter(day.day), ASIDE, align="center")
    heads = (
        ("column-clean", "column-clean.below"),
        ("column-break", "column-break.below", "column-break.counted"),
        ("column-before", "column-before.below"),
    )
    for x, head in zip(_columns(week), heads, strict=False):
        for up, key in enumerate(reversed(head)):
            page.write(x, page.y + 98 - 36 * up, wording.say(key), ASIDE, align="center", name=f"head:{head[0]}")
    page.y += 110


def _columns(week: Week) -> tuple[float, ...]:
    return COLUMNS[:2] if week.first_week else COLUMNS


def _stance(page: Page, week: Week, line: StanceLine, wording: Wording) -> None:
    page.box((MARGIN, page.y, page.room, 2), face=RULE)
    page.y += 6
    page.paragraph(wording.stance(line, hand=True), STRONG, most=2, name="stance")
    page.y += 4
    for side in line.sides:
        _side(page, week, line, side, wording)
    page.y += 4


def _side(page: Page, week: Week, line: StanceLine, side: SideLine, wording: Wording) -> None:
    by_day = {day.day: [mark for mark in side.marks if mark.day == day.day] for day in week.days}
    tiers = max(1, *(ceil(len(here) / TIER) for here in by_day.values()))
    height = ROW + (tiers - 1) * (BAR + GAP)
    base = page.y + height / 2 + 11
    name = f"{line.exercise or line.stance}:{line.eyes}:{side.side or 'none'}"
    page.write(MARGIN, base, wording.side(side.side), BODY, name=f"side:{name}")
    for place, day in enumerate(week.days):
        left = DAYS_LEFT + DAY * place
        if _still(day):
            page.box((left + 1, page.y, DAY - 2, height), face=SHADE, name=f"still:{day.day}")
        _bouts(page, left, by_day[day.day], f"bout:{name}:{day.day}")
    numbers = [wording.tried(side.now), wording.usual(side)]
    if not week.first_week:
        numbers.append(wording.say("before-new") if side.before is None else wording.tried(side.before))
    for x, text, look in zip(COLUMNS, numbers, (STRONG, BODY, BODY), strict=False):
        page.write(x, base, text, look, align="center", name=f"number:{name}")
    page.y += height


def _still(day: Day) -> bool:
    """Whether practice was paused or held all that day."""
    return day.state in (State.PAUSED, State.HELD)


def _bouts(page: Page, left: float, here: list[BoutMark], name: str) -> None:
    """The bouts of one day in its cell, the first at the upper left."""
    across = min(len(here), TIER)
    width = min(33.0, (DAY - 12 - GAP * (across - 1)) / max(across, 1))
    start = left + (DAY - width * across - GAP * (across - 1)) / 2
    for place, mark in enumerate(here):
        tier, at = divmod(place, TIER)
        top = page.y + (ROW - BAR) / 2 + tier * (BAR + GAP)
        marks.bout(page, (start + at * (width + GAP), top, width, BAR), mark, name)
