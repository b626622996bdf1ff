"""Which plan held when. A new plan is a new dose, so what is counted in a week with two is counted for each apart."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from companion.core.observations import Bout, Observation, PlanPrescribed, SessionEnded
from companion.core.programme import Plan


@dataclass(frozen=True, slots=True)
class Reign:
    """A plan from `since` on; None: it held before anything that is known. `plan` None: it is not on record."""

    version: int
    since: datetime | None
    plan: Plan | None


def reigns(observations: Iterable[tuple[datetime, Observation]], now: Plan, previous: Plan | None) -> tuple[Reign, ...]:
    """The plans in their order, at least one. `now` holds at the end, `previous` held before it; both may stand in for what a
    record from before plans were kept says by version only."""
    known: Mapping[int, Plan] = {plan.version: plan for plan in (previous, now) if plan is not None}
    found = [
        Reign(what.version, what.at, what.plan or known.get(what.version))
        for _, what in observations
        if isinstance(what, PlanPrescribed)
    ]
    if not found:
        return (Reign(now.version, None, now),)
    before = found[0].version - 1
    return tuple(found) if before < 1 else (Reign(before, None, known.get(before)), *found)


@dataclass(frozen=True, slots=True)
class Rule:
    """Under which plan a day or a bout falls. `began` is when each session began: a session keeps the plan it began with."""

    reigns: tuple[Reign, ...]
    zone: ZoneInfo
    began: Mapping[str, datetime]
    days: Mapping[date, datetime]

    def of_bout(self, bout: Bout) -> Reign:
        """The plan that a bout was practised by."""
        return self._at(self.began.get(bout.session, bout.at))

    def of_day(self, day: date) -> Reign:
        """The plan that a local day counts to: that of its first session, else the newest one of the day."""
        if day in self.days:
            return self._at(self.days[day])
        held = [one for one in self.reigns if one.since is None or one.since.astimezone(self.zone).date() <= day]
        return held[-1] if held else self.reigns[0]

    def _at(self, moment: datetime) -> Reign:
        held = [one for one in self.reigns if one.since is None or one.since <= moment]
        return held[-1] if held else self.reigns[0]


def rule(observations: Iterable[tuple[datetime, Observation]], found: tuple[Reign, ...], zone: ZoneInfo) -> Rule:
    """How days and bouts fall under these plans."""
    began: dict[str, datetime] = {}
    days: dict[date, datetime] = {}
    for _, what in observations:
        if isinstance(what, Bout):
            began[what.session] = min(what.at, began.get(what.session, what.at))
        elif isinstance(what, SessionEnded):
            began[what.session] = min(what.began, began.get(what.session, what.began))
            days[what.day] = min(what.began, days.get(what.day, what.began))
    return Rule(found, zone, began, days)
