"""The draft of a plan, and every way it is changed: each makes a new draft, with what follows from the change put in order.

What follows is only what could not stand otherwise: a dose outside the form's range, a hand stage the form does not have, a
range below what is planned. Anything that is the therapist's to weigh is left to be objected to, see `plan_rules.py`.
"""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, time
from typing import Any

from companion.core.events import Facts
from companion.core.intake import fit, place_of, supervision_of
from companion.core.ladder import stages
from companion.core.plan_rules import Objection, possible_forms, usable_clocks
from companion.core.programme import (
    HAND_STAGES,
    Exercise,
    Form,
    Plan,
    Planned,
    Posture,
    Practice,
    ReportTime,
    Role,
    Rules,
    Supervision,
    Template,
)
from companion.core.script import usual_sides

REPORT_WEEKDAY, REPORT_TIME = 6, time(18)
MOST_MINUTES = 60


def bare(facts: Facts, zone: str, rules: Rules) -> Plan | None:
    """A plan without exercises for this client, `zone` the therapist's. None without a baseline: what bears on safety has no
    default."""
    if facts.plan is not None:
        return replace(facts.plan, version=facts.plan.version + 1, exercises=(), review_on=None, ends_on=None)
    if facts.baseline is None:
        return None
    plan = Plan(
        version=1,
        exercises=(),
        practice=Practice((), ()),
        report=ReportTime(REPORT_WEEKDAY, REPORT_TIME, zone),
        place=place_of(facts.baseline),
        supervision=supervision_of(facts.baseline),
        minutes=rules.usual_dose.minutes,
    )
    return fit(plan, facts.baseline)


def from_template(draft: Plan, template: Template) -> Plan:
    """The draft with the template's exercises. Of two ways to supervise the stricter holds; a permission is not part of it."""
    strict = Supervision.ALWAYS in (draft.supervision, template.supervision)
    return replace(
        draft,
        exercises=template.exercises,
        supervision=Supervision.ALWAYS if strict else Supervision.WHEN_FORM_NEEDS,
        check=template.check,
        minutes=template.minutes,
        rest_s=template.rest_s,
        eyes_closed=False,
    )


def from_plan(draft: Plan, other: Plan, *, whole: bool) -> Plan:
    """The draft with the exercises of another plan; with its days and supervision too if it is the client's own (`whole`).

    A permission to close the eyes is the client's own and is not copied from another's plan.
    """
    copied = replace(draft, exercises=other.exercises, minutes=other.minutes, rest_s=other.rest_s, check=other.check)
    if not whole:
        return replace(copied, eyes_closed=False)
    return replace(copied, practice=other.practice, supervision=other.supervision, eyes_closed=other.eyes_closed)


def continued(plan: Plan, today: date) -> Plan:
    """The plan that holds as the draft of the next version. A date that has passed is no date of a plan to come."""
    review_on = plan.review_on if plan.review_on is not None and plan.review_on > today else None
    ends_on = None if plan.over(today) else plan.ends_on
    return replace(plan, version=plan.version + 1, review_on=review_on, ends_on=ends_on)


# --- exercises ------------------------------------------------------------------------------------------------


def with_exercise(draft: Plan, exercise: Exercise, rules: Rules, carer: bool) -> Plan:
    """The draft with one exercise more: its usual form or the hardest easier one that this client can have, all the support
    there is, nothing opened. A warm-up goes behind the warm-ups, anything else to the end."""
    usual = exercise.forms.index(exercise.form(exercise.usual))
    possible = [form for form in possible_forms(exercise, draft, carer) if exercise.forms.index(form) <= usual]
    form = possible[-1] if possible else exercise.form(exercise.usual)
    hand = (stages(form, draft) or form.hands)[0]
    clocks = usable_clocks(exercise, form, carer) or exercise.clocks
    added = Planned(exercise.id, form.id, form.target, hand, clocks[0], form.id, hand, usual_sides(exercise))
    return in_order(replace(draft, exercises=(*draft.exercises, added)), rules.exercises)


def without(draft: Plan, place: int) -> Plan:
    """The draft without the exercise at that place."""
    return replace(draft, exercises=(*draft.exercises[:place], *draft.exercises[place + 1 :]))


def in_order(draft: Plan, exercises: Mapping[str, Exercise]) -> Plan:
    """The draft with the warm-ups first; within each part the order stays."""

    def part(planned: Planned) -> bool:
        exercise = exercises.get(planned.exercise)
        return exercise is not None and exercise.role is not Role.WARM_UP

    return replace(draft, exercises=tuple(sorted(draft.exercises, key=part)))


def moved(draft: Plan, place: int, by: int, exercises: Mapping[str, Exercise]) -> Plan:
    """The draft with the exercise one place earlier (-1) or later (1), the warm-ups still first."""
    to = place + by
    if not (0 <= to < len(draft.exercises)):
        return draft
    items = list(draft.exercises)
    items[place], items[to] = items[to], items[place]
    return in_order(replace(draft, exercises=tuple(items)), exercises)


def changed(draft: Plan, place: int, exercise: Exercise, **changes: Any) -> Plan:
    """The draft with something of one exercise changed, and what can not stand with it put in order."""
    planned = replace(draft.exercises[place], **changes)
    form = exercise.form(planned.form)
    ids = [one.id for one in exercise.forms]
    possible = stages(form, draft) or form.hands
    hand = planned.hand if planned.hand in possible else possible[0]
    least = planned.hand_hardest if planned.hand_hardest in possible else hand
    planned = replace(
        planned,
        target=_within(planned.target, form),
        weaker_target=None if planned.weaker_target is None else _within(planned.weaker_target, form),
        hand=hand,
        hand_hardest=max(hand, least, key=HAND_STAGES.index),
        hardest=max(planned.form, planned.hardest, key=ids.index),
    )
    if planned.weaker_target == planned.target:
        planned = replace(planned, weaker_target=None)
    return replace(draft, exercises=(*draft.exercises[:place], planned, *draft.exercises[place + 1 :]))


def _within(dose: int, form: Form) -> int:
    return min(max(dose, form.least), form.most)


# --- what was objected to, put right by one tap of the therapist ------------------------------------------------


def instead(objection: Objection, draft: Plan, exercises: Mapping[str, Exercise]) -> Form | None:
    """The form that stands in for one this client can not have: the same for one hand, else the hardest easier one."""
    place = objection.place
    exercise = exercises.get(draft.exercises[place].exercise) if place is not None else None
    if exercise is None or place is None or objection.key not in ("form", "hardest"):
        return None
    if objection.same is not None:
        return exercise.form(objection.same)
    planned = draft.exercises[place]
    if objection.key == "hardest":
        return exercise.form(planned.form)
    ids = [form.id for form in exercise.forms]
    at = ids.index(planned.form) if planned.form in ids else len(ids)
    easier = [form for form in exercise.forms[:at] if form.id in objection.others]
    return easier[-1] if easier else None


def mended(objection: Objection, draft: Plan, rules: Rules, carer: bool) -> Plan | None:
    """The draft with the objection met in the one way that there is, None if it is the therapist's to choose."""
    place = objection.place
    exercise = rules.exercises.get(draft.exercises[place].exercise) if place is not None else None
    match objection.code:
        case "no_carer":
            return replace(draft, supervision=Supervision.WHEN_FORM_NEEDS)
        case "too_long":
            minutes = -(-int(objection.param("needed")) // 5) * 5
            return replace(draft, minutes=minutes) if minutes <= MOST_MINUTES else None
        case "ended":
            return replace(draft, ends_on=None)
        case "review_after_end":
            return replace(draft, review_on=draft.ends_on)
        case "no_warm_up":
            sorted_ = in_order(draft, rules.exercises)
            first = _first_warm_up(draft, rules) if sorted_ == draft else None
            return with_exercise(draft, first, rules, carer) if first is not None else sorted_
        case "warm_up_late":
            return in_order(draft, rules.exercises)
        case "twice" | "unknown_exercise" | "tips" if place is not None:
            return without(draft, place)
        case _:
            pass
    if place is None or exercise is None:
        return None
    return _mended_item(objection, draft, exercise, rules, carer)


def _mended_item(objection: Objection, draft: Plan, exercise: Exercise, rules: Rules, carer: bool) -> Plan | None:
    place = objection.place
    assert place is not None
    form = instead(objection, draft, rules.exercises)
    if objection.key in ("form", "hardest"):
        if form is None:
            return without(draft, place)
        down = {"form": form.id, "hardest": form.id} if objection.key == "form" else {"hardest": form.id}
        return changed(draft, place, exercise, **down)
    planned = draft.exercises[place]
    if objection.key == "clock":
        clocks = usable_clocks(exercise, exercise.form(planned.form), carer)
        return changed(draft, place, exercise, clock=clocks[0]) if clocks else without(draft, place)
    if objection.key == "sides":
        return changed(draft, place, exercise, sides=usual_sides(exercise), weaker_target=None)
    if objection.key in ("hand", "hand_hardest") and not objection.others:
        return without(draft, place)
    return changed(draft, place, exercise)  # a dose or a hand stage that can not be is put within what can


def _first_warm_up(draft: Plan, rules: Rules) -> Exercise | None:
    """A warm-up to put first, seated before standing."""
    there = {planned.exercise for planned in draft.exercises}
    free = [one for one in rules.exercises.values() if one.role is Role.WARM_UP and one.id not in there]
    return min(free, key=lambda one: one.forms[-1].posture is not Posture.SEATED, default=None)
