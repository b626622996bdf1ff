"""What was measured at the reviews of a course: one a local day, what changed, how it stands against what is published. Pure.

Nothing of home practice comes in here.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, fields, replace
from datetime import date, datetime
from enum import StrEnum
from zoneinfo import ZoneInfo

from companion.core.observations import Observation, Reviewed
from companion.core.review_values import ReviewValues
from companion.measures.review import Norms, goal_attainment

Value = Callable[[ReviewValues], float | None]
"""One measure out of what was measured; None: it was left out."""


@dataclass(frozen=True, slots=True)
class Review:
    """What was measured on one local day. What was entered again on that day counts as entered last."""

    day: date
    values: ReviewValues


@dataclass(frozen=True, slots=True)
class Change:
    """The plain difference between the last two times that something was measured, `by` = `at` less `since`."""

    since: date
    at: date
    by: float


class Against(StrEnum):
    """How a time stands against the norm of the age. NO_NORM: none is published for it. NO_AGE: the age was not told."""

    WORSE = "worse"
    NOT_WORSE = "not_worse"
    NO_NORM = "no_norm"
    NO_AGE = "no_age"


def reviews(observations: Iterable[tuple[datetime, Observation]], as_of: datetime, zone: str) -> tuple[Review, ...]:
    """The reviews up to `as_of`, oldest first."""
    here = ZoneInfo(zone)
    found: dict[date, ReviewValues] = {}
    for at, what in observations:
        if isinstance(what, Reviewed) and at <= as_of:
            day = at.astimezone(here).date()
            found[day] = _joined(found.get(day, ReviewValues()), what.values)
    return tuple(Review(day, found[day]) for day in sorted(found))


def _joined(earlier: ReviewValues, later: ReviewValues) -> ReviewValues:
    told = {one.name: getattr(later, one.name) for one in fields(later)}
    return replace(earlier, **{name: value for name, value in told.items() if value is not None and value != ()})


def change(found: Sequence[Review], value: Value) -> Change | None:
    """None: it was measured less than twice."""
    measured = [(one.day, seen) for one in found if (seen := value(one.values)) is not None]
    if len(measured) < 2:
        return None
    (since, before), (at, now) = measured[-2:]
    return Change(since, at, now - before)


def against(norms: Norms, decade: int | None, seconds: float) -> Against:
    """A time against the norm of a decade of age, given as its first year."""
    if decade is None:
        return Against.NO_AGE
    worse = norms.worse_than_usual(decade, seconds)
    if worse is None:
        return Against.NO_NORM
    return Against.WORSE if worse else Against.NOT_WORSE


def attained(values: ReviewValues) -> float | None:
    """Goal attainment T of that review's own goals; None: it had none."""
    goals = values.goals
    return goal_attainment([one.level for one in goals], [one.weight for one in goals]) if goals else None
