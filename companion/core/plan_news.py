"""What is new in a plan, in words for client and carer: one idea a message, and not more of them than can be kept in mind."""

from collections.abc import Iterator, Mapping
from datetime import time

from companion.core.effects import Words, words
from companion.core.how import key
from companion.core.programme import CheckStyle, Clock, Exercise, Measure, Plan, Planned, Practice, Supervision

Lines = tuple[Words, ...]

REASONS = ("steadier", "easier", "asked", "visit")
"""Reasons that have words of their own; any other reason is in the therapist's own words."""

MOST_IDEAS = 3


def for_client(
    before: Plan | None, now: Plan, reason: str, therapist: str, exercises: Mapping[str, Exercise]
) -> tuple[Lines, ...]:
    """The messages, in order. `before` is the plan that the client knows, None for a first plan."""
    why = (_reason(reason, therapist),) if reason else ()
    if before is None:
        return ((words("plan-ready"), *why, *days_and_times(now.practice)),)
    ideas = tuple(_ideas(before, now, exercises))
    title = (words("plan-changed"), *why)
    if len(ideas) > MOST_IDEAS:
        return (title, (words("plan-much-new"), words("plan-screens-tell")))
    return (title, *ideas)


def for_carer(before: Plan | None, now: Plan, name: str, exercises: Mapping[str, Exercise]) -> Lines:
    """What the carer is told: that there is a new plan, and what they do in it that they did not do before."""
    if before is None:
        return (words("plan-ready-carer", name=name), *days_and_times(now.practice))
    kept_before = {planned.exercise for planned in before.exercises if planned.clock is Clock.CARER}
    clocks = (
        words("plan-carer-clock", exercise=name_of(planned.exercise))
        for planned in now.exercises
        if planned.clock is Clock.CARER and planned.exercise not in kept_before and planned.exercise in exercises
    )
    return (words("plan-changed-carer", name=name), *clocks, words("plan-screens-tell"))


def name_of(exercise: str) -> Words:
    """The name of an exercise."""
    return words(f"ex-{key(exercise)}")


def days_and_times(practice: Practice) -> Lines:
    """The days and the times of practice, in a sentence each."""
    if len(practice.weekdays) == 7:
        days = words("plan-every-day")
    else:
        days = words("plan-days", days=listed([words(f"plan-day-{day}") for day in practice.weekdays]))
    return (days, words("plan-times", times=listed([words("plan-time", time=clock_time(at)) for at in practice.times])))


def clock_time(at: time) -> str:
    """A time of day: "09:30"."""
    return at.strftime("%H:%M")


def listed(parts: list[Words]) -> Words:
    """Words one after the other, with commas between."""
    if not parts:
        return words("plan-none")
    said = parts[-1]
    for part in reversed(parts[:-1]):
        said = words("plan-list", first=part, rest=said)
    return said


def _reason(reason: str, therapist: str) -> Words:
    return words(f"plan-reason-{reason}") if reason in REASONS else words("plan-reason-own", therapist=therapist, text=reason)


def _ideas(before: Plan, now: Plan, exercises: Mapping[str, Exercise]) -> Iterator[Lines]:
    """Each thing that the client will notice, gravest for the day first."""
    if before.practice != now.practice:
        yield days_and_times(now.practice)
    old = {planned.exercise: planned for planned in before.exercises}
    new = {planned.exercise: planned for planned in now.exercises}
    for gone in (exercise for exercise in old if exercise not in new):
        yield (words("plan-no-more", exercise=name_of(gone)),)
    for exercise, planned in new.items():
        if exercise not in old:
            yield (words("plan-new-exercise", exercise=name_of(exercise)),)
        elif exercise in exercises:
            yield from _of_exercise(old[exercise], planned, exercises[exercise])
    if now.supervision is Supervision.ALWAYS and before.supervision is not Supervision.ALWAYS:
        yield (words("plan-helper-always"),)
    if now.check is CheckStyle.SIGN_BY_SIGN and before.check is not CheckStyle.SIGN_BY_SIGN:
        yield (words("plan-each-sign"),)
    if before.minutes != now.minutes:
        yield (words("plan-minutes", minutes=now.minutes),)
    if before.place != now.place:
        yield (words("plan-place"),)


def _of_exercise(old: Planned, new: Planned, exercise: Exercise) -> Iterator[Lines]:
    name = name_of(new.exercise)
    if old.form != new.form:
        yield (words("plan-new-form", exercise=name, form=words(f"form-{key(new.exercise)}-{key(new.form)}")),)
    if old.hand != new.hand:
        yield (words("plan-new-hand", exercise=name, hand=words(f"hand-{key(new.hand)}.short")),)
    if (old.target, old.weaker_target) != (new.target, new.weaker_target):
        timed = exercise.forms[0].measure is Measure.TIMED
        unit = "plan-hold" if timed else "plan-count"
        if new.weaker_target is None or new.weaker_target == new.target:
            yield (words(unit, exercise=name, dose=new.target),)
        else:
            yield (words(f"{unit}-sides", exercise=name, dose=new.target, weaker=new.weaker_target),)
    if old.clock != new.clock and new.clock is not Clock.NONE:
        yield (words(f"plan-clock-{new.clock.value}", exercise=name),)
