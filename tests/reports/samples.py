"""Eight weeks that between them show everything the chart can show."""

from dataclasses import replace
from datetime import time

from companion.content import library
from companion.content.folders import content_dir
from companion.content.texts import Texts
from companion.core.observations import (
    BrokeBy,
    CarerSeen,
    Ending,
    FlagRaised,
    Observation,
    PauseAgreed,
    Quality,
    Reporter,
)
from companion.core.programme import Clock, Eyes, Hand, Level, Side, Stance
from companion.reports.week import Week
from companion.reports.wording import Wording
from tests.reports import weeks
from tests.reports.weeks import bout, claps, closed, confident, day, ended, fell, said, session, unanswered, unwell, week

TEXTS = Texts(content_dir() / "texts")
RULES = library.load(content_dir()).without_number


def usual() -> Week:
    """A middling week: a day without an answer, a partly done one, a pause, more clean minutes than last week."""
    before = [session(day(n), None, 2, 1, 2, 1) for n in range(-7, -2)]
    partly: list[Observation] = [
        bout(day(3), Stance.FEET_TOGETHER, None),
        bout(day(3), side=Side.STRONGER, quarter=4),
        ended(day(3), Ending.PARTLY, 2, "hard"),
    ]
    return week(
        *before,
        closed(day(-2)),
        session(day(0), None, None, 2, 3, 1),
        closed(day(1)),
        session(day(2), None, None, 3, None, 2),
        partly,
        session(day(4), None, None, 3, None, 2),
        closed(day(5), Ending.PAUSED),
        session(day(6), None, None, None, 4, 2),
        confident(day(0), "a_little_sure"),
        said(day(4), "Legs felt like jelly after the shops. Kitchen floor is cold, I used my slippers."),
        as_of=weeks.MONDAY_MORNING,
    )


def first() -> Week:
    """The first week, three days due, two of them practised, Sunday evening with Sunday still due."""
    of = weeks.case("Per Aldergate", weeks.plan("feet_together", "heel_to_toe", weekdays=(2, 4, 6)))
    return week(
        [
            bout(day(2), Stance.FEET_TOGETHER, None, 4),
            bout(day(2), side=Side.STRONGER, quarter=2),
            bout(day(2), quarter=1),
            ended(day(2), done=3),
        ],
        [
            bout(day(4), Stance.FEET_TOGETHER, None),
            bout(day(4), side=Side.STRONGER, quarter=3),
            unanswered(bout(day(4))),
            ended(day(4), Ending.NO_WORD, 2, None),
        ],
        of=of,
        as_of=weeks.SUNDAY_EVENING,
    )


def red_flag() -> Week:
    """On Thursday unwell in a bout, and a fall: still held; a fall on Monday, lifted."""
    return week(
        *[session(day(n), None, 4, 3, 4, 3) for n in range(-7, 0)],
        session(day(0), None, 4, 3, None, 3),
        fell(day(0), "f0", lifted=day(1)),
        closed(day(1), Ending.HELD),
        session(day(2), None, None, 3, None, 2),
        [
            unwell(bout(day(3), Stance.FEET_TOGETHER, None), 9.0),
            replace(ended(day(3), Ending.STOPPED, 0), carer=CarerSeen.VERIFIED),
        ],
        [replace(what, facts=("felt_unwell", *what.facts)) if isinstance(what, FlagRaised) else what for what in fell(day(3))],
        *[closed(day(n), Ending.HELD) for n in (4, 5, 6)],
        said(day(3), "I went down on the mat. Bram helped me up.", Reporter.CLIENT),
        said(day(4), "Bruise on the hip, walking is fine.", Reporter.CARER),
        said(day(5), "When can we go on? It costs $5 to ring the ward and $6 to text.", Reporter.CLIENT),
    )


def empty() -> Week:
    """Nobody answered, all week, and nothing is known of the week before."""
    return week(*[closed(day(n)) for n in range(7)])


def clean() -> Week:
    """Everything done, everything clean, as last week."""
    return week(*[session(day(n)) for n in range(-7, 0)], *[session(day(n)) for n in range(7)])


def one_side() -> Week:
    """The weaker side breaks in the first quarter every day; the stronger never; two sessions a day."""
    of = weeks.case("Ottoline Vane", weeks.plan("heel_to_toe", "one_leg", times=(time(10), time(16))))
    found: list[Observation] = []
    for number in range(-7, 6):
        for part in range(2 if number % 3 else 1):
            for stance in (Stance.HEEL_TO_TOE, Stance.ONE_LEG):
                found += [
                    bout(day(number), stance, Side.STRONGER),
                    replace(bout(day(number), stance, quarter=1), hand=Hand.FINGERTIPS, eased=1),
                ]
            found.append(ended(day(number), done=4, effort="hard" if part else "easy"))
    return week(found, closed(day(6), Ending.DECLINED), of=of)


LONG = "Wilhelmina Philippa Anastasia von Hohenberg-Ostermannstein und zu Rabensteinfeld"
EIGHT = (
    Stance.FEET_TOGETHER,
    Stance.HALF_STEP,
    Stance.HEEL_TO_TOE,
    Stance.ONE_LEG,
)


def eight() -> Week:
    """Eight exercises, a long name, long words, eyes closed, every kind of bout; a fall on Tuesday, lifted that day; from
    Friday on, from its check, a flag that was reported again on Saturday and that nobody acknowledged."""
    names = (
        "seated_press",
        "feet_together",
        "feet_together_eyes_closed",
        "half_step",
        "heel_to_toe",
        "one_leg",
        "one_leg_toes",
        "heel_to_toe_walk",
    )
    of = weeks.case(LONG, weeks.plan(*names))
    found: list[Observation] = []
    for number in (-6, -4, -3, 0, 2, 3):
        quarter = (number % 4) + 1
        press = replace(
            claps(day(number), Side.WEAKER, 3, "seated_press"),
            stance=Stance.SEATED,
            side=None,
            target=10,
            done=None if number == 3 else 10,
            hand=Hand.TWO_HANDS,
        )
        walk = replace(
            claps(day(number), Side.WEAKER, 3, "heel_to_toe_walk"), stance=Stance.WALKING, side=None, target=1, done=1
        )
        shut = replace(
            bout(day(number), Stance.FEET_TOGETHER, None, quarter),
            eyes=Eyes.CLOSED,
            exercise="feet_together_eyes_closed",
            hand=Hand.ONE_HAND,
            clock=Clock.CARER,
        )
        found += [press, bout(day(number), Stance.FEET_TOGETHER, None), shut]
        for stance in EIGHT[1:]:
            found += [
                bout(day(number), stance, Side.STRONGER, None if number % 2 else 4),
                bout(day(number), stance, Side.WEAKER, quarter),
            ]
        found += [
            claps(day(number), Side.STRONGER, 3),
            claps(day(number), Side.WEAKER, 1),
            walk,
            ended(day(number), done=11),
        ]
    found.append(
        replace(
            bout(day(2), Stance.HALF_STEP, Side.WEAKER),
            quality=Quality.ENDED_EARLY,
            first_break=None,
            practised_s=40.0,
            eased=1,
        )
    )
    found.append(replace(bout(day(3), Stance.ONE_LEG, Side.STRONGER, 2), broke_by=BrokeBy.LEANED, first_break=None))
    stopped = replace(ended(day(4), Ending.STOPPED, 0), carer=CarerSeen.ABSENT)
    found.append(replace(stopped, at=weeks.at(day(4), 9), began=weeks.at(day(4), 8, 55)))
    signs = ("sign.calf", "felt_unwell")
    flags = [
        FlagRaised(weeks.at(day(n), 9), "u4", "sign_calf", Level.URGENT, signs, by) for n, by in ((4, "odda"), (5, "bram"))
    ]
    words = "Thelegsaregoodtodaybutthekneeisnotandthedoctorsaidthatitwouldtakesometimetosettledownagain. " * 4
    return week(
        found,
        closed(day(1), Ending.HELD),
        *[closed(day(number), Ending.HELD) for number in (5, 6)],
        flags,
        fell(day(1), lifted=day(1)),
        said(day(2), words),
        of=of,
    )


def hold() -> Week:
    """Paused all week: nothing counted as due."""
    return week(
        *[session(day(n), None, 2, 1, 2, 1) for n in range(-7, 0)],
        PauseAgreed(weeks.at(day(-1), 18), "holiday", day(10)),
        *[closed(day(n), Ending.PAUSED) for n in range(7)],
    )


SAMPLES = {
    "usual": usual,
    "first": first,
    "red_flag": red_flag,
    "empty": empty,
    "clean": clean,
    "one_side": one_side,
    "eight": eight,
    "paused": hold,
}


def wording(of: Week) -> Wording:
    return Wording(TEXTS, "en", of.zone, of.roles, rules=RULES)
