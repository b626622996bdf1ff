"""What was measured at the reviews, beside what is published for it: the therapist's page."""

from companion.content.texts import Texts
from companion.reports.asking import Drawn, Task


def drawn(task: Task, texts: Texts) -> Drawn:
    """The page as a picture."""
    raise NotImplementedError(task.sheet)
