"""The drawing process: reads weeks to draw on its input, writes charts on its output, ends when the input ends.

    python -m companion.reports.child CONTENT_FOLDER

It is a process of its own so that the bot's never loads matplotlib, and started as a command, not forked or spawned
from the bot's state: it loads only what it needs, and the end of its input ends it, however the bot's process ended.
"""

import os
import pickle
import sys
import traceback
from pathlib import Path
from typing import BinaryIO

from companion.content.texts import Texts
from companion.reports import figure
from companion.reports.asking import LENGTH, Drawn, Failed, Task, packed
from companion.reports.caption import caption
from companion.reports.page import png
from companion.reports.week import summarise
from companion.reports.wording import Wording


def draw(task: Task, texts: Texts) -> Drawn:
    """The chart and caption of a week."""
    week = summarise(task.case, task.first, task.last, task.observations, task.as_of)
    wording = Wording(texts, task.language, week.zone, week.roles)
    return Drawn(png(figure.draw(week, wording)), caption(week, wording))


def serve(tasks: BinaryIO, charts: BinaryIO, texts: Texts) -> None:
    """Draw every task that comes in, until there are no more. A task that fails is answered with why."""
    while header := tasks.read(LENGTH.size):
        task: Task = pickle.loads(tasks.read(LENGTH.unpack(header)[0]))
        try:
            answer: Drawn | Failed = draw(task, texts)
        except Exception:
            answer = Failed(traceback.format_exc())
        charts.write(packed(answer))
        charts.flush()


def main() -> None:
    """Serve the pipes. What anything prints goes to the log, not between the charts."""
    charts = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    serve(sys.stdin.buffer, charts, Texts(Path(sys.argv[1]) / "texts"))


if __name__ == "__main__":
    main()
