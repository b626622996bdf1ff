"""Invented courses of practice, as sessions at home leave them on record: always the same for the same number.

Five days a week are due. A session has seven bouts and the answers around them; on one day in five nobody answers; a new plan
comes every eight weeks, a flag about twice a year, each lifted on the next day.
"""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from pathlib import Path
from random import Random
from zoneinfo import ZoneInfo

from companion.core.care import Client, People
from companion.core.observations import (
    Answer,
    Bounds,
    Bout,
    BrokeBy,
    CarerSeen,
    DayClosed,
    Ending,
    FlagAcknowledged,
    FlagLifted,
    FlagRaised,
    Observation,
    OwnWords,
    PlanPrescribed,
    Quality,
    Reporter,
    SessionEnded,
)
from companion.core.programme import Clock, Eyes, Hand, Level, Measure, Place, Plan, Planned, Practice, ReportTime, Side, Stance
from companion.store import Store

ZONE = "Europe/London"
HERE = ZoneInfo(ZONE)
DUE = (0, 1, 2, 4, 5)
WEEKS_OF_A_PLAN = 8
BATCH = 200
NAMES = ("Edda Lorne", "Tomas Arvel", "Wilma Skeet", "Jory Pell", "Hanne Brisk", "Osk Marrow", "Leda Quince", "Rurik Vane")
WORDS = (
    "It felt easier today.",
    "My knee was stiff this morning, so I went slowly and stopped once to sit down for a while.",
    "I could look out of the window while standing.",
)
TIMED = (
    (Stance.FEET_TOGETHER, "together", (None,)),
    (Stance.HEEL_TO_TOE, "touching", (Side.STRONGER, Side.WEAKER)),
    (Stance.ONE_LEG, "foot_up", (Side.STRONGER, Side.WEAKER)),
)
COUNTED = (Stance.ONE_LEG_TOES, "toes_pat", (Side.STRONGER, Side.WEAKER))


def plan(version: int) -> Plan:
    """The plan of that version."""
    timed = (_planned(stance, form, 60) for stance, form, _ in TIMED)
    return Plan(
        version=version,
        exercises=(*timed, _planned(COUNTED[0], COUNTED[1], 3)),
        practice=Practice(DUE, (time(10),)),
        report=ReportTime(6, time(18), ZONE),
        place=Place("worktop", "shoes"),
    )


def _planned(stance: Stance, form: str, target: int) -> Planned:
    timed = Clock.SCREEN if target > 3 else Clock.NONE
    return Planned(stance, form, target, Hand.HOVERING, timed, form, Hand.HOVERING)


def client(number: int, first: date, last: date) -> Client:
    """The client of that number, who practises from `first` to `last`."""
    since, newest = at(first, 8), 1 + (last - first).days // (7 * WEEKS_OF_A_PLAN)
    return Client(
        id=f"c{number}",
        name=f"{NAMES[number % len(NAMES)]} {number}",
        zone=ZONE,
        people=People(client=f"p{number}", therapist="thea", carer=f"b{number}"),
        looked_at=at(last, 23),
        reported_at=at(last, 23),
        plan=plan(newest),
        since=since,
        previous=plan(newest - 1) if newest > 1 else None,
    )


def at(day: date, hour: int, minute: int = 0) -> datetime:
    """That local time as an instant."""
    return datetime.combine(day, time(hour, minute), HERE).astimezone(ZoneInfo("UTC"))


def course(number: int, first: date, last: date) -> Iterator[Observation]:
    """What is on record of the client of that number from `first` to `last`, both included, in order of time."""
    chance, days = Random(number), (last - first).days + 1
    for place in range(days):
        day = first + timedelta(days=place)
        if place % (7 * WEEKS_OF_A_PLAN) == 0:
            version = 1 + place // (7 * WEEKS_OF_A_PLAN)
            yield PlanPrescribed(at(day, 8), version, "thea", "step", plan(version))
        if day.weekday() not in DUE:
            continue
        if chance.random() < 0.2:
            yield DayClosed(at(day, 23), day, chance.choice((Ending.NO_ANSWER, Ending.DECLINED)))
            continue
        yield from _session(day, chance, min(1.0, 0.4 + place / 700))
        if chance.random() < 0.008:
            yield from _flag(day, f"f{place}")


def _session(day: date, chance: Random, skill: float) -> Iterator[Observation]:
    name = f"s{day.toordinal()}"
    holds = [_hold(day, name, chance, skill, (stance, form, side)) for stance, form, sides in TIMED for side in sides]
    claps = [_claps(hold, chance) for hold in holds[-2:]]
    for place, bout in enumerate((*holds, *claps)):
        yield replace(bout, at=bout.at + timedelta(minutes=2 * place))
    for question, choices in (("effort", ("easy", "medium", "hard")), ("confidence", ("sure", "a_little_sure", "not_sure"))):
        yield Answer(at(day, 10, 28), name, None, question, chance.choice(choices), Reporter.CLIENT)
    effort = chance.choice(("easy", "medium", "hard"))
    yield SessionEnded(at(day, 10, 30), name, day, at(day, 10, 5), Ending.DONE, 7, 7, CarerSeen.VERIFIED, effort)
    yield Answer(at(day, 10, 31), name, None, "carer_after", "all_well", Reporter.CARER)
    if chance.random() < 0.3:
        yield OwnWords(at(day, 10, 32), Reporter.CLIENT, chance.choice(WORDS))


def _hold(day: date, session: str, chance: Random, skill: float, what: tuple[Stance, str, Side | None]) -> Bout:
    stance, form, side = what
    clean = chance.random() < skill
    quarter = chance.randrange(4)
    low = 15.0 * quarter
    return Bout(
        at=at(day, 10, 8),
        session=session,
        exercise=stance,
        form=form,
        stance=stance,
        eyes=Eyes.OPEN,
        hand=Hand.HOVERING,
        clock=Clock.SCREEN,
        measure=Measure.TIMED,
        target=60,
        side=side,
        quality=Quality.CLEAN if clean else Quality.BROKE,
        practised_s=60.0,
        done=None,
        first_break=Bounds(60.0, None) if clean else Bounds(low, low + 15.0),
        broke_by=None if clean else chance.choice((BrokeBy.STEP, BrokeBy.HAND)),
        reporter=Reporter.CLIENT,
    )


def _claps(hold: Bout, chance: Random) -> Bout:
    done = chance.choice((2, 3, 3))
    quality = Quality.CLEAN if done == 3 else Quality.ENDED_EARLY
    own = replace(hold, exercise=COUNTED[0], form=COUNTED[1], stance=COUNTED[0], clock=Clock.NONE, measure=Measure.COUNTED)
    return replace(own, target=3, quality=quality, practised_s=None, done=done, first_break=None, broke_by=None)


def _flag(day: date, flag: str) -> Iterator[Observation]:
    yield FlagRaised(at(day, 11), flag, "sign_dizzy", Level.EMERGENCY, ("sign.dizzy",), "thea")
    yield FlagAcknowledged(at(day, 12), flag, "thea")
    yield FlagLifted(at(day + timedelta(days=1), 9), flag, "thea", "seen")


async def write(database: Path, numbers: Iterable[int], first: date, last: date) -> None:
    """Make the database, with these clients and all that is on record of them."""
    store = await Store.open(database, active=False)
    everybody = list(numbers)
    try:
        for begin in range(0, len(everybody), BATCH):
            async with store.writing() as tx:
                for number in everybody[begin : begin + BATCH]:
                    await tx.add_client(client(number, first, last), None, 0)
                    for what in course(number, first, last):
                        await tx.record(f"c{number}", what)
    finally:
        await store.close()
