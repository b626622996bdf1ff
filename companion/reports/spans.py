"""Many weeks side by side: a column for each week or for several, with sessions, flags, falls, plans and each stance. Pure.

A column without a bout is a gap and never a zero. Shares keep their denominators; what nobody told of is counted apart.
"""

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from math import ceil

from companion.core.observations import Bout, DayClosed, FallKind, PlanPrescribed, SessionEnded
from companion.core.schedule import local_day
from companion.measures.adherence import Adherence, adherence
from companion.measures.dated import Dated, Observed, dated, with_days
from companion.measures.due import NOT_COUNTED, State, Tally, days, tally
from companion.reports.flags import Flag, flags, is_near_fall
from companion.reports.stances import StanceLine, lines
from companion.reports.week import WEEK, Case, plans_of

MOST_COLUMNS = 12
"""More columns than this are too narrow to read on a phone: then each stands for several weeks."""

Key = tuple[str | None, str, str, str]


@dataclass(frozen=True, slots=True)
class Column:
    """One week, or several. `plans` are those that began in it. `still`: practice was paused or held all the time."""

    first: date
    last: date
    tally: Tally
    flags: int
    falls: int
    near_falls: int
    plans: tuple[int, ...]
    still: bool
    stances: dict[Key, StanceLine]


@dataclass(frozen=True, slots=True)
class Span:
    """What a sheet of many weeks shows. `lines` are the stances of the whole span, `bouts` what is measured, `practised` the
    sessions of each plan."""

    name: str
    zone: str
    first: date
    last: date
    as_of: datetime
    weeks_each: int
    columns: tuple[Column, ...]
    flags: tuple[Flag, ...]
    lines: tuple[StanceLine, ...]
    bouts: tuple[Dated, ...]
    practised: tuple[Adherence, ...] = ()


def key(line: StanceLine) -> Key:
    """What makes a stance the same in two columns."""
    return (line.exercise, line.stance, line.eyes, line.measure)


def span(case: Case, first: date, last: date, observations: Observed, as_of: datetime) -> Span:
    """The weeks from the one of `first` to the one of `last`, as known at `as_of`, in at most `MOST_COLUMNS` columns."""
    first -= timedelta(days=first.weekday())
    last += timedelta(days=6 - last.weekday())
    known = [(at, what) for at, what in observations if at <= as_of]
    here = with_days(known, case.zone)
    inside = [(day, what) for day, what in here if first <= day <= last]
    every = days(plans_of(case, known), (first, last), known, local_day(as_of, case.zone))
    bouts = [(day, bout) for day, bout in dated(known, case.zone) if first <= day <= last]
    raised = [(day, what) for day, what in here if not is_near_fall(what)]
    weeks = ((last - first).days + 1) // 7
    each = ceil(weeks / MOST_COLUMNS)
    columns = []
    for place in range(0, weeks, each):
        start = first + place * WEEK
        end = min(start + each * WEEK - timedelta(days=1), last)
        own = [day for day in every if start <= day.day <= end]
        practised = [(day, bout) for day, bout in bouts if start <= day <= end]
        flagged = [flag for flag in flags(raised, start, end) if local_day(flag.at, case.zone) >= start]
        closed = [day.state for day in own if day.due and day.state is not State.TO_COME]
        columns.append(
            Column(
                first=start,
                last=end,
                tally=tally(own),
                flags=len(flagged),
                falls=sum(flag.fall in (FallKind.FALL, FallKind.UNKNOWN) for flag in flagged),
                near_falls=sum(flag.fall is FallKind.NEAR_FALL for flag in flagged)
                + sum(is_near_fall(what) for day, what in inside if start <= day <= end),
                plans=tuple(what.version for day, what in inside if start <= day <= end and isinstance(what, PlanPrescribed)),
                still=bool(closed) and not practised and all(state in NOT_COUNTED for state in closed),
                stances={key(line): line for line in lines(practised, None, case.plan)},
            )
        )
    return Span(
        name=case.name,
        zone=case.zone,
        first=first,
        last=last,
        as_of=as_of,
        weeks_each=each,
        columns=tuple(columns),
        flags=flags(raised, first, last),
        lines=lines(bouts, None, case.plan),
        bouts=tuple(bouts),
        practised=adherence(every),
    )


def first_day(observations: Observed, zone: str, otherwise: date) -> date:
    """The local day of the first bout, session or day due on record."""
    found = (day for day, what in with_days(observations, zone) if isinstance(what, Bout | SessionEnded | DayClosed))
    return min(found, default=otherwise)
