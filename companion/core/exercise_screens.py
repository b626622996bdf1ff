"""The screens of one exercise of a plan: its form, dose by side, hand support, clock, how far the client may go, its place."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from companion.core.effects import Words, words
from companion.core.ladder import stages
from companion.core.plan_drafts import changed, moved, with_exercise, without
from companion.core.plan_news import name_of
from companion.core.plan_options import BACK, Option, Screen, Writing
from companion.core.plan_rules import possible_forms, usable_clocks
from companion.core.plan_words import dose_name, form_name, hand_name, item_line
from companion.core.programme import HAND_STAGES, Exercise, Form, Measure, Plan, Planned, Role, Side, Sides
from companion.core.script import usual_sides

SECONDS = (5, 10, 15, 20, 30, 45, 60, 90, 120)
TIMES = (1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20)


@dataclass(frozen=True, slots=True)
class _Of:
    """One exercise of the draft, at its place."""

    writing: Writing
    place: int
    planned: Planned
    exercise: Exercise

    @property
    def form(self) -> Form:
        return self.exercise.form(self.planned.form)

    @property
    def timed(self) -> bool:
        return self.form.measure is Measure.TIMED

    def with_(self, **changes: object) -> Plan:
        return changed(self.writing.draft, self.place, self.exercise, **changes)

    def screen(self, what: str, now: Words, ways: Iterable[tuple[Words, Plan]], typed: str = "") -> Screen:
        """One thing to choose; then back to the exercise. `typed`: the field that a typed dose is for."""
        back = f"x{self.place}"
        lines = (words(f"plan-{what}-ask", exercise=name_of(self.exercise.id)), words("answer-now", answer=now))

        def reads(text: str) -> Option | None:
            number = text.strip()
            if not number.isdecimal() or len(number) > 3 or not self.form.least <= int(number) <= self.form.most:
                return None
            return Option(dose_name(int(number), self.timed), back, self.with_(**{typed: int(number)}))

        return Screen(lines, (*(Option(label, back, new) for label, new in ways), BACK), reads if typed else None)

    def doses(self) -> list[int]:
        usual = SECONDS if self.timed else self.form.counts or TIMES
        return sorted(dose for dose in usual if self.form.least <= dose <= self.form.most)


def exercise(writing: Writing) -> Screen | None:
    """The screen of one exercise (`x2`), or of one thing about it (`x2.hand`); None if there is no such exercise."""
    number, _, what = writing.dialogue.at.removeprefix("x").partition(".")
    place = int(number) if number.isdecimal() else -1
    if not 0 <= place < len(writing.draft.exercises):
        return None
    planned = writing.draft.exercises[place]
    known = writing.rules.exercises.get(planned.exercise)
    if known is None or {planned.form, planned.hardest} - {form.id for form in known.forms}:
        return None
    of = _Of(writing, place, planned, known)
    return LEAVES[what](of) if what in LEAVES else _menu(of)


def add(writing: Writing) -> Screen:
    """The library: what is not in the plan yet, warm-ups first."""
    there = {planned.exercise for planned in writing.draft.exercises}
    free = [one for one in writing.rules.exercises.values() if one.id not in there]
    free.sort(key=lambda one: one.role is not Role.WARM_UP)
    options = []
    for one in free:
        draft = with_exercise(writing.draft, one, writing.rules, writing.carer)
        place = next(at for at, planned in enumerate(draft.exercises) if planned.exercise == one.id)
        possible = possible_forms(one, writing.draft, writing.carer)
        label = words("b-plan-add-one" if possible else "b-plan-add-not-possible", exercise=name_of(one.id))
        options.append(Option(label, f"x{place}", draft))
    return Screen((words("plan-add-ask"),), (*options, BACK))


def _menu(of: _Of) -> Screen:
    """One exercise and what can be changed in it."""
    writing, place, at = of.writing, of.place, f"x{of.place}"
    sided = of.exercise.sides is not Sides.NONE
    leaves = [
        "form",
        "dose",
        *(["weaker", "sides"] if sided else []),
        "hand",
        *(["clock"] if of.timed else []),
        "hardest",
        "least",
    ]
    options = [Option(words(f"b-plan-x-{leaf}"), f"{at}.{leaf}") for leaf in leaves]
    for by, label in ((-1, "b-plan-x-earlier"), (1, "b-plan-x-later")):
        new = moved(writing.draft, place, by, writing.rules.exercises)
        if new != writing.draft:
            options.append(Option(words(label), f"x{new.exercises.index(of.planned)}", new))
    options += [
        Option(words("b-plan-take-out", exercise=name_of(of.exercise.id)), "plan", without(writing.draft, place)),
        Option(words("b-answer-done"), "plan"),
        BACK,
    ]
    return Screen((words("plan-item", number=place + 1, item=item_line(of.planned, of.exercise)),), tuple(options))


def _form(of: _Of) -> Screen:
    possible = possible_forms(of.exercise, of.writing.draft, of.writing.carer)
    ways = [(form_name(of.exercise.id, form.id), of.with_(form=form.id, hardest=form.id)) for form in possible]
    return of.screen("form", form_name(of.exercise.id, of.planned.form), ways)


def _dose(of: _Of) -> Screen:
    ways = [(dose_name(dose, of.timed), of.with_(target=dose)) for dose in of.doses()]
    return of.screen("dose", dose_name(of.planned.target, of.timed), ways, typed="target")


def _weaker(of: _Of) -> Screen:
    ways = [(dose_name(dose, of.timed), of.with_(weaker_target=dose)) for dose in of.doses()]
    same = (words("plan-weaker-same"), of.with_(weaker_target=None))
    now = of.planned.weaker_target
    said = words("plan-weaker-same") if now is None else dose_name(now, of.timed)
    return of.screen("weaker", said, (same, *ways), typed="weaker_target")


def _sides(of: _Of) -> Screen:
    both = usual_sides(of.exercise)
    ways = {"both": both, "stronger": (Side.STRONGER,), "weaker": (Side.WEAKER,)}
    sides = of.planned.sides or both
    now = "both" if len(sides) > 1 else sides[0].value
    options = [(words(f"plan-x-sides-{name}"), of.with_(sides=one)) for name, one in ways.items()]
    return of.screen("sides", words(f"plan-x-sides-{now}"), options)


def _hand(of: _Of) -> Screen:
    """The range that was open is closed: it was opened for another hand support."""
    possible = stages(of.form, of.writing.draft)
    ways = [(hand_name(hand), of.with_(hand=hand, hand_hardest=hand)) for hand in possible]
    return of.screen("hand", hand_name(of.planned.hand), ways)


def _clock(of: _Of) -> Screen:
    clocks = usable_clocks(of.exercise, of.form, of.writing.carer)
    ways = [(words(f"plan-clock-{clock.value}-short"), of.with_(clock=clock)) for clock in clocks]
    return of.screen("clock", words(f"plan-clock-{of.planned.clock.value}-short"), ways)


def _hardest(of: _Of) -> Screen:
    """How far up the forms the client may go alone: the planned form opens nothing."""
    at = of.exercise.forms.index(of.form)
    possible = [form for form in possible_forms(of.exercise, of.writing.draft, of.writing.carer)]
    open_to = [form for form in possible if of.exercise.forms.index(form) > at]
    ways = [(words("plan-opens-nothing"), of.with_(hardest=of.planned.form))]
    ways += [(form_name(of.exercise.id, form.id), of.with_(hardest=form.id)) for form in open_to]
    same = of.planned.hardest == of.planned.form
    return of.screen("hardest", words("plan-opens-nothing") if same else form_name(of.exercise.id, of.planned.hardest), ways)


def _least(of: _Of) -> Screen:
    """How far down the hand support the client may go alone."""
    at = HAND_STAGES.index(of.planned.hand)
    less = [hand for hand in stages(of.form, of.writing.draft) if HAND_STAGES.index(hand) > at]
    ways = [(words("plan-opens-nothing"), of.with_(hand_hardest=of.planned.hand))]
    ways += [(hand_name(hand), of.with_(hand_hardest=hand)) for hand in less]
    same = of.planned.hand_hardest == of.planned.hand
    return of.screen("least", words("plan-opens-nothing") if same else hand_name(of.planned.hand_hardest), ways)


LEAVES: dict[str, Callable[[_Of], Screen]] = {
    "form": _form, "dose": _dose, "weaker": _weaker, "sides": _sides, "hand": _hand, "clock": _clock, "hardest": _hardest,
    "least": _least,
}  # fmt: skip
