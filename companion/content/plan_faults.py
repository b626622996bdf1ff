"""What is wrong with a plan: doses nobody can do, and things that contradict each other or the client's baseline.

A plan with a fault is refused as a whole. Nothing is put right in silence, since only the therapist may decide how.
"""

import difflib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from companion.content.enrolment_file import ClientShape, PlannedShape
from companion.content.library import Library
from companion.content.yaml_lines import Loc, Page
from companion.core.programme import (
    HAND_STAGES,
    Clock,
    Exercise,
    Eyes,
    Form,
    Hand,
    Measure,
    Planned,
    Posture,
    Role,
    Side,
    Sides,
    Stance,
    Supervision,
)
from companion.errors import Fault

UNSTEADY = frozenset({Stance.ONE_LEG, Stance.ONE_LEG_TOES, Stance.WALKING})
"""Stances that may suddenly put much weight on the support (common practice, no source)."""

TIPS = "sturdy_chair"
"""The support that such weight can tip."""

COUNT_S = 4  # seconds that one thing counted takes at an easy pace; for the rough length of a session only


@dataclass(frozen=True, slots=True)
class PlanReader:
    """One client's plan, read against the library. `loc` leads to the client in the page."""

    page: Page
    loc: Loc
    client: ClientShape
    library: Library

    def planned(self) -> tuple[Planned, ...]:
        """The exercises as core values, what is left out filled in. Only for a plan without faults."""
        return tuple(self._core(item) for item in self.client.plan.exercises)

    def faults(self) -> Iterator[Fault]:
        """Everything wrong with the plan."""
        plan = self.client.plan
        if plan.supervision is Supervision.ALWAYS and self.client.carer is None:
            do = "Name a carer, or write supervision: when_form_needs"
            yield self._at("supervision", what="a carer is always wanted and none is named", do=do)
        known = self.library.without_number.exercises
        for place, item in enumerate(plan.exercises):
            exercise = known.get(item.exercise)
            if exercise is None:
                what = f'there is no exercise "{item.exercise}"'
                yield self._of(place, "exercise", what, f"Use {_near(item.exercise, known)}")
                continue
            if item.exercise in [other.exercise for other in plan.exercises[:place]]:
                what = f'"{item.exercise}" is in the plan twice'
                yield self._of(place, "exercise", what, "Keep one, with the dose it shall have")
            yield from self._item_faults(place, item, exercise)
        yield from self._support_faults()
        yield from self._order_faults()
        yield from self._length_faults()

    # --- one exercise -------------------------------------------------------------------------------------

    def _item_faults(self, place: int, item: PlannedShape, exercise: Exercise) -> Iterator[Fault]:
        ids = [form.id for form in exercise.forms]
        unknown = [key for key in ("form", "hardest") if (getattr(item, key) or exercise.usual) not in ids]
        for key in unknown:
            what = f'"{exercise.id}" has no form "{getattr(item, key)}"'
            yield self._of(place, key, what, f"Use one of {', '.join(ids)}")
        if unknown:
            return
        form = exercise.form(item.form or exercise.usual)
        hardest = exercise.form(item.hardest or form.id)
        if ids.index(hardest.id) < ids.index(form.id):
            what = f'the hardest form "{hardest.id}" is easier than "{form.id}"'
            yield self._of(place, "hardest", what, f"Use one of {', '.join(ids[ids.index(form.id) :])}")
        yield from self._dose_faults(place, item, form)
        yield from self._clock_faults(place, item, exercise, form)
        yield from self._hand_faults(place, item, form)
        yield from self._side_faults(place, item, exercise)
        yield from self._ruled_out(place, "form", exercise, form)
        if hardest is not form:
            yield from self._ruled_out(place, "hardest", exercise, hardest)

    def _dose_faults(self, place: int, item: PlannedShape, form: Form) -> Iterator[Fault]:
        dose = self.library.doses[(item.exercise, form.id)]
        target = form.target if item.target is None else item.target
        if not dose.least <= target <= dose.most:
            unit = "s" if form.measure is Measure.TIMED else "times"
            what = f'{target} {unit} is no possible dose of "{item.exercise}", form "{form.id}"'
            yield self._of(place, "target", what, f"Use {dose.least} to {dose.most}")

    def _clock_faults(self, place: int, item: PlannedShape, exercise: Exercise, form: Form) -> Iterator[Fault]:
        usable = [clock for clock in exercise.clocks if clock is not Clock.SOUND]
        clock = item.clock
        if clock is None:
            if form.measure is Measure.TIMED:
                what = f'nobody keeps the time of "{exercise.id}"'
                yield self._of(place, "clock", what, f"Write clock: {' or '.join(usable)}")
            return
        if clock is Clock.SOUND:
            what = 'the clock "sound" comes later: no voice note can be sent yet'
            yield self._of(place, "clock", what, f"Use {' or '.join(usable)}")
        elif clock not in usable:
            what = f'"{exercise.id}" can not be done on the clock "{clock}"'
            yield self._of(place, "clock", what, f"Use {' or '.join(usable)}")
        elif clock is Clock.CARER and self.client.carer is None:
            what = "the carer keeps the time and none is named"
            yield self._of(place, "clock", what, "Name a carer, or use the clock screen")

    def _hand_faults(self, place: int, item: PlannedShape, form: Form) -> Iterator[Fault]:
        one_hand = self.client.plan.baseline.one_good_hand
        stages = [hand for hand in form.hands if not (one_hand and hand is Hand.TWO_HANDS)]
        listed = f"Use {', '.join(stages)}" if stages else "Take the exercise out"
        if item.hand is None and (form.posture is Posture.STANDING or not stages):
            yield self._of(place, "hand", f'the hand support of "{item.exercise}" is not stated', listed)
        for key, stage in (("hand", item.hand), ("hand_hardest", item.hand_hardest)):
            if stage is not None and stage not in stages:
                why = "the client has one good hand" if stage in form.hands else f'"{form.id}" is not done so'
                yield self._of(place, key, f'the hand support "{stage}" is not possible: {why}', listed)
        if item.hand is None or item.hand_hardest is None:
            return
        if HAND_STAGES.index(item.hand_hardest) < HAND_STAGES.index(item.hand):
            what = f'"{item.hand_hardest}" gives more support than "{item.hand}", so it opens nothing harder'
            yield self._of(place, "hand_hardest", what, "Name less support than hand, or leave it out")

    def _side_faults(self, place: int, item: PlannedShape, exercise: Exercise) -> Iterator[Fault]:
        if item.sides is not None and exercise.sides is Sides.NONE:
            yield self._of(place, "sides", f'"{exercise.id}" has no sides', "Take sides out")
        if item.sides is not None and len(set(item.sides)) != len(item.sides):
            yield self._of(place, "sides", "a side is named twice", "Name each side once")

    def _ruled_out(self, place: int, key: str, exercise: Exercise, form: Form) -> Iterator[Fault]:
        """Why this client can not have this form at all, one fault for each reason."""
        plan, carer = self.client.plan, self.client.carer is not None
        name = f'"{exercise.id}", form "{form.id}"'
        others = [other.id for other in exercise.forms if self._admits(other)]
        instead = f"use one of {', '.join(others)}" if others else "take the exercise out"
        if form.needs_two_hands and plan.baseline.one_good_hand:
            same = [f.id for f in exercise.forms if self._admits(f) and _alike(f, form)]
            do = f'Use the form for one hand, "{same[0]}"' if same else instead.capitalize()
            yield self._of(place, key, f"{name} needs two good hands and the client has one", do)
        if form.needs_free_ankle and plan.baseline.ankle_blocked:
            yield self._of(place, key, f"{name} needs an ankle that is not blocked", instead.capitalize())
        if form.eyes is Eyes.CLOSED and not plan.eyes_closed:
            what = f"{name} closes the eyes and the plan does not permit it"
            yield self._of(place, key, what, f"Write eyes_closed: yes if you permit it, or {instead}")
        if form.needs_carer and not carer:
            yield self._of(place, key, f"{name} needs a carer and none is named", f"Name one, or {instead}")
        if form.posture is Posture.STANDING and not carer and not plan.baseline.can_call_for_help:
            what = f"{name} is done standing, alone, by a client who can not call for help"
            yield self._of(place, key, what, f"Name a carer, or {instead}")

    def _admits(self, form: Form) -> bool:
        plan, baseline, carer = self.client.plan, self.client.plan.baseline, self.client.carer is not None
        return not (
            (form.needs_two_hands and baseline.one_good_hand)
            or (form.needs_free_ankle and baseline.ankle_blocked)
            or (form.eyes is Eyes.CLOSED and not plan.eyes_closed)
            or (form.needs_carer and not carer)
            or (form.posture is Posture.STANDING and not carer and not baseline.can_call_for_help)
        )

    # --- the plan as a whole ------------------------------------------------------------------------------

    def _support_faults(self) -> Iterator[Fault]:
        plan, known = self.client.plan, self.library.without_number.exercises
        if plan.place.support != TIPS:
            return
        for item in plan.exercises:
            exercise = known.get(item.exercise)
            # Also where an easier form is prescribed: the support stays the same when the form is changed.
            if exercise is not None and any(form.stance in UNSTEADY for form in exercise.forms):
                what = f'the support "{TIPS}" is not for "{exercise.id}": a chair can tip'
                do = "Choose worktop, sink, rail or heavy_table, or take the exercise out"
                yield self.page.fault((*self.loc, "plan", "place", "support"), what, do)

    def _order_faults(self) -> Iterator[Fault]:
        known = self.library.without_number.exercises
        roles = [known[item.exercise].role for item in self.client.plan.exercises if item.exercise in known]
        warm_ups = ", ".join(sorted(id for id, exercise in known.items() if exercise.role is Role.WARM_UP))
        if not roles or roles[0] is not Role.WARM_UP:
            yield self._of(0, "exercise", "the plan does not begin with a warm-up", f"Put first: {warm_ups}")
        elif roles != sorted(roles, key=list(Role).index):
            place = next(at for at, role in enumerate(roles) if role is Role.WARM_UP and Role.MAIN in roles[:at])
            yield self._of(place, "exercise", "a warm-up comes after the main part", "Put it before")

    def _length_faults(self) -> Iterator[Fault]:
        plan, known = self.client.plan, self.library.without_number.exercises
        seconds = 0
        for item in plan.exercises:
            exercise = known.get(item.exercise)
            if exercise is None:
                continue
            sides = 1 if exercise.sides is Sides.NONE else len(item.sides or Side)
            form = exercise.forms[0]
            target = item.target or form.target
            each = target + plan.into_place_s if form.measure is Measure.TIMED else target * COUNT_S
            seconds += sides * (each + (plan.rest_s if form.posture is Posture.STANDING else 0))
        if seconds > plan.minutes * 60:
            needed = -(-seconds // 60)
            what = f"the exercises take {needed} minutes or more and the plan says {plan.minutes}"
            yield self._at("minutes", what=what, do=f"Write minutes: {needed} or more, or plan less")

    def _core(self, item: PlannedShape) -> Planned:
        exercise = self.library.without_number.exercises[item.exercise]
        form = exercise.form(item.form or exercise.usual)
        one_hand = self.client.plan.baseline.one_good_hand
        hand = item.hand or next(hand for hand in form.hands if not (one_hand and hand is Hand.TWO_HANDS))
        return Planned(
            exercise=exercise.id,
            form=form.id,
            target=item.target or form.target,
            hand=hand,
            clock=item.clock or Clock.NONE,
            hardest=item.hardest or form.id,
            hand_hardest=item.hand_hardest or hand,
            sides=item.sides or _usual_sides(exercise.sides),
        )

    def _of(self, place: int, key: str, what: str, do: str) -> Fault:
        return self.page.fault((*self.loc, "plan", "exercises", place, key), what, do)

    def _at(self, key: str, what: str, do: str) -> Fault:
        return self.page.fault((*self.loc, "plan", key), what, do)


def _usual_sides(sides: Sides) -> tuple[Side, ...]:
    """The stronger leg carries first: it stands alone first, and it stands behind while the weaker foot is in front."""
    match sides:
        case Sides.NONE:
            return ()
        case Sides.FRONT_FOOT:
            return (Side.WEAKER, Side.STRONGER)
        case Sides.LEG:
            return (Side.STRONGER, Side.WEAKER)


def _alike(one: Form, other: Form) -> bool:
    return one.stance is other.stance and one.eyes is other.eyes


def _near(name: str, known: Iterable[str]) -> str:
    close = difflib.get_close_matches(name, list(known), n=1)
    return f'"{close[0]}"' if close else f"one of {', '.join(sorted(known))}"
