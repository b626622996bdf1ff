"""How long a session waits where it is: its next moment, and what counts as silence."""

from datetime import datetime, timedelta

from companion.core.cursor import Session
from companion.core.programme import Patience, Posture
from companion.core.showing import SPOKEN_S, sounding_s
from companion.core.steps import Ask, Counted, Gate, Sounded, Step, Timed


def due(session: Session, patience: Patience) -> datetime | None:
    """The next moment at which this session must be looked at; None if it is over."""
    if session.outcome is not None:
        return None
    step = session.current
    if isinstance(step, Timed):
        if step.by_receipt and session.clock_began is None:
            return session.since + timedelta(seconds=3 * patience.receipt_s)
        return (session.clock_began or session.since) + timedelta(seconds=step.seconds)
    waits = [patience.idle_s]
    if watched(step):
        rest = rest_allowed(session, patience)
        waits = [rest + (patience.nudge_s, patience.carer_nudge_s, patience.no_word_s)[min(session.nudged, 2)]]
    if isinstance(step, Gate | Ask) and step.patience is not None:
        waits.append(step.patience)
    return session.since + timedelta(seconds=min(waits))


def watched(step: Step) -> bool:
    """Whether somebody stands who is asked here, so that silence is followed up."""
    if isinstance(step, Sounded):
        return step.bout.posture is Posture.STANDING
    return isinstance(step, Ask | Counted) and step.watch


def rest_allowed(session: Session, patience: Patience) -> int:
    """Seconds in which nothing is asked of somebody who may still be listening to a voice note, or resting before a bout: while
    the check is fresh."""
    step = session.current
    if sounding_s(step):
        return sounding_s(step) + SPOKEN_S
    if not isinstance(step, Counted) or not step.unhurried or session.checked_at is None:
        return 0
    # whole seconds, so that what is due and what was waited for are equal to the microsecond
    return max(0, patience.check_fresh_s - int((session.since - session.checked_at).total_seconds()))
