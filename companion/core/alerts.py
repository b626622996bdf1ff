"""Red flags in the life of a client: emergency words first, everything taken back, people told, held until lifted.

    raised -> (repeats, next contacts) -> acknowledged by the therapist -> lifted by the therapist, with a reason
    fell   -> up and safe? -> asked again -> next contact -> therapist again; open until a person closes it

The companion says who was told, and that it can not call for help itself.
"""

from dataclasses import replace
from datetime import datetime, timedelta

from companion.core.blocks import key
from companion.core.care import Client, Fall, Hold
from companion.core.effects import Button, ClearButtons, PersonId, Put, TakeBack, Words, words
from companion.core.events import Pressed
from companion.core.observations import (
    Ending,
    FallKind,
    FallReported,
    FlagAcknowledged,
    FlagLifted,
    FlagRaised,
    Quality,
)
from companion.core.programme import FlagRule, Level, Rhythm, Rules
from companion.core.red_flags import GRAVITY, known_facts, screen
from companion.core.schedule import clock_text
from companion.core.script import emergency
from companion.core.session import interrupt
from companion.core.turn import ALERT, Turn

LAST_SESSIONS = 3
FALL_ASKED_MOST = 2
NAMED = ("still_down", "head_knock", "head_unsure")


def raise_flag(turn: Turn, facts: tuple[str, ...], by: PersonId, ask: str | None = None) -> None:
    """Stop everything for these facts. `ask`: the question that follows the emergency words: "what", "fall" or none.

    Emergency words go out first, whatever the rules say of the facts: what trips no rule (it should not happen) is held as
    urgent all the same.
    """
    client = turn.client
    old = client.hold
    known = known_facts(client.plan)
    everything = tuple(dict.fromkeys((*(old.facts if old else ()), *facts)))
    rule = screen({*everything, *known}, turn.rules) or FlagRule("unlisted", Level.URGENT, frozenset())
    _stop_everything(turn, facts)
    _emergency_words(turn, by, ask, facts, _named(rule, facts))
    if old is None:
        hold = Hold(turn.number("f"), rule.id, rule.level, everything, by, turn.at)
    else:
        hold = replace(_with_more(old, facts, turn.at), rule=rule.id, level=rule.level)
    if "fall" in facts:
        hold = replace(hold, fall=Fall(turn.at, by))
    turn.set(hold=hold, off_day=turn.today, flagged_since=True, after=None)
    turn.record(FlagRaised(turn.at, hold.id, rule.id, rule.level, everything, by))
    if ask is not None:
        _ask(turn, hold, by, ask)
    alert(turn, client.people.therapist, "alert-title")


def _with_more(old: Hold, facts: tuple[str, ...], at: datetime) -> Hold:
    """The same flag with more to it, not yet seen by anybody.

    What the therapist had seen starts anew. What nobody has seen goes on in its rhythm: pressing again never puts off
    who is told next, and what is new is told to the contacts too.
    """
    hold = old
    if old.acknowledged_at is not None:
        hold = replace(hold, raised_at=at, alerts=1, contacts_told=0, acknowledged_at=None)
    elif old.contact_saw or not set(facts) <= set(old.facts):
        hold = replace(hold, contacts_told=0)
    return replace(hold, facts=tuple(dict.fromkeys((*old.facts, *facts))), contact_saw=None, mistake=False)


def _stop_everything(turn: Turn, facts: tuple[str, ...]) -> None:
    client = turn.client
    for topic in ("session", "closing", "reminder"):
        turn.effects.append(TakeBack(topic))
    if client.session is not None:
        quality = Quality.UNWELL if "felt_unwell" in facts else Quality.UNKNOWN
        session, effects = interrupt(client.session, turn.at, quality)
        turn.effects += effects
        turn.set(session=session)
        turn.end_session(Ending.STOPPED)


def _clear_cards(turn: Turn) -> None:
    people = turn.client.people
    turn.effects.append(ClearButtons(people.client, "session", "alert"))
    if people.carer:
        turn.effects.append(ClearButtons(people.carer, "carer", "alert"))


def _named(rule: FlagRule, facts: tuple[str, ...]) -> bool:
    """Whether an emergency was named: then the words carry no "if"."""
    return rule.level is Level.EMERGENCY and any(fact.startswith("sign.") or fact in NAMED for fact in facts)


def _told(turn: Turn, person: PersonId) -> Words:
    """Who was sent an alert, or that they can not be reached here: nobody is to wait for help that was never called."""
    people = turn.client.people
    name = people.name(person)
    if person not in turn.client.joined:
        return words("told-not", who=name)
    if person == people.therapist:
        return words("told", who=words("told-therapist", therapist=name))
    return words("told", who=words("told-contact", contact=name))


def _emergency_words(turn: Turn, by: PersonId, ask: str | None, facts: tuple[str, ...], now: bool) -> None:
    people = turn.client.people
    told = _told(turn, people.therapist)
    for person in people.at_home():
        rest = () if person == by and ask else (told,)
        turn.say(person, *_spoken(turn, person, by, facts, now), *rest, **ALERT)
    _clear_cards(turn)


def _spoken(turn: Turn, to: PersonId, by: PersonId, facts: tuple[str, ...], now: bool) -> tuple[Words, ...]:
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


def _ask(turn: Turn, hold: Hold, to: PersonId, question: str) -> None:
    """Ask the phone that pressed, after the emergency words. `you` or `they` by whose phone it is."""
    turn.say(to, *_question(turn, to, question), buttons=_answers(turn, hold, question, to), card="flag", **ALERT)


def _question(turn: Turn, to: PersonId, question: str) -> tuple[Words, ...]:
    people = turn.client.people
    person = _whom(turn, to)
    told = _told(turn, people.therapist)
    asked = words(f"flag-ask-{question}", person=person, name=turn.client.name)
    return (told, asked) if question != "head" else (asked,)


def _answers(turn: Turn, hold: Hold, question: str, to: PersonId) -> tuple[Button, ...]:
    choices = {
        "what": ("fell", "unwell", "mistake"),
        "fall": ("up", "down", "saved"),
        "head": ("hit", "not_hit", "not_sure"),
    }[question]
    person = _whom(turn, to)
    return tuple(turn.button(f"b-flag-{key(choice)}-{person}", hold.id, question, choice) for choice in choices)


# --- what the therapist and the contacts get ------------------------------------------------------------------


def alert(turn: Turn, to: PersonId, title: str) -> None:
    """An alert with everything known, to the therapist (who can lift) or to a contact (who can only acknowledge)."""
    client, hold = turn.client, turn.client.hold
    assert hold is not None
    people = client.people
    zone = client.plan.report.zone if client.plan and to == people.therapist else client.zone
    lines = [
        words(title, name=client.name, level=hold.level.value),
        words("alert-when", at=clock_text(hold.raised_at, zone), zone=zone),
        words("alert-by", by=people.name(hold.by)),
        *(words("alert-fact", fact=_fact(fact)) for fact in hold.facts),
        *_standing_of(turn, hold),
        *_last_sessions(turn),
        words("alert-held", name=client.name),
    ]
    buttons = [turn.button("b-alert-seen", hold.id, "alert", "seen")] if hold.acknowledged_at is None else []
    if to == people.therapist:
        buttons.append(turn.button("b-alert-lift", hold.id, "alert", "lift"))
        if hold.mistake:
            buttons.append(turn.button("b-lift-mistake", hold.id, "lift", "mistake"))
    turn.say(to, *lines, buttons=tuple(buttons), card=f"alert-{client.id}", **ALERT)


def _fact(fact: str) -> Words:
    return words(f"{key(fact.replace('.', '-'))}.title" if fact.startswith("sign.") else f"fact-{key(fact)}")


def _standing_of(turn: Turn, hold: Hold) -> list[Words]:
    lines = [words("alert-blood-thinner")] if "blood_thinner" in known_facts(turn.client.plan) else []
    if hold.mistake:
        lines.append(words("alert-mistake"))
    if hold.contact_saw is not None:
        lines.append(words("alert-contact-saw", who=turn.client.people.name(hold.contact_saw)))
    if hold.fall is not None and not hold.fall.told and turn.at > hold.fall.since:
        lines.append(words("alert-fall-open", minutes=int((turn.at - hold.fall.since).total_seconds() // 60)))
    return lines


def _last_sessions(turn: Turn) -> list[Words]:
    return [
        words("alert-past", day=past.day.isoformat(), ending=words(f"ending-{key(past.ending)}"), done=past.done,
              planned=past.planned)
        for past in turn.client.past[-LAST_SESSIONS:]
    ]  # fmt: skip


def waiting(turn: Turn) -> None:
    """With the weekly chart: the decision that waits for the therapist, with its buttons."""
    hold = turn.client.hold
    assert hold is not None
    if hold.acknowledged_at is None:
        alert(turn, turn.client.people.therapist, "alert-again")
    else:
        _offer_lift(turn, hold, "alert-waiting", Put.NEW)


# --- presses --------------------------------------------------------------------------------------------------


def pressed(turn: Turn, event: Pressed) -> None:
    """A button of a flag. Only the therapist lifts; contacts may acknowledge; client and carer tell what happened."""
    hold, people = turn.client.hold, turn.client.people
    press = event.press
    if (hold is None or press.scope != hold.id) and press.choice in ("fell", "down") and event.by in people.at_home():
        turn.reply()
        fell(turn, event.by)  # whatever flag it was asked under: this is never too late to say
    elif hold is None or press.scope != hold.id:
        turn.reply(words("press-over"))
    elif press.step == "alert" and event.by in (people.therapist, *people.contacts):
        _alert_pressed(turn, event, hold)
    elif press.step == "lift" and event.by == people.therapist:
        _lift_pressed(turn, event, hold)
    elif press.step in ("what", "fall", "head") and event.by in people.at_home():
        turn.reply()
        _told_what(turn, event, hold)
    else:
        turn.reply(words("press-not-yours"))


def _alert_pressed(turn: Turn, event: Pressed, hold: Hold) -> None:
    people = turn.client.people
    card = {"card": f"alert-{turn.client.id}", "put": Put.IN_PLACE, **ALERT}
    # a contact's word spares the contacts behind them; the therapist is asked until the therapist has seen it
    mine = event.by == people.therapist
    first = hold.acknowledged_at is None if mine else not hold.contact_saw
    if first:
        hold = replace(hold, acknowledged_at=turn.at) if mine else replace(hold, contact_saw=event.by)
        turn.set(hold=hold)
        turn.record(FlagAcknowledged(turn.at, hold.id, event.by))
        for person in people.at_home():
            turn.say(person, words("flag-seen", who=people.name(event.by)), **ALERT)
    turn.reply(words("alert-noted") if first else words("alert-noted-already"))
    if event.by != people.therapist:
        turn.say(event.by, words("alert-seen-contact", name=turn.client.name), **card)
    elif event.press.choice == "lift":
        reasons = ("spoke", "mistake", "keep")
        buttons = tuple(turn.button(f"b-lift-{reason}", hold.id, "lift", reason) for reason in reasons)
        turn.say(event.by, words("lift-ask", name=turn.client.name), buttons=buttons, **card)
    else:
        _offer_lift(turn, hold, "alert-seen")


def _offer_lift(turn: Turn, hold: Hold, title: str, put: Put = Put.IN_PLACE) -> None:
    therapist = turn.client.people.therapist
    buttons = [turn.button("b-alert-lift", hold.id, "alert", "lift")]
    if hold.mistake:
        buttons.append(turn.button("b-lift-mistake", hold.id, "lift", "mistake"))
    at = clock_text(hold.raised_at, turn.client.plan.report.zone if turn.client.plan else turn.client.zone)
    lines = (words(title, name=turn.client.name), words("alert-since", at=at))
    turn.say(therapist, *lines, buttons=tuple(buttons), card=f"alert-{turn.client.id}", put=put, **ALERT)


def _lift_pressed(turn: Turn, event: Pressed, hold: Hold) -> None:
    if event.press.choice == "keep":
        turn.reply(words("lift-kept"))
        _offer_lift(turn, hold, "alert-kept")
        return
    if event.press.choice not in ("spoke", "mistake"):
        turn.reply(words("press-stale"))
        return
    if hold.acknowledged_at is None and not (hold.mistake and event.press.choice == "mistake"):
        # more was told since the reasons were shown: nobody lifts what they have not seen
        turn.reply(words("press-stale"))
        alert(turn, event.by, "alert-update")
        return
    turn.reply()
    turn.effects.append(TakeBack("alert"))
    turn.record(FlagLifted(turn.at, hold.id, event.by, event.press.choice))
    turn.set(hold=None)
    reason = words(f"lift-reason-{event.press.choice}")
    card = {"card": f"alert-{turn.client.id}", "put": Put.IN_PLACE}
    turn.say(event.by, words("lifted", name=turn.client.name, reason=reason), **card, **ALERT)
    people = turn.client.people
    for person in people.at_home():
        turn.effects.append(ClearButtons(person, "flag", "alert"))
        # the day of a flag stays off, so lifting never sends anybody back to their feet at once
        today = turn.client.off_day == turn.today
        goes_on = words("flag-lifted-today" if today else "flag-lifted-goes-on")
        turn.say(person, words("flag-lifted", who=people.name(event.by)), goes_on, **ALERT)


def _told_what(turn: Turn, event: Pressed, hold: Hold) -> None:
    choice, people = event.press.choice, turn.client.people
    if choice == "fell":
        fell(turn, event.by)
    elif choice == "unwell":
        _more_facts(turn, event.by, ("felt_unwell",), "flag-noted-unwell")
    elif choice == "mistake" and not hold.mistake:
        turn.set(hold=replace(hold, mistake=True))
        _done(turn, event.by, words("flag-mistake"), words("flag-mistake-today", person=_whom(turn, event.by)))
        if event.by != people.client:
            turn.say(people.client, words("helper-mistake"), **ALERT)
        alert(turn, people.therapist, "alert-update")
    elif choice in ("up", "down", "saved") and hold.fall is not None:
        _fall_told(turn, event.by, choice, hold, hold.fall)
    elif choice in ("hit", "not_sure"):
        fact = "head_knock" if choice == "hit" else "head_unsure"
        _more_facts(turn, event.by, (fact,), "flag-noted-head")
    elif choice == "not_hit":
        turn.set(hold=_noted(hold, "head_not_hit"))
        _done(turn, event.by, words("flag-noted"), words("flag-sit", person=_whom(turn, event.by)))


def _whom(turn: Turn, to: PersonId) -> str:
    """How the client is spoken of on that phone."""
    return "you" if to == turn.client.people.client else "they"


def _noted(hold: Hold, fact: str) -> Hold:
    """What was told and raises nothing, but the therapist reads it."""
    return replace(hold, facts=tuple(dict.fromkeys((*hold.facts, fact))))


def something_happened(turn: Turn, by: PersonId) -> None:
    """The carer says so after a session. Under an open flag the words are said again, and it is asked what."""
    hold = turn.client.hold
    if hold is None:
        raise_flag(turn, ("pressed_wrong",), by, ask="what")
    else:
        _emergency_words(turn, by, "what", ("pressed_wrong",), now=False)
        _ask(turn, hold, by, "what")


def fell(turn: Turn, by: PersonId) -> None:
    """Somebody says that the client fell. It counts as a fall until they say that they saved themselves."""
    hold = turn.client.hold
    open_fall = hold is not None and hold.fall is not None and not hold.fall.answered
    if hold is not None and open_fall and hold.acknowledged_at is None:
        # pressed again while the alerts about it go on: the words are said again, and nothing is put off
        _emergency_words(turn, by, "fall", ("fall",), now=False)
        _ask(turn, hold, by, "fall")
        return
    raise_flag(turn, ("fall",), by, ask="fall")
    assert turn.client.hold is not None
    turn.record(FallReported(turn.at, turn.client.hold.id, FallKind.UNKNOWN, by))


def _fall_told(turn: Turn, by: PersonId, choice: str, hold: Hold, fall: Fall) -> None:
    """What client and carer say of a fall, each once; where they differ both are in the record."""
    said = f"{by}:{choice}"
    if said in fall.told:
        return
    # who is still down is not up and safe: the fall stays open, and the next contact is told as soon
    fall = replace(fall, answered=fall.answered or choice != "down", told=(*fall.told, said))
    kind = FallKind.NEAR_FALL if choice == "saved" else FallKind.FALL
    turn.record(FallReported(turn.at, hold.id, kind, by))
    # ProFaNE (Lamb 2005): who did not come to rest on a lower level did not fall
    was, now = ("fall", "near_fall") if choice == "saved" else ("near_fall", "fall")
    facts = tuple(dict.fromkeys(now if fact == was else fact for fact in hold.facts))
    hold = replace(hold, fall=fall, facts=facts)
    turn.set(hold=_noted(hold, "up_and_safe") if choice == "up" else hold)
    if choice == "saved":
        _done(turn, by, words("flag-saved"), words("flag-sit", person=_whom(turn, by)))
        alert(turn, turn.client.people.therapist, "alert-update")
    elif choice == "down":
        _more_facts(turn, by, ("still_down",), "flag-still-down")
    else:
        answers = _answers(turn, hold, "head", by)
        turn.say(by, *_question(turn, by, "head"), buttons=answers, card="flag", put=Put.IN_PLACE, **ALERT)
        alert(turn, turn.client.people.therapist, "alert-update-up")


def _more_facts(turn: Turn, by: PersonId, facts: tuple[str, ...], line: str) -> None:
    """More was told under a flag. If that makes it an emergency, the emergency words come first, again."""
    hold = turn.client.hold
    assert hold is not None
    known = set(facts) <= set(hold.facts)
    everything = tuple(dict.fromkeys((*hold.facts, *facts)))
    rule = screen({*everything, *known_facts(turn.client.plan)}, turn.rules)
    if not known:
        hold = _with_more(hold, facts, turn.at)
        if rule is not None and GRAVITY[rule.level] <= GRAVITY[hold.level]:
            hold = replace(hold, rule=rule.id, level=rule.level)
        turn.set(hold=hold)
        turn.record(FlagRaised(turn.at, hold.id, hold.rule, hold.level, everything, by))
    spoken = _spoken(turn, by, by, facts, rule is not None and _named(rule, facts))
    whom = _whom(turn, by)
    said = spoken if hold.level is Level.EMERGENCY else (words("flag-urgent", person=whom),)
    _done(turn, by, *said, words(line, person=whom))
    if not known:
        alert(turn, turn.client.people.therapist, "alert-update")


def _done(turn: Turn, to: PersonId, *lines: Words) -> None:
    turn.say(to, *lines, card="flag", put=Put.IN_PLACE, **ALERT)


# --- time -----------------------------------------------------------------------------------------------------


def reachable(client: Client) -> tuple[PersonId, ...]:
    """The next contacts whose phones are in the chat, in order."""
    return tuple(contact for contact in client.people.contacts if contact in client.joined)


def _first_contact_s(client: Client, hold: Hold, rhythm: Rhythm) -> int:
    """After how many seconds the first of the next contacts is told: at once if the therapist can not be reached."""
    if client.people.therapist not in client.joined:
        return 0
    if hold.fall is not None and not hold.fall.answered:
        return rhythm.fall_next_contact_s
    return rhythm.emergency_next_contact_s if hold.level is Level.EMERGENCY else rhythm.next_contact_s


def moments(client: Client, rules: Rules) -> dict[str, datetime]:
    """When the flag must be looked at next, by what is due. Empty without one, and once the therapist has seen it and
    no fall is open."""
    hold, rhythm = client.hold, rules.rhythm
    if hold is None:
        return {}
    due: dict[str, datetime] = {}
    fall = hold.fall
    if hold.acknowledged_at is None:
        if fall is not None and not fall.answered and hold.alerts == 1:
            repeat = rhythm.fall_therapist_again_s
        elif hold.alerts <= len(rhythm.repeat_s):
            repeat = rhythm.repeat_s[hold.alerts - 1]
        else:
            repeat = rhythm.repeat_s[-1] + (hold.alerts - len(rhythm.repeat_s)) * rhythm.repeat_every_s
        due["repeat"] = hold.raised_at + timedelta(seconds=repeat)
        if hold.contacts_told < len(reachable(client)) and not hold.contact_saw:
            wait = _first_contact_s(client, hold, rhythm) + hold.contacts_told * rhythm.next_contact_s
            due["contact"] = hold.raised_at + timedelta(seconds=wait)
    if fall is not None and not fall.answered and fall.asked < FALL_ASKED_MOST:
        due["fall"] = fall.since + timedelta(seconds=rhythm.fall_ask_again_s * fall.asked)
    return due


def woke(turn: Turn, what: str) -> None:
    """One of `moments` has come. Each is said once, however late, and moves on."""
    hold, people = turn.client.hold, turn.client.people
    assert hold is not None
    if what == "repeat":
        turn.set(hold=_caught_up(replace(hold, alerts=hold.alerts + 1), turn))
        alert(turn, people.therapist, "alert-again")
    elif what == "contact":
        turn.set(hold=replace(hold, contacts_told=hold.contacts_told + 1))
        contact = reachable(turn.client)[hold.contacts_told]
        alert(turn, contact, "alert-contact")
        for person in people.at_home():
            turn.say(person, _told(turn, contact), **ALERT)
    elif what == "fall" and hold.fall is not None:
        turn.set(hold=replace(hold, fall=replace(hold.fall, asked=hold.fall.asked + 1)))
        for person in people.at_home():
            buttons = _answers(turn, hold, "fall", person)
            spoken = _spoken(turn, person, hold.fall.by, ("fall",), now=False)
            turn.say(person, *spoken, *_question(turn, person, "fall"), buttons=buttons, card="flag", **ALERT)


def _caught_up(hold: Hold, turn: Turn) -> Hold:
    """After an outage one alert stands for all that were due meanwhile."""
    while moments(replace(turn.client, hold=hold), turn.rules).get("repeat", turn.at + timedelta(1)) <= turn.at:
        hold = replace(hold, alerts=hold.alerts + 1)
    return hold
