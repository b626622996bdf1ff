"""What the bot's process asks of the drawing process, and how both put it on the pipe: a length, then a pickle.

Both ends are our own processes, started by one another over a private pipe; nothing from outside is ever unpickled.
"""

import pickle
from dataclasses import dataclass
from datetime import date, datetime
from struct import Struct

from companion.core.media import Made
from companion.core.observations import Observation
from companion.reports.week import Case

LENGTH = Struct(">Q")


@dataclass(frozen=True, slots=True)
class Task:
    """A week to draw. The observations are those that `summarise` wants."""

    case: Case
    first: date
    last: date
    observations: tuple[tuple[datetime, Observation], ...]
    as_of: datetime
    language: str


@dataclass(frozen=True, slots=True)
class Row:
    """A client of a digest: the name, and what `summarise` wants. `case` None: there is no plan yet."""

    name: str
    case: Case | None
    observations: tuple[tuple[datetime, Observation], ...] = ()


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
class MediaTask:
    """A picture or a sound to make, the latter with spoken words or without."""

    media: Made
    language: str
    speaks: bool


AnyTask = Task | DigestTask | MediaTask


@dataclass(frozen=True, slots=True)
class Drawn:
    """A chart, a picture or a sound as a file, and the caption of a chart."""

    file: bytes
    caption: str = ""


@dataclass(frozen=True, slots=True)
class Failed:
    """It could not be drawn; `why` is for the log."""

    why: str


def packed(value: AnyTask | Drawn | Failed) -> bytes:
    """A value as it goes over the pipe."""
    body = pickle.dumps(value, protocol=pickle.HIGHEST_PROTOCOL)
    return LENGTH.pack(len(body)) + body
