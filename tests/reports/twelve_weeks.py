"""Twelve weeks that a therapist may be sent, from a perfect one to one of thirty sessions. The people are invented."""

from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import time, timedelta

from companion.core.observations import (
    Bout,
    Course,
    CourseNoted,
    Ending,
    Observation,
    PlanPrescribed,
    Proposed,
    SessionEnded,
)
from companion.core.programme import Direction, Hand, Side, Stance
from companion.reports.week import Week
from tests.reports import samples
from tests.reports.weeks import at, bout, case, claps, closed, confident, day, ended, plan, said, session, week

FORMS = ("together", "touching", "foot_up", "toes_clap")
"""The usual forms of the library of what is planned in that week."""


def perfect() -> Week:
    """Everything done; one break; a step up is proposed and waits."""
    before = [session(day(n), None, None, 4, None, 4) for n in range(-7, 0)]
    broke = session(day(1), None, None, None, None, 4)
    up = Proposed(at(day(5), 11), "p1", "heel_to_toe", Direction.UP, "less_hand", 1, (day(3), day(4), day(5)))
    usual = plan("feet_together", "heel_to_toe", "one_leg", "one_leg_toes")
    forms = [replace(one, form=form, hardest=form) for one, form in zip(usual.exercises, FORMS, strict=True)]
    of = replace(case(plan_=replace(usual, exercises=tuple(forms))), weaker_side="left")
    return week(*before, session(day(0)), broke, *[session(day(n)) for n in range(2, 7)], up, confident(day(6), "sure"), of=of)


def missing_days() -> Week:
    """Two days nobody answered, one without any record, one on which the companion was away."""
    return week(
        *[session(day(n), None, None, 3, None, 2) for n in (-7, -5, -3)],
        session(day(0), None, None, 3, None, 2),
        closed(day(1)),
        closed(day(2)),
        session(day(3), None, 4, 2, None, 1),
        closed(day(4), Ending.NOT_ASKED),
        session(day(6), None, None, 2, 4, 1),
        CourseNoted(at(day(6), 11), Course.LOW, 38, 0.004),
    )


def two_plans() -> Week:
    """From Thursday on a new plan: heel-to-toe for 60 s instead of 30 s, hovering instead of fingertips."""
    old = plan("feet_together", "heel_to_toe", weekdays=(0, 1, 2, 3, 4))
    new = replace(old, version=4, practice=plan("x").practice)
    found: list[Observation] = []
    for number in (-7, -6, -4, 0, 1, 2, 3, 4, 6):
        later = number >= 3
        for side, quarter in ((Side.STRONGER, None), (Side.WEAKER, (number % 4) + 1 if later or number < 0 else None)):
            hold = bout(day(number), Stance.HEEL_TO_TOE, side, quarter)
            if not later:
                hold = replace(hold, target=30, hand=Hand.FINGERTIPS, practised_s=30.0)
                bounds = hold.first_break
                if bounds is not None:
                    high = None if bounds.high is None else bounds.high / 2
                    hold = replace(hold, first_break=replace(bounds, low=bounds.low / 2, high=high))
            found.append(hold)
        found += [bout(day(number), Stance.FEET_TOGETHER, None), ended(day(number), done=3)]
    found.append(closed(day(5)))
    changed = PlanPrescribed(at(day(3), 8), 4, "thea", "step", new)
    of = replace(case("Marit Olufsen", new), previous=replace(old, version=3))
    return week(found, changed, of=of)


def one_exercise() -> Week:
    """One exercise, three days due."""
    of = case("Jorun Tveit", plan("feet_together", weekdays=(0, 2, 4)))
    found: list[Observation] = []
    for number, quarter in ((-7, 2), (-5, 2), (0, 3), (2, None)):
        found += [bout(day(number), Stance.FEET_TOGETHER, None, quarter), ended(day(number), done=1)]
    return week(
        found,
        closed(day(4), Ending.DECLINED),
        said(day(2), "It felt easier today."),
        of=of,
    )


def thirty_sessions() -> Week:
    """Thirty sessions on seven days, four or five a day, better in the morning."""
    of = case(
        "Sander Quill", plan("feet_together", "heel_to_toe", "one_leg_toes", times=(time(9), time(11), time(14), time(17)))
    )
    found: list[Observation] = []
    for number in range(-7, 7):
        for part in range(5 if number in (1, 4) else 4):
            quarter = (None, 4, 3, 2, 1)[part]
            own: list[Bout | SessionEnded] = [
                bout(day(number), Stance.FEET_TOGETHER, None),
                bout(day(number), Stance.HEEL_TO_TOE, Side.STRONGER, None if part < 3 else 4),
                bout(day(number), Stance.HEEL_TO_TOE, Side.WEAKER, quarter),
                claps(day(number), Side.WEAKER, 3 - part % 3),
                ended(day(number), done=4, effort=("easy", "medium", "hard")[part % 3]),
            ]
            found += list(_of_session(own, f"s{number}.{part}", timedelta(hours=2 * part)))
    return week(found, of=of)


def _of_session(own: Iterable[Bout | SessionEnded], name: str, later: timedelta) -> Iterable[Observation]:
    for what in own:
        yield replace(what, session=name, at=what.at + later)


TWELVE: dict[str, Callable[[], Week]] = {
    "01_perfect": perfect,
    "02_empty": samples.empty,
    "03_first": samples.first,
    "04_red_flag": samples.red_flag,
    "05_paused": samples.hold,
    "06_two_plans": two_plans,
    "07_one_side_weaker": samples.one_side,
    "08_all_clean": samples.clean,
    "09_eight_exercises": samples.eight,
    "10_missing_days": missing_days,
    "11_one_exercise": one_exercise,
    "12_thirty_sessions": thirty_sessions,
}
"""Each week by the name of its picture."""
