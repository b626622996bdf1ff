"""Early notice of getting worse: what the care makes of an assessment of its records. It is no red flag and stops nothing.

    session over -> records assessed -> LOW: noted, therapists told quietly, on their list --> USUAL again, or a new plan: over

Nothing of it is said to client or carer, and a step up is not proposed while it stands.
"""

from companion.core.care import seeing
from companion.core.effects import words
from companion.core.events import Assessed
from companion.core.observations import Course, CourseNoted
from companion.core.turn import ANSWER, Turn


def assessed(turn: Turn, event: Assessed) -> None:
    """The records were assessed. Between low and usual, and with too few sessions to say, things stay as they are."""
    client = turn.client
    if client.discharged_at is not None or event.p is None:
        return
    if event.course is Course.LOW and client.lower_since is None:
        turn.set(lower_since=turn.at)
        turn.record(CourseNoted(turn.at, event.course, event.earlier, event.p))
        _tell(turn, event.earlier)
    elif event.course is Course.USUAL and client.lower_since is not None:
        turn.set(lower_since=None)
        turn.record(CourseNoted(turn.at, event.course, event.earlier, event.p))


def new_plan(turn: Turn) -> None:
    """A therapist has answered with a new plan: what stood is over. Where the last sessions stay low it is noted anew."""
    if turn.client.lower_since is not None:
        turn.set(lower_since=None)
        turn.record(CourseNoted(turn.at, Course.TOO_FEW, 0, None))


def _tell(turn: Turn, earlier: int) -> None:
    """The therapists hear of it without a sound: it can wait until they work."""
    lines = (words("lower-noticed", name=turn.client.name, earlier=earlier), words("lower-no-diagnosis"))
    opened = turn.button("b-open-page", "page", "open", "open")
    for therapist in seeing(turn.client, turn.at):
        turn.say(therapist, *lines, buttons=(opened,), card=f"lower-{turn.client.id}", silent=True, **ANSWER)
