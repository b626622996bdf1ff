"""Where a client's last sessions stand against their own usual. Runs in the drawing process."""

from companion.reports.asking import Stands, Task


def stands(task: Task) -> Stands:
    """What the records up to now say."""
    raise NotImplementedError(task.sheet)
