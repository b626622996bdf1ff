"""Red flags and falls of a span of days, off the records. Pure."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from companion.core.observations import FallKind, FallReported, FlagAcknowledged, FlagLifted, FlagRaised, Observation
from companion.core.programme import Level


@dataclass(frozen=True, slots=True)
class Flag:
    """A red flag of this week, or an older one that was still open in it. `fall` None: no fall is spoken of.

    `more`: when more was reported under it after it was raised. `seen`: the newest acknowledgement.
    """

    id: str
    at: datetime
    more: datetime | None
    rule: str
    level: Level | None
    facts: tuple[str, ...]
    by: str
    seen: datetime | None
    lifted: datetime | None
    reason: str | None
    fall: FallKind | None

    @property
    def open(self) -> bool:
        """Whether it holds the practice still."""
        return self.lifted is None


@dataclass(slots=True)
class _Course:
    """What is on record of one flag, as it is gathered."""

    first: tuple[date, FlagRaised | FallReported]
    newest: FlagRaised | None = None
    seen: datetime | None = None
    lifted: tuple[date, FlagLifted] | None = None
    fall: FallKind | None = None


def flags(dated: Iterable[tuple[date, Observation]], first: date, last: date) -> tuple[Flag, ...]:
    """The flags raised in the week, and older ones that were not lifted when it began; oldest first."""
    courses: dict[str, _Course] = {}
    for day, what in dated:
        if isinstance(what, FlagRaised | FallReported):
            course = courses.setdefault(what.flag, _Course((day, what)))
            if isinstance(what, FlagRaised):
                course.newest = what
            else:
                course.fall = what.fall
        elif isinstance(what, FlagAcknowledged | FlagLifted) and what.flag in courses:
            if isinstance(what, FlagLifted):
                courses[what.flag].lifted = (day, what)
            else:
                courses[what.flag].seen = what.at
    shown = [
        course
        for course in courses.values()
        if course.first[0] <= last and (course.first[0] >= first or course.lifted is None or course.lifted[0] >= first)
    ]
    return tuple(sorted((_flag(course) for course in shown), key=lambda flag: flag.at))


def _flag(course: _Course) -> Flag:
    raised, newest = course.first[1], course.newest
    lift = course.lifted[1] if course.lifted else None
    return Flag(
        id=raised.flag,
        at=raised.at,
        more=newest.at if newest is not None and newest.at > raised.at else None,
        rule=newest.rule if newest else "",
        level=newest.level if newest else None,
        facts=newest.facts if newest else (),
        by=raised.by,
        seen=course.seen,
        lifted=lift.at if lift else None,
        reason=lift.reason if lift else None,
        fall=course.fall,
    )


def is_near_fall(what: Observation) -> bool:
    """A near-fall that was reported by itself: nobody was hurt, and it raised no red flag."""
    return isinstance(what, FallReported) and what.without_flag
