"""Which plan held when, and which days it asked for, off the records. A new plan is a new dose, so each is counted apart.

A session keeps the plan it began with, and so does its day. A day without a session counts to the newest plan that asked for
it; where none did, to the newest that had begun. A plan asks for the days of the week that it names, up to its last day. On the
day on which it begins or ends (a new plan, a discharge) it does so only if a moment of practice came while it held, or if there
was a session all the same.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time

from companion.core.observations import Bout, Discharged, PlanPrescribed, SessionEnded
from companion.core.programme import Plan
from companion.core.schedule import instant, local_day
from companion.measures.dated import Observed


@dataclass(frozen=True, slots=True)
class Reign:
    """A plan from `since` (None: before anything that is known) to `until` (None: it still holds), and the local days of both.

    `plan` None: it is not on record, and what it asked for is known by what was written down of its days alone.
    """

    version: int
    plan: Plan | None
    since: datetime | None
    until: datetime | None
    first: date
    last: date

    def names(self, day: date) -> bool:
        """Whether that local day is one of its days."""
        plan = self.plan
        return plan is not None and day.weekday() in plan.practice.weekdays and not plan.over(day)

    def asks(self, day: date, zone: str) -> int:
        """For how many sessions it is known to have asked on that local day, whether any took place or none."""
        if self.plan is None or not self.names(day) or not self.first <= day <= self.last:
            return 0
        if day not in (self.first, self.last):
            return max(1, len(self.plan.practice.times))
        moments = (instant(day, at, zone) for at in self.plan.practice.times)
        return sum(
            (self.since is None or self.since < moment) and (self.until is None or moment <= self.until) for moment in moments
        )


@dataclass(frozen=True, slots=True)
class Plans:
    """The plans of a client in their order, at least one. `began`: when each session began; `days`: the first one of a day."""

    zone: str
    reigns: tuple[Reign, ...]
    began: Mapping[str, datetime]
    days: Mapping[date, datetime]

    def of_bout(self, bout: Bout) -> Reign:
        """The plan that a bout was practised by."""
        return self._at(self.began.get(bout.session, bout.at))

    def of_day(self, day: date) -> tuple[Reign, int]:
        """The plan that a local day counts to, and for how many sessions it asked on it; at least 1 where any plan asked."""
        asking = [one for one in self.reigns if one.asks(day, self.zone)]
        if day in self.days:
            own = self._at(self.days[day])
            asked = bool(asking) or own.plan is None or own.names(day)
        else:
            begun = [one for one in self.reigns if one.first <= day]
            own, asked = (asking or begun or self.reigns[:1])[-1], bool(asking)
        return own, max(own.asks(day, self.zone), 1) if asked else 0

    def _at(self, moment: datetime) -> Reign:
        held = [one for one in self.reigns if one.since is None or one.since <= moment]
        return held[-1] if held else self.reigns[0]


def plans(
    observations: Observed,
    zone: str,
    now: Plan,
    previous: Plan | None = None,
    since: datetime | None = None,
    ended: datetime | None = None,
) -> Plans:
    """The plans by these records. `now` holds, or held last; `previous` held before it. `since` is when the first of all began,
    `ended` when practice with the companion did. Each may be None: not known, or it goes on."""
    known = {plan.version: plan for plan in (previous, now) if plan is not None}
    prescribed = [what for _, what in observations if isinstance(what, PlanPrescribed)]
    begins: list[tuple[int, Plan | None, datetime | None]] = []
    before = prescribed[0].version - 1 if prescribed else now.version
    if before >= 1:
        begins.append((before, known.get(before), since or _first_known(observations, zone)))
    begins += [(what.version, what.plan or known.get(what.version), what.at) for what in prescribed]
    ends = [what.at for _, what in observations if isinstance(what, Discharged)] + ([ended] if ended is not None else [])
    reigns = tuple(_reigns(begins, ends, zone))
    began: dict[str, datetime] = {}
    days: dict[date, datetime] = {}
    for _, what in observations:
        if isinstance(what, Bout):
            began[what.session] = min(what.at, began.get(what.session, what.at))
        elif isinstance(what, SessionEnded):
            began[what.session] = min(what.began, began.get(what.session, what.began))
            days[what.day] = min(what.began, days.get(what.day, what.began))
    return Plans(zone, reigns, began, days)


def _first_known(observations: Observed, zone: str) -> datetime | None:
    """The beginning of the first day of which anything is on record: every day due leaves a record, so none was due before."""
    first = min((at for at, _ in observations), default=None)
    return None if first is None else instant(local_day(first, zone), time(0), zone)


def _reigns(begins: list[tuple[int, Plan | None, datetime | None]], ends: list[datetime], zone: str) -> Iterator[Reign]:
    """Each plan to the next one's beginning, or to the first end after its own."""
    for place, (version, plan, since) in enumerate(begins):
        later = [at for _, _, at in begins[place + 1 : place + 2] if at is not None]
        until = min((at for at in (*later, *ends) if since is None or at > since), default=None)
        first = date.min if since is None else local_day(since, zone)
        yield Reign(version, plan, since, until, first, date.max if until is None else local_day(until, zone))
