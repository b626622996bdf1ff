"""What a client's state keeps of the last sessions and days, for the therapist's list, page and proposals. Values only.

`keeping.py` writes them down as they are recorded. The whole record is in the observations; this is the short tail of it.
"""

from dataclasses import dataclass
from datetime import date, datetime

from companion.core.observations import Ending, FallKind, Reporter
from companion.core.programme import Challenge, Direction


@dataclass(frozen=True, slots=True)
class Run:
    """One exercise in one session, as reported. `sides` are the bouts planned, `clean` those that were clean to the target as
    planned or harder, `broke` those that broke or were made easier. `effort` None: not reported."""

    exercise: str
    session: str
    day: date
    sides: int
    clean: int = 0
    broke: int = 0
    effort: str | None = None


@dataclass(frozen=True, slots=True)
class Blank:
    """A day on which practice was due and no session ended. `asked`: for how many sessions the plan of then asked."""

    day: date
    ending: Ending
    asked: int = 1


@dataclass(frozen=True, slots=True)
class Slip:
    """A fall or near-fall that was reported, under the flag or report of that id. The last word on it counts."""

    day: date
    under: str
    fall: FallKind


@dataclass(frozen=True, slots=True)
class Said:
    """Own words of client or carer; long ones are cut. `form`: what it was if it was no text, as in `OwnWords`."""

    at: datetime
    by: Reporter
    text: str
    form: str = ""


@dataclass(frozen=True, slots=True)
class Proposal:
    """A step proposed to the therapists `to`, never taken by itself. It is for plan `version`; another plan withdraws it.

    `step` is what would be made harder, None where a step back is proposed. `later_at`: the therapist asked to be asked
    again then; until then it does not wait.
    """

    id: str
    exercise: str
    direction: Direction
    step: Challenge | None
    version: int
    made_at: datetime
    to: tuple[str, ...]
    later_at: datetime | None = None
