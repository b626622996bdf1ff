"""The end of practice with the companion, by the therapist: asked once, then reminders, sessions and charts end.

The client gets in plain words what to go on with: each exercise of the plan in its easiest form, eyes open, hand on, standing
only where that was allowed without the companion's check of a helper. The therapist gets a summary of what was reported. A red
flag can still be raised. A new plan opens it all again.
"""

from typing import Any

from companion.core import for_the_record
from companion.core.assigning import end_cover, zone_of
from companion.core.care import Client
from companion.core.effects import ClearButtons, Paper, PersonId, Put, Sheet, TakeBack, Urgency, Words, words
from companion.core.events import Pressed
from companion.core.how import key
from companion.core.observations import Discharged, FallKind
from companion.core.programme import Exercise, Eyes, Form, Plan, Posture, Role, Rules, Supervision
from companion.core.schedule import clock_text
from companion.core.turn import ANSWER, Turn

CARD: dict[str, Any] = {"card": "desk", "put": Put.IN_PLACE, "urgency": Urgency.ANSWER, "topic": "desk"}
STEP = "discharge"


def pressed(turn: Turn, event: Pressed) -> None:
    """A press about discharge by the client's own therapist: asks once, then does it."""
    client, by, choice = turn.client, event.by, event.press.choice
    if by != client.people.therapist:
        turn.reply(words("press-not-yours"))
        return
    turn.reply()
    refused = _refused(client)
    if refused is not None:
        turn.say(by, words(refused, name=client.name), **CARD)
    elif choice == "sure":
        _discharge(turn, by)
    elif choice == "keep":
        turn.say(by, words("discharge-kept", name=client.name), **CARD)
    else:
        buttons = (turn.button("b-discharge-sure", "page", STEP, "sure"), turn.button("b-discharge-keep", "page", STEP, "keep"))
        turn.say(by, words("discharge-ask", name=client.name), buttons=buttons, **CARD)


def _refused(client: Client) -> str | None:
    """Why this client can not be discharged now, as a text; None if they can."""
    if client.discharged_at is not None:
        return "discharge-already"
    if client.hold is not None:
        return "discharge-flag"
    return "discharge-session" if client.session is not None else None


def _discharge(turn: Turn, by: PersonId) -> None:
    client, people = turn.client, turn.client.people
    if client.cover is not None:
        end_cover(turn, told=False)
    turn.set(discharged_at=turn.at, day=None, after=None, pause=None, news=None)
    turn.record(Discharged(turn.at, by))
    turn.effects += [TakeBack("reminder"), TakeBack("plan"), ClearButtons(people.client, "session", "talk")]
    kept = keep_going(client.plan, people.carer is not None, turn.rules)
    if people.client in client.joined:
        number = turn.rules.emergency_number
        kind = (words("ended-kind", times=client.sessions),) if client.sessions else ()
        turn.say(people.client, words("ended-client"), *kind, words("ended-no-reminders"), **ANSWER)
        turn.say(people.client, *kept_words(client, kept), **ANSWER)
        again = (words("keep-ask"), words("keep-ask-steady"), words("typed-emergency", number=number))
        turn.say(people.client, *again, **ANSWER)
    if people.carer is not None:
        turn.effects.append(ClearButtons(people.carer, "carer", "talk"))
        if people.carer in client.joined:
            turn.say(people.carer, words("ended-carer", name=client.name), words("ended-carer-thanks"), **ANSWER)
    turn.say(by, *summary(turn, kept), **CARD)
    if client.plan is not None:
        for_the_record.ask(turn, by, Sheet.PDF_DISCHARGE, Paper.A4)


# --- what to go on with ---------------------------------------------------------------------------------------


def keep_going(plan: Plan | None, carer: bool, rules: Rules) -> tuple[tuple[Exercise, Form], ...]:
    """Each exercise of the plan in its easiest form, warm-up first.

    Without a carer, standing only where the plan let the client stand alone; nothing that needs what the client has not (a free
    ankle, two hands), nothing with closed eyes.
    """
    if plan is None:
        return ()
    names = dict.fromkeys(one.exercise for one in plan.exercises if one.exercise in rules.exercises)
    exercises = sorted((rules.exercises[name] for name in names), key=lambda exercise: exercise.role is not Role.WARM_UP)
    kept = []
    for exercise in exercises:
        form = next((form for form in exercise.forms if _suits(form, plan, carer)), None)
        if form is not None:
            kept.append((exercise, form))
    return tuple(kept)


def _suits(form: Form, plan: Plan, carer: bool) -> bool:
    if (
        form.eyes is Eyes.CLOSED
        or (form.needs_free_ankle and plan.ankle_blocked)
        or (form.needs_two_hands and plan.one_good_hand)
    ):
        return False
    alone = plan.supervision is Supervision.WHEN_FORM_NEEDS and plan.can_call_for_help and not form.needs_carer
    return form.posture is Posture.SEATED or carer or alone


def kept_words(client: Client, kept: tuple[tuple[Exercise, Form], ...]) -> tuple[Words, ...]:
    """The list to go on with, in the client's words."""
    plan = client.plan
    if plan is None or not kept:
        return (words("keep-none"),)
    lines = [words("keep-title"), *(words("keep-item", **_names(exercise, form)) for exercise, form in kept)]
    if any(form.posture is Posture.STANDING for _, form in kept):
        lines += [words(f"keep-place-{key(plan.place.support)}"), words("keep-hand")]
        lines += [words("keep-helper")] if client.people.carer is not None else []
    else:
        lines.append(words("keep-seated"))
    return (*lines, words("keep-stop"))


def _names(exercise: Exercise, form: Form) -> dict[str, Words]:
    name = key(exercise.id)
    return {"exercise": words(f"ex-{name}"), "form": words(f"form-{name}-{key(form.id)}")}


# --- the summary ----------------------------------------------------------------------------------------------


def summary(turn: Turn, kept: tuple[tuple[Exercise, Form], ...]) -> tuple[Words, ...]:
    """What was reported since the client began, for the therapist. Unknown is said as unknown."""
    client = turn.client
    zone = zone_of(client, client.people.therapist)
    count = dict(client.tally.counts)
    lines = [words("discharged-title", name=client.name, at=clock_text(turn.at, zone), zone=zone, told=_who_heard(client))]
    lines.append(_weeks(turn, zone))
    sessions = ("done", "partly", "stopped", "no_word", "not_ready")
    lines.append(words("discharged-sessions", **{name: count.get(f"session.{name}", 0) for name in sessions}))
    days = ("declined", "no_answer", "not_asked", "held", "paused")
    unpractised = {name: count.get(f"day.{name}", 0) + count.get(f"session.{name}", 0) for name in days}
    lines.append(words("discharged-days", **unpractised))
    lines.append(_falls(client))
    earlier = client.sessions - sum(count.get(f"session.{name}", 0) for name in sessions)
    lines += [words("discharged-earlier", count=earlier)] if earlier > 0 else []
    lines += _bouts(turn.rules, count)
    return (*lines, _told(kept))


def _who_heard(client: Client) -> str:
    """Which phones at home were in the chat to hear of it: "both", "client", "carer", "nobody"."""
    heard = (client.people.client in client.joined, client.people.carer in client.joined)
    return {(True, True): "both", (True, False): "client", (False, True): "carer"}.get(heard, "nobody")


def _weeks(turn: Turn, zone: str) -> Words:
    since = turn.client.since
    if since is None:
        return words("discharged-weeks-unknown")
    return words("discharged-weeks", since=clock_text(since, zone), weeks=max(0, (turn.at - since).days) // 7)


def _falls(client: Client) -> Words:
    kinds = [kind for _, kind in client.tally.falls]
    of = {"falls": FallKind.FALL, "near": FallKind.NEAR_FALL, "unknown": FallKind.UNKNOWN}
    return words("discharged-falls", **{name: kinds.count(kind) for name, kind in of.items()})


def _bouts(rules: Rules, count: dict[str, int]) -> list[Words]:
    practised = [name.removeprefix("bout.") for name in count if name.startswith("bout.")]
    lines = []
    for exercise in practised:
        # what content no longer has is told by its id
        name = words(f"ex-{key(exercise)}") if exercise in rules.exercises else exercise
        numbers = {"clean": count.get(f"clean.{exercise}", 0), "unknown": count.get(f"unknown.{exercise}", 0)}
        lines.append(words("discharged-bouts", exercise=name, bouts=count[f"bout.{exercise}"], **numbers))
    return lines or [words("discharged-no-bouts")]


def _told(kept: tuple[tuple[Exercise, Form], ...]) -> Words:
    if not kept:
        return words("discharged-told-none")
    items = [words("keep-item-plain", **_names(exercise, form)) for exercise, form in kept]
    said = items[-1]
    for item in reversed(items[:-1]):
        said = words("setting-day-list", first=item, rest=said)
    return words("discharged-told", list=said)
