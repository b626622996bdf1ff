"""What is recorded leaves a short tail in the client's state: runs of each exercise, blank days, falls, own words.

It is read off the records that a step leaves, so whatever records something need not know who reads the tail.
"""

from dataclasses import replace

from companion.core.care import Client
from companion.core.effects import Record
from companion.core.observations import Bout, DayClosed, FallReported, FlagRaised, Observation, OwnWords, Quality, SessionEnded
from companion.core.programme import HAND_STAGES, Exercise, Plan, Planned
from companion.core.recent import Blank, Run, Said, Slip
from companion.core.schedule import local_day
from companion.core.script import planned_sides
from companion.core.turn import Turn

KEPT_BLANKS = 31
KEPT_SLIPS = 5
KEPT_WORDS = 3
KEPT_LETTERS = 400


def note(turn: Turn, before: Client) -> None:
    """Keep what this step recorded. What was practised under another dose says nothing about a new one."""
    plan = turn.client.plan
    if plan is not None and plan is not before.plan and turn.client.runs:
        same = {item.exercise for item in plan.exercises if item in (before.plan.exercises if before.plan else ())}
        turn.set(runs=tuple(run for run in turn.client.runs if run.exercise in same))
    for effect in turn.effects:
        if isinstance(effect, Record):
            _keep(turn, effect.observation)


def _keep(turn: Turn, seen: Observation) -> None:
    client = turn.client
    match seen:
        case Bout():
            _bout(turn, seen)
        case SessionEnded():
            runs = (replace(run, effort=seen.effort) if run.session == seen.session else run for run in client.runs)
            turn.set(runs=tuple(runs))
        case DayClosed():
            asked = client.plan.practice.sessions(seen.day) if client.plan is not None else 0
            turn.set(blanks=(*client.blanks, Blank(seen.day, seen.ending, max(asked, 1)))[-KEPT_BLANKS:])
        case FlagRaised():
            turn.set(runs=())
        case FallReported():
            others = (slip for slip in client.slips if slip.under != seen.flag)
            slip = Slip(local_day(seen.at, client.zone), seen.flag, seen.fall)
            turn.set(runs=(), slips=(*others, slip)[-KEPT_SLIPS:])
        case OwnWords():
            turn.set(said=(*client.said, Said(seen.at, seen.by, seen.text[:KEPT_LETTERS], seen.form))[-KEPT_WORDS:])
        case _:
            pass


def _bout(turn: Turn, bout: Bout) -> None:
    client, rule = turn.client, turn.rules.progression
    exercise = turn.rules.exercises.get(bout.exercise)
    planned = _planned(client.plan, bout.exercise)
    if exercise is None or planned is None:
        return
    sides = len(planned_sides(planned, exercise))
    old = next((run for run in client.runs if (run.exercise, run.session) == (bout.exercise, bout.session)), None)
    run = old or Run(bout.exercise, bout.session, local_day(bout.at, client.zone), sides)
    eased = not _as_hard_as(planned, exercise, bout)
    run = replace(
        run,
        clean=run.clean + (bout.quality is Quality.CLEAN and not eased),
        broke=run.broke + (bout.quality is Quality.BROKE or (eased and bout.quality is Quality.CLEAN)),
    )
    others = tuple(one for one in client.runs if one is not old)
    spare = [one for one in others if one.exercise == bout.exercise][: -_most(rule.sessions_running, rule.back_sessions)]
    turn.set(runs=(*(one for one in others if one not in spare), run))


def _most(*counts: int) -> int:
    """How many older runs of an exercise are kept beside the newest."""
    return max(1, max(counts) - 1)


def _planned(plan: Plan | None, exercise: str) -> Planned | None:
    return next((item for item in plan.exercises if item.exercise == exercise), None) if plan is not None else None


def _as_hard_as(planned: Planned, exercise: Exercise, bout: Bout) -> bool:
    """Whether a bout was at least what is planned now: form, hand and dose. It may have been begun under an older plan."""
    ids = [form.id for form in exercise.forms]
    if bout.form not in ids or planned.form not in ids:
        return False
    at, wanted = ids.index(bout.form), ids.index(planned.form)
    hand = HAND_STAGES.index(bout.hand) >= HAND_STAGES.index(planned.hand)
    return at > wanted or (at == wanted and hand and bout.target >= planned.dose(bout.side))
