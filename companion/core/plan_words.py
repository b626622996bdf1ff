"""A draft of a plan in the therapist's words: its lines, what is objected to, and the preview in the client's words."""

from collections.abc import Mapping

from companion.core.described import listed, way
from companion.core.effects import Words, words
from companion.core.events import Facts
from companion.core.how import How, key
from companion.core.plan_news import clock_time, name_of
from companion.core.plan_rules import Objection, Severity
from companion.core.programme import Exercise, Patience, Plan, Planned, Practice, Rules, Sides
from companion.core.schedule import is_quiet
from companion.core.script import compile_session, in_library, planned_sides
from companion.core.steps import Ask, Counted


def form_name(exercise: str, form: str) -> Words:
    """The short name of a form."""
    return words(f"form-{key(exercise)}-{key(form)}")


def hand_name(hand: str) -> Words:
    """A hand stage in short."""
    return words(f"hand-{key(hand)}.short")


def dose_name(dose: int, timed: bool) -> Words:
    """A dose with its unit."""
    return words("dose-seconds" if timed else "dose-times", dose=dose)


def days_name(practice: Practice) -> Words:
    """The days of practice in short."""
    if not practice.weekdays:
        return words("plan-unset")
    return listed([words(f"plan-short-day-{day}") for day in practice.weekdays], close=True)


def times_name(practice: Practice) -> Words:
    """The times of practice."""
    times = [words("plan-time", time=clock_time(at)) for at in practice.times]
    return listed(times, close=True) if times else words("plan-unset")


def summary(draft: Plan, facts: Facts, rules: Rules) -> tuple[Words, ...]:
    """The draft on one screen, a line for each exercise."""
    lines = [words("plan-title", name=facts.name, version=draft.version)]
    for place, planned in enumerate(draft.exercises):
        exercise = rules.exercises.get(planned.exercise)
        if exercise is not None and planned.form in {form.id for form in exercise.forms}:
            lines.append(words("plan-item", number=place + 1, item=item_line(planned, exercise)))
        else:
            lines.append(words("plan-item-unknown", number=place + 1, id=planned.exercise))
    practice = draft.practice
    lines += [
        words("plan-practice", days=days_name(practice), times=times_name(practice), zone=facts.zone, minutes=draft.minutes),
        words(
            "plan-care",
            supervision=words(f"plan-supervision-{key(draft.supervision)}"),
            check=words(f"plan-check-{key(draft.check)}"),
        ),
        words("plan-more", eyes=words(eyes_key(draft)), rest=draft.rest_s, into=draft.into_place_s),
        words("plan-dates", review=date_name(draft, "review_on"), end=date_name(draft, "ends_on")),
    ]
    return tuple(lines)


def quiet_notes(draft: Plan, facts: Facts) -> tuple[Words, ...]:
    """The times of practice that fall into the client's quiet hours, in which no reminder goes out."""
    quiet = facts.about.quiet if facts.about is not None else None
    if quiet is None:
        return ()
    start, end = clock_time(quiet.start), clock_time(quiet.end)
    inside = [one for one in draft.practice.times if is_quiet(one, quiet)]
    return tuple(words("plan-quiet", time=clock_time(one), start=start, end=end) for one in inside)


def eyes_key(draft: Plan) -> str:
    """The text that says whether eyes may be closed."""
    return "plan-eyes-permitted" if draft.eyes_closed else "plan-eyes-open"


def date_name(draft: Plan, which: str) -> Words:
    """The review or end date, or that there is none."""
    day = getattr(draft, which)
    return words("plan-date", day=day.isoformat()) if day is not None else words("plan-no-date")


def item_line(planned: Planned, exercise: Exercise) -> Words:
    """One exercise in one line: form, dose by side, hand, clock, and how far the client may go."""
    return words(
        "plan-item-line",
        exercise=name_of(planned.exercise),
        way=way(planned, exercise),
        clock=words(f"plan-clock-{planned.clock.value}-short"),
        range=_range(planned),
        sides=_sides(planned, exercise),
    )


def _range(planned: Planned) -> Words:
    opened = []
    if planned.hand_hardest != planned.hand:
        opened.append(hand_name(planned.hand_hardest))
    if planned.hardest != planned.form:
        opened.append(form_name(planned.exercise, planned.hardest))
    return words("plan-range", range=listed(opened)) if opened else words("plan-range-none")


def _sides(planned: Planned, exercise: Exercise) -> Words:
    if exercise.sides is Sides.NONE or len(planned_sides(planned, exercise)) != 1:
        return words("plan-sides-all")
    return words(f"plan-sides-{planned_sides(planned, exercise)[0]}")


def objected(objection: Objection, draft: Plan, exercises: Mapping[str, Exercise]) -> Words:
    """What is objected to, with the reason."""
    params: dict[str, str | Words] = dict(objection.params)
    if objection.place is not None and draft.exercises[objection.place].exercise in exercises:
        exercise = draft.exercises[objection.place].exercise
        params["exercise"] = name_of(exercise)
        if "form" in params:
            params["form"] = form_name(exercise, objection.param("form"))
    for hand in ("hand", "hand_hardest"):
        if hand in params:
            params[hand] = hand_name(objection.param(hand))
    params = {name.replace("_", "-"): said for name, said in params.items()}
    said = Words(f"objection-{key(objection.code)}", tuple(params.items()))
    return words("plan-warned" if objection.severity is Severity.WARNED else "plan-refused", said=said)


def preview(draft: Plan, facts: Facts, rules: Rules) -> tuple[tuple[Words, ...], ...]:
    """The set-up screen of each exercise, in the client's own words, as the session's script has it; its buttons as lines."""
    if not in_library(draft, rules.exercises):
        return ()
    script = compile_session(draft, rules.exercises, _as_if(facts, rules))
    shown: dict[str, tuple[Words, ...]] = {}
    for step in script.steps:
        if not isinstance(step, Ask | Counted) or not step.id.endswith((".set", ".count")):
            continue
        bout = int(step.id.partition(".")[0].removeprefix("b"))
        exercise = script.bouts[bout - 1].partition(":")[0]
        if exercise not in shown:
            buttons = tuple(words("plan-button", label=choice.label) for choice in step.choices)
            shown[exercise] = (*step.words, *buttons)
    return tuple(shown.values())


def _as_if(facts: Facts, rules: Rules) -> How:
    """A session as it would be, with the carer there if one is named."""
    return How(
        session="preview",
        client=facts.client,
        name=facts.name,
        phone="client",
        carer_phone="carer" if facts.carer is not None else None,
        emergency_number=rules.emergency_number,
        sign_by_sign=False,
        signs=rules.signs,
        patience=Patience(),
    )
