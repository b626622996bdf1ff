"""Which sheet of a client's records is drawn by what. Runs in the drawing process."""

from pathlib import Path

from companion.content import dictionary_file
from companion.content.texts import Texts
from companion.core.effects import Sheet, words
from companion.reports import data, figure
from companion.reports.asking import Drawn, Task
from companion.reports.caption import caption
from companion.reports.page import png
from companion.reports.week import summarise
from companion.reports.wording import Wording


def drawn(task: Task, texts: Texts, content: Path) -> Drawn:
    """The file, with its caption, and its name if it is a document. `content` is the folder of content."""
    match task.sheet:
        case Sheet.WEEK:
            week = summarise(task.case, task.first, task.last, task.observations, task.as_of)
            wording = Wording(texts, task.language, week.zone, week.roles)
            return Drawn(png(figure.draw(week, wording)), caption(week, wording))
        case Sheet.DATA:
            file = data.zipped(data.files(task, dictionary_file.load(content)))
            return Drawn(file, texts.text(words("record-data"), task.language), f"{data.slug(task)}-data.zip")
        case _:
            raise NotImplementedError(task.sheet)
