"""progression.yaml: when a step is proposed to the therapist, in what order, and the cases that prove it."""

from collections.abc import Iterator, Mapping
from datetime import date, time
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from companion.content.yaml_lines import Id, Line, Loc, Page, Shape, Switch, Whole
from companion.core.programme import (
    Challenge,
    Clock,
    Direction,
    Exercise,
    Hand,
    Measure,
    Place,
    Plan,
    Planned,
    Practice,
    Progression,
    ReportTime,
)
from companion.core.progression import direction, harder
from companion.core.recent import Run
from companion.errors import Fault

NOTHING = "nothing"
ANY_DAY = date(2026, 1, 1)


class Effort(StrEnum):
    """What can be answered of the effort."""

    EASY = "easy"
    MEDIUM = "medium"
    HARD = "hard"


class Since(StrEnum):
    """What begins the count anew."""

    FLAG = "flag"
    FALL = "fall"
    NEAR_FALL = "near_fall"


class AdherenceCaseShape(Shape):
    """`done` of `planned` sessions: is that adherent?"""

    done: Whole = Field(ge=0)
    planned: Whole = Field(ge=1)
    adherent: Switch


class AdherenceShape(Shape):
    """What counts as adherent."""

    above_percent: Annotated[Whole, Field(ge=0, le=100)]
    source: Line
    cases: tuple[AdherenceCaseShape, ...] = Field(min_length=2)


class UpShape(Shape):
    """What must hold before a step up is proposed."""

    sessions_running: Whole = Field(ge=2, le=20)
    sessions_source: Line
    efforts: tuple[Effort, ...] = Field(min_length=1)
    efforts_source: Line


class MoreShape(Shape):
    """By how much a dose grows at once."""

    seconds: Whole = Field(ge=1, le=30)
    repeats: Whole = Field(ge=1, le=5)
    source: Line


class BackShape(Shape):
    """What must hold before a step back is proposed."""

    sessions_running: Whole = Field(ge=1, le=20)
    source: Line


class SessionShape(Shape):
    """One exercise in one session of a case."""

    sides: Whole = Field(ge=1, le=2)
    clean: Whole = Field(ge=0, le=2)
    broke: Whole = Field(default=0, ge=0, le=2)
    effort: Effort | None = None
    after: Since | None = None

    def run(self, number: int) -> Run:
        """As the core keeps it."""
        return Run("case", f"s{number}", ANY_DAY, self.sides, self.clean, self.broke, self.effort)


class CaseShape(Shape):
    """Sessions that must or must not lead to a proposal."""

    name: Line
    sessions: tuple[SessionShape, ...] = Field(min_length=1)
    done: Whole = Field(default=10, ge=0)
    planned: Whole = Field(default=10, ge=1)
    proposes: Direction | Annotated[str, Field(pattern=NOTHING)]

    def found(self, rule: Progression) -> str:
        """What the rule proposes after these sessions."""
        begin = max((place for place, one in enumerate(self.sessions) if one.after is not None), default=0)
        runs = [one.run(place) for place, one in enumerate(self.sessions) if place >= begin]
        return direction(runs, rule.is_adherent(self.done, self.planned), rule) or NOTHING


class StepShape(Shape):
    """The next step of an exercise of the library; `to` is what changes: a dose, a hand stage or a form."""

    exercise: Id
    form: Id
    target: Whole = Field(ge=1)
    hand: Hand
    eyes_closed: Switch = False
    step: Challenge | Annotated[str, Field(pattern=NOTHING)]
    to: Whole | Id | None = None

    def found(self, exercise: Exercise, rule: Progression) -> tuple[str, str | None]:
        """The step that the rule finds, and to what."""
        timed = exercise.form(self.form).measure is Measure.TIMED
        clock = Clock.CARER if timed else Clock.NONE
        planned = Planned(exercise.id, self.form, self.target, self.hand, clock, self.form, self.hand)
        step = harder(planned, exercise, _plan(planned, self.eyes_closed), True, rule)
        if step is None:
            return NOTHING, None
        way, then = step
        hand_or_dose = {Challenge.LONGER_HOLD: str(then.target), Challenge.LESS_HAND: then.hand.value}
        return way, hand_or_dose.get(way, then.form)


class ProgressionShape(Shape):
    """The whole file."""

    order: tuple[Challenge, ...]
    order_source: Line
    up: UpShape
    more: MoreShape
    back: BackShape
    ask_again_days: Whole = Field(ge=1, le=60)
    ask_again_source: Line
    adherence: AdherenceShape
    cases: tuple[CaseShape, ...] = Field(min_length=2)
    steps: tuple[StepShape, ...] = Field(min_length=2)

    def core(self) -> Progression:
        """The rule as a value."""
        return Progression(
            order=self.order,
            sessions_running=self.up.sessions_running,
            efforts=tuple(effort.value for effort in self.up.efforts),
            back_sessions=self.back.sessions_running,
            more_seconds=self.more.seconds,
            more_repeats=self.more.repeats,
            ask_again_days=self.ask_again_days,
            adherent_above_percent=self.adherence.above_percent,
        )


def faults(page: Page, file: ProgressionShape, exercises: Mapping[str, Exercise] | None) -> Iterator[Fault]:
    """A step left out or twice, a hard effort that is enough, a case that does not hold. `exercises` None: not known yet."""
    if sorted(file.order) != sorted(Challenge):
        yield page.fault(("order",), "every way to make it harder is named once", f"Order {', '.join(Challenge)}")
    if Effort.HARD in file.up.efforts:
        yield page.fault(("up", "efforts"), "nothing is made harder for whom it is hard", "Take hard out")
    rule = file.core()
    for place, case in enumerate(file.adherence.cases):
        if rule.is_adherent(case.done, case.planned) is not case.adherent:
            what = f"the case {case.done} of {case.planned} does not hold"
            yield page.fault(("adherence", "cases", place), what, "Mend the rule or the case")
    for place, sessions in enumerate(file.cases):
        if sessions.found(rule) != sessions.proposes:
            what = f'the case "{sessions.name}" proposes {sessions.found(rule)}'
            yield page.fault(("cases", place, "name"), what, "Mend the rule or the case")
    for place, step in enumerate(file.steps if exercises is not None and sorted(file.order) == sorted(Challenge) else ()):
        yield from _step_faults(page, ("steps", place), step, exercises or {}, rule)


def _step_faults(
    page: Page, loc: Loc, step: StepShape, exercises: Mapping[str, Exercise], rule: Progression
) -> Iterator[Fault]:
    exercise = exercises.get(step.exercise)
    if exercise is None or step.form not in [form.id for form in exercise.forms]:
        yield page.fault(loc, f'there is no exercise "{step.exercise}" with a form "{step.form}"', "Name one of the library")
        return
    found, to = step.found(exercise, rule)
    wanted = None if step.to is None else str(step.to)
    if (found, to) != (step.step, wanted):
        yield page.fault(loc, f"the step is {found}{f' to {to}' if to else ''}", "Mend the rule or the case")


def _plan(planned: Planned, eyes_closed: bool) -> Plan:
    """The plan around one exercise, for a client with one good hand."""
    practice, report = Practice((0,), (time(9),)), ReportTime(6, time(18), "UTC")
    return Plan(1, (planned,), practice, report, Place("worktop", "shoes"), eyes_closed=eyes_closed)
