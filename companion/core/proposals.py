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
from companion.core.described import way
from companion.core.effects import Pass, PersonId, Record, Subject, Words, words
from companion.core.events import Prescribed, Pressed
from companion.core.observations import ProposalAnswered, ProposalEnd, Proposed, SessionEnded
from companion.core.plan_rules import judge, refused
from companion.core.programme import Direction, Planned, Role
from companion.core.progression import direction
from companion.core.proposal_card import became, evidence, item_of, show, step_back, step_up
from companion.core.recent import Proposal
from companion.core.script import in_library
from companion.core.turn import Turn

REASONS = {ProposalEnd.NEXT: "steadier", ProposalEnd.BACK: "easier"}
"""What the client is told of why the plan changed, as in `plan_news.py`."""


def follow(turn: Turn) -> None:
    """After everything that happened: withdraw what no longer holds; at the end of a session, propose what the rule meets."""
    proposal = _current(turn)
    if any(isinstance(effect, Record) and isinstance(effect.observation, SessionEnded) for effect in turn.effects):
        if proposal is None:
            _look_for_one(turn)
        elif not _still_met(turn, proposal):
            _withdraw(turn, ProposalEnd.NO_LONGER_MET)


def asked_again(turn: Turn) -> None:
    """The week is over in which the therapist did not want to be asked."""
    proposal = _current(turn)
    if proposal is None:
        return
    if not _still_met(turn, proposal):
        _withdraw(turn, ProposalEnd.NO_LONGER_MET)
        return
    proposal = replace(proposal, later_at=None, to=seeing(turn.client, turn.at))
    turn.set(proposal=proposal)
    for to in proposal.to:
        show(turn, proposal, to)


def waiting(turn: Turn, to: PersonId) -> None:
    """The proposal that waits for an answer, said again to one of the therapists; nothing if none waits."""
    proposal = _current(turn)
    if proposal is not None and proposal.later_at is None:
        if to not in proposal.to:
            proposal = replace(proposal, to=(*proposal.to, to))
            turn.set(proposal=proposal)
        show(turn, proposal, to)


def pressed(turn: Turn, event: Pressed) -> None:
    """A therapist's answer. What is over, or somebody else's, gets one polite line."""
    proposal, choice = _current(turn), event.press.choice
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


def _current(turn: Turn) -> Proposal | None:
    """The proposal that stands. One that no longer holds is withdrawn first: also the content may have changed meanwhile."""
    outdated = _outdated(turn)
    if outdated is not None:
        _withdraw(turn, outdated)
    return turn.client.proposal


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
    up = step_up(turn, item) if way_to is Direction.UP else None
    step = up[0] if up is not None else None
    seen_by = seeing(client, turn.at)
    proposal = Proposal(turn.number("p"), item.exercise, way_to, step, client.plan.version, turn.at, seen_by)
    turn.set(proposal=proposal)
    days = tuple(run.day for run in evidence(turn, proposal))
    turn.record(Proposed(turn.at, proposal.id, item.exercise, way_to, step or "", client.plan.version, days))
    for to in proposal.to:
        show(turn, proposal, to)


def _direction(turn: Turn, exercise: str) -> Direction | None:
    client, rules = turn.client, turn.rules
    runs = [run for run in client.runs if run.exercise == exercise]
    done, due = adherence(client, turn.today, rules.listing)
    pointed = direction(runs, rules.progression.is_adherent(done, due), rules.progression)
    # nothing harder is proposed while the last sessions are among the client's lowest
    return None if pointed is Direction.UP and client.lower_since is not None else pointed


def _still_met(turn: Turn, proposal: Proposal) -> bool:
    return _direction(turn, proposal.exercise) is proposal.direction


def _possible(turn: Turn, item: Planned, wanted: Direction) -> bool:
    return (step_up(turn, item) if wanted is Direction.UP else step_back(turn, item)) is not None


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


# --- the answer -----------------------------------------------------------------------------------------------


def _change(turn: Turn, event: Pressed, proposal: Proposal, up: bool) -> None:
    """A new version of the plan, by the therapist's word. What it would contradict is told and not done."""
    client = turn.client
    assert client.plan is not None
    item, exercise = item_of(turn, proposal)
    found = step_up(turn, item) if up else None
    step = found[1] if found is not None else None if up else step_back(turn, item)
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
    became(turn, proposal, words("proposal-later", day=later_at.date().isoformat()), event.by)


def _withdraw(turn: Turn, why: ProposalEnd) -> None:
    proposal = turn.client.proposal
    assert proposal is not None
    _close(turn, proposal, why, "", words("proposal-withdrawn", why=words(f"proposal-why-{why.value.replace('_', '-')}")))


def _close(turn: Turn, proposal: Proposal, answer: ProposalEnd, by: str, said: Words) -> None:
    turn.set(proposal=None)
    turn.record(ProposalAnswered(turn.at, proposal.id, proposal.exercise, answer, by))
    became(turn, proposal, said, by)
