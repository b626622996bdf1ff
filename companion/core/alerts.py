"""Red flags in the life of a client: emergency words first, everything taken back, people told, held until lifted.

    raised -> (repeats, next contacts) -> acknowledged by a therapist -> lifted by a therapist, with a reason (`lifting.py`)
    fell   -> up and safe? -> asked again -> next contact -> therapist again; open until a person closes it

The companion says who was told, and that it can not call for help itself (`alert_words.py`).
"""

from dataclasses import replace
from datetime import datetime, timedelta

from companion.core import lifting
from companion.core.alert_words import (
    alert,
    alert_all,
    answers,
    asked,
    during,
    emergency_words,
    named,
    put_question,
    reached,
    reported,
    spoken,
    tag,
    told,
    told_at_once,
    whom,
)
from companion.core.care import Client, Fall, Hold, seeing, watching
from companion.core.duty import next_work
from companion.core.effects import PersonId, Put, TakeBack, Words, words
from companion.core.events import Arrived, Lost, Pressed
from companion.core.observations import Ending, FallKind, FallReported, FlagRaised, Quality
from companion.core.programme import FlagRule, Level, Rhythm, Rules
from companion.core.red_flags import GRAVITY, known_facts, screen
from companion.core.session import interrupt
from companion.core.turn import ALERT, Turn

FALL_ASKED_MOST = 2


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
    under_way = during(client.session, turn.at) if client.session is not None else None
    _stop_everything(turn, facts)
    emergency_words(turn, by, ask is not None, facts, named(rule, facts))
    if old is None:
        hold = reported(Hold(turn.number("f"), rule.id, rule.level, (), by, turn.at, during=under_way), turn.at, by, facts)
    else:
        hold = replace(_with_more(old, by, facts, turn.at), rule=rule.id, level=rule.level)
    if "fall" in facts:
        hold = replace(hold, fall=Fall(turn.at, by))
    turn.set(hold=hold, off_day=turn.today, flagged_since=True, after=None)
    turn.record(FlagRaised(turn.at, hold.id, rule.id, rule.level, everything, by))
    if ask is not None:
        put_question(turn, hold, by, ask)
    alert_all(turn, "alert-title")


def _with_more(old: Hold, by: PersonId, facts: tuple[str, ...], at: datetime) -> Hold:
    """The same flag with more to it, not yet seen by anybody.

    What the therapist had seen starts anew. What nobody has seen goes on in its rhythm: pressing again never puts off
    who is told next, and what is new is told to the contacts too.
    """
    hold = reported(replace(old, contact_saw=None, mistake=False, seen_by=()), at, by, facts)
    if old.acknowledged_at is not None:
        return replace(hold, rhythm_at=at, alerts=1, contacts_told=0, acknowledged_at=None)
    if old.contact_saw or not set(facts) <= set(old.facts):
        return replace(hold, contacts_told=0)
    return hold


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


def waiting(turn: Turn, to: PersonId) -> None:
    """With the weekly chart: the decision that waits for a therapist who sees to the client, with its buttons."""
    hold = turn.client.hold
    assert hold is not None
    if hold.acknowledged_at is None:
        alert(turn, to, "alert-again")
    else:
        lifting.offer(turn, hold, to, "alert-waiting", Put.NEW)


# --- presses --------------------------------------------------------------------------------------------------


def pressed(turn: Turn, event: Pressed) -> None:
    """A button of a flag. Client and carer tell what happened; what others may do is in `lifting.py`."""
    hold, people = turn.client.hold, turn.client.people
    press = event.press
    if (hold is None or press.scope != hold.id) and press.choice in ("fell", "down") and event.by in people.at_home():
        turn.reply()
        fell(turn, event.by)  # whatever flag it was asked under: this is never too late to say
    elif hold is None or press.scope != hold.id:
        turn.reply(words("press-over"))
    elif press.step in ("what", "fall", "head") and event.by in people.at_home():
        turn.reply()
        _told_what(turn, event, hold)
    elif (press.step in ("alert", "lift") or press.step.isdigit()) and lifting.may_press(turn.client, hold, event):
        lifting.pressed(turn, event, hold)
    else:
        turn.reply(words("press-not-yours"))


def _told_what(turn: Turn, event: Pressed, hold: Hold) -> None:
    choice, by = event.press.choice, event.by
    if choice == "fell":
        fell(turn, by)
    elif choice == "unwell":
        _more_facts(turn, by, ("felt_unwell",), "flag-noted-unwell")
    elif choice == "mistake" and not hold.mistake:
        turn.set(hold=replace(hold, mistake=True))
        _done(turn, by, words("flag-mistake"), words("flag-mistake-today", person=whom(turn, by)))
        if by != turn.client.people.client:
            turn.say(turn.client.people.client, words("helper-mistake"), **ALERT)
        alert_all(turn, "alert-update")
    elif choice in ("up", "down", "saved") and hold.fall is not None:
        _fall_told(turn, by, choice, hold, hold.fall)
    elif choice in ("hit", "not_sure"):
        fact = "head_knock" if choice == "hit" else "head_unsure"
        _more_facts(turn, by, (fact,), "flag-noted-head")
    elif choice == "not_hit" and "head_not_hit" not in hold.facts:
        # what was told and raises nothing, but the therapist reads it
        turn.set(hold=reported(hold, turn.at, by, ("head_not_hit",)))
        _done(turn, by, words("flag-noted"), words("flag-sit", person=whom(turn, by)))


def something_happened(turn: Turn, by: PersonId) -> None:
    """The carer says so after a session. Under an open flag the words are said again, and it is asked what."""
    hold = turn.client.hold
    if hold is None:
        raise_flag(turn, ("pressed_wrong",), by, "what")
    else:
        emergency_words(turn, by, True, ("pressed_wrong",), now=False)
        put_question(turn, hold, by, "what")


def fell(turn: Turn, by: PersonId) -> None:
    """Somebody says that the client fell. It counts as a fall until they say that they saved themselves."""
    hold = turn.client.hold
    open_fall = hold is not None and hold.fall is not None and not hold.fall.answered
    if hold is not None and open_fall and hold.acknowledged_at is None:
        # pressed again while the alerts about it go on: the words are said again, and nothing is put off
        emergency_words(turn, by, True, ("fall",), now=False)
        put_question(turn, hold, by, "fall")
        return
    raise_flag(turn, ("fall",), by, "fall")
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
    turn.set(hold=hold)
    if choice == "saved":
        turn.set(hold=reported(hold, turn.at, by, ("near_fall",)))
        _done(turn, by, words("flag-saved"), words("flag-sit", person=whom(turn, by)))
        alert_all(turn, "alert-update")
    elif choice == "down":
        _more_facts(turn, by, ("still_down",), "flag-still-down")
    else:
        turn.set(hold=reported(hold, turn.at, by, ("up_and_safe",)))
        put_question(turn, hold, by, "head", Put.IN_PLACE)
        alert_all(turn, "alert-update-up")


def _more_facts(turn: Turn, by: PersonId, facts: tuple[str, ...], line: str) -> None:
    """More was told under a flag. If that makes it an emergency, the emergency words come first, again."""
    hold = turn.client.hold
    assert hold is not None
    known = set(facts) <= set(hold.facts)
    everything = tuple(dict.fromkeys((*hold.facts, *facts)))
    rule = screen({*everything, *known_facts(turn.client.plan)}, turn.rules)
    if not known:
        hold = _with_more(hold, by, facts, turn.at)
        if rule is not None and GRAVITY[rule.level] <= GRAVITY[hold.level]:
            hold = replace(hold, rule=rule.id, level=rule.level)
        turn.set(hold=hold)
        turn.record(FlagRaised(turn.at, hold.id, hold.rule, hold.level, everything, by))
    words_now = spoken(turn, by, by, facts, rule is not None and named(rule, facts))
    said = words_now if hold.level is Level.EMERGENCY else (words("flag-urgent", person=whom(turn, by)),)
    _done(turn, by, *said, words(line, person=whom(turn, by)))
    if not known:
        alert_all(turn, "alert-update")


def _done(turn: Turn, to: PersonId, *lines: Words) -> None:
    turn.say(to, *lines, card="flag", put=Put.IN_PLACE, **ALERT)


# --- what became of an alert ----------------------------------------------------------------------------------


def settled(turn: Turn, event: Arrived | Lost) -> None:
    """The chat took an alert, or can not deliver it. Then that is said at home, and the next contact is told at once."""
    hold = turn.client.hold
    person = event.tag.partition(":")[2]
    if hold is None or event.tag != tag(hold, person):
        return
    if isinstance(event, Arrived):
        turn.set(hold=replace(hold, lost=tuple(one for one in hold.lost if one != person)))
    else:
        unreached(turn, person)


def unreached(turn: Turn, person: PersonId) -> None:
    """That phone can not be reached any more. If it had an alert, it counts as not told: home hears it, whoever is next is told
    at once."""
    hold = turn.client.hold
    if hold is None or person in hold.lost or person not in hold.alerted:
        return
    contact = person in turn.client.people.contacts
    turn.set(
        hold=replace(
            hold,
            lost=(*hold.lost, person),
            contacts_told=max(0, hold.contacts_told - contact),
        )
    )
    for home in turn.client.people.at_home():
        turn.say(home, told(turn, person), **ALERT)


# --- time -----------------------------------------------------------------------------------------------------


def _next_contact(client: Client, hold: Hold) -> PersonId | None:
    """The next contact to be told: of those whose phones are in the chat, in order. Told anew where more was reported."""
    open_to = [contact for contact in client.people.contacts if reached(client, contact)]
    return open_to[hold.contacts_told] if hold.contacts_told < len(open_to) else None


def _first_contact_s(client: Client, hold: Hold, at: datetime, rhythm: Rhythm) -> int:
    """After how many seconds the first of the next contacts is told: at once if nobody who is told first can be reached."""
    if not any(reached(client, person) for person in watching(client, at)):
        return 0
    if hold.fall is not None and not hold.fall.answered:
        return rhythm.fall_next_contact_s
    return rhythm.emergency_next_contact_s if hold.level is Level.EMERGENCY else rhythm.next_contact_s


def moments(client: Client, rules: Rules) -> dict[str, datetime]:
    """When the flag must be looked at next, by what is due. Empty without one, and once a therapist has seen it and no fall
    is open."""
    hold, rhythm = client.hold, rules.rhythm
    if hold is None:
        return {}
    began = hold.rhythm_at or hold.raised_at
    due: dict[str, datetime] = {}
    if hold.acknowledged_at is None:
        due["repeat"] = _repeat(client, hold, rhythm)
        if _next_contact(client, hold) is not None and not hold.contact_saw:
            wait = _first_contact_s(client, hold, began, rhythm) + hold.contacts_told * rhythm.next_contact_s
            due["contact"] = began + timedelta(seconds=wait)
    fall = hold.fall
    if fall is not None and not fall.answered and fall.asked < FALL_ASKED_MOST:
        due["fall"] = fall.since + timedelta(seconds=rhythm.fall_ask_again_s * fall.asked)
    return due


def _repeat(client: Client, hold: Hold, rhythm: Rhythm) -> datetime:
    """When the alert is said again. Once a deputy has it, the therapist is asked again when they are back at work."""
    if hold.fall is not None and not hold.fall.answered and hold.alerts == 1:
        repeat = rhythm.fall_therapist_again_s
    elif hold.alerts <= len(rhythm.repeat_s):
        repeat = rhythm.repeat_s[hold.alerts - 1]
    else:
        repeat = rhythm.repeat_s[-1] + (hold.alerts - len(rhythm.repeat_s)) * rhythm.repeat_every_s
    at = (hold.rhythm_at or hold.raised_at) + timedelta(seconds=repeat)
    saw = hold.contact_saw
    if saw is None or saw in client.people.contacts:
        return at
    duties = [duty for duty in client.duties if duty.by in seeing(client, at)]
    return min((next_work(duty, at) for duty in duties), default=at)


def woke(turn: Turn, what: str) -> None:
    """One of `moments` has come. Each is said once, however late, and moves on."""
    client, hold = turn.client, turn.client.hold
    assert hold is not None
    if what == "repeat":
        turn.set(hold=_caught_up(replace(hold, alerts=hold.alerts + 1), turn))
        alert_all(turn, "alert-again")
    elif what == "contact":
        contact = _next_contact(client, hold)
        assert contact is not None
        nobody = not any(reached(client, person) for person in watching(client, turn.at))
        turn.set(hold=replace(hold, contacts_told=hold.contacts_told + 1))
        alert(turn, contact, "alert-contact-alone" if nobody else "alert-contact")
        for person in client.people.at_home():
            turn.say(person, told(turn, contact), **ALERT)
    elif what == "fall" and hold.fall is not None:
        turn.set(hold=replace(hold, fall=replace(hold.fall, asked=hold.fall.asked + 1)))
        for person in client.people.at_home():
            lines = (
                *spoken(turn, person, hold.fall.by, ("fall",), now=False),
                *told_at_once(turn),
                asked(turn, person, "fall"),
            )
            turn.say(person, *lines, buttons=answers(turn, hold, "fall", person), card="flag", **ALERT)


def _caught_up(hold: Hold, turn: Turn) -> Hold:
    """After an outage one alert stands for all that were due meanwhile."""
    while moments(replace(turn.client, hold=hold), turn.rules).get("repeat", turn.at + timedelta(1)) <= turn.at:
        hold = replace(hold, alerts=hold.alerts + 1)
    return hold
