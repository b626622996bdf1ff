"""How much of what was prescribed was reported, with what nobody told of counted apart.

Each plan is a window of its own, since a new plan is a new dose. Days paused or held leave it; a day that nobody answered
stays, as unknown. Everything is reported, and diaries overstate (Nicolson 2018).
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from companion.core.programme import Clock, Exercise, Measure, Plan
from companion.core.script import planned_sides
from companion.measures.due import LEFT_OUT, NOT_COUNTED, Day, Part, State, adherent, parts
from companion.measures.plans import Plans
from companion.measures.proportions import Share


@dataclass(frozen=True, slots=True)
class Dose:
    """What a plan asks for in a session: bouts, and the seconds of the timed ones."""

    bouts: int
    seconds: int


NOT_KNOWN = Dose(0, 0)
NOTHING_ASKED: Mapping[int, Dose] = {}


def dose(plan: Plan, exercises: Mapping[str, Exercise]) -> Dose:
    """Of a session: a plan with several times a day asks for the whole of it each time. An exercise that the library no longer
    has counts by what the plan says of it."""
    bouts = seconds = 0
    for item in plan.exercises:
        exercise = exercises.get(item.exercise)
        sides = planned_sides(item, exercise) if exercise is not None else item.sides or (None,)
        measures = {form.id: form.measure for form in exercise.forms} if exercise is not None else {}
        timed = measures[item.form] is Measure.TIMED if item.form in measures else item.clock is not Clock.NONE
        bouts += len(sides)
        seconds += sum(item.dose(side) for side in sides) if timed else 0
    return Dose(bouts, seconds)


def doses(plans: Plans, exercises: Mapping[str, Exercise]) -> Mapping[int, Dose]:
    """Of each plan on record, by its version."""
    return {reign.version: dose(reign.plan, exercises) for reign in plans.reigns if reign.plan is not None}


@dataclass(frozen=True, slots=True)
class Adherence:
    """Of one plan, from its first day due to its last. Sessions, bouts and seconds reported of those due; the unknown sessions
    are among the due. `left_out` are days. Where a plan is not on record, no bouts and seconds are known to have been due."""

    version: int
    first: date
    last: date
    sessions: Share
    bouts: Share
    seconds: float
    seconds_due: float
    unknown: int
    left_out: int

    @property
    def adherent(self) -> bool | None:
        """The label of SS-MAHE, by sessions; None where nothing was due."""
        return adherent(self.sessions.count, self.sessions.total)


def adherence(days: Iterable[Day], asked: Mapping[int, Dose] = NOTHING_ASKED) -> tuple[Adherence, ...]:
    """For each plan under which a day was due, in order; `asked` is its dose. More than a day asked for counts as that."""
    due = (day for day in days if day.due and day.state is not State.TO_COME)
    return tuple(_window(part, asked.get(part.version, NOT_KNOWN)) for part in parts(due))


def _window(part: Part, asked: Dose) -> Adherence:
    counted = [day for day in part.days if day.state not in NOT_COUNTED]
    tally = part.tally
    return Adherence(
        version=part.version,
        first=part.first,
        last=part.days[-1].day,
        sessions=Share(tally.sessions, tally.asked),
        bouts=Share(sum(min(day.bouts, asked.bouts * day.asked) for day in counted), asked.bouts * tally.asked),
        seconds=sum(min(day.seconds, asked.seconds * day.asked) for day in counted),
        seconds_due=asked.seconds * tally.asked,
        unknown=tally.silent,
        left_out=tally.count(*LEFT_OUT),
    )
