"""The whole course side by side, from the first record on, with the trends that it allows."""

from companion.content.texts import Texts
from companion.reports import multiples
from companion.reports.asking import Drawn, Task
from companion.reports.page import png
from companion.reports.spans import first_day, span
from companion.reports.spans_wording import SpansWording


def drawn(task: Task, texts: Texts) -> Drawn:
    """The picture and its caption."""
    first = min(first_day(task.observations, task.case.zone, task.last), task.last)
    found = span(task.case, first, task.last, task.observations, task.as_of)
    wording = SpansWording(texts, task.language, task.case.zone, task.case.roles, trends=True)
    return Drawn(png(multiples.draw(found, wording)), wording.caption(found))
