"""The days of a span: whether practice was due by the plan of that day, what became of it, and what was reported. Pure.

What nobody told of is unknown: it stays among the days due and is counted apart, never as zero. So is a session that ended
without a word after standing: it is not done, and not undone either. A day paused or held leaves the count. The companion's own
process asks too, so no library of numbers is loaded.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from itertools import groupby

from companion.core import caseload
from companion.core.observations import Bout, DayClosed, SessionEnded
from companion.core.programme import Progression
from companion.measures.dated import Observed, with_days
from companion.measures.plans import Plans


class State(StrEnum):
    """What became of a day's practice; of several endings the first one here counts. All but the last two are an `Ending`.

    NO_WORD stands before what is known not to be done, since it may have been.
    """

    DONE = "done"
    PARTLY = "partly"
    NO_WORD = "no_word"
    STOPPED = "stopped"
    NOT_READY = "not_ready"
    NO_ANSWER = "no_answer"
    NOT_ASKED = "not_asked"
    DECLINED = "declined"
    HELD = "held"
    PAUSED = "paused"
    NO_RECORD = "no_record"
    TO_COME = "to_come"


UNKNOWN = frozenset({State.NO_WORD, State.NO_ANSWER, State.NOT_ASKED, State.NO_RECORD})
LEFT_OUT = frozenset(map(State, caseload.NOT_COUNTED))
NOT_COUNTED = LEFT_OUT | {State.TO_COME}
REPORTED = frozenset(map(State, caseload.REPORTED))
"""What counts is the same as on the therapist's list."""
_IN_ORDER = tuple(State)


def adherent(reported: int, due: int) -> bool | None:
    """The label of SS-MAHE 2019: more than 70 % of what was due, so 7 of 10 is not; None where nothing was due.

    It is the published one: a service that proposes steps by another share does not change it.
    """
    return Progression().is_adherent(reported, due)


@dataclass(frozen=True, slots=True)
class Day:
    """One local day. The plan may ask for its whole dose several times a day.

    `state` None: nothing was due and nothing took place. `due` False with a state: practised beyond what was due.
    `no_word`: a session of that day ended without a word after standing, whatever came later. `version` is that of the plan
    that the day counts to; `sessions` are those in which something was done, `bouts` and `seconds` what was reported of them.
    `asked`: for how many sessions the plan asked, 1 where that is not known, 0 where none was due; `reported`: how many ended
    done or partly; `silent`: of how many of those asked for nobody told anything.
    """

    day: date
    due: bool
    state: State | None
    no_word: bool = False
    version: int = 0
    sessions: int = 0
    bouts: int = 0
    seconds: float = 0.0
    asked: int = 1
    reported: int = 0
    silent: int = 0


@dataclass(frozen=True, slots=True)
class Tally:
    """Days on which practice was due, by state; `extra` are days on which it was not and was reported all the same.

    `sessions` of `asked` were reported done or partly, of the days that count as due, and of `silent` nobody told anything;
    those beyond what a day asked for are in neither. Where a plan asks once a day these are the days.
    """

    states: tuple[tuple[State, int], ...]
    extra: int
    sessions: int = 0
    asked: int = 0
    silent: int = 0

    def count(self, *states: State) -> int:
        """How many of the days due are in one of these states."""
        return sum(number for state, number in self.states if state in states)

    @property
    def due(self) -> int:
        """Days that count as due: not those held, paused or still to come."""
        return sum(number for state, number in self.states if state not in NOT_COUNTED)

    @property
    def reported(self) -> int:
        """Days reported done or partly."""
        return self.count(*REPORTED)

    @property
    def unknown(self) -> int:
        """Days due of which nobody told how they went."""
        return self.count(*UNKNOWN)

    @property
    def more_than_70(self) -> bool:
        """Whether the label of SS-MAHE is earned, which is by sessions."""
        return adherent(self.sessions, self.asked) is True


@dataclass(frozen=True, slots=True)
class Part:
    """Days that count to one plan, one after another; `first` is the first of them."""

    version: int
    days: tuple[Day, ...]

    @property
    def first(self) -> date:
        return self.days[0].day

    @property
    def tally(self) -> Tally:
        return tally(self.days)


def days(plans: Plans, span: tuple[date, date], observations: Observed, today: date) -> tuple[Day, ...]:
    """The local days of the span, both ends included. A day from `today` on that is not closed is still to come.

    A day due that left no record is unknown: the companion was away.
    """
    ended: dict[date, list[SessionEnded]] = {}
    closed: dict[date, list[State]] = {}
    tenths: Counter[date] = Counter()  # whole numbers: what is added up does not depend on the order
    for day, what in with_days(observations, plans.zone):
        if isinstance(what, SessionEnded):
            ended.setdefault(day, []).append(what)
        elif isinstance(what, DayClosed):
            closed.setdefault(day, []).append(State(what.ending))
        elif isinstance(what, Bout):
            tenths[day] += round((what.practised_s or 0.0) * 10)
    first, last = span
    found = []
    for day in (first + timedelta(days=step) for step in range((last - first).days + 1)):
        reign, asked = plans.of_day(day)
        own = ended.get(day, [])
        endings = [State(what.ending) for what in own]
        due = asked > 0 or day in closed
        state = min((*endings, *closed.get(day, ())), key=_IN_ORDER.index, default=None)
        if state is None and due:
            state = State.NO_RECORD if day < today else State.TO_COME
        sessions, bouts = sum(what.done > 0 for what in own), sum(what.done for what in own)
        asked = max(asked, 1) if due else 0
        found.append(
            Day(
                day=day,
                due=due,
                state=state,
                no_word=State.NO_WORD in endings,
                version=reign.version,
                sessions=sessions,
                bouts=bouts,
                seconds=tenths[day] / 10,
                asked=asked,
                reported=sum(ending in REPORTED for ending in endings),
                silent=_silent(asked, state, len(endings)),
            )
        )
    return tuple(found)


def _silent(asked: int, state: State | None, ended: int) -> int:
    """Of how many sessions asked for on a day nobody told anything. "Not today" is told for all that were to come."""
    if state in UNKNOWN:
        return asked
    return max(0, asked - ended) if state in REPORTED | {State.STOPPED, State.NOT_READY} else 0


def tally(of: Iterable[Day]) -> Tally:
    """The days counted by their state."""
    every = tuple(of)
    counts = Counter(day.state for day in every if day.due)
    extra = sum(day.state in REPORTED for day in every if not day.due)
    counted = [day for day in every if day.due and day.state not in NOT_COUNTED]
    sessions = sum(min(day.reported, day.asked) for day in counted)
    states = tuple((state, counts[state]) for state in State if counts[state])
    return Tally(states, extra, sessions, sum(day.asked for day in counted), sum(day.silent for day in counted))


def parts(of: Iterable[Day]) -> tuple[Part, ...]:
    """The days by plan, in their order."""
    return tuple(Part(version, tuple(own)) for version, own in groupby(of, key=lambda day: day.version))
