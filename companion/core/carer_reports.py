"""What a carer reports beside a session: a near-fall, or a worry in their own words.

    They almost fell -> Not hurt (recorded, the therapist is told) | Hurt, or not sure (a red flag)
    I have a worry   -> They need help now (a red flag) | It can wait -> own words, voice or picture, passed on

A near-fall is no red flag unless somebody is hurt. Each question is answered once; the grave answer is never too late.
"""

from dataclasses import replace
from datetime import timedelta

from companion.core import alert_words, alerts
from companion.core.care import CarerAsked, seeing
from companion.core.effects import PassOn, PersonId, Put, Words, words
from companion.core.events import Pressed, Typed
from companion.core.observations import FallKind, FallReported, OwnWords, Reporter
from companion.core.schedule import clock_text
from companion.core.telling import FORMS, KEPT_CHARACTERS
from companion.core.turn import ANSWER, Turn

GRAVE = ("hurt", "help_now")


def ask_near_fall(turn: Turn, by: PersonId) -> None:
    """Nobody came to rest on a lower level (ProFaNE, Lamb 2005): is anybody hurt?"""
    lines = (words("near-fall-ask", name=turn.client.name),)
    _ask(turn, by, "near_fall", lines, (("b-not-hurt", "not_hurt"), ("b-hurt", "hurt")))


def ask_worry(turn: Turn, by: PersonId) -> None:
    """First of all: is it an emergency?"""
    urgent = words("typed-emergency", number=turn.rules.emergency_number)
    choices = (("b-help-now", "help_now"), ("b-can-wait", "can_wait"))
    _ask(turn, by, "worry", (urgent, words("worry-ask")), choices)


def answered(turn: Turn, event: Pressed) -> bool:
    """Whether a press was the answer to one of these questions, or an old one of them; then it is dealt with."""
    press, asked = event.press, turn.client.asked_carer
    if press.step[:1] != "n" or not press.step[1:].isdigit():
        return False
    stands = asked is not None and asked.id == press.step
    if not stands and (press.choice not in GRAVE or turn.client.hold is not None):
        turn.reply(words("press-over"))
        return True
    turn.reply()
    if press.choice == "hurt":
        _near_fall_hurt(turn, event.by)
    elif press.choice == "help_now":
        turn.set(asked_carer=None)
        alerts.raise_flag(turn, ("pressed_wrong",), event.by, ask="what")
    elif press.choice == "not_hurt":
        _near_fall(turn, event.by, press.step)
    elif press.choice == "can_wait" and asked is not None:
        turn.set(asked_carer=replace(asked, writing_since=turn.at))
        _wait_for_words(turn, event.by, words("worry-how"))
    else:
        turn.set(asked_carer=None)
        turn.say(event.by, words("tell-done"), card="menu", put=Put.IN_PLACE, **ANSWER)
    return True


def _ask(turn: Turn, by: PersonId, what: str, lines: tuple[Words, ...], choices: tuple[tuple[str, str], ...]) -> None:
    stands = turn.client.asked_carer
    asked = CarerAsked(stands.id if stands is not None and stands.what == what else turn.number("n"), what)
    turn.set(asked_carer=asked)
    buttons = tuple(turn.button(label, "menu", asked.id, choice) for label, choice in choices)
    turn.say(by, *lines, buttons=buttons, card="menu", put=Put.IN_PLACE, **ANSWER)


# --- a near-fall ----------------------------------------------------------------------------------------------


def _near_fall(turn: Turn, by: PersonId, report: str) -> None:
    client = turn.client
    turn.set(asked_carer=None)
    turn.record(FallReported(turn.at, report, FallKind.NEAR_FALL, by))
    for therapist in _reached(turn):
        zone = alert_words.zone_of(client, therapist)
        at = clock_text(turn.at, zone)
        who = client.people.name(by)
        turn.say(therapist, words("near-fall-therapist", name=client.name, by=who, at=at, zone=zone), **ANSWER)
    lines = (words("near-fall-noted"), _whom_it_went_to(turn), words("near-fall-more"))
    turn.say(by, *lines, card="menu", put=Put.IN_PLACE, **ANSWER)


def _near_fall_hurt(turn: Turn, by: PersonId) -> None:
    """A red flag, with the question of the head: no knock at all, or what kind."""
    turn.set(asked_carer=None)
    alerts.raise_flag(turn, ("near_fall", "hurt"), by)
    hold = turn.client.hold
    assert hold is not None
    turn.record(FallReported(turn.at, hold.id, FallKind.NEAR_FALL, by))
    alert_words.put_question(turn, hold, by, "head")


# --- a worry --------------------------------------------------------------------------------------------------


def wanted(turn: Turn, event: Typed) -> bool:
    """Whether these words of the carer are the worry that was asked for."""
    asked, client = turn.client.asked_carer, turn.client
    if asked is None or asked.writing_since is None or event.by != client.people.carer:
        return False
    sent = event.form in FORMS and event.message_id is not None
    fresh = turn.at < asked.writing_since + timedelta(seconds=turn.rules.patience.writing_s)
    return fresh and (sent or (not event.form and bool(event.text.strip())))


def took(turn: Turn, event: Typed) -> None:
    """The worry has come: kept, and passed on to the therapists who see to the client. Nobody reads it at once."""
    client, text = turn.client, event.text.strip()[:KEPT_CHARACTERS]
    turn.record(OwnWords(turn.at, Reporter.CARER, text, event.form))
    at, who = clock_text(turn.at, client.zone), client.people.name(event.by)
    for therapist in _reached(turn):
        if event.form and event.message_id is not None:
            said = words("worry-therapist-form", name=client.name, by=who, at=at, form=event.form)
            turn.say(therapist, said, **ANSWER)
            turn.effects.append(PassOn(therapist, event.by, event.message_id))
        else:
            turn.say(therapist, words("worry-therapist", name=client.name, by=who, at=at, text=text), **ANSWER)
    _wait_for_words(turn, event.by, _whom_it_went_to(turn))


def _wait_for_words(turn: Turn, to: PersonId, first: Words) -> None:
    asked = turn.client.asked_carer
    assert asked is not None
    urgent = words("typed-emergency", number=turn.rules.emergency_number)
    buttons = (turn.button("b-tell-done", "menu", asked.id, "done"),)
    turn.say(to, first, words("tell-not-read"), urgent, buttons=buttons, card="menu", put=Put.IN_PLACE, **ANSWER)


# --- who hears of it ------------------------------------------------------------------------------------------


def _reached(turn: Turn) -> tuple[PersonId, ...]:
    return tuple(person for person in seeing(turn.client, turn.at) if person in turn.client.joined)


def _whom_it_went_to(turn: Turn) -> Words:
    therapist = turn.client.people.name(turn.client.people.therapist)
    return words("tell-passed" if _reached(turn) else "tell-kept", therapist=therapist)
