"""The exercises of a plan or a template, as a file writes them: what is left out filled in, what is wrong told with line.

What is wrong with a plan is judged in the core, the same for a file and for the chat. Here only what a file leaves out is.
"""

import difflib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from pydantic import Field

from companion.content import objection_words
from companion.content.yaml_lines import Id, Loc, Page, Shape, Whole
from companion.core.ladder import stages
from companion.core.plan_rules import Objection, judge, refused, usable_clocks
from companion.core.programme import Clock, Hand, Measure, Plan, Planned, Posture, Role, Rules, Side
from companion.core.script import usual_sides
from companion.errors import Fault

FILLED_IN = ("hand", "hand_hardest", "clock")
"""Nothing is wrong with what is filled in for who did not write it; that it was left out may be."""


class PlannedShape(Shape):
    """One exercise of a plan. What is left out is as usual; no `hardest` opens nothing harder."""

    exercise: Id
    form: Id | None = None
    target: Whole | None = None
    weaker_target: Whole | None = None
    hand: Hand | None = None
    clock: Clock | None = None
    hardest: Id | None = None
    hand_hardest: Hand | None = None
    sides: tuple[Side, ...] | None = Field(default=None, min_length=1, max_length=2)


@dataclass(frozen=True, slots=True)
class Written:
    """Exercises as they are written. `loc` leads to what holds the key `exercises`."""

    page: Page
    loc: Loc
    items: tuple[PlannedShape, ...]
    rules: Rules

    def filled(self, plan: Plan) -> tuple[Planned, ...]:
        """The core's values for that plan, whose own exercises do not matter. For what is not known, what was written."""
        return tuple(self._filled(item, plan) for item in self.items)

    def faults(self, plan: Plan, carer: bool) -> Iterator[Fault]:
        """Everything wrong with a plan that has these exercises. `carer`: one is named."""
        for objection in refused(judge(plan, self.rules, carer)):
            yield from self._fault(objection, carer)
        for place, item in enumerate(self.items):
            yield from self._left_out(place, item, plan)

    def _filled(self, item: PlannedShape, plan: Plan) -> Planned:
        exercise = self.rules.exercises.get(item.exercise)
        form_id = item.form or (exercise.usual if exercise else "")
        form = next((form for form in exercise.forms if form.id == form_id), exercise.forms[0]) if exercise else None
        possible = stages(form, plan) or form.hands if form else (Hand.ONE_HAND,)
        clocks = usable_clocks(exercise, form, carer=True) if exercise and form else (Clock.NONE,)
        hand = item.hand or possible[0]
        return Planned(
            exercise=item.exercise,
            form=form_id,
            target=item.target if item.target is not None else form.target if form else 1,
            hand=hand,
            clock=item.clock or clocks[0],
            hardest=item.hardest or form_id,
            hand_hardest=item.hand_hardest or hand,
            sides=item.sides or (usual_sides(exercise) if exercise else ()),
            weaker_target=item.weaker_target,
        )

    def _left_out(self, place: int, item: PlannedShape, plan: Plan) -> Iterator[Fault]:
        """What bears on safety and has no default: who keeps the time, and the hand in a standing form."""
        exercise = self.rules.exercises.get(item.exercise)
        form = next((form for form in exercise.forms if form.id == (item.form or exercise.usual)), None) if exercise else None
        if exercise is None or form is None:
            return
        if item.clock is None and form.measure is Measure.TIMED:
            do = f"Write clock: {' or '.join(usable_clocks(exercise, form, carer=True))}"
            yield self._of(place, "clock", (f'nobody keeps the time of "{exercise.id}"', do))
        possible = stages(form, plan)
        if item.hand is None and (form.posture is Posture.STANDING or not possible):
            do = f"Use {', '.join(possible)}" if possible else "Take the exercise out"
            yield self._of(place, "hand", (f'the hand support of "{item.exercise}" is not stated', do))

    def _fault(self, objection: Objection, carer: bool) -> Iterator[Fault]:
        place, key = objection.place, objection.key
        exercise = self.rules.exercises.get(self.items[place].exercise) if place is not None else None
        if objection.code == "unknown_exercise" and place is not None:
            name = objection.param("id")
            do = f"Use {_near(name, self.rules.exercises)}"
            yield self._of(place, "exercise", (f'there is no exercise "{name}"', do))
        elif place is None or exercise is None or objection.code == "no_warm_up":
            told = objection_words.of_plan(objection, self._warm_ups())
            where: Loc = ("exercises", 0, "exercise") if objection.code == "no_warm_up" else (key,)
            yield self.page.fault((*self.loc, *where), *told)
        elif objection.code == "tips":
            yield self.page.fault((*self.loc, "place", "support"), *objection_words.of_exercise(objection, exercise))
        elif key in FILLED_IN and getattr(self.items[place], key) is None:
            return
        elif key == "clock":
            form = next(form for form in exercise.forms if form.id == (self.items[place].form or exercise.usual))
            usable = tuple(usable_clocks(exercise, form, carer=True))
            yield self._of(place, key, objection_words.of_clock(objection, exercise, usable))
        else:
            key = "exercise" if key == "order" else key
            yield self._of(place, key, objection_words.of_exercise(objection, exercise))

    def _warm_ups(self) -> str:
        return ", ".join(sorted(id for id, one in self.rules.exercises.items() if one.role is Role.WARM_UP))

    def _of(self, place: int, key: str, told: objection_words.Told) -> Fault:
        return self.page.fault((*self.loc, "exercises", place, key), *told)


def _near(name: str, known: Iterable[str]) -> str:
    close = difflib.get_close_matches(name, list(known), n=1)
    return f'"{close[0]}"' if close else f"one of {', '.join(sorted(known))}"
