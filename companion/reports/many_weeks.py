"""Weeks side by side: four of them, or the whole course with the trends that it allows."""

from collections.abc import Sequence
from datetime import date, timedelta

from companion.content.texts import Texts
from companion.core.programme import Noticeable
from companion.measures.dated import dated
from companion.reports import multiples, own_spread
from companion.reports.asking import Drawn, Task
from companion.reports.page import png
from companion.reports.spans import first_day, span
from companion.reports.spans_wording import SpansWording

BEFORE = timedelta(weeks=3)


def four_weeks(task: Task, texts: Texts, noticeable: Sequence[Noticeable]) -> Drawn:
    """The week of the last day and the three before it."""
    return _drawn(task, texts, noticeable, task.last - BEFORE, trends=False)


def whole_course(task: Task, texts: Texts, noticeable: Sequence[Noticeable]) -> Drawn:
    """From the first record on."""
    first = min(first_day(task.observations, task.case.zone, task.last), task.last)
    return _drawn(task, texts, noticeable, first, trends=True)


def _drawn(task: Task, texts: Texts, noticeable: Sequence[Noticeable], first: date, *, trends: bool) -> Drawn:
    """The picture and its caption. The client's own spread is that of all sessions up to now, as for early notice."""
    found = span(task.case, first, task.last, task.observations, task.as_of)
    known = [(at, what) for at, what in task.observations if at <= task.as_of]
    spread = own_spread.told(dated(known, task.case.zone), noticeable)
    wording = SpansWording(texts, task.language, task.case.zone, task.case.roles, trends=trends, spread=spread)
    return Drawn(png(multiples.draw(found, wording)), wording.caption(found))
