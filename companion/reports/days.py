"""The days of a span: on which practice was due by the plan of that day, and what became of it. Pure.

What nobody answered is unknown: it is counted apart, never as zero.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from itertools import groupby

from companion.core.observations import DayClosed, Observation, SessionEnded
from companion.reports.plans import Reign, Rule


class State(StrEnum):
    """What became of a day's practice, the best first. All but the last two are an `Ending`."""

    DONE = "done"
    PARTLY = "partly"
    STOPPED = "stopped"
    NO_WORD = "no_word"
    NOT_READY = "not_ready"
    NO_ANSWER = "no_answer"
    NOT_ASKED = "not_asked"
    DECLINED = "declined"
    HELD = "held"
    PAUSED = "paused"
    NO_RECORD = "no_record"
    TO_COME = "to_come"


UNKNOWN = frozenset({State.NO_ANSWER, State.NOT_ASKED, State.NO_RECORD})
NOT_COUNTED = frozenset({State.HELD, State.PAUSED, State.TO_COME})
REPORTED = frozenset({State.DONE, State.PARTLY})
_BEST_FIRST = tuple(State)


@dataclass(frozen=True, slots=True)
class Day:
    """One local day. The plan is a dose a day: what is left of it may be done later that day, as one session.

    `state` None: nothing was due and nothing took place. `due` False with a state: practised beyond what was due.
    `no_word`: a session of that day ended without a word after standing, whatever came later. `version` is that of the plan
    that the day counts to; `sessions` are those in which something was done.
    """

    day: date
    due: bool
    state: State | None
    no_word: bool = False
    version: int = 0
    sessions: int = 0


@dataclass(frozen=True, slots=True)
class Tally:
    """Days on which practice was due, by state; `extra` are days on which it was not and was reported all the same."""

    states: tuple[tuple[State, int], ...]
    extra: int

    def count(self, *states: State) -> int:
        """How many of the days due are in one of these states."""
        return sum(number for state, number in self.states if state in states)

    @property
    def due(self) -> int:
        """Sessions that count as due: not those held, paused or still to come."""
        return sum(number for state, number in self.states if state not in NOT_COUNTED)

    @property
    def reported(self) -> int:
        """Sessions reported done or partly."""
        return self.count(*REPORTED)

    @property
    def unknown(self) -> int:
        """Sessions due of which nobody told anything."""
        return self.count(*UNKNOWN)

    @property
    def more_than_70(self) -> bool:
        """Adherent after stroke: more than 70 % of the prescribed dose, so 7 of 10 is not (SS-MAHE 2019)."""
        return self.due >= 1 and self.reported * 10 > self.due * 7


@dataclass(frozen=True, slots=True)
class Part:
    """The days of a span that count to one plan, from `first` on."""

    version: int
    first: date
    tally: Tally


def days(rule: Rule, span: tuple[date, date], observations: Iterable[Observation], known: tuple[date, date]) -> tuple[Day, ...]:
    """The days of the span, both ends included. `known`: the first day of which anything can be known, and today."""
    ended: dict[date, list[SessionEnded]] = {}
    closed: dict[date, State] = {}
    for what in observations:
        if isinstance(what, SessionEnded):
            ended.setdefault(what.day, []).append(what)
        elif isinstance(what, DayClosed):
            closed[what.day] = State(what.ending)
    first, last = span
    every = [first + timedelta(days=step) for step in range((last - first).days + 1)]
    return tuple(_day(rule.of_day(day), day, ended.get(day, []), closed.get(day), known) for day in every)


def _day(reign: Reign, day: date, ended: list[SessionEnded], closed: State | None, known: tuple[date, date]) -> Day:
    since, today = known
    asked = bool(ended) if reign.plan is None else day.weekday() in reign.plan.practice.weekdays and not reign.plan.over(day)
    due = closed is not None or (day >= since and asked)
    endings = [State(what.ending) for what in ended]
    state: State | None = None
    if endings:
        state = min(endings, key=_BEST_FIRST.index)
    elif due:
        state = closed or (State.NO_RECORD if day < today else State.TO_COME)
    return Day(day, due, state, State.NO_WORD in endings, reign.version, sum(what.done > 0 for what in ended))


def tally(of: Iterable[Day]) -> Tally:
    """The days counted by their state."""
    every = tuple(of)
    counts = Counter(day.state for day in every if day.due)
    extra = sum(day.state in REPORTED for day in every if not day.due)
    return Tally(tuple((state, counts[state]) for state in State if counts[state]), extra)


def parts(of: Iterable[Day]) -> tuple[Part, ...]:
    """The days by plan, in their order; of no plan where all count to one."""
    found = [(version, tuple(own)) for version, own in groupby(of, key=lambda day: day.version)]
    return tuple(Part(version, own[0].day, tally(own)) for version, own in found) if len(found) > 1 else ()
