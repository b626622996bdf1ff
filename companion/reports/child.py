"""The drawing process: reads on its input what to draw or make, writes files on its output, ends when the input ends.

    python -m companion.reports.child CONTENT_FOLDER

It is a process of its own so that the bot's never loads matplotlib, and started as a command, not forked or spawned
from the bot's state: it loads only what it needs, and the end of its input ends it, however the bot's process ended.
"""

import gc
import os
import pickle
import sys
import traceback
from pathlib import Path
from typing import BinaryIO

from matplotlib.figure import Figure

from companion.content.texts import Texts
from companion.core.effects import Sheet
from companion.media import maker
from companion.reports import assess, digest, review_page, sheets
from companion.reports.asking import LENGTH, AnyTask, DigestTask, Drawn, Failed, MediaTask, ReviewsTask, Row, Stands, packed
from companion.reports.page import png
from companion.reports.sheets import Content
from companion.reports.week import Week, summarise
from companion.reports.wording import Wording


def draw(task: AnyTask, content: Content) -> Drawn | Stands:
    """A sheet of a client's records, where they stand, a page of reviews, the picture of a digest, or a picture or a sound."""
    texts = content.texts
    if isinstance(task, MediaTask):
        return Drawn(maker.make(task.media, task.language, content.library, texts, task.speaks))
    if isinstance(task, DigestTask):
        return Drawn(png(_digest(task, texts)))
    if isinstance(task, ReviewsTask):
        return review_page.drawn(task, texts)
    return assess.stands(task) if task.sheet is Sheet.ASSESSED else sheets.drawn(task, content)


def _digest(task: DigestTask, texts: Texts) -> Figure:
    def week(row: Row) -> Week | None:
        return None if row.case is None else summarise(row.case, task.first, task.last, row.observations, task.as_of)

    lines = tuple(digest.Line(row.name, week(row), row.reasons) for row in task.rows)
    return digest.draw(lines, task.first, task.last, Wording(texts, task.language, task.zone))


def serve(tasks: BinaryIO, files: BinaryIO, content: Content) -> None:
    """Do every task that comes in, until there are no more. A task that fails is answered with why."""
    while header := tasks.read(LENGTH.size):
        task: AnyTask = pickle.loads(tasks.read(LENGTH.unpack(header)[0]))
        try:
            answer: Drawn | Stands | Failed = draw(task, content)
        except Exception:
            answer = Failed(traceback.format_exc())
        files.write(packed(answer))
        files.flush()


def main() -> None:
    """Serve the pipes. What anything prints goes to the log, not between the files."""
    files = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    folder = Path(sys.argv[1])
    # what is loaded stays; to look for garbage in it again and again takes a quarter of the time of a chart
    gc.collect()
    gc.freeze()
    serve(sys.stdin.buffer, files, Content(folder, Texts(folder / "texts")))


if __name__ == "__main__":
    main()
