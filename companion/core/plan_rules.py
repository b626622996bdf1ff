"""What is wrong with a plan: doses nobody can do, and things that contradict each other or what was found at the visit.

A plan with a refused objection is not prescribed. Nothing is put right in silence, since only the therapist may decide how.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from companion.core.ladder import stages
from companion.core.programme import (
    HAND_STAGES,
    Clock,
    Exercise,
    Eyes,
    Form,
    Measure,
    Plan,
    Planned,
    Posture,
    Role,
    Rules,
    Side,
    Sides,
    Stance,
    Supervision,
)

UNSTEADY = frozenset({Stance.ONE_LEG, Stance.ONE_LEG_TOES, Stance.WALKING})
"""Stances that may suddenly put much weight on the support (common practice, no source)."""

TIPS = "sturdy_chair"
"""The support that such weight can tip."""

SHORTEST_SOUND_S = 5
"""The shortest hold that a voice note can tell in quarters."""

COUNT_S = 4  # seconds that one thing counted takes at an easy pace; for the rough length of a session only


class Severity(StrEnum):
    """REFUSED stands in the way of the plan; WARNED is for the therapist to weigh."""

    REFUSED = "refused"
    WARNED = "warned"


@dataclass(frozen=True, slots=True)
class Objection:
    """One thing wrong. `code` names it; `key` is what of the plan, or of the exercise at `place`, it is about.

    `params` are what the words need. `same` is the form of the same stance and eyes that this client may have, `others` all
    forms that they may.
    """

    code: str
    key: str
    place: int | None = None
    severity: Severity = Severity.REFUSED
    params: tuple[tuple[str, str], ...] = ()
    same: str | None = None
    others: tuple[str, ...] = ()

    def param(self, name: str) -> str:
        """That parameter; KeyError if there is none."""
        return dict(self.params)[name]


def refused(objections: tuple[Objection, ...]) -> tuple[Objection, ...]:
    """Those that stand in the way."""
    return tuple(objection for objection in objections if objection.severity is Severity.REFUSED)


def judge(plan: Plan, rules: Rules, carer: bool, today: date | None = None) -> tuple[Objection, ...]:
    """Everything wrong with a plan, in its own order. `carer`: one is named; `today`, at the client's home, where it shall hold
    from now on. Total: also for what the library does not know."""
    ended = (Objection("ended", "ends_on"),) if today is not None and plan.over(today) else ()
    return (*_Judge(plan, rules, carer).objections(), *ended)


def why_not(form: Form, plan: Plan, carer: bool) -> tuple[str, ...]:
    """Why this client can not have that form at all, as codes; empty if they can."""
    reasons = {
        "two_hands": form.needs_two_hands and plan.one_good_hand,
        "blocked_ankle": form.needs_free_ankle and plan.ankle_blocked,
        "eyes_closed": form.eyes is Eyes.CLOSED and not plan.eyes_closed,
        "needs_carer": (form.needs_carer or form.eyes is Eyes.CLOSED) and not carer,
        "alone": form.posture is Posture.STANDING and not carer and not plan.can_call_for_help,
    }
    return tuple(code for code, holds in reasons.items() if holds)


def possible_forms(exercise: Exercise, plan: Plan, carer: bool) -> tuple[Form, ...]:
    """The forms that this client can have, easiest first."""
    return tuple(form for form in exercise.forms if stages(form, plan) and not why_not(form, plan, carer))


def usable_clocks(exercise: Exercise, form: Form, carer: bool) -> tuple[Clock, ...]:
    """The clocks that a form can be done on: a carer's clock needs a carer."""
    if form.measure is Measure.COUNTED:
        return (Clock.NONE,)
    return tuple(clock for clock in exercise.clocks if carer or clock is not Clock.CARER)


def least_seconds(plan: Plan, exercises: Mapping[str, Exercise]) -> int:
    """The shortest that the exercises of a plan can take, rests included, in seconds."""
    seconds = 0
    for planned in plan.exercises:
        exercise = exercises.get(planned.exercise)
        if exercise is None:
            continue
        easiest = exercise.forms[0]
        sides: tuple[Side | None, ...] = (None,) if exercise.sides is Sides.NONE else planned.sides or tuple(Side)
        for side in sides:
            dose = planned.dose(side)
            seconds += dose + plan.into_place_s if easiest.measure is Measure.TIMED else dose * COUNT_S
            seconds += plan.rest_s if easiest.posture is Posture.STANDING else 0
    return seconds


class _Judge:
    """Judges one plan; lives only inside `judge`."""

    def __init__(self, plan: Plan, rules: Rules, carer: bool) -> None:
        self.plan, self.rules, self.carer = plan, rules, carer
        self.known = rules.exercises

    def objections(self) -> Iterator[Objection]:
        plan = self.plan
        if plan.supervision is Supervision.ALWAYS and not self.carer:
            yield Objection("no_carer", "supervision")
        for place, planned in enumerate(plan.exercises):
            exercise = self.known.get(planned.exercise)
            if exercise is None:
                yield Objection("unknown_exercise", "exercise", place, params=(("id", planned.exercise),))
                continue
            if planned.exercise in [other.exercise for other in plan.exercises[:place]]:
                yield Objection("twice", "exercise", place)
            yield from self._item(place, planned, exercise)
        yield from self._support()
        yield from self._order()
        yield from self._length()
        yield from self._dates()

    # --- one exercise -------------------------------------------------------------------------------------

    def _item(self, place: int, planned: Planned, exercise: Exercise) -> Iterator[Objection]:
        ids = [form.id for form in exercise.forms]
        unknown = [(key, form) for key, form in (("form", planned.form), ("hardest", planned.hardest)) if form not in ids]
        for key, form_id in unknown:
            yield Objection("unknown_form", key, place, params=(("id", form_id),), others=tuple(ids))
        if unknown:
            return
        form, hardest = exercise.form(planned.form), exercise.form(planned.hardest)
        if ids.index(hardest.id) < ids.index(form.id):
            told, others = (("id", hardest.id),), tuple(ids[ids.index(form.id) :])
            yield Objection("hardest_is_easier", "hardest", place, params=told, others=others)
        yield from self._dose(place, planned, form)
        yield from self._clock(place, planned, exercise, form)
        yield from self._hand(place, planned, form)
        yield from self._sides(place, planned, exercise)
        yield from self._ruled_out(place, "form", exercise, form)
        if hardest is not form:
            yield from self._ruled_out(place, "hardest", exercise, hardest)

    def _dose(self, place: int, planned: Planned, form: Form) -> Iterator[Objection]:
        unit = "s" if form.measure is Measure.TIMED else "times"
        for key, dose in (("target", planned.target), ("weaker_target", planned.weaker_target)):
            if dose is not None and not form.least <= dose <= form.most:
                told = (("dose", str(dose)), ("unit", unit), ("least", str(form.least)), ("most", str(form.most)))
                yield Objection("dose", key, place, params=told)

    def _clock(self, place: int, planned: Planned, exercise: Exercise, form: Form) -> Iterator[Objection]:
        clock = planned.clock
        if clock not in exercise.clocks and not (form.measure is Measure.COUNTED and clock is Clock.NONE):
            yield Objection("clock", "clock", place, params=(("clock", clock.value),))
        elif clock is Clock.CARER and not self.carer:
            yield Objection("clock_no_carer", "clock", place)
        elif (
            clock is Clock.SOUND
            and form.measure is Measure.TIMED
            and min(planned.dose(side) for side in Side) < SHORTEST_SOUND_S
        ):
            yield Objection("sound_short", "clock", place, params=(("least", str(SHORTEST_SOUND_S)),))

    def _hand(self, place: int, planned: Planned, form: Form) -> Iterator[Objection]:
        possible = stages(form, self.plan)
        for key, hand in (("hand", planned.hand), ("hand_hardest", planned.hand_hardest)):
            if hand not in possible:
                code = "one_hand" if hand in form.hands else "hand"
                yield Objection(code, key, place, params=(("hand", hand.value),), others=possible)
        if HAND_STAGES.index(planned.hand_hardest) < HAND_STAGES.index(planned.hand):
            hands = (("hand_hardest", planned.hand_hardest.value), ("hand", planned.hand.value))
            yield Objection("opens_nothing", "hand_hardest", place, params=hands)

    def _sides(self, place: int, planned: Planned, exercise: Exercise) -> Iterator[Objection]:
        if exercise.sides is Sides.NONE and (planned.sides or planned.weaker_target is not None):
            yield Objection("no_sides", "sides", place)
        if len(set(planned.sides)) != len(planned.sides):
            yield Objection("side_twice", "sides", place)

    def _ruled_out(self, place: int, key: str, exercise: Exercise, form: Form) -> Iterator[Objection]:
        possible = [other for other in exercise.forms if not why_not(other, self.plan, self.carer)]
        alike = [other.id for other in possible if other.stance is form.stance and other.eyes is form.eyes]
        others = tuple(other.id for other in possible)
        for code in why_not(form, self.plan, self.carer):
            same = alike[0] if alike and code == "two_hands" else None
            yield Objection(code, key, place, params=(("form", form.id),), same=same, others=others)

    # --- the plan as a whole ------------------------------------------------------------------------------

    def _support(self) -> Iterator[Objection]:
        if self.plan.place.support != TIPS:
            return
        for place, planned in enumerate(self.plan.exercises):
            exercise = self.known.get(planned.exercise)
            # also where an easier form is prescribed: the support stays the same when the form is changed
            if exercise is not None and any(form.stance in UNSTEADY for form in exercise.forms):
                yield Objection("tips", "support", place)

    def _order(self) -> Iterator[Objection]:
        known = self.known
        roles = [known[planned.exercise].role for planned in self.plan.exercises if planned.exercise in known]
        if not roles or roles[0] is not Role.WARM_UP:
            yield Objection("no_warm_up", "order", 0 if self.plan.exercises else None)
        elif roles != sorted(roles, key=list(Role).index):
            place = next(at for at, role in enumerate(roles) if role is Role.WARM_UP and Role.MAIN in roles[:at])
            yield Objection("warm_up_late", "order", place)

    def _length(self) -> Iterator[Objection]:
        needed, minutes = -(-least_seconds(self.plan, self.known) // 60), self.plan.minutes
        if needed > minutes:
            yield Objection("too_long", "minutes", params=(("needed", str(needed)), ("minutes", str(minutes))))
        usual = self.rules.usual_dose
        if minutes > usual.minutes:
            times = len(self.plan.practice.weekdays) * len(self.plan.practice.times)
            told = (("times", str(times)), ("minutes", str(minutes)), ("usual", str(usual.minutes)), ("source", usual.source))
            yield Objection("long_to_begin", "minutes", severity=Severity.WARNED, params=told)

    def _dates(self) -> Iterator[Objection]:
        plan = self.plan
        if not plan.practice.weekdays or not plan.practice.times:
            yield Objection("no_days", "practice")
        if plan.review_on is not None and plan.ends_on is not None and plan.review_on > plan.ends_on:
            yield Objection("review_after_end", "review_on")
