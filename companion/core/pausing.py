"""A pause: the client does not practise for a while, and says why and until when.

    holiday ------------------------------------------------------------+-> until when? -> paused -> over, or back early
    unwell -> a look at the signs -> usual ------------------------------+
                     |-> different or not sure -> emergency words -> sign by sign -> none --+
                                                                        |-> any: a red flag

Days of a pause are recorded as paused. Where the client felt unwell, the next check asks sign by sign.
"""

from dataclasses import replace
from datetime import date, datetime, time, timedelta

from companion.core import alerts
from companion.core.care import Client, Pause, seeing, usual_signs
from companion.core.effects import Put, TakeBack, words
from companion.core.events import Pressed
from companion.core.how import key
from companion.core.observations import PauseAgreed, PauseOver
from companion.core.schedule import instant, out_of_quiet
from companion.core.script import emergency, sign_asked, sign_rows
from companion.core.turn import ALERT, ANSWER, Turn

SPANS = {"3_days": 3, "1_week": 7, "2_weeks": 14, "open": None}
"""For how many days, today included. Open: until the client comes back."""

ANNOUNCED = time(9)
"""When, on the first day after it, the end of a pause is told."""

MENU = {"card": "menu", "put": Put.IN_PLACE, **ANSWER}


def paused_on(client: Client, day: date) -> bool:
    """Whether that local day belongs to the pause under way."""
    return client.pause is not None and (client.pause.until is None or day < client.pause.until)


def over_at(client: Client) -> datetime | None:
    """When the end of the pause is to be told; None if there is none, or if it has no end."""
    if client.pause is None or client.pause.until is None:
        return None
    return out_of_quiet(instant(client.pause.until, ANNOUNCED, client.zone), client.quiet, client.zone)


def begin(turn: Turn) -> None:
    """Why is there to be a pause?"""
    if turn.client.pause is not None:
        say_paused(turn)
        return
    choices = (("b-pause-holiday", "holiday"), ("b-pause-unwell", "unwell"))
    buttons = tuple(turn.button(label, "menu", "pause", choice) for label, choice in choices)
    turn.say(turn.client.people.client, words("pause-why"), buttons=buttons, **MENU)


def say_paused(turn: Turn) -> None:
    """The client is on a pause, and comes back by one tap."""
    pause = turn.client.pause
    assert pause is not None
    until = words("pause-open")
    if pause.until is not None:
        until = words("pause-until", days=max(1, (pause.until - turn.today).days))
    buttons = (turn.button("b-pause-back", "menu", "pause", "back"),)
    turn.say(turn.client.people.client, words("paused"), until, buttons=buttons, **MENU)


def pressed(turn: Turn, event: Pressed) -> None:
    """A button of these screens. They are told by what they ask: "pause" (why), "look", a sign by its place, or the why."""
    step, choice = event.press.step, event.press.choice
    signs = turn.rules.signs
    if step == "pause" and choice == "back":
        come_back(turn)
    elif turn.client.pause is not None:
        say_paused(turn)
    elif (step, choice) == ("pause", "holiday"):
        _ask_until(turn, choice)
    elif (step, choice) == ("pause", "unwell"):
        _look(turn)
    elif (step, choice) == ("look", "same"):
        _ask_until(turn, "unwell")
    elif (step, choice) == ("look", "different"):
        turn.say(turn.client.people.client, *emergency(turn.rules.emergency_number), **ALERT)
        _ask_sign(turn, 0, Put.NEW)
    elif step in ("holiday", "unwell") and choice in SPANS:
        _agreed(turn, step, choice)
    elif step.isdecimal() and int(step) < len(signs) and choice == "different":
        _sign(turn, f"sign.{signs[int(step)]}", event.by)
    elif step.isdecimal() and int(step) + 1 < len(signs) and choice == "same":
        _ask_sign(turn, int(step) + 1, Put.IN_PLACE)
    elif step.isdecimal() and int(step) + 1 == len(signs) and choice == "same":
        _no_sign(turn)


def come_back(turn: Turn) -> None:
    """Back before the end, or from a pause without one."""
    client = turn.client
    if client.pause is None:
        turn.say(client.people.client, words("pause-none"), **MENU)
        return
    _over(turn, client.people.client)
    buttons = (turn.button("b-practise-now", "menu", "more", "practise"),) if client.plan is not None else ()
    turn.say(client.people.client, words("pause-welcome"), words("pause-goes-on"), buttons=buttons, **MENU)
    for therapist in seeing(client, turn.at):
        turn.say(therapist, words("pause-back-therapist", name=client.name), **ANSWER)


def ended(turn: Turn, moment: datetime) -> None:
    """The last day of the pause is over. Under a red flag nothing is said of practice."""
    client = turn.client
    _over(turn, None)
    if client.hold is None and client.people.client in client.joined:
        turn.say(client.people.client, words("pause-over"), words("pause-goes-on"), silent=True, card="menu", **ANSWER)
    for therapist in seeing(client, turn.at):
        turn.say(therapist, words("pause-over-therapist", name=client.name), **ANSWER)


def _over(turn: Turn, by: str | None) -> None:
    client = turn.client
    assert client.pause is not None
    turn.record(PauseOver(turn.at, by))
    # who was unwell is asked sign by sign next time
    turn.set(pause=None, flagged_since=client.flagged_since or client.pause.why == "unwell")


def _look(turn: Turn) -> None:
    signs = sign_rows(turn.rules.signs, usual_signs(turn.client))
    choices = (("b-same", "same"), ("b-different", "different"))
    buttons = tuple(turn.button(label, "menu", "look", choice) for label, choice in choices)
    turn.say(turn.client.people.client, words("how-are-you"), *signs, buttons=buttons, **MENU)


def _ask_sign(turn: Turn, place: int, put: Put) -> None:
    client = turn.client
    asked = sign_asked(turn.rules.signs[place], usual_signs(client), "you", client.name)
    choices = (("b-same", "same"), ("b-different", "different"))
    buttons = tuple(turn.button(label, "menu", str(place), choice) for label, choice in choices)
    turn.say(client.people.client, *asked, buttons=buttons, **{**MENU, "put": put})


def _sign(turn: Turn, fact: str, by: str) -> None:
    """A sign is a red flag. Pressed again under it, the words are said again and nothing is put off."""
    hold = turn.client.hold
    if hold is not None and fact in hold.facts:
        turn.say(by, *emergency(turn.rules.emergency_number, now=True), **ALERT)
    else:
        alerts.raise_flag(turn, (fact,), by)


def _no_sign(turn: Turn) -> None:
    """In doubt, and no sign was named: not today, and the therapist is told, as at a session's check."""
    if turn.client.off_day != turn.today:
        turn.set(off_day=turn.today)
        for therapist in seeing(turn.client, turn.at):
            turn.say(therapist, words("pause-unsure-therapist", name=turn.client.name), **ALERT)
    _ask_until(turn, "unwell")


def _ask_until(turn: Turn, why: str) -> None:
    buttons = tuple(turn.button(f"b-pause-{key(span)}", "menu", why, span) for span in SPANS)
    turn.say(turn.client.people.client, words("pause-how-long"), buttons=buttons, **MENU)


def _agreed(turn: Turn, why: str, span: str) -> None:
    client, days = turn.client, SPANS[span]
    until = turn.today + timedelta(days=days) if days is not None else None
    turn.effects.append(TakeBack("reminder"))
    turn.set(pause=Pause(why, turn.at, until))
    if client.day is not None:
        turn.set(day=replace(client.day, again_at=None, paused=True))
    turn.record(PauseAgreed(turn.at, why, until))
    say_paused(turn)
    told = until.isoformat() if until is not None else "open"
    for therapist in seeing(client, turn.at):
        turn.say(therapist, words("pause-therapist", name=client.name, why=why, until=told), **ANSWER)
    if client.people.carer in client.joined and "sessions" in client.carer_sees:
        turn.say(client.people.carer, words("pause-carer", name=client.name), **ANSWER)
