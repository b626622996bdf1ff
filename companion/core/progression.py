"""When a step up or a step back is proposed, and what that step would be. Rules only: `proposals.py` asks the therapist.

A step up changes one thing, in the order of content: a longer hold first, then less hand, then a narrower base, then closed
eyes. What the plan rules out (no carer, no permission for closed eyes, an ankle that is blocked) is no next step at all.
Both sides move together. A step back is the next easier rung of the ladder, and it closes the range to that rung.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from companion.core.ladder import allowed, ladder, stages
from companion.core.programme import (
    HAND_STAGES,
    Challenge,
    Clock,
    Direction,
    Exercise,
    Eyes,
    Form,
    Hand,
    Measure,
    Plan,
    Planned,
    Progression,
)
from companion.core.recent import Run


def direction(runs: Sequence[Run], adherent: bool | None, rule: Progression) -> Direction | None:
    """Where the newest runs of one exercise (oldest first) point; None: nowhere yet. `adherent` None: nothing was due."""
    last = runs[-rule.sessions_running :]
    if len(last) == rule.sessions_running and adherent is not False and all(_clean(run, rule) for run in last):
        return Direction.UP
    broke = [run.broke for run in runs[-rule.back_sessions :]]
    if len(broke) == rule.back_sessions and all(broke) and broke[-1] >= broke[0]:
        return Direction.BACK
    return None


def _clean(run: Run, rule: Progression) -> bool:
    return run.clean == run.sides and run.broke == 0 and run.effort in rule.efforts


def harder(
    planned: Planned, exercise: Exercise, plan: Plan, carer: bool, rule: Progression
) -> tuple[Challenge, Planned] | None:
    """The next step up and what makes it harder; None: the library has no harder form that this plan admits."""
    ways: Mapping[Challenge, Callable[[], Planned | None]] = {
        Challenge.LONGER_HOLD: lambda: _longer(planned, exercise.form(planned.form), rule),
        Challenge.LESS_HAND: lambda: _less_hand(planned, exercise, plan),
        Challenge.NARROWER_BASE: lambda: _next_form(planned, exercise, plan, carer, closed=False),
        Challenge.EYES_CLOSED: lambda: _next_form(planned, exercise, plan, carer, closed=True),
    }
    for challenge in rule.order:
        step = ways[challenge]()
        if step is not None:
            return challenge, step
    return None


def easier(planned: Planned, exercise: Exercise, plan: Plan, carer: bool) -> Planned | None:
    """One step back; None: the plan has nothing easier. Nothing harder than that stays open to the client."""
    rungs = [rung for rung in ladder(planned, exercise, plan, carer) if rung.eased > 0]
    if not rungs:
        return None
    rung = rungs[-1]
    weaker = None if planned.weaker_target is None else min(planned.weaker_target, rung.target)
    return replace(
        planned,
        form=rung.form.id,
        hand=rung.hand,
        target=rung.target,
        weaker_target=weaker,
        hardest=rung.form.id,
        hand_hardest=rung.hand,
    )


def _longer(planned: Planned, form: Form, rule: Progression) -> Planned | None:
    """A longer hold, or more repeats, up to the usual dose of the form; the weaker side by as much."""
    more = rule.more_seconds if form.measure is Measure.TIMED else rule.more_repeats

    def grown(dose: int) -> int:
        return max(dose, min(form.target, dose + more))

    weaker = None if planned.weaker_target is None else grown(planned.weaker_target)
    longer = replace(planned, target=grown(planned.target), weaker_target=weaker)
    return longer if longer != planned else None


def _less_hand(planned: Planned, exercise: Exercise, plan: Plan) -> Planned | None:
    less = [hand for hand in stages(exercise.form(planned.form), plan) if _less(hand, planned.hand)]
    return _opened(replace(planned, hand=less[0]), exercise) if less else None


def _next_form(planned: Planned, exercise: Exercise, plan: Plan, carer: bool, closed: bool) -> Planned | None:
    """The next form with the eyes as they are, or the first with closed eyes; the same dose, the hand as near as it can be."""
    now = exercise.form(planned.form)
    eyes = Eyes.CLOSED if closed else now.eyes
    if closed and now.eyes is Eyes.CLOSED:
        return None
    for form in exercise.forms[exercise.forms.index(now) + 1 :]:
        clock = planned.clock if form.measure is Measure.TIMED else Clock.NONE
        open_hands = stages(form, plan)
        if form.eyes is eyes and open_hands and allowed(form, plan, clock, carer):
            kept = [hand for hand in open_hands if not _less(hand, planned.hand)]
            return _opened(replace(planned, form=form.id, hand=kept[-1] if kept else open_hands[0]), exercise)
    return None


def _opened(planned: Planned, exercise: Exercise) -> Planned:
    """The range that the therapist opened reaches at least as far as what is planned."""
    ids = [form.id for form in exercise.forms]
    hardest = max(planned.hardest, planned.form, key=ids.index)
    return replace(planned, hardest=hardest, hand_hardest=max(planned.hand_hardest, planned.hand, key=HAND_STAGES.index))


def _less(hand: Hand, than: Hand) -> bool:
    return HAND_STAGES.index(hand) > HAND_STAGES.index(than)
