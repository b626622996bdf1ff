"""Four weeks side by side: the week of the last day and the three before it."""

from datetime import timedelta

from companion.content.texts import Texts
from companion.reports import multiples
from companion.reports.asking import Drawn, Task
from companion.reports.page import png
from companion.reports.spans import span
from companion.reports.spans_wording import SpansWording

BEFORE = timedelta(weeks=3)


def drawn(task: Task, texts: Texts) -> Drawn:
    """The picture and its caption."""
    found = span(task.case, task.last - BEFORE, task.last, task.observations, task.as_of)
    wording = SpansWording(texts, task.language, task.case.zone, task.case.roles)
    return Drawn(png(multiples.draw(found, wording)), wording.caption(found))
