"""The days on which practice was due, off the records: what each asked for by the plan of that day, and what was reported.

A day due that left no record counts as unknown: the companion was away. A day that the companion paused or held leaves the
count. What a plan asked for is known where the plan itself is on record; elsewhere a day is due by what was written down of
it, and counts in sessions only.
"""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from zoneinfo import ZoneInfo

from companion.core.observations import DayClosed, Discharged, Ending, PlanPrescribed, SessionEnded
from companion.core.programme import Clock, Exercise, Measure, Plan
from companion.core.script import planned_sides
from companion.measures.adherence import DayOutcome, DueDay
from companion.measures.course import Observed, dated

OUTCOMES: Mapping[Ending, DayOutcome] = {
    Ending.DONE: DayOutcome.REPORTED,
    Ending.PARTLY: DayOutcome.REPORTED,
    Ending.STOPPED: DayOutcome.MISSED,
    Ending.NO_WORD: DayOutcome.UNKNOWN,
    Ending.NOT_READY: DayOutcome.MISSED,
    Ending.NO_ANSWER: DayOutcome.UNKNOWN,
    Ending.NOT_ASKED: DayOutcome.UNKNOWN,
    Ending.DECLINED: DayOutcome.MISSED,
    Ending.HELD: DayOutcome.LEFT_OUT,
    Ending.PAUSED: DayOutcome.LEFT_OUT,
}
"""A session that ended without word after standing is unknown: never done, never fine."""

BEST_FIRST = tuple(Ending)


@dataclass(frozen=True, slots=True)
class Dose:
    """What a plan asks for on a day: bouts, and the seconds of the timed ones."""

    bouts: int
    seconds: int


def dose(plan: Plan, exercises: Mapping[str, Exercise]) -> Dose:
    """Of a day. A plan with several times a day asks for the whole of it each time. An exercise that the library no longer
    has counts by what the plan says of it."""
    bouts = seconds = 0
    for item in plan.exercises:
        exercise = exercises.get(item.exercise)
        sides = planned_sides(item, exercise) if exercise is not None else item.sides or (None,)
        measures = {form.id: form.measure for form in exercise.forms} if exercise is not None else {}
        timed = measures[item.form] is Measure.TIMED if item.form in measures else item.clock is not Clock.NONE
        bouts += len(sides)
        seconds += sum(item.dose(side) for side in sides) if timed else 0
    times = max(1, len(plan.practice.times))
    return Dose(bouts * times, seconds * times)


@dataclass(frozen=True, slots=True)
class _Reign:
    """A plan from the local day on which it began. `plan` None: it is not on record, or the care had ended (version 0)."""

    since: date
    version: int
    plan: Plan | None


def due_days(
    observations: Observed, zone: str, span: tuple[date, date], now: Plan | None, exercises: Mapping[str, Exercise]
) -> tuple[DueDay, ...]:
    """The days due from the first to the last of `span`, local dates, both included. Days ahead are not to be in it.

    `now` is the plan that holds now: it stands for itself where its record says no more than its version.
    """
    reigns = _reigns(observations, ZoneInfo(zone), now)
    endings: dict[date, list[Ending]] = {}
    closed: set[date] = set()
    done: Counter[date] = Counter()
    for _, what in observations:
        if isinstance(what, SessionEnded):
            endings.setdefault(what.day, []).append(what.ending)
            done[what.day] += what.done
        elif isinstance(what, DayClosed):
            endings.setdefault(what.day, []).append(what.ending)
            closed.add(what.day)
    seconds: Counter[date] = Counter()
    for day, bout in dated(observations, zone):
        seconds[day] += round((bout.practised_s or 0.0) * 10)
    first, last = span
    found = []
    for day in (first + timedelta(days=step) for step in range((last - first).days + 1)):
        reign = next((one for one in reversed(reigns) if one.since <= day), None)
        if day not in closed and (reign is None or not _asks(reign, day, day in endings)):
            continue
        asked = dose(reign.plan, exercises) if reign is not None and reign.plan is not None else Dose(0, 0)
        version = reign.version if reign is not None else 0
        reported = done[day], seconds[day] / 10
        found.append(DueDay(day, version, _outcome(endings.get(day, ())), asked.bouts, asked.seconds, *reported))
    return tuple(found)


def _reigns(observations: Observed, zone: ZoneInfo, now: Plan | None) -> list[_Reign]:
    """In order; the last one of a day holds for it. A discharge ends what went before from the next day on."""
    found: list[_Reign] = []
    for _, what in observations:
        if isinstance(what, PlanPrescribed):
            plan = what.plan or (now if now is not None and now.version == what.version else None)
            found.append(_Reign(what.at.astimezone(zone).date(), what.version, plan))
        elif isinstance(what, Discharged):
            found.append(_Reign(what.at.astimezone(zone).date() + timedelta(days=1), 0, None))
    return sorted(found, key=lambda reign: reign.since)


def _asks(reign: _Reign, day: date, on_record: bool) -> bool:
    """Whether practice was due on a day that was not closed as one: a session beyond what was due makes no day due."""
    plan = reign.plan
    if plan is None:
        return on_record and reign.version > 0
    first = day == reign.since and not on_record  # it may have begun after the moment of practice
    return day.weekday() in plan.practice.weekdays and not plan.over(day) and not first


def _outcome(endings: Iterable[Ending]) -> DayOutcome:
    best = min(endings, key=BEST_FIRST.index, default=Ending.NOT_ASKED)
    return OUTCOMES[best]
