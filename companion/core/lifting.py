"""What therapists, deputies and contacts do with an alert: acknowledge, note a call, keep the stop, lift it with a reason.

Only a therapist who sees to the client lifts. A deputy or a contact may acknowledge and tell what came of a call, which spares
the contacts behind them, but does not speak for the therapist.
"""

from dataclasses import replace
from typing import Any

from companion.core.alert_words import alert, alert_all, buttons_for, card, lift_buttons, zone_of
from companion.core.care import Call, Client, Hold, seeing
from companion.core.effects import ClearButtons, Pass, PersonId, Put, Subject, TakeBack, Words, words
from companion.core.events import Pressed, Released, Typed
from companion.core.observations import CallNoted, FlagAcknowledged, FlagLifted
from companion.core.schedule import clock_text
from companion.core.turn import ALERT, Turn

KEPT_WORDS = 12
KEPT_CHARACTERS = 300
REASONS = ("spoke", "visited", "doctor", "mistake")
"""Why a stop is lifted."""

ANSWERS = {True: ("reached", "not_reached"), False: ("with_them", "reached", "not_reached")}
"""What can be said of a call: by a therapist or deputy, and by a contact, who may live near."""


def may_press(client: Client, hold: Hold, event: Pressed) -> bool:
    """Whether this press of an alert's button is theirs to make: lifting is for those who see to the client."""
    if event.by in seeing(client, event.at):
        return True
    told = event.by in hold.alerted or event.by in client.people.contacts
    return told and event.press.step != "lift" and event.press.choice != "lift"


def pressed(turn: Turn, event: Pressed, hold: Hold) -> None:
    """A button of an alert, pressed by one who may."""
    if event.press.step == "lift":
        _lift_pressed(turn, event, hold)
    elif event.press.step.isdigit():
        _call_pressed(turn, event, hold)
    else:
        _alert_pressed(turn, event, hold)


# --- acknowledge ----------------------------------------------------------------------------------------------


def _alert_pressed(turn: Turn, event: Pressed, hold: Hold) -> None:
    first = _acknowledge(turn, event.by, hold)
    assert turn.client.hold is not None
    hold = turn.client.hold
    already = words("alert-noted-already") if event.press.choice == "seen" else None
    turn.reply(words("alert-noted") if first else already)
    if event.press.choice == "lift":
        buttons = tuple(turn.button(f"b-lift-{reason}", hold.id, "lift", reason) for reason in (*REASONS, "keep"))
        _in_place(turn, event.by, words("lift-ask", name=turn.client.name), buttons=buttons)
    else:
        offer(turn, hold, event.by, "alert-seen")


def _acknowledge(turn: Turn, by: PersonId, hold: Hold) -> bool:
    """Somebody has seen it: written down and said at home, the first time. The therapists are asked until one of them has."""
    therapist = by in seeing(turn.client, turn.at)
    first = hold.acknowledged_at is None if therapist else hold.contact_saw is None
    if therapist and by not in hold.seen_by:
        hold = replace(hold, seen_by=(*hold.seen_by, by))
        turn.set(hold=hold)
    if not first:
        return False
    seen = replace(hold, acknowledged_at=turn.at) if therapist else replace(hold, contact_saw=by)
    turn.set(hold=seen)
    turn.record(FlagAcknowledged(turn.at, hold.id, by))
    for person in turn.client.people.at_home():
        turn.say(person, words("flag-seen", who=turn.client.people.name(by)), **ALERT)
    if therapist:
        _tell_others(turn, seen, by, words("alert-seen-by", name=turn.client.name, who=turn.client.people.name(by)))
    return True


def _tell_others(turn: Turn, hold: Hold, by: PersonId, line: Words) -> None:
    """The other therapists who were sent the alert: their card changes without a sound."""
    for person in hold.alerted:
        if person != by and person in seeing(turn.client, turn.at):
            _in_place(turn, person, line, buttons=buttons_for(turn, hold, person))


def _in_place(turn: Turn, to: PersonId, *lines: Words, **how: Any) -> None:
    turn.say(to, *lines, card=card(turn.client), put=Put.IN_PLACE, **how, **ALERT)


def offer(turn: Turn, hold: Hold, to: PersonId, title: str, put: Put = Put.IN_PLACE) -> None:
    """What that person can do next: note a call, and lift if they may."""
    client = turn.client
    therapist = to in seeing(client, turn.at)
    kin = "carer" if to == client.people.carer else "contact" if to in client.people.contacts else "therapist"
    called = title == "alert-call-noted"
    if kin == "carer":
        lines = [
            words("alert-call-noted-carer" if called else "alert-seen-carer"),
            words("alert-stays-carer", name=client.name),
        ]
    else:
        zone = zone_of(client, to)
        lines = [words(title if therapist or called else "alert-seen-contact", name=client.name)]
        lines.append(words("alert-since", at=clock_text(hold.raised_at, zone), zone=zone))
        lines += [words("alert-calls", count=len(hold.calls))] if hold.calls else []
    mine = _calls_by(hold, to)
    buttons = [
        turn.button(f"b-call-{answer.replace('_', '-')}-{kin}", hold.id, str(mine), answer)
        for answer in ANSWERS[kin == "therapist"]
    ]
    buttons += lift_buttons(turn, hold) if therapist else ()
    turn.say(to, *lines, buttons=tuple(buttons), card=card(client), put=put, **ALERT)


# --- calls ----------------------------------------------------------------------------------------------------


def _calls_by(hold: Hold, by: PersonId) -> int:
    """How many calls they have noted. The next button carries this number, so that a second press notes nothing."""
    return sum(call.by == by and not call.text for call in hold.calls)


def _call_pressed(turn: Turn, event: Pressed, hold: Hold) -> None:
    by, answer = event.by, event.press.choice
    if event.press.step != str(_calls_by(hold, by)) or answer not in ANSWERS[by not in turn.client.people.contacts]:
        turn.reply(words("alert-noted-already"))
        return
    turn.reply(words("alert-noted"))
    _acknowledge(turn, by, hold)
    hold = _called(turn, Call(turn.at, by, answer))
    turn.record(CallNoted(turn.at, hold.id, by, answer))
    if answer == "not_reached":
        line = words("flag-called", who=turn.client.people.name(by))
        for person in turn.client.people.at_home():
            turn.say(person, line, words("flag-called-near"), **ALERT)
    offer(turn, hold, by, "alert-call-noted")
    if by not in seeing(turn.client, turn.at):
        alert_all(turn, "alert-update", by)


def _called(turn: Turn, call: Call) -> Hold:
    assert turn.client.hold is not None
    written = [one for one in turn.client.hold.calls if one.text][-KEPT_WORDS:]
    # of words the newest are kept; calls all are, for their number tells an old button
    kept = tuple(one for one in turn.client.hold.calls if not one.text or one in written)
    hold = replace(turn.client.hold, calls=(*kept, call))
    turn.set(hold=hold)
    return hold


def contact_wrote(turn: Turn, event: Typed) -> None:
    """A contact's own words reach the therapists while a red flag is open; else nothing is open that they could be about."""
    hold, text = turn.client.hold, event.text.strip()[:KEPT_CHARACTERS]
    if hold is None or not text:
        return
    hold = _called(turn, Call(turn.at, event.by, "words", text))
    turn.record(CallNoted(turn.at, hold.id, event.by, "words"))
    alert_all(turn, "alert-update")


# --- lift -----------------------------------------------------------------------------------------------------


def _lift_pressed(turn: Turn, event: Pressed, hold: Hold) -> None:
    if event.press.choice == "keep":
        turn.reply(words("lift-kept"))
        offer(turn, hold, event.by, "alert-kept")
        return
    if event.press.choice not in REASONS:
        turn.reply(words("press-stale"))
        return
    seen = hold.acknowledged_at is not None and event.by in (hold.seen_by or (event.by,))
    if not seen and not (hold.mistake and event.press.choice == "mistake"):
        # more was told since the reasons were shown: nobody lifts what they have not seen
        turn.reply(words("press-stale"))
        alert(turn, event.by, "alert-update")
        return
    turn.reply()
    _lift(turn, event.by, hold, event.press.choice)


def _lift(turn: Turn, by: PersonId, hold: Hold, why: str) -> None:
    people, name = turn.client.people, turn.client.name
    turn.effects.append(TakeBack("alert"))
    turn.record(FlagLifted(turn.at, hold.id, by, why))
    turn.set(hold=None)
    reason = words(f"lift-reason-{why}")
    _in_place(turn, by, words("lifted", name=name, reason=reason))
    for person in hold.alerted:
        if person not in (by, *people.at_home()):
            _in_place(turn, person, words("lifted-by", name=name, reason=reason, who=people.name(by)))
    for person in people.at_home():
        turn.effects += [ClearButtons(person, on, "alert") for on in ("flag", card(turn.client))]
        turn.say(person, words("flag-lifted", who=people.name(by)), *_goes_on(turn), **ALERT)
    release_deputies(turn, hold)


def _goes_on(turn: Turn) -> tuple[Words, ...]:
    """The day of a flag stays off, so lifting never sends anybody back to their feet at once."""
    if turn.client.discharged_at is not None or turn.client.plan is None:
        return ()
    return (words("flag-lifted-today" if turn.client.off_day == turn.today else "flag-lifted-goes-on"),)


def release_deputies(turn: Turn, hold: Hold, keep: tuple[PersonId, ...] = ()) -> None:
    """Who saw this client only as a deputy sees nothing more of them."""
    entitled = (*seeing(turn.client, turn.at), *turn.client.people.contacts, *turn.client.people.at_home(), *keep)
    for person in hold.alerted:
        if person not in entitled:
            turn.effects.append(Pass(Subject("person", person), Released(turn.at, turn.client.id)))
