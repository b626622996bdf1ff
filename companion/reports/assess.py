"""Where a client's last sessions stand against their own usual. Runs in the drawing process."""

from companion.core.observations import Course
from companion.measures.course import standing
from companion.measures.dated import dated
from companion.reports.asking import Stands, Task


def stands(task: Task) -> Stands:
    """What the records up to now say."""
    found = standing(dated(task.observations, task.case.zone))
    return Stands(Course(found.standing), found.earlier, found.p)
