"""The stances of the week: a small bar for every bout on its day, and beside it the counts in numbers.

Bouts stand alone: no line joins them, so a day without one is a gap and not a zero.
"""

from collections.abc import Iterable, Mapping
from datetime import date
from math import ceil

from companion.content.texts import key_of
from companion.core.programme import Measure
from companion.reports import marks
from companion.reports.legend import SAMPLES, Sign, of_day, signs
from companion.reports.page import ASIDE, BODY, MARGIN, RULE, SMALL, STRONG, Page
from companion.reports.stances import BoutMark, SideLine, StanceLine
from companion.reports.week import Week
from companion.reports.wording import Wording

ROW = 60
BOTH = 82
"""How high a row is whose median has a second line below it."""
TURN = 46
"""How high the row of one session of the day is."""
TIER = 3
"""So many bouts of a day stand side by side; more of them stand below."""
BAR = 48
GAP = 3
DAYS_LEFT, DAY = MARGIN + 160, 48
COLUMNS = (615.0, 792.0, 963.0)
"""Centres of the three columns of numbers, pixels."""
HEADS = {
    Measure.TIMED: ("column-break", "column-break.below", "column-break.median"),
    Measure.COUNTED: ("column-count", "column-count.below"),
}


def draw(page: Page, week: Week, wording: Wording) -> None:
    """The whole section, from the cursor on: what is timed, then what is counted, each under a head of its own."""
    page.section(wording.say("heading-stances"), "stances")
    if not week.practised:
        page.paragraph(wording.say("no-bout"), name="no-bout")
        return
    if week.weaker_side != "unknown" and any(side.side for line in week.stances for side in line.sides):
        page.paragraph(wording.say("weaker-side", side=week.weaker_side), ASIDE, name="weaker-side")
    _key(page, week, wording)
    for measure in Measure:
        own = [line for line in week.stances if line.measure is measure]
        if own:
            _head(page, week, measure, wording)
        for line in own:
            _stance(page, week, line, wording)
    if week.first_week:
        page.y += 6
        page.paragraph(wording.say("first-week"), ASIDE, name="first-week")


def _key(page: Page, week: Week, wording: Wording) -> None:
    """What the parts of a bar mean, those that occur, in as many lines as they need."""
    page.y += 8
    x = float(MARGIN)
    for sign in signs(week.stances, week.days):
        text = wording.say(key_of("key", sign))
        wide = 36 + page.width(text, ASIDE)
        if x > MARGIN and x + wide > MARGIN + page.room:
            x = float(MARGIN)
            page.y += 44
        name = f"key:{sign}"
        if sign in SAMPLES:
            marks.bout(page, (x, page.y, 26, 34), SAMPLES[sign], name)
        else:
            marks.day(page, (x - 4, page.y, 34, 34), sign, name)
        page.write(x + 36, page.y + 28, text, ASIDE, name=name)
        x += wide + 28
    page.y += 40
    page.paragraph(wording.say("key-from-below"), ASIDE, name="key-from-below")
    turns = [side.turns for line in week.stances for side in line.sides if side.turns]
    most = max((len(here) for line in week.stances for side in line.sides for here in _cells(side)), default=0)
    if most > 1:
        page.paragraph(wording.say("key-in-order", below="yes" if most > TIER else "no"), ASIDE, name="key-order")
    if turns:
        page.paragraph(wording.say("key-turns"), ASIDE, name="key-turns")


def _cells(side: SideLine) -> Iterable[list[BoutMark]]:
    """The bouts that share a cell: those of a day, or of one session of a day where each has a row of its own."""
    found: dict[tuple[date, int], list[BoutMark]] = {}
    for mark in side.marks:
        found.setdefault((mark.day, mark.turn if side.turns else 0), []).append(mark)
    return found.values()


def _head(page: Page, week: Week, measure: Measure, wording: Wording) -> None:
    heads = (("column-clean", "column-clean.below"), HEADS[measure], ("column-before", "column-before.below"))
    shown = heads[:2] if week.first_week else heads
    base = page.y + 14 + 36 * max(len(head) for head in shown) - 10
    for place, day in enumerate(week.days):
        x = DAYS_LEFT + DAY * (place + 0.5)
        page.write(x, base, wording.letter(day.day), ASIDE, align="center")
    for x, head in zip(COLUMNS, shown, strict=False):
        for up, key in enumerate(reversed(head)):
            page.write(x, base - 36 * up, wording.say(key), ASIDE, align="center", name=f"head:{head[0]}")
    page.y = base + 12


def _stance(page: Page, week: Week, line: StanceLine, wording: Wording) -> None:
    page.box((MARGIN, page.y, page.room, 2), face=RULE)
    page.y += 6
    page.paragraph(wording.stance(line, hand=True), STRONG, most=3, name="stance")
    page.y += 4
    for side in line.sides:
        _side(page, week, line, side, wording)
    page.y += 4


def _side(page: Page, week: Week, line: StanceLine, side: SideLine, wording: Wording) -> None:
    name = _name(line, side)
    worst, stopped = wording.worst(side.found, line.measure), wording.stopped_bouts(side.found)
    numbers = [wording.tried(side.now), wording.median(side.found, line.targets)]
    if not week.first_week:
        numbers.append(wording.say("before-new") if side.before is None else wording.tried(side.before))
    by_day = {day.day: [mark for mark in side.marks if mark.day == day.day] for day in week.days}
    tiers = 1 if side.turns else _tiers(by_day)
    height = max(BOTH if worst or stopped else ROW, ROW + (tiers - 1) * (BAR + GAP))
    base = page.y + height / 2 + 11
    page.write(MARGIN, base, wording.side(side.side), BODY, name=f"side:{name}")
    below = {COLUMNS[0]: (stopped, "stopped"), COLUMNS[1]: (worst, "worst")}
    for x, text in zip(COLUMNS, numbers, strict=False):
        second, what = below.get(x, ("", ""))
        look = SMALL if x == COLUMNS[1] else BODY
        page.write(x, base - (17 if second else 0), text, look, align="center", name=f"number:{name}")
        if second:
            page.write(x, base + 19, second, ASIDE, align="center", name=f"{what}:{name}")
    if not side.turns:
        _row(page, week, by_day, _signs(week, line, side), (height, BAR), name)
    page.y += height
    if side.turns:
        _turns(page, week, line, side, wording)


def _turns(page: Page, week: Week, line: StanceLine, side: SideLine, wording: Wording) -> None:
    """A row for the first session of each day, one for the second, and so on."""
    name = _name(line, side)
    for turn, found in enumerate(side.turns, start=1):
        here = {day.day: [mark for mark in side.marks if (mark.day, mark.turn) == (day.day, turn)] for day in week.days}
        high = TURN + (_tiers(here) - 1) * (TURN - 8 + GAP)
        base = page.y + high / 2 + 11
        page.write(MARGIN, base, wording.say("turn", turn=turn), SMALL, name=f"turn-row:{name}")
        for x, text in zip(COLUMNS, (wording.tried(found.tried), wording.median(found, line.targets)), strict=False):
            page.write(x, base, text, SMALL, align="center", name=f"turn:{name}:{turn}")
        _row(page, week, here, _signs(week, line, side) if turn == 1 else {}, (high, TURN - 8), name)
        page.y += high
    page.y += 10


def _name(line: StanceLine, side: SideLine) -> str:
    """What the artists of a row are called by."""
    return f"{line.exercise or line.stance}:{line.eyes}:{side.side or 'none'}"


def _tiers(by_day: Mapping[date, list[BoutMark]]) -> int:
    """How many bars stand below one another in the fullest cell."""
    return max(1, *(ceil(len(here) / TIER) for here in by_day.values()))


def _signs(week: Week, line: StanceLine, side: SideLine) -> dict[date, Sign]:
    """Why there is no bout, by the day that has none."""
    found = {day.day: of_day(day, side.marks, line.version) for day in week.days}
    return {day: sign for day, sign in found.items() if sign is not None}


def _row(
    page: Page,
    week: Week,
    by_day: Mapping[date, list[BoutMark]],
    signs_by_day: Mapping[date, Sign],
    heights: tuple[float, float],
    name: str,
) -> None:
    """The days of a row, with heights of the row and of a bar."""
    high, bar = heights
    for place, day in enumerate(week.days):
        left, here = DAYS_LEFT + DAY * place, by_day[day.day]
        sign = signs_by_day.get(day.day)
        if sign is not None:
            marks.day(page, (left + 1, page.y, DAY - 2, high), sign, f"{sign}:{day.day}")
        if here:
            tiers = ceil(len(here) / TIER)
            top = page.y + (high - tiers * bar - (tiers - 1) * GAP) / 2
            _bouts(page, (left, top, bar), here, f"bout:{name}:{day.day}")


def _bouts(page: Page, at: tuple[float, float, float], here: list[BoutMark], name: str) -> None:
    """The bouts of one cell (left, top, height of a bar), the first at the upper left."""
    left, top, high = at
    across = min(len(here), TIER)
    width = min(33.0, (DAY - 12 - GAP * (across - 1)) / max(across, 1))
    start = left + (DAY - width * across - GAP * (across - 1)) / 2
    for place, mark in enumerate(here):
        tier, column = divmod(place, TIER)
        marks.bout(page, (start + column * (width + GAP), top + tier * (high + GAP), width, high), mark, name)
