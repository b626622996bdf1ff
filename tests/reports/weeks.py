"""Invented weeks to draw. The people and places are made up."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from companion.core.observations import (
    Answer,
    Bounds,
    Bout,
    BrokeBy,
    CarerSeen,
    DayClosed,
    Ending,
    FallKind,
    FallReported,
    FlagAcknowledged,
    FlagLifted,
    FlagRaised,
    Observation,
    OwnWords,
    Quality,
    Reporter,
    SessionEnded,
)
from companion.core.programme import (
    Clock,
    Eyes,
    Hand,
    Level,
    Measure,
    Place,
    Plan,
    Planned,
    Practice,
    ReportTime,
    Side,
    Stance,
)
from companion.reports.week import Case, Week, summarise

MONDAY = date(2026, 11, 23)
SUNDAY = MONDAY + timedelta(days=6)
ZONE = "Europe/London"
SUNDAY_EVENING = datetime(2026, 11, 29, 19, 0, tzinfo=UTC)
MONDAY_MORNING = datetime(2026, 11, 30, 8, 0, tzinfo=UTC)
Dated = tuple[datetime, Observation]


def planned(exercise: str, form: str = "usual", target: int = 60, clock: Clock = Clock.SCREEN) -> Planned:
    return Planned(exercise, form, target, Hand.HOVERING, clock, form, Hand.HOVERING)


def plan(*exercises: str, weekdays: Sequence[int] = range(7), times: Sequence[time] = (time(10),)) -> Plan:
    return Plan(
        version=1,
        exercises=tuple(planned(exercise) for exercise in exercises),
        practice=Practice(tuple(weekdays), tuple(times)),
        report=ReportTime(6, time(18), ZONE),
        place=Place("worktop", "shoes"),
    )


def case(name: str = "Odda Fennimore", plan_: Plan | None = None, zone: str = ZONE) -> Case:
    roles = (("odda", "client"), ("bram", "carer"), ("thea", "therapist"))
    return Case(name, zone, plan_ or plan("feet_together", "heel_to_toe", "one_leg", "one_leg_toes"), roles)


def at(day: date, hour: int = 10, minute: int = 0) -> datetime:
    return datetime.combine(day, time(hour, minute), ZoneInfo(ZONE)).astimezone(UTC)


def day(number: int) -> date:
    """The day of the week, 0 is Monday; negative: the week before."""
    return MONDAY + timedelta(days=number)


def bout(on: date, stance: Stance = Stance.HEEL_TO_TOE, side: Side | None = Side.WEAKER, quarter: int | None = None) -> Bout:
    """A minute's hold, clean, or first broken by a step in that quarter (1 to 4)."""
    return Bout(
        at=at(on, 10, 10),
        session=f"s{on:%m%d}",
        exercise=str(stance),
        form="usual",
        stance=stance,
        eyes=Eyes.OPEN,
        hand=Hand.HOVERING,
        clock=Clock.SCREEN,
        measure=Measure.TIMED,
        target=60,
        side=side,
        quality=Quality.CLEAN if quarter is None else Quality.BROKE,
        practised_s=60.0,
        done=None,
        first_break=Bounds(60.0, None) if quarter is None else Bounds(15.0 * (quarter - 1), 15.0 * quarter),
        broke_by=None if quarter is None else BrokeBy.STEP,
        reporter=Reporter.CLIENT,
    )


def claps(on: date, side: Side, done: int, exercise: str = "one_leg_toes") -> Bout:
    """Claps on the toes of one leg, out of 3."""
    hold = bout(on, Stance.ONE_LEG_TOES, side)
    quality = Quality.CLEAN if done == 3 else Quality.ENDED_EARLY
    return replace(
        hold,
        exercise=exercise,
        hand=Hand.FINGERTIPS,
        clock=Clock.NONE,
        measure=Measure.COUNTED,
        target=3,
        quality=quality,
        practised_s=None,
        done=done,
        first_break=None,
    )


def unanswered(hold: Bout) -> Bout:
    """The same bout, of which nobody said how it went."""
    return replace(
        hold,
        quality=Quality.UNKNOWN,
        practised_s=None,
        done=None,
        first_break=None,
        broke_by=None,
        reporter=Reporter.NOBODY,
    )


def unwell(hold: Bout, seconds: float) -> Bout:
    """The same bout, stopped for a symptom after so many seconds; no break told."""
    return replace(hold, quality=Quality.UNWELL, practised_s=seconds, first_break=None, broke_by=None)


def ended(on: date, ending: Ending = Ending.DONE, done: int = 7, effort: str | None = "medium") -> SessionEnded:
    return SessionEnded(
        at=at(on, 10, 30),
        session=f"s{on:%m%d}",
        day=on,
        began=at(on, 10, 5),
        ending=ending,
        planned=7,
        done=done,
        carer=CarerSeen.VERIFIED if done else CarerSeen.NOT_NEEDED,
        effort=effort if done else None,
    )


def closed(on: date, ending: Ending = Ending.NO_ANSWER) -> DayClosed:
    return DayClosed(at(on, 23, 59), on, ending)


def said(on: date, text: str, by: Reporter = Reporter.CLIENT) -> OwnWords:
    return OwnWords(at(on, 10, 32), by, text)


def confident(on: date, answer: str, by: Reporter = Reporter.CLIENT) -> Answer:
    return Answer(at(on, 10, 29), f"s{on:%m%d}", None, "confidence", answer, by)


def session(on: date, *quarters: int | None) -> list[Observation]:
    """A done session: feet together; heel-to-toe and one leg on both sides; claps. `quarters`: when each hold broke."""
    broke = [*quarters, *([None] * 5)]
    return [
        bout(on, Stance.FEET_TOGETHER, None, broke[0]),
        bout(on, Stance.HEEL_TO_TOE, Side.STRONGER, broke[1]),
        bout(on, Stance.HEEL_TO_TOE, Side.WEAKER, broke[2]),
        bout(on, Stance.ONE_LEG, Side.STRONGER, broke[3]),
        bout(on, Stance.ONE_LEG, Side.WEAKER, broke[4]),
        claps(on, Side.STRONGER, 3),
        claps(on, Side.WEAKER, 2 if broke[4] else 3),
        ended(on),
    ]


def fell(on: date, flag: str = "f1", *, lifted: date | None = None, seen: bool = True) -> list[Observation]:
    """A fall with a flag, reported by the carer."""
    found: list[Observation] = [
        FlagRaised(
            at(on, 10, 14), flag, "head_unsure_blood_thinner", Level.EMERGENCY, ("fall", "head_unsure", "blood_thinner"), "bram"
        ),
        FallReported(at(on, 10, 14), flag, FallKind.UNKNOWN, "bram"),
        FallReported(at(on, 10, 22), flag, FallKind.FALL, "bram"),
    ]
    if seen:
        found.append(FlagAcknowledged(at(on, 10, 20), flag, "thea"))
    if lifted is not None:
        found.append(FlagLifted(at(lifted, 15, 2), flag, "thea", "seen"))
    return found


def dated(*groups: Iterable[Observation] | Observation) -> list[Dated]:
    """Observations with their times, in the order given."""
    flat: list[Observation] = []
    for group in groups:
        flat.extend(group if isinstance(group, Iterable) else (group,))
    return [(what.at, what) for what in flat]


def week(*groups: Iterable[Observation] | Observation, of: Case | None = None, as_of: datetime = MONDAY_MORNING) -> Week:
    """The week of these observations."""
    return summarise(of or case(), MONDAY, SUNDAY, dated(*groups), as_of)
