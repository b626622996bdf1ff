"""progression.yaml: when a step up may be proposed to the therapist, and in what order. Parsed and checked here.

Nothing acts on it yet: a harder step is the therapist's to take.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from companion.content.yaml_lines import Line, Page, Shape, Switch, Whole
from companion.errors import Fault


class Step(StrEnum):
    """The ways in which practice can be made harder, one at a time."""

    LONGER_HOLD = "longer_hold"
    LESS_HAND = "less_hand"
    NARROWER_BASE = "narrower_base"
    EYES_CLOSED = "eyes_closed"


@dataclass(frozen=True, slots=True)
class AdherenceCase:
    """`done` of `planned` sessions: is that adherent?"""

    done: int
    planned: int
    adherent: bool


@dataclass(frozen=True, slots=True)
class Progression:
    """`order`: what is proposed first. A step may be proposed after `clean_sessions` of the last `of_last` sessions had
    only clean bouts, when adherent (more than `adherent_above_percent` of the planned sessions done)."""

    order: tuple[Step, ...]
    clean_sessions: int
    of_last: int
    adherent_above_percent: int

    def is_adherent(self, done: int, planned: int) -> bool | None:
        """Whether `done` of `planned` sessions is adherent; None where nothing was planned. Exact, in whole numbers."""
        return None if planned == 0 else done * 100 > self.adherent_above_percent * planned


class AdherenceCaseShape(Shape):
    """One case as it is written."""

    done: Whole = Field(ge=0)
    planned: Whole = Field(ge=1)
    adherent: Switch


class AdherenceShape(Shape):
    """What counts as adherent."""

    above_percent: Annotated[Whole, Field(ge=0, le=100)]
    source: Line
    cases: tuple[AdherenceCaseShape, ...] = Field(min_length=2)


class ProgressionShape(Shape):
    """The whole file."""

    order: tuple[Step, ...]
    order_source: Line
    clean_sessions: Whole = Field(ge=1, le=20)
    of_last: Whole = Field(ge=1, le=20)
    clean_source: Line
    adherence: AdherenceShape

    def core(self) -> Progression:
        """The rule as a value."""
        return Progression(self.order, self.clean_sessions, self.of_last, self.adherence.above_percent)

    def faults(self, page: Page) -> Iterator[Fault]:
        """A step left out or twice, more clean sessions than sessions, a case that does not hold."""
        if sorted(self.order) != sorted(Step):
            yield page.fault(("order",), "every way to make it harder is named once", f"Order {', '.join(Step)}")
        if self.clean_sessions > self.of_last:
            yield page.fault(("clean_sessions",), "more clean sessions than sessions", "Use of_last or fewer")
        rule = self.core()
        for place, case in enumerate(self.adherence.cases):
            if rule.is_adherent(case.done, case.planned) is not case.adherent:
                what = f"the case {case.done} of {case.planned} does not hold"
                yield page.fault(("adherence", "cases", place), what, "Mend the rule or the case")
