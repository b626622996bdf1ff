"""What stands first on the weekly chart and in its caption: what waits for the therapist, or is to be checked, or neither.

Silence is never "nothing": where anything of the week is unknown, that is to be checked.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta
from enum import StrEnum
from itertools import groupby

from companion.core.described import way
from companion.core.how import key
from companion.core.observations import Proposed
from companion.core.programme import Challenge, Direction, Measure, Sides
from companion.core.progression import easier, harder
from companion.measures.due import UNKNOWN, State
from companion.reports.week import Week
from companion.reports.wording import Wording

OFTEN = 3
"""So many bouts with none of them clean are worth a look."""
NAMED = 5
"""So many stances and sides are named; of more, how many."""


class Call(StrEnum):
    """What the bar asks of the therapist: to lift a stop or keep it, to decide on a step, a look at what nobody told of or at
    what is known, or nothing."""

    STOP = "stop"
    DECIDE = "decide"
    UNKNOWN = "unknown"
    CHECK = "check"
    NOTHING = "nothing"


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the bar. `more`: what the decision is about."""

    call: Call
    text: str
    more: str = ""


def lines(week: Week, wording: Wording) -> tuple[Line, ...]:
    """What waits, each thing on a line of its own; then what to check, on one; at least one line."""
    waits = [*_stops(week, wording), *_steps(week, wording)]
    check = tuple(_check(week, wording))
    if check:
        silent = week.tally.silent or week.no_word_days or week.unanswered
        waits.append(Line(Call.UNKNOWN if silent else Call.CHECK, wording.say("bar-check", what="; ".join(check))))
    to_come = week.days_of(State.TO_COME)
    if to_come and not waits:
        text = wording.say("bar-nothing-yet", days=wording.many(map(wording.day, to_come)))
        return (Line(Call.NOTHING, text),)
    return tuple(waits) or (Line(Call.NOTHING, wording.say("bar-nothing")),)


def _stops(week: Week, wording: Wording) -> Iterator[Line]:
    """The flags that only the therapist can lift, every one by its time."""
    if week.to_lift:
        stops = "; ".join(
            wording.say("bar-stop", at=wording.moment(flag.at), seen="yes" if flag.seen else "no") for flag in week.to_lift
        )
        yield Line(Call.STOP, wording.say("bar-lift", count=len(week.to_lift), stops=stops))


def _steps(week: Week, wording: Wording) -> Iterator[Line]:
    """The steps proposed: which exercise, which way, and from what to what where the plan and the library still say it."""
    for one in week.proposed:
        name, at = wording.exercise(one.exercise), wording.moment(one.at)
        step = wording.say("bar-step", exercise=name, way=one.direction, at=at)
        yield Line(Call.DECIDE, step, _change(week, one, wording))


def _change(week: Week, one: Proposed, wording: Wording) -> str:
    rules, plan = wording.rules, week.plan
    if rules is None or plan is None or plan.version != one.version or one.exercise not in rules.exercises:
        return ""
    exercise = rules.exercises[one.exercise]
    item = next((item for item in plan.exercises if item.exercise == one.exercise), None)
    if item is None or item.form not in {form.id for form in exercise.forms}:
        return ""
    carer = any(role == "carer" for _, role in week.roles)
    if one.direction is Direction.UP:
        up = harder(item, exercise, plan, carer, rules.progression)
        then = up[1] if up is not None and up[0] == one.step else None
    else:
        then = easier(item, exercise, plan, carer)
    if then is None:
        return ""
    before, after = (wording.texts.text(way(each, exercise), wording.language) for each in (item, then))
    sides = "none" if exercise.sides is Sides.NONE else "both"
    more_repeats = one.step == Challenge.LONGER_HOLD and exercise.form(item.form).measure is Measure.COUNTED
    step = "more-repeats" if more_repeats else key(one.step) if one.step else "back"
    return wording.say("bar-change", step=step, sides=sides, before=before, after=after)


def _check(week: Week, wording: Wording) -> Iterator[str]:
    say, tally = wording.say, week.tally
    if tally.unknown:
        yield say("check-unknown", count=tally.unknown, due=tally.due)
    if week.no_word_days:
        yield say("check-no-word", days=wording.many(map(wording.day, week.no_word_days)))
    partly = [day for day in week.days if day.silent and day.state not in UNKNOWN]
    if partly:
        days = wording.many(wording.day(day.day) for day in partly)
        yield say("check-sessions-unknown", count=sum(day.silent for day in partly), days=days)
    if week.unanswered:
        yield say("check-unanswered", count=week.unanswered)
    if week.near_falls:
        yield say("check-near-falls", days=wording.many(map(wording.day, sorted(set(week.near_falls)))))
    if week.lower is not None:
        yield say("check-lower", since=wording.since(week.lower))
    alone = sorted({one.day for one in week.carer_absent if one.begun})
    if alone:
        yield say("check-carer-absent", days=wording.many(map(wording.day, alone)))
    if week.carer_saw_more:
        yield say("check-carer-saw-more", count=week.carer_saw_more)
    if week.paused_through:
        until = week.pause.until if week.pause is not None else None
        yield say("check-paused", last="unknown" if until is None else wording.full_day(until - timedelta(days=1)))
    if tally.due and not tally.unknown and not tally.reported:
        yield say("check-none-done", due=tally.due)
    yield from _never_clean(week, wording)


def _never_clean(week: Week, wording: Wording) -> Iterator[str]:
    """The stances and sides tried often and never clean, those tried most first; a fact, and no judgement on it."""
    often = [
        (side.now.tried, wording.short(line, side))
        for line in week.stances
        for side in line.sides
        if side.now.tried >= OFTEN and not side.now.clean
    ]
    often.sort(key=lambda one: -one[0])
    for tried, same in groupby(often[:NAMED], key=lambda one: one[0]):
        yield wording.say("check-never-clean", tried=tried, lines=wording.many(short for _, short in same))
    if len(often) > NAMED:
        yield wording.say("check-never-clean-more", count=len(often) - NAMED)
