"""A step is proposed to the therapist, with the evidence and four answers. Nothing is ever changed by itself.

    rule met at the end of a session -> proposed -> next step | stay | step back      (asked in a week: proposed again)
                                           |
                                           +-- plan changed, flag, hand-over, discharge, rule no longer met -> withdrawn

One proposal at a time. Every therapist who sees to the client then gets it; the first answer counts.
"""

from dataclasses import replace
from datetime import timedelta

from companion.core.care import seeing
from companion.core.caseload import adherence
from companion.core.described import listed, way
from companion.core.effects import Button, Pass, PersonId, Put, Record, Subject, Urgency, Words, words
from companion.core.events import Prescribed, Pressed
from companion.core.observations import ProposalAnswered, ProposalEnd, Proposed, SessionEnded
from companion.core.plan_news import name_of
from companion.core.plan_rules import judge, refused
from companion.core.programme import Challenge, Direction, Exercise, Measure, Planned, Role
from companion.core.progression import direction, easier, harder
from companion.core.recent import Proposal, Run
from companion.core.script import in_library
from companion.core.turn import Turn

STEP = "proposal"
REASONS = {ProposalEnd.NEXT: "steadier", ProposalEnd.BACK: "easier"}
"""What the client is told of why the plan changed, as in `plan_news.py`."""


def follow(turn: Turn) -> None:
    """After everything that happened: withdraw what no longer holds; at the end of a session, propose what the rule meets."""
    outdated = _outdated(turn)
    if outdated is not None:
        _withdraw(turn, outdated)
    if any(isinstance(effect, Record) and isinstance(effect.observation, SessionEnded) for effect in turn.effects):
        if turn.client.proposal is None:
            _look_for_one(turn)
        elif not _still_met(turn, turn.client.proposal):
            _withdraw(turn, ProposalEnd.NO_LONGER_MET)


def asked_again(turn: Turn) -> None:
    """The week is over in which the therapist did not want to be asked."""
    proposal = turn.client.proposal
    assert proposal is not None
    if not _still_met(turn, proposal):
        _withdraw(turn, ProposalEnd.NO_LONGER_MET)
        return
    proposal = replace(proposal, later_at=None, to=seeing(turn.client, turn.at))
    turn.set(proposal=proposal)
    _say(turn, proposal)


def waiting(turn: Turn, to: PersonId) -> None:
    """The proposal that waits for an answer, said again to one of the therapists; nothing if none waits."""
    proposal = turn.client.proposal
    if proposal is not None and proposal.later_at is None:
        if to not in proposal.to:
            proposal = replace(proposal, to=(*proposal.to, to))
            turn.set(proposal=proposal)
        _card(turn, to, _lines(turn, proposal), _buttons(turn, proposal), Put.NEW)


def pressed(turn: Turn, event: Pressed) -> None:
    """A therapist's answer. What is over, or somebody else's, gets one polite line."""
    proposal, choice = turn.client.proposal, event.press.choice
    if event.by not in seeing(turn.client, turn.at):
        turn.reply(words("press-not-yours"))
    elif proposal is None or event.press.scope != proposal.id:
        turn.reply(words("proposal-over"))
    elif choice == "week":
        _later(turn, event, proposal)
    elif choice == "stay":
        turn.reply()
        turn.set(runs=tuple(run for run in turn.client.runs if run.exercise != proposal.exercise))
        _close(turn, proposal, ProposalEnd.STAY, event.by, words("proposal-stays"))
    elif choice in ("next", "back"):
        _change(turn, event, proposal, up=choice == "next")
    else:
        turn.reply(words("press-stale"))


# --- what is proposed -----------------------------------------------------------------------------------------


def _look_for_one(turn: Turn) -> None:
    """The first exercise of the main part that the rule points at: a step back before a step up."""
    client = turn.client
    if client.plan is None or client.hold is not None or not in_library(client.plan, turn.rules.exercises):
        return
    mains = [item for item in client.plan.exercises if turn.rules.exercises[item.exercise].role is Role.MAIN]
    pointed = [(_direction(turn, item.exercise), item) for item in mains]
    for wanted in (Direction.BACK, Direction.UP):
        for found, item in pointed:
            if found is wanted and _possible(turn, item, wanted):
                _propose(turn, item, wanted)
                return


def _propose(turn: Turn, item: Planned, way_to: Direction) -> None:
    client = turn.client
    assert client.plan is not None
    up = _harder(turn, item) if way_to is Direction.UP else None
    step = up[0] if up is not None else None
    to = seeing(client, turn.at)
    proposal = Proposal(turn.number("p"), item.exercise, way_to, step, client.plan.version, turn.at, to)
    turn.set(proposal=proposal)
    days = tuple(run.day for run in _evidence(turn, proposal))
    turn.record(Proposed(turn.at, proposal.id, item.exercise, way_to, step or "", client.plan.version, days))
    _say(turn, proposal)


def _direction(turn: Turn, exercise: str) -> Direction | None:
    client, rules = turn.client, turn.rules
    runs = [run for run in client.runs if run.exercise == exercise]
    done, due = adherence(client, turn.today, rules.listing)
    return direction(runs, rules.progression.is_adherent(done, due), rules.progression)


def _still_met(turn: Turn, proposal: Proposal) -> bool:
    return _direction(turn, proposal.exercise) is proposal.direction


def _possible(turn: Turn, item: Planned, wanted: Direction) -> bool:
    return (_harder(turn, item) if wanted is Direction.UP else _easier(turn, item)) is not None


def _harder(turn: Turn, item: Planned) -> tuple[Challenge, Planned] | None:
    plan, rules = turn.client.plan, turn.rules
    assert plan is not None
    return harder(item, rules.exercises[item.exercise], plan, turn.client.people.carer is not None, rules.progression)


def _easier(turn: Turn, item: Planned) -> Planned | None:
    plan = turn.client.plan
    assert plan is not None
    return easier(item, turn.rules.exercises[item.exercise], plan, turn.client.people.carer is not None)


def _outdated(turn: Turn) -> ProposalEnd | None:
    client, proposal = turn.client, turn.client.proposal
    if proposal is None:
        return None
    if client.hold is not None:
        return ProposalEnd.FLAG
    if client.discharged_at is not None:
        return ProposalEnd.DISCHARGED
    if client.plan is None or client.plan.version != proposal.version or not in_library(client.plan, turn.rules.exercises):
        return ProposalEnd.PLAN_CHANGED
    return None if client.people.therapist in proposal.to else ProposalEnd.THERAPIST_CHANGED


# --- what the therapist sees ----------------------------------------------------------------------------------


def _item(turn: Turn, proposal: Proposal) -> tuple[Planned, Exercise]:
    """What is planned of that exercise. A proposal for a plan without it is withdrawn before anybody can ask."""
    assert turn.client.plan is not None
    item = next(item for item in turn.client.plan.exercises if item.exercise == proposal.exercise)
    return item, turn.rules.exercises[proposal.exercise]


def _evidence(turn: Turn, proposal: Proposal) -> list[Run]:
    rule = turn.rules.progression
    number = rule.sessions_running if proposal.direction is Direction.UP else rule.back_sessions
    return [run for run in turn.client.runs if run.exercise == proposal.exercise][-number:]


def _say(turn: Turn, proposal: Proposal) -> None:
    for to in proposal.to:
        _card(turn, to, _lines(turn, proposal), _buttons(turn, proposal), Put.NEW)


def _card(
    turn: Turn, to: str, lines: tuple[Words, ...], buttons: tuple[Button, ...], put: Put, urgency: Urgency = Urgency.REPORT
) -> None:
    # no hurry, and perhaps evening: it makes no sound
    card = f"proposal-{turn.client.id}"
    turn.say(to, *lines, buttons=buttons, card=card, put=put, urgency=urgency, topic=STEP, silent=True)


def _lines(turn: Turn, proposal: Proposal) -> tuple[Words, ...]:
    item, exercise = _item(turn, proposal)
    name, called = name_of(exercise.id), turn.client.name
    up = _harder(turn, item) if proposal.direction is Direction.UP else None
    back = _easier(turn, item)
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
    runs = _evidence(turn, proposal)
    days = [words("proposal-day", day=run.day.isoformat(), clean=run.clean, broke=run.broke, sides=run.sides,
                  effort=words(f"proposal-effort-{run.effort or 'unknown'}")) for run in runs]  # fmt: skip
    return (words(f"proposal-evidence-{proposal.direction}", sessions=len(runs)), *days)


def _buttons(turn: Turn, proposal: Proposal) -> tuple[Button, ...]:
    item, _ = _item(turn, proposal)
    choices = ["next"] if proposal.direction is Direction.UP else []
    choices += ["stay", *(["back"] if _easier(turn, item) is not None else []), "week"]
    return tuple(turn.button(f"b-proposal-{choice}", proposal.id, STEP, choice) for choice in choices)


# --- the answer -----------------------------------------------------------------------------------------------


def _change(turn: Turn, event: Pressed, proposal: Proposal, up: bool) -> None:
    """A new version of the plan, by the therapist's word. What it would contradict is told and not done."""
    client = turn.client
    assert client.plan is not None
    item, exercise = _item(turn, proposal)
    found = _harder(turn, item) if up else None
    step = found[1] if found is not None else None if up else _easier(turn, item)
    if step is None:
        turn.reply(words("proposal-no-harder" if up else "proposal-no-easier"))
        return
    items = tuple(step if one is item else one for one in client.plan.exercises)
    plan = replace(client.plan, version=client.plan.version + 1, exercises=items)
    objections = refused(judge(plan, turn.rules, client.people.carer is not None))
    if objections:
        turn.reply(words("proposal-refused"))
        return
    turn.reply()
    answer = ProposalEnd.NEXT if up else ProposalEnd.BACK
    said = words(f"proposal-{answer}-done", way=way(step, exercise), version=plan.version)
    _close(turn, proposal, answer, event.by, said)
    turn.effects.append(Pass(Subject("client", client.id), Prescribed(turn.at, plan, event.by, REASONS[answer])))


def _later(turn: Turn, event: Pressed, proposal: Proposal) -> None:
    if proposal.later_at is not None:
        turn.reply(words("proposal-over"))
        return
    turn.reply()
    later_at = turn.at + timedelta(days=turn.rules.progression.ask_again_days)
    turn.set(proposal=replace(proposal, later_at=later_at))
    turn.record(ProposalAnswered(turn.at, proposal.id, proposal.exercise, ProposalEnd.LATER, event.by))
    _done(turn, proposal, words("proposal-later", day=later_at.date().isoformat()), event.by)


def _withdraw(turn: Turn, why: ProposalEnd) -> None:
    proposal = turn.client.proposal
    assert proposal is not None
    _close(turn, proposal, why, "", words("proposal-withdrawn", why=words(f"proposal-why-{why.value.replace('_', '-')}")))


def _close(turn: Turn, proposal: Proposal, answer: ProposalEnd, by: str, said: Words) -> None:
    turn.set(proposal=None)
    turn.record(ProposalAnswered(turn.at, proposal.id, proposal.exercise, answer, by))
    _done(turn, proposal, said, by)


def _done(turn: Turn, proposal: Proposal, said: Words, by: str) -> None:
    """The card of everybody who has it says what became of it, and by whom."""
    title = words("proposal-about", name=turn.client.name, exercise=name_of(proposal.exercise))
    who = (words("proposal-by", who=turn.client.people.name(by)),) if by else ()
    # who pressed sees it before whatever else the answer brings about
    urgency = Urgency.ANSWER if by else Urgency.REPORT
    for to in proposal.to:
        _card(turn, to, (listed((title, said)), *who), (), Put.IN_PLACE, urgency)
