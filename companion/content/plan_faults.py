"""One client's plan as an enrolment file writes it, with everything that is wrong with it."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from companion.content.enrolment_file import DAYS, ClientShape
from companion.content.written_plan import Written
from companion.content.yaml_lines import Loc, Page
from companion.core.programme import Plan, Practice, Rules
from companion.errors import Fault


@dataclass(frozen=True, slots=True)
class PlanReader:
    """One client's plan, read against the library. `loc` leads to the client in the page, `zone` is the therapist's."""

    page: Page
    loc: Loc
    client: ClientShape
    rules: Rules
    zone: str

    def plan(self) -> Plan:
        """The plan as the core's value, what is left out filled in."""
        plan, baseline = self.client.plan, self.client.plan.baseline
        days = tuple(sorted({DAYS.index(day) for day in plan.practice.days}))
        bare = Plan(
            version=1,
            exercises=(),
            practice=Practice(days, tuple(sorted(set(plan.practice.times)))),
            report=plan.report.core(self.zone),
            place=plan.place.core(),
            supervision=plan.supervision,
            check=plan.check,
            eyes_closed=plan.eyes_closed,
            into_place_s=plan.into_place_s,
            rest_s=plan.rest_s,
            minutes=plan.minutes,
            one_good_hand=baseline.one_good_hand,
            ankle_blocked=baseline.ankle_blocked,
            blood_thinner=baseline.blood_thinner,
            can_call_for_help=baseline.can_call_for_help,
        )
        return replace(bare, exercises=self._written().filled(bare))

    def faults(self) -> Iterator[Fault]:
        """Everything wrong with the plan."""
        yield from self._written().faults(self.plan(), carer=self.client.carer is not None)

    def _written(self) -> Written:
        return Written(self.page, (*self.loc, "plan"), self.client.plan.exercises, self.rules)
