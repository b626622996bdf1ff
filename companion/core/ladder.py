"""The ladder of one planned bout: every way it may be done, from easiest to hardest, one thing changed at a time.

Easier is always there, down to the easiest form. Harder goes only as far as the plan opens it: first less hand support,
then the next form. A form that the plan rules out (eyes closed, ankle, two hands, no carer) is not on the ladder at all.
"""

from dataclasses import dataclass, replace

from companion.core.programme import (
    HAND_STAGES,
    Clock,
    Exercise,
    Eyes,
    Form,
    Hand,
    Measure,
    Plan,
    Planned,
    Posture,
)


@dataclass(frozen=True, slots=True)
class Rung:
    """One way to do a bout. `target` is seconds or a count; `eased` is steps easier than planned (negative: harder)."""

    form: Form
    hand: Hand
    target: int
    clock: Clock
    eased: int


def allowed(form: Form, plan: Plan, clock: Clock, carer: bool) -> bool:
    """Whether this plan admits a form at all, kept on that clock, with a carer there or not."""
    # who closes their eyes reads no screen: the carer keeps the time or counts aloud, or a sound is the clock
    blind = clock in (Clock.CARER, Clock.SOUND) or form.measure is Measure.COUNTED
    return not (
        (form.eyes is Eyes.CLOSED and not (plan.eyes_closed and blind and carer))
        or (form.needs_free_ankle and plan.ankle_blocked)
        or (form.needs_two_hands and plan.one_good_hand)
        or ((form.needs_carer or clock is Clock.CARER) and not carer)
    )


def stages(form: Form, plan: Plan) -> tuple[Hand, ...]:
    """The hand stages open to this client in a form, most support first. Two hands need two good ones."""
    return tuple(hand for hand in HAND_STAGES if hand in form.hands and not (hand is Hand.TWO_HANDS and plan.one_good_hand))


def _clock(form: Form, exercise: Exercise, planned: Planned) -> Clock:
    if form.measure is Measure.COUNTED:
        return Clock.NONE
    if planned.clock is not Clock.NONE:
        return planned.clock
    return Clock.SCREEN if Clock.SCREEN in exercise.clocks else Clock.CARER


def _target(form: Form, planned: Planned, start: Form) -> int:
    if form.id == start.id:
        return planned.target
    return min(planned.target, form.target) if form.measure is start.measure else form.target


def ladder(planned: Planned, exercise: Exercise, plan: Plan, carer: bool) -> tuple[Rung, ...]:
    """All rungs from easiest to hardest; the planned one has `eased` 0. Empty if the plan admits no rung at all.

    If the planned form itself is ruled out, the hardest easier one stands in its place, and counts as eased.
    """
    start = exercise.form(planned.form)
    at = exercise.forms.index(start)
    top = max(at, exercise.forms.index(exercise.form(planned.hardest)))

    def rung(form: Form, hand: Hand, eased: int) -> Rung:
        return Rung(form, hand, _target(form, planned, start), _clock(form, exercise, planned), eased)

    def open_to(form: Form) -> bool:
        return bool(stages(form, plan)) and allowed(form, plan, _clock(form, exercise, planned), carer)

    easier: list[Rung] = []
    eased = 0
    hand = planned.hand
    for form in reversed(exercise.forms[: at + 1]):
        if not open_to(form):
            eased += 1
            continue
        open_stages = stages(form, plan)
        hand = hand if hand in open_stages else open_stages[0]
        easier.append(rung(form, hand, eased))
        for more in reversed(open_stages[: open_stages.index(hand)]):
            eased += 1
            hand = more
            easier.append(rung(form, more, eased))
        eased += 1
    harder: list[Rung] = []
    if open_to(start):
        hand = easier[0].hand
        eased = 0
        begun, limit = HAND_STAGES.index(hand), HAND_STAGES.index(planned.hand_hardest)
        for less in stages(start, plan):
            if begun < HAND_STAGES.index(less) <= limit:
                eased -= 1
                hand = less
                harder.append(rung(start, less, eased))
        for form in exercise.forms[at + 1 : top + 1]:
            if open_to(form) and hand in stages(form, plan):
                eased -= 1
                harder.append(rung(form, hand, eased))
    return (*reversed(easier), *harder)


def stands(rung: Rung) -> bool:
    """Whether this rung is done standing."""
    return rung.form.posture is Posture.STANDING


def on_another_clock(rung: Rung, exercise: Exercise, carer: bool) -> Rung | None:
    """The same where sound is not heard: on the screen with open eyes, else with the carer as the clock; None if neither
    can be. `carer`: one is beside the client."""
    if rung.form.eyes is Eyes.OPEN and Clock.SCREEN in exercise.clocks:
        return replace(rung, clock=Clock.SCREEN)
    return replace(rung, clock=Clock.CARER) if carer and Clock.CARER in exercise.clocks else None
