"""What the bot's process asks of the drawing process, and how both put it on the pipe: a length, then a pickle.

Both ends are our own processes, started by one another over a private pipe; nothing from outside is ever unpickled.
"""

import pickle
from dataclasses import dataclass
from datetime import date, datetime
from struct import Struct

from companion.core.effects import Paper, Sheet
from companion.core.media import Made
from companion.core.observations import Course, Observation
from companion.reports.week import Case

LENGTH = Struct(">Q")


@dataclass(frozen=True, slots=True)
class Task:
    """A sheet of a client's records to draw, or an assessment to make. For a week the observations are those that `summarise`
    wants; for what looks farther back, all."""

    case: Case
    first: date
    last: date
    observations: tuple[tuple[datetime, Observation], ...]
    as_of: datetime
    language: str
    sheet: Sheet = Sheet.WEEK
    paper: Paper = Paper.A4


@dataclass(frozen=True, slots=True)
class Row:
    """A client of a digest: the name, and what `summarise` wants. `case` None: there is no plan yet. `reasons` for a look are
    those of the therapist's list, gravest first."""

    name: str
    case: Case | None
    observations: tuple[tuple[datetime, Observation], ...] = ()
    reasons: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class DigestTask:
    """The weeks of several clients to draw side by side, in this order. `zone` is the therapist's."""

    rows: tuple[Row, ...]
    first: date
    last: date
    as_of: datetime
    language: str
    zone: str


@dataclass(frozen=True, slots=True)
class ReviewsTask:
    """The page of a client's reviews to draw, plan or none: `observations` are those of the reviews."""

    name: str
    zone: str
    observations: tuple[tuple[datetime, Observation], ...]
    as_of: datetime
    language: str


@dataclass(frozen=True, slots=True)
class MediaTask:
    """A picture or a sound to make, the latter with spoken words or without."""

    media: Made
    language: str
    speaks: bool


AnyTask = Task | DigestTask | ReviewsTask | MediaTask


@dataclass(frozen=True, slots=True)
class Drawn:
    """A chart, a picture, a sound or a document as a file, the caption of a chart, and the name of a document."""

    file: bytes
    caption: str = ""
    name: str = ""


@dataclass(frozen=True, slots=True)
class Stands:
    """Where the last sessions stand against the client's own usual; see the event `Assessed`."""

    course: Course
    earlier: int
    p: float | None


@dataclass(frozen=True, slots=True)
class Failed:
    """It could not be drawn; `why` is for the log."""

    why: str


def packed(value: AnyTask | Drawn | Stands | Failed) -> bytes:
    """A value as it goes over the pipe."""
    body = pickle.dumps(value, protocol=pickle.HIGHEST_PROTOCOL)
    return LENGTH.pack(len(body)) + body
