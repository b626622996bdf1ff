"""The client's own picture of the week: the days practised, what was done, the goal. Kind, true, big, with few words.

A day without practice is simply empty. A day of which nobody said how it ended has a question mark, also beside a tick.
"""

from collections import Counter

from matplotlib.figure import Figure
from matplotlib.patches import Circle

from companion.content.texts import Texts
from companion.core.effects import words
from companion.core.my_week import UNSURE
from companion.core.observations import Quality
from companion.measures.dated import dated
from companion.measures.due import State
from companion.reports.asking import Drawn, Task
from companion.reports.page import MARGIN, PAPER, POINTS, QUIET, SOLID, Page, Type, png
from companion.reports.week import Week, summarise
from companion.reports.wording import Wording

BIG, MIDDLE, HUGE = Type(44), Type(40, bold=True), Type(60, bold=True)
TICK = Type(52, bold=True, colour=PAPER)
UNSURE_DAYS = frozenset(State(ending) for ending in UNSURE)
"""Days of which the client is told, here as in words, that nobody knows how they went."""
CHECK = "\N{CHECK MARK}"
MOST_EXERCISES = 8


def drawn(task: Task, texts: Texts) -> Drawn:
    """The picture, with one short line."""
    week = summarise(task.case, task.first, task.last, task.observations, task.as_of)
    bouts = [bout for day, bout in dated(task.observations, week.zone) if week.first <= day <= week.last]
    done = Counter(bout.exercise for bout in bouts if bout.quality is not Quality.UNKNOWN)
    say = Wording(texts, task.language, week.zone)
    return Drawn(png(draw(week, done, task.case.goal, say)), texts.text(words("own-week-caption"), task.language))


def draw(week: Week, done: Counter[str], goal: str, wording: Wording) -> Figure:
    """The picture: `done` are bouts by exercise, in the order in which each was first done; `goal` may be empty."""

    def text(key: str, **params: str | int) -> str:
        return wording.texts.text(words(f"own-week-{key}", **params), wording.language)

    page = Page()
    page.paragraph(text("title"), HUGE, name="title")
    page.y += 30
    _days(page, week, wording)
    practised = sum(day.sessions > 0 for day in week.days)
    page.paragraph(text("days", days=practised) if practised else text("none"), MIDDLE, name="practised")
    if any(day.state in UNSURE_DAYS for day in week.days):
        page.paragraph(text("unsure"), BIG, name="unsure")
    page.y += 20
    for exercise, times in list(done.items())[:MOST_EXERCISES]:
        page.paragraph(text("times", exercise=wording.exercise(exercise), times=times), BIG, name="done")
    if goal:
        page.y += 20
        page.paragraph(text("goal"), MIDDLE, name="goal")
        page.paragraph(" ".join(goal.split()), BIG, most=4, name="goal")
    return page.finish()


def _days(page: Page, week: Week, wording: Wording) -> None:
    """A circle for each day: filled with a tick where it was practised."""
    width = page.room / len(week.days)
    page.y += 40
    for place, day in enumerate(week.days):
        x, y = MARGIN + width * (place + 0.5), page.y + 80
        page.write(x, page.y, wording.weekday(day.day), MIDDLE, align="center", name=f"day:{day.day}")
        practised = day.sessions > 0
        circle = Circle((x, y), 54, facecolor=SOLID if practised else PAPER, edgecolor=SOLID if practised else QUIET)
        circle.set_linewidth(5 * POINTS)
        page.add(circle, f"circle:{day.day}:{'practised' if practised else 'empty'}")
        if practised:
            page.write(x, y + 18, CHECK, TICK, align="center", name=f"sign:{day.day}")
        if day.state in UNSURE_DAYS:
            across, down = (58, -36) if practised else (0, 18)
            page.write(x + across, y + down, "?", MIDDLE, align="center", name=f"unsure:{day.day}")
    page.y += 170
