"""A client's care takes a plan: it holds from now on, is recorded, and reaches client and carer in words with the reason.

    prescribed --(another plan came between, or it contradicts itself by now)--> back to the therapist's phone
        |
        +--> holds --> told: at once, or after the session, the red flag or the pause that is under way --> over on its last day

A session under way ends on its own frozen script. A plan changes nothing about a red flag or a pause: it waits.
"""

from dataclasses import replace
from datetime import datetime, time, timedelta

from companion.core import early_notice, own_media
from companion.core.agreement import holds
from companion.core.care import Client, facts, seeing
from companion.core.effects import Button, Pass, PersonId, Put, Subject, TakeBack, Words, words
from companion.core.events import Opened, Opens, PlanAsked, Prescribed, Press
from companion.core.intake import fit
from companion.core.observations import PlanPrescribed
from companion.core.plan_news import for_carer, for_client
from companion.core.plan_rules import judge, refused
from companion.core.programme import Plan
from companion.core.schedule import instant, out_of_quiet
from companion.core.turn import ANSWER, Turn

ANNOUNCED = time(9)
"""When, on the day after its last one, the end of a plan is told."""


def taken(turn: Turn, event: Prescribed) -> None:
    """A plan from a therapist's phone, or from an enrolment file (`by` None), which the operator answers for."""
    client, by = turn.client, event.by
    if by is None:
        prescribe(turn, event.plan, None, event.reason)
        return
    if by not in seeing(client, turn.at):
        turn.say(by, words("plan-not-theirs", name=client.name), **ANSWER)
        return
    plan = fit(event.plan, client.baseline) if client.baseline is not None else event.plan
    carer = client.people.carer is not None
    if plan.version != next_version(client) or refused(judge(plan, turn.rules, carer, turn.today)):
        meant = replace(facts(client), meant=event.plan)
        turn.effects.append(Pass(Subject("person", by), Opened(turn.at, Opens.PLAN, meant)))
        return
    prescribe(turn, plan, by, event.reason)
    page = Button(words("b-plan-page"), Press(client.id, "page", "open", "open"))
    for therapist in seeing(client, turn.at):
        said = words("plan-taken", name=client.name, version=plan.version, by=client.people.name(by))
        where = {"card": "desk", "put": Put.IN_PLACE, "buttons": (page,)} if therapist == by else {}
        turn.say(therapist, said, words(f"plan-told-{_told_when(turn)}"), **where, **ANSWER)


def asked(turn: Turn, event: PlanAsked) -> None:
    """A therapist who sees to this client copies the plan for another one."""
    if event.by in seeing(turn.client, turn.at):
        opened = Opened(turn.at, Opens.COPY, facts(turn.client))
        turn.effects.append(Pass(Subject("person", event.by), opened))


def next_version(client: Client) -> int:
    """The version that the next plan has."""
    return client.plan.version + 1 if client.plan is not None else 1


def prescribe(turn: Turn, plan: Plan, by: PersonId | None, reason: str = "") -> None:
    """The plan holds from now on, and makes nothing due in the past. Client and carer are told when they can be.

    A first plan from a file is told by nobody: its people learn it from their first reminder.
    """
    client = turn.client
    untold = client.news is not None
    silent = client.plan is None and by is None
    own_media.plan_changes(turn, plan)
    early_notice.new_plan(turn)
    turn.set(
        plan=plan,
        previous=client.previous if untold else client.plan,
        news=None if silent else reason,
        plan_over=client.plan_over and plan.over(turn.today),  # its end is told once
        discharged_at=None,
        looked_at=turn.at,
        reported_at=turn.at,
        since=client.since or turn.at,
    )
    if client.plan is not None:
        turn.effects.append(TakeBack("plan"))
    turn.record(PlanPrescribed(turn.at, plan.version, by, reason, plan))


def announce(turn: Turn) -> None:
    """What is new in the plan is told, once nothing else is under way. Called at the end of each step."""
    client = turn.client
    if client.news is None or client.plan is None or _told_when(turn) != "now":
        return
    turn.set(news=None)
    if client.plan.over(turn.today):
        return  # what is new in a plan that is over is nothing to act on
    therapist = client.people.name(client.people.therapist)
    told: list[tuple[PersonId, tuple[Words, ...]]] = []
    messages = for_client(client.previous, client.plan, client.news, therapist, turn.rules.exercises)
    told += [(client.people.client, lines) for lines in messages]
    if client.people.carer is not None and client.people.carer in client.joined:
        lines = for_carer(client.previous, client.plan, client.name, turn.rules.exercises)
        told.append((client.people.carer, lines))
    for place, (to, lines) in enumerate(told):
        first = place == 0 or to != client.people.client
        turn.say(to, *lines, silent=not first, **{**ANSWER, "topic": "plan"})


def over_at(client: Client) -> datetime | None:
    """When the end of the plan is to be told; None if it has none, if it was told, or while something else is under way."""
    plan = client.plan
    if plan is None or plan.ends_on is None or client.plan_over or client.discharged_at is not None:
        return None
    if client.session is not None or client.hold is not None:
        return None
    day = plan.ends_on + timedelta(days=1)
    return out_of_quiet(instant(day, ANNOUNCED, client.zone), client.quiet, client.zone)


def ended(turn: Turn, moment: datetime) -> None:
    """The plan had its last day: reminders end kindly, and the therapist hears of it."""
    client = turn.client
    assert client.plan is not None
    turn.set(plan_over=True, news=None)
    people = client.people
    therapist = people.name(people.therapist)
    for to in people.at_home():
        if to in client.joined and client.consent is not None:
            own = to == people.client
            title = words("plan-over") if own else words("plan-over-carer", name=client.name)
            turn.say(to, title, words("plan-over-quiet"), words("plan-over-next", therapist=therapist), **ANSWER)
    last = client.plan.ends_on.isoformat() if client.plan.ends_on is not None else ""
    for to in seeing(client, turn.at):
        turn.say(to, words("plan-ended", name=client.name, version=client.plan.version, day=last), **ANSWER)


def _told_when(turn: Turn) -> str:
    """When client and carer are told of a change: "now", or after what."""
    client = turn.client
    if not holds(client, turn.rules) or client.people.client not in client.joined:
        return "joined"
    if client.hold is not None:
        return "lifted"
    if client.session is not None:
        return "session"
    if client.pause is not None:
        return "back"
    return "now"
