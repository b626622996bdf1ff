"""The programme reported by the Consensus on Exercise Reporting Template (Slade 2016): 16 items on 19 lines, since 7, 14 and 16
are split. Each line is filled from the plan and the records, or says "not stated". What an item asks is told in our own words.
"""

from collections.abc import Mapping, Sequence

from companion.core.described import listed, way
from companion.core.how import key
from companion.core.observations import (
    BaselineNoted,
    FallKind,
    FallReported,
    FlagRaised,
    GoalSet,
    Observation,
    PlanPrescribed,
    ProposalAnswered,
    ProposalEnd,
)
from companion.core.programme import Exercise, Plan
from companion.core.words import Words, words
from companion.measures.adherence import Adherence

LINES = ("1", "2", "3", "4", "5", "6", "7a", "7b", "8", "9", "10", "11", "12", "13", "14a", "14b", "15", "16a", "16b")
NOT_STATED = words("cert-not-stated")


def lines(
    plan: Plan, seen: Sequence[Observation], practised: Sequence[Adherence], exercises: Mapping[str, Exercise]
) -> tuple[tuple[str, Words, Words], ...]:
    """For each line its number, what it asks, and what is said. `practised` is the adherence by plan."""
    said = {**_of_the_plan(plan, exercises), **_of_the_records(plan, seen, practised)}
    return tuple((line, words(f"cert-{line}"), said.get(line) or NOT_STATED) for line in LINES)


def prescribed(plan: Plan, exercises: Mapping[str, Exercise]) -> list[tuple[Words, Words]]:
    """Each exercise of a plan by name, and how it is done; without those that the library no longer has."""
    found = []
    for planned in plan.exercises:
        exercise = exercises.get(planned.exercise)
        if exercise is not None and any(form.id == planned.form for form in exercise.forms):
            found.append((words(f"ex-{key(exercise.id)}"), way(planned, exercise)))
    return found


def _of_the_plan(plan: Plan, exercises: Mapping[str, Exercise]) -> dict[str, Words | None]:
    described = [words("cert-8-said", name=name, way=how) for name, how in prescribed(plan, exercises)]
    days, times = len(plan.practice.weekdays), len(plan.practice.times)
    return {
        "1": words("cert-1-said", support=words(f"baseline-support-{key(plan.place.support)}")),
        "3": words("cert-3-said"),
        "4": words("cert-4-said", supervision=words(f"plan-supervision-{key(plan.supervision)}")),
        "5": words("cert-5-said"),
        "7a": words("cert-7a-said"),
        "8": listed(described) if described else None,
        "9": words("cert-9-said"),
        "12": words("cert-12-said"),
        "13": words("cert-13-said", days=days, times=times, minutes=plan.minutes, rest=plan.rest_s),
        "14a": words("cert-14a-said"),
        "14b": words("cert-14b-said"),
        "16a": words("cert-16a-said"),
    }


def _of_the_records(plan: Plan, seen: Sequence[Observation], practised: Sequence[Adherence]) -> dict[str, Words | None]:
    goals = [what.text for what in seen if isinstance(what, GoalSet) and what.text]
    versions = {what.version for what in seen if isinstance(what, PlanPrescribed)}
    taken = sum(isinstance(what, ProposalAnswered) and what.answer is ProposalEnd.NEXT for what in seen)
    newest = {what.flag: what.fall for what in seen if isinstance(what, FallReported)}
    falls = sum(fall is FallKind.FALL for fall in newest.values())
    near = sum(fall is FallKind.NEAR_FALL for fall in newest.values())
    flags = len({what.flag for what in seen if isinstance(what, FlagRaised)})
    done, due = sum(one.sessions.count for one in practised), sum(one.sessions.total for one in practised)
    return {
        "6": words("cert-6-said", goal=goals[-1]) if goals else None,
        "7b": words("cert-7b-said", plans=len(versions), steps=taken) if versions else None,
        "11": words("cert-11-said", flags=flags, falls=falls, near=near),
        "15": words("cert-15-said") if any(isinstance(what, BaselineNoted) for what in seen) else None,
        "16b": words("cert-16b-said", done=done, due=due) if due else None,
    }
