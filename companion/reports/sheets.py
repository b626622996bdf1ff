"""Which sheet of a client's records is drawn by what. Runs in the drawing process."""

from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from companion.content import dictionary_file, library
from companion.content.library import Library
from companion.content.texts import Texts
from companion.core.effects import Sheet, words
from companion.reports import data, figure, many_weeks, own_week, record
from companion.reports.asking import Drawn, Task
from companion.reports.caption import caption
from companion.reports.page import png
from companion.reports.week import summarise
from companion.reports.wording import Wording


@dataclass(frozen=True)
class Content:
    """What is drawn from, in a folder of content."""

    folder: Path
    texts: Texts

    @cached_property
    def library(self) -> Library:
        """Read when first needed: most charts do without."""
        return library.load(self.folder)


def drawn(task: Task, content: Content) -> Drawn:
    """The file, with its caption, and its name if it is a document."""
    texts = content.texts
    match task.sheet:
        case Sheet.WEEK:
            week = summarise(task.case, task.first, task.last, task.observations, task.as_of)
            rules = content.library.without_number if week.proposed else None
            wording = Wording(texts, task.language, week.zone, week.roles, rules=rules)
            return Drawn(png(figure.draw(week, wording)), caption(week, wording))
        case Sheet.FOUR_WEEKS:
            return many_weeks.four_weeks(task, texts, content.library.without_number.noticeable)
        case Sheet.COURSE:
            return many_weeks.whole_course(task, texts, content.library.without_number.noticeable)
        case Sheet.OWN_WEEK:
            return own_week.drawn(task, texts)
        case Sheet.DATA:
            file = data.zipped(data.files(task, dictionary_file.load(content.folder)))
            return Drawn(file, texts.text(words("record-data"), task.language), f"{data.slug(task)}-data.zip")
        case Sheet.PDF_WEEK | Sheet.PDF_REVIEW | Sheet.PDF_DISCHARGE:
            return record.document(task, texts, content.library.without_number)
        case _:
            raise NotImplementedError(task.sheet)
