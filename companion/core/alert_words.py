"""What is said of a red flag: the emergency words and the questions at home, the alerts to therapists, deputies, contacts.

Nothing here changes what the flag is; `alerts.py` and `lifting.py` do. Who was sent an alert is said as it is: nobody is to
wait for help that was never called.
"""

from dataclasses import replace
from datetime import datetime

from companion.core.care import Client, During, Hold, Told, off_duty, seeing, watching
from companion.core.cursor import Session
from companion.core.effects import Button, ClearButtons, Pass, PersonId, Put, Subject, Words, words
from companion.core.events import Assigned
from companion.core.how import key
from companion.core.programme import FlagRule, Level
from companion.core.red_flags import known_facts
from companion.core.schedule import clock_text
from companion.core.script import emergency
from companion.core.steps import Counted, Phase, Timed
from companion.core.turn import ALERT, Turn

LAST_SESSIONS = 3
LAST_CALLS = 5
FIRST_TOLD, LAST_TOLD = 5, 10
NAMED = ("still_down", "head_knock", "head_unsure")
NEXT = ("alert-contact", "alert-contact-alone")
"""The titles of an alert to a next contact."""

# --- at home --------------------------------------------------------------------------------------------------


def named(rule: FlagRule, facts: tuple[str, ...]) -> bool:
    """Whether an emergency was named: then the words carry no "if"."""
    return rule.level is Level.EMERGENCY and any(fact.startswith("sign.") or fact in NAMED for fact in facts)


def reached(client: Client, person: PersonId) -> bool:
    """Whether an alert can be sent to that phone, as far as anybody knows."""
    return person in client.joined and not (client.hold is not None and person in client.hold.lost)


def told(turn: Turn, person: PersonId) -> Words:
    """That this person was sent an alert, or that they can not be reached here."""
    people = turn.client.people
    name = people.name(person)
    if not reached(turn.client, person):
        return words("told-not", who=name)
    if person == people.therapist:
        return words("told", who=words("told-therapist", therapist=name))
    if person in people.contacts:
        return words("told", who=words("told-contact", contact=name))
    return words("told", who=words("told-stand-in", name=name))


def told_at_once(turn: Turn) -> tuple[Words, ...]:
    """Who was sent an alert at once; that the therapist is off work, and that nobody may see it soon, where it is so."""
    client = turn.client
    who = watching(client, turn.at)
    sent = tuple(told(turn, person) for person in who)
    if not off_duty(client, turn.at):
        return sent
    off = words("told-off-duty", who=client.people.name(client.people.therapist))
    stands_in = any(reached(client, person) for person in who if person not in seeing(client, turn.at))
    return (off, *sent) if stands_in else (off, words("told-late"), *sent)


def emergency_words(turn: Turn, by: PersonId, ask_follows: bool, facts: tuple[str, ...], now: bool) -> None:
    """The emergency words on every phone at home. Where a question follows, it says who was told."""
    people = turn.client.people
    for person in people.at_home():
        rest = () if person == by and ask_follows else told_at_once(turn)
        turn.say(person, *spoken(turn, person, by, facts, now), *rest, **ALERT)
    turn.effects.append(ClearButtons(people.client, "session", "alert"))
    if people.carer:
        turn.effects.append(ClearButtons(people.carer, "carer", "alert"))


def spoken(turn: Turn, to: PersonId, by: PersonId, facts: tuple[str, ...], now: bool) -> tuple[Words, ...]:
    """The emergency words for one phone: the client stops, the carer goes to them and hears what was pressed."""
    people = turn.client.people
    carer, what = to != people.client, _happened(facts)
    sign = next((fact for fact in facts if fact.startswith("sign.")), None)
    about = words(f"happened-{key(what)}", name=turn.client.name, **({"sign": _short(sign)} if sign else {}))
    others = () if by == to else (about,) if carer else (words("helper-pressed"),)
    fell = what in ("still_down", "fall")
    first = "stop" if not carer else "go-fall" if fell else "go"
    return (*others, *emergency(turn.rules.emergency_number, now, first))


def _short(sign: str) -> Words:
    return words(f"{key(sign.replace('.', '-'))}.short")


def _happened(facts: tuple[str, ...]) -> str:
    """What the other phone is told in one line: the gravest thing, by name of a text."""
    for fact in ("still_down", "fall", "felt_unwell"):
        if fact in facts:
            return fact
    return "sign" if any(fact.startswith("sign.") for fact in facts) else "pressed_wrong"


def whom(turn: Turn, to: PersonId) -> str:
    """How the client is spoken of on that phone."""
    return "you" if to == turn.client.people.client else "they"


def put_question(turn: Turn, hold: Hold, to: PersonId, question: str, put: Put = Put.NEW) -> None:
    """Ask that phone, after the emergency words. `you` or `they` by whose phone it is."""
    lines = (*told_at_once(turn), asked(turn, to, question)) if question != "head" else (asked(turn, to, question),)
    turn.say(to, *lines, buttons=answers(turn, hold, question, to), card="flag", put=put, **ALERT)


def asked(turn: Turn, to: PersonId, question: str) -> Words:
    """The words of a question: "what", "fall" or "head"."""
    return words(f"flag-ask-{question}", person=whom(turn, to), name=turn.client.name)


def answers(turn: Turn, hold: Hold, question: str, to: PersonId) -> tuple[Button, ...]:
    """The buttons under a question."""
    choices = {
        "what": ("fell", "unwell", "mistake"),
        "fall": ("up", "down", "saved"),
        "head": ("hit", "not_hit", "not_sure"),
    }[question]
    person = whom(turn, to)
    return tuple(turn.button(f"b-flag-{key(choice)}-{person}", hold.id, question, choice) for choice in choices)


# --- what therapists, deputies and contacts get -----------------------------------------------------------------


def tag(hold: Hold, person: PersonId) -> str:
    """What comes back when an alert was taken, or can not be delivered. Begins with the flag's id."""
    return f"{hold.id}:{person}"


def card(client: Client) -> str:
    """Where the alerts of a client stand on a phone."""
    return f"alert-{client.id}"


def zone_of(client: Client, person: PersonId) -> str:
    """In whose local time an alert to that person is written."""
    duty = next((duty for duty in client.duties if duty.by == person), None)
    if duty is not None:
        return duty.zone
    return client.plan.report.zone if client.plan is not None and person == client.people.therapist else client.zone


def alert_all(turn: Turn, title: str, by: PersonId | None = None) -> None:
    """An alert to everybody who is told at once, but for `by`, whose own word it is.

    Who is told only now, since the others went off duty, is said at home.
    """
    hold = turn.client.hold
    assert hold is not None
    new = [person for person in watching(turn.client, turn.at) if person not in hold.alerted]
    for person in watching(turn.client, turn.at):
        if person != by:
            alert(turn, person, title)
    if hold.alerted and new:
        for home in turn.client.people.at_home():
            turn.say(home, *(told(turn, person) for person in new), **ALERT)


def alert(turn: Turn, to: PersonId, title: str) -> None:
    """An alert with everything known, to one who can lift, or to a deputy or contact, who can only acknowledge.

    A carer who is the next contact too gets the few words that a carer gets.
    """
    client, hold = turn.client, turn.client.hold
    assert hold is not None
    plain = to == client.people.carer and title in NEXT
    lines = _to_the_carer(turn, hold, to, title) if plain else _dense(turn, hold, to, title)
    turn.say(to, *lines, buttons=buttons_for(turn, hold, to), card=card(client), tag=tag(hold, to), **ALERT)
    _may_press(turn, hold, to)


def _to_the_carer(turn: Turn, hold: Hold, to: PersonId, title: str) -> list[Words]:
    return [words(f"{title}-carer"), *spoken(turn, to, turn.client.people.client, hold.facts, now=False)]


def _dense(turn: Turn, hold: Hold, to: PersonId, title: str) -> list[Words]:
    client, zone = turn.client, zone_of(turn.client, to)
    return [
        words(title, name=client.name, level=hold.level.value),
        *_your_part(turn, to),
        words("alert-when", at=clock_text(hold.raised_at, zone), zone=zone),
        *_during(hold),
        *_told_so_far(turn, hold, zone),
        *_standing_of(turn, hold),
        *_calls(turn, hold, zone),
        *_last_sessions(turn),
        words("alert-held", name=client.name),
    ]


def _may_press(turn: Turn, hold: Hold, to: PersonId) -> None:
    """A deputy sees this client from the alert on, until the flag is lifted."""
    if to in hold.alerted:
        return
    turn.set(hold=replace(hold, alerted=(*hold.alerted, to)))
    if to not in seeing(turn.client, turn.at) and to not in turn.client.people.contacts:
        turn.effects.append(Pass(Subject("person", to), Assigned(turn.at, turn.client.id)))


def buttons_for(turn: Turn, hold: Hold, to: PersonId) -> tuple[Button, ...]:
    """Under an alert: acknowledge, as long as they have not, and lift for those who may."""
    seen = turn.button("b-alert-seen", hold.id, "alert", "seen")
    if to not in seeing(turn.client, turn.at):
        return (seen,)
    return (*(() if to in hold.seen_by else (seen,)), *lift_buttons(turn, hold))


def lift_buttons(turn: Turn, hold: Hold) -> tuple[Button, ...]:
    """The way to lift, which one tap does where it was reported as pressed by mistake."""
    lift = turn.button("b-alert-lift", hold.id, "alert", "lift")
    return (lift, turn.button("b-lift-mistake", hold.id, "lift", "mistake")) if hold.mistake else (lift,)


def _your_part(turn: Turn, to: PersonId) -> list[Words]:
    client = turn.client
    therapist = client.people.name(client.people.therapist)
    if to == client.people.therapist or to in client.people.contacts:
        return []
    return [words("alert-as-cover" if to in seeing(client, turn.at) else "alert-as-deputy", therapist=therapist)]


def moment(hold: Hold, at: datetime, zone: str) -> str:
    """The local time, with its date where that is not the flag's."""
    said = clock_text(at, zone)
    date, time = said.split()
    return time if clock_text(hold.raised_at, zone).startswith(date) else said


def fact_words(fact: str) -> Words:
    """What was reported, in the therapist's words."""
    return words(f"{key(fact.replace('.', '-'))}.title" if fact.startswith("sign.") else f"fact-{key(fact)}")


def _told_so_far(turn: Turn, hold: Hold, zone: str) -> list[Words]:
    """Everything that was pressed, when and by whom: a second fall is a second line."""
    name = turn.client.people.name
    if not hold.told:  # a flag that was written down before each report was
        return [words("alert-by", by=name(hold.by)), *(words("alert-fact", fact=fact_words(fact)) for fact in hold.facts)]
    return [words("alert-told", at=moment(hold, one.at, zone), by=name(one.by), fact=fact_words(one.fact)) for one in hold.told]


def reported(hold: Hold, at: datetime, by: PersonId, facts: tuple[str, ...]) -> Hold:
    """The flag with these facts, each written down with when and by whom. Of very many the first and the last are kept."""
    lines = (*hold.told, *(Told(at, by, fact) for fact in facts))
    if len(lines) > FIRST_TOLD + LAST_TOLD:
        lines = (*lines[:FIRST_TOLD], *lines[-LAST_TOLD:])
    return replace(hold, facts=tuple(dict.fromkeys((*hold.facts, *facts))), told=lines)


def during(session: Session, at: datetime) -> During:
    """What was under way in that session, to the second where the companion's clock runs."""
    step = session.current
    spec = step.bout if isinstance(step, Timed | Counted) and step.bout is not None else None
    if spec is None and session.draft is not None:
        spec = session.draft.spec
    if spec is None:
        return During()
    if isinstance(step, Timed) and step.phase is Phase.HOLD and session.clock_began is not None:
        second = min(max(0, int((at - session.clock_began).total_seconds())), step.seconds)
        return During(spec.exercise, spec.form, spec.side, second, step.seconds)
    return During(spec.exercise, spec.form, spec.side)


def _during(hold: Hold) -> list[Words]:
    was = hold.during
    if was is None:
        return []
    if not was.exercise:
        return [words("alert-during-check")]
    exercise = key(was.exercise)
    told_as = {
        "exercise": words(f"ex-{exercise}"),
        "form": words(f"form-{exercise}-{key(was.form)}"),
        "side": words(f"alert-side-{was.side.value if was.side is not None else 'none'}"),
    }
    if was.second is None:
        return [words("alert-during", **told_as)]
    return [words("alert-during-hold", second=was.second, target=was.target, **told_as)]


def _standing_of(turn: Turn, hold: Hold) -> list[Words]:
    lines = [words("alert-blood-thinner")] if "blood_thinner" in known_facts(turn.client.plan) else []
    if hold.mistake:
        lines.append(words("alert-mistake"))
    if hold.contact_saw is not None:
        lines.append(words("alert-contact-saw", who=turn.client.people.name(hold.contact_saw)))
    if hold.fall is not None and not hold.fall.told and turn.at > hold.fall.since:
        lines.append(words("alert-fall-open", minutes=int((turn.at - hold.fall.since).total_seconds() // 60)))
    return lines


def _calls(turn: Turn, hold: Hold, zone: str) -> list[Words]:
    """Who called, and the contacts' own words."""
    name = turn.client.people.name
    lines = []
    for call in hold.calls[-LAST_CALLS:]:
        at = moment(hold, call.at, zone)
        if call.text:
            lines.append(words("alert-own-words", at=at, by=name(call.by), text=call.text))
        else:
            lines.append(words(f"alert-call-{key(call.answer)}", at=at, by=name(call.by)))
    return lines


def _last_sessions(turn: Turn) -> list[Words]:
    return [
        words("alert-past", day=past.day.isoformat(), ending=words(f"ending-{key(past.ending)}"), done=past.done,
              planned=past.planned)
        for past in turn.client.past[-LAST_SESSIONS:]
    ]  # fmt: skip
