"""A proposal as it stands on the therapist's phone: what it rests on, what each answer would do, and what became of it."""

from companion.core.care import seeing
from companion.core.caseload import adherence
from companion.core.described import listed, way
from companion.core.effects import Button, ClearButtons, PersonId, Put, Urgency, Words, words
from companion.core.plan_news import name_of
from companion.core.programme import Challenge, Direction, Exercise, Measure, Planned
from companion.core.progression import easier, harder
from companion.core.recent import Proposal, Run
from companion.core.turn import Turn

STEP = "proposal"


def item_of(turn: Turn, proposal: Proposal) -> tuple[Planned, Exercise]:
    """What is planned of that exercise. A proposal for a plan without it is withdrawn before anybody can ask."""
    assert turn.client.plan is not None
    item = next(item for item in turn.client.plan.exercises if item.exercise == proposal.exercise)
    return item, turn.rules.exercises[proposal.exercise]


def evidence(turn: Turn, proposal: Proposal) -> list[Run]:
    """The sessions that a proposal rests on, oldest first."""
    rule = turn.rules.progression
    number = rule.sessions_running if proposal.direction is Direction.UP else rule.back_sessions
    return [run for run in turn.client.runs if run.exercise == proposal.exercise][-number:]


def show(turn: Turn, proposal: Proposal, to: PersonId) -> None:
    """The proposal with its buttons, on that therapist's phone."""
    _card(turn, to, _lines(turn, proposal), _buttons(turn, proposal), Put.NEW)


def _card(
    turn: Turn, to: str, lines: tuple[Words, ...], buttons: tuple[Button, ...], put: Put, urgency: Urgency = Urgency.REPORT
) -> None:
    # no hurry, and perhaps evening: it makes no sound
    turn.say(to, *lines, buttons=buttons, card=_place(turn), put=put, urgency=urgency, topic=STEP, silent=True)


def _place(turn: Turn) -> str:
    return f"proposal-{turn.client.id}"


def _lines(turn: Turn, proposal: Proposal) -> tuple[Words, ...]:
    item, exercise = item_of(turn, proposal)
    name, called = name_of(exercise.id), turn.client.name
    up = step_up(turn, item) if proposal.direction is Direction.UP else None
    back = step_back(turn, item)
    done, due = adherence(turn.client, turn.today, turn.rules.listing)
    return (
        words(f"proposal-title-{proposal.direction}", name=called, exercise=name),
        *_evidence_lines(turn, proposal),
        words("proposal-due", done=done, due=due, days=turn.rules.listing.window_days),
        words("proposal-now", way=way(item, exercise)),
        *((words("proposal-next", step=_challenge(up[0], exercise), way=way(up[1], exercise)),) if up is not None else ()),
        *((words("proposal-back", way=way(back, exercise)),) if back is not None else ()),
        words("proposal-yours"),
    )


def _challenge(challenge: Challenge, exercise: Exercise) -> Words:
    counted = challenge is Challenge.LONGER_HOLD and exercise.forms[0].measure is Measure.COUNTED
    return words("challenge-more-repeats" if counted else f"challenge-{challenge.value.replace('_', '-')}")


def _evidence_lines(turn: Turn, proposal: Proposal) -> tuple[Words, ...]:
    runs = evidence(turn, proposal)
    days = [words("proposal-day", day=run.day.isoformat(), clean=run.clean, broke=run.broke, sides=run.sides,
                  effort=words(f"proposal-effort-{run.effort or 'unknown'}")) for run in runs]  # fmt: skip
    return (words(f"proposal-evidence-{proposal.direction}", sessions=len(runs)), *days)


def _buttons(turn: Turn, proposal: Proposal) -> tuple[Button, ...]:
    item, _ = item_of(turn, proposal)
    choices = ["next"] if proposal.direction is Direction.UP else []
    choices += ["stay", *(["back"] if step_back(turn, item) is not None else []), "week"]
    return tuple(turn.button(f"b-proposal-{choice}", proposal.id, STEP, choice) for choice in choices)


def became(turn: Turn, proposal: Proposal, said: Words, by: str) -> None:
    """The card of everybody who has it says what became of it, and by whom."""
    title = words("proposal-about", name=turn.client.name, exercise=name_of(proposal.exercise))
    who = (words("proposal-by", who=turn.client.people.name(by)),) if by else ()
    # who pressed sees it before whatever else the answer brings about
    urgency = Urgency.ANSWER if by else Urgency.REPORT
    for to in proposal.to:
        if to in seeing(turn.client, turn.at):
            _card(turn, to, (listed((title, said)), *who), (), Put.IN_PLACE, urgency)
        else:
            turn.effects.append(ClearButtons(to, _place(turn), STEP))  # a former therapist hears nothing more


# --- what a step would be in this client's plan -----------------------------------------------------------------


def step_up(turn: Turn, item: Planned) -> tuple[Challenge, Planned] | None:
    """The next step up of an exercise in this client's plan, as `harder`."""
    plan, rules = turn.client.plan, turn.rules
    assert plan is not None
    return harder(item, rules.exercises[item.exercise], plan, turn.client.people.carer is not None, rules.progression)


def step_back(turn: Turn, item: Planned) -> Planned | None:
    """The step back of an exercise in this client's plan, as `easier`."""
    plan = turn.client.plan
    assert plan is not None
    return easier(item, turn.rules.exercises[item.exercise], plan, turn.client.people.carer is not None)
