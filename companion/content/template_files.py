"""templates/*.yaml, plans to begin with, and dose.yaml, the length that a plan is warned of."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import time

from pydantic import Field

from companion.content.written_plan import PlannedShape, Written
from companion.content.yaml_lines import Id, Line, Page, Shape, Switch, Whole
from companion.core.programme import CheckStyle, Place, Plan, Practice, ReportTime, Rules, Supervision, Template, UsualDose
from companion.errors import Fault


class TemplateShape(Shape):
    """A template as it is written. `rank` is its place in the list, 1 first.

    Days, place and what is found at a visit are no part of it, nor is any permission.
    """

    id: Id
    rank: Whole = Field(ge=1, le=99)
    supervision: Supervision
    check: CheckStyle
    minutes: Whole = Field(ge=5, le=60)
    rest_s: Whole = Field(ge=10, le=600)
    exercises: tuple[PlannedShape, ...] = Field(min_length=1, max_length=12)

    def core(self, page: Page, rules: Rules) -> Template:
        """The template as a value. Only for one without faults."""
        planned = Written(page, (), self.exercises, rules).filled(_able(self))
        return Template(self.id, planned, self.supervision, self.check, self.minutes, self.rest_s)


class DoseCaseShape(Shape):
    """Is a plan of so many minutes at a time warned of?"""

    minutes: Whole = Field(ge=1, le=600)
    warned: Switch


class DoseShape(Shape):
    """The whole of dose.yaml."""

    begin_minutes: Whole = Field(ge=5, le=60)
    source: Line
    cases: tuple[DoseCaseShape, ...] = Field(min_length=2)

    def core(self) -> UsualDose:
        """The dose as a value."""
        return UsualDose(self.begin_minutes, self.source)


def faults(page: Page, template: TemplateShape, stem: str, rules: Rules) -> Iterator[Fault]:
    """An id unlike its file, and everything wrong with it even for somebody with two good hands, a free ankle and a carer."""
    if template.id != stem:
        yield page.fault(("id",), f'the id "{template.id}" is not the name of the file', f'Write "{stem}"')
    written, able = Written(page, (), template.exercises, rules), _able(template)
    yield from written.faults(replace(able, exercises=written.filled(able)), carer=True)


def dose_faults(page: Page, dose: DoseShape) -> Iterator[Fault]:
    """A case that does not hold."""
    for place, case in enumerate(dose.cases):
        if (case.minutes > dose.begin_minutes) is not case.warned:
            what = f"{case.minutes} minutes {'are not' if case.warned else 'are'} warned of at {dose.begin_minutes}"
            yield page.fault(("cases", place), what, "Mend the case, or begin_minutes")


def _able(template: TemplateShape) -> Plan:
    """The plan of somebody whom nothing stands in the way of, without its exercises."""
    return Plan(
        version=1,
        exercises=(),
        practice=Practice((0,), (time(9),)),
        report=ReportTime(0, time(9), "UTC"),
        place=Place("worktop", "shoes"),
        supervision=template.supervision,
        check=template.check,
        rest_s=template.rest_s,
        minutes=template.minutes,
        one_good_hand=False,
    )
