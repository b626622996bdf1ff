"""What a visit brings to a client's care: the baseline is kept and recorded, and the plan that there is is fitted to it.

The fitted plan holds at once, also where it contradicts itself by now: what the baseline rules out is not offered, so it is
never harder than before. The therapist is told what contradicts.
"""

from dataclasses import replace

from companion.core import carers, short_words
from companion.core.baseline import About, Baseline
from companion.core.care import seeing
from companion.core.effects import Button, Pass, Put, Subject, words
from companion.core.events import BaselineTaken, Press, Released
from companion.core.intake import fit, supervision_of
from companion.core.observations import BaselineNoted
from companion.core.plan_rules import judge, refused
from companion.core.plan_words import objected
from companion.core.prescribed import prescribe
from companion.core.turn import ANSWER, Turn

MOST_TOLD = 6
"""Of what contradicts, the first so many are told; the plan shows all."""


def baseline_taken(turn: Turn, event: BaselineTaken) -> None:
    """The newest baseline holds. Only who sees to the client can have taken it."""
    client, baseline = turn.client, event.baseline
    if event.by not in seeing(client, turn.at):
        turn.say(event.by, words("baseline-not-theirs", name=client.name), **ANSWER)
        return
    before = client.baseline
    if event.by != client.people.therapist:  # a shared phone is allowed by the client's own therapist
        baseline = replace(baseline, shared_phone=client.shared_phone)
    turn.set(baseline=baseline, joined=tuple(dict.fromkeys((*client.joined, event.by))))
    carers.share(turn, baseline.shared_phone)
    short_words.visited(turn, before, baseline)
    turn.record(BaselineNoted(turn.at, event.by, baseline))
    if event.about is not None:
        _keep(turn, event.about)
    _refit(turn, event.by, before, baseline)


def _keep(turn: Turn, about: About) -> None:
    """Names, zone, quiet hours, and who is told of alerts. A carer who is there is not taken away here."""
    client = turn.client
    people = client.people
    named = {**dict(people.names), people.client: about.name, **dict(about.contacts)}
    carer = about.carer
    # one who was removed while the visit was still being written down stays removed
    former = carer is not None and carer[0] != people.carer and carer[0] in dict(people.names)
    if carer is not None and not former and people.carer in (None, carer[0]):
        named[carer[0]] = carer[1]
        people = replace(people, carer=carer[0])
    contacts = tuple(contact for contact, _ in about.contacts if not (former and carer and contact == carer[0]))
    for gone in people.contacts:
        if gone not in (*contacts, people.carer, *seeing(client, turn.at)):
            turn.effects.append(Pass(Subject("person", gone), Released(turn.at, client.id)))
    people = replace(people, contacts=contacts, names=tuple(named.items()))
    turn.set(name=about.name, zone=about.zone, quiet=about.quiet, people=people)


def _refit(turn: Turn, by: str, before: Baseline | None, baseline: Baseline) -> None:
    plan = turn.client.plan
    if plan is None:
        return
    fitted = fit(plan, baseline)
    if before is not None and before.supervision != baseline.supervision:
        fitted = replace(fitted, supervision=supervision_of(baseline))
    if fitted == plan:
        return
    if turn.client.discharged_at is not None:
        turn.set(plan=replace(fitted, version=plan.version + 1))  # only a new plan opens the practice again
        return
    prescribe(turn, replace(fitted, version=plan.version + 1), by, "visit")
    _tell(turn, by)


def _tell(turn: Turn, by: str) -> None:
    """Every therapist who sees to the client hears of the new version, and of what in it can not be done any more."""
    client = turn.client
    assert client.plan is not None
    against = refused(judge(client.plan, turn.rules, client.people.carer is not None))
    lines = [words("baseline-plan", name=client.name, version=client.plan.version)]
    if against:
        told = [objected(one, client.plan, turn.rules.exercises) for one in against[:MOST_TOLD]]
        lines += [words("baseline-plan-against", count=len(against)), *told]
    page = Button(words("b-enrol-page", name=client.name), Press(client.id, "page", "open", "open"))
    for therapist in seeing(client, turn.at):
        # who took it reads this where they have just written it down
        here = {"buttons": (page,), "card": "desk", "put": Put.IN_PLACE} if therapist == by else {}
        kept = (words("baseline-kept", name=client.name),) if therapist == by else ()
        turn.say(therapist, *kept, *lines, **here, **ANSWER)
