"""Whether a client wants to use what a therapist recorded for them: asked on their phone, with the file, and changed by them.

    given --> waits: for the day, the session's end, the stop lifted --> asked --+--> agreed: used from then on
                                                                                +--> left out: forgotten

One question at a time, not at night, not in a session, not while everything is stopped. What is used the client takes out
behind More. Without consent, or after the discharge, the ids of the files are forgotten.
"""

from dataclasses import replace
from datetime import datetime
from typing import Any

from companion.core import own_media
from companion.core.care import Client
from companion.core.colleagues import place_in
from companion.core.effects import Button, Put, Words, words
from companion.core.events import Arrived, Lost, Press, Pressed, Why
from companion.core.media import OwnMedia
from companion.core.own_media import CARD, TOPIC, fits, stands
from companion.core.programme import Rules
from companion.core.turn import ANSWER, Turn

SCOPE = "media"
HERE: dict[str, Any] = {"card": CARD, "put": Put.IN_PLACE, **ANSWER}
IN_MENU: dict[str, Any] = {"card": "menu", "put": Put.IN_PLACE, **ANSWER}


def follow(turn: Turn) -> None:
    """What waits is asked once it can be; what must not be kept is forgotten. Called at the end of each step."""
    client = turn.client
    if not client.own_media:
        return
    if client.consent is None or client.discharged_at is not None:
        for one in client.own_media:
            own_media.withdraw(turn, one)
            own_media.take_out(turn, one)
    elif client.hold is not None:
        # everything stops, a question that stands too: it is asked again once the stop is lifted
        for one in client.own_media:
            if stands(one):
                own_media.withdraw(turn, one)
                own_media.change(turn, replace(one, asked=False))
    else:
        _ask_next(turn)


def ask_at(client: Client, rules: Rules) -> datetime | None:
    """When the client is to be asked next; None if there is nothing to ask, or something else is under way."""
    one = _next(client, rules)
    return one.ask_at if one is not None else None


def _next(client: Client, rules: Rules) -> OwnMedia | None:
    """The first to be asked for: one question at a time, and none about what the plan has no more."""
    waiting = [one for one in client.own_media if one.kept_at is None]
    if own_media.busy(client, rules) is not None or any(stands(one) for one in waiting):
        return None
    return next((one for one in waiting if fits(one, client.plan) and one.exercise in rules.exercises), None)


def _ask_next(turn: Turn) -> None:
    one = _next(turn.client, turn.rules)
    if one is None or (one.ask_at is not None and turn.at < one.ask_at):
        return
    day = own_media.by_day(turn.at, turn.client)
    if day > turn.at:
        own_media.change(turn, replace(one, ask_at=day))
    else:
        _ask(turn, one)


def _ask(turn: Turn, own: OwnMedia) -> None:
    """The question, with the file itself. Any other that stands waits again."""
    for one in turn.client.own_media:
        if stands(one):
            own_media.change(turn, replace(one, asked=False))
    own_media.change(turn, replace(own, asked=True, ask_at=turn.at))
    people = turn.client.people
    lines = (_title(turn, own), words("own-made", therapist=people.name(own.by)), words("own-ask"))
    buttons = (_button(turn, "b-own-use", own, "use"), _button(turn, "b-own-leave-out", own, "leave_out"))
    how = {**ANSWER, "topic": TOPIC, "card": CARD, "tag": own.id, "media": own.media}
    turn.say(people.client, *lines, buttons=buttons, **how)


def settled(turn: Turn, event: Arrived | Lost) -> None:
    """What became of a question. One that the platform will not deliver is given up, and the therapists hear of it."""
    one = own_media.found(turn.client, event.tag)
    if one is not None and stands(one) and isinstance(event, Lost) and event.why is Why.UNDELIVERABLE:
        own_media.take_out(turn, one)
        own_media.tell_therapists(turn, one, "media-undelivered")


# --- the client -----------------------------------------------------------------------------------------------


def pressed(turn: Turn, event: Pressed) -> None:
    """The client answers the question."""
    client, choice = turn.client, event.press.choice
    one = own_media.found(client, event.press.step)
    if event.by != client.people.client:
        turn.reply(words("press-not-yours"))
    elif one is None or one.kept_at is not None:
        turn.reply(words("press-over"))
    elif client.session is not None or (client.hold is not None and choice == "use"):
        # a phone in a stance stays quiet, and what is asked of practice waits until it may go on
        turn.reply(words("own-not-now" if client.session is not None else "held"))
    elif choice == "use":
        turn.reply()
        _use(turn, one)
    elif choice == "leave_out":
        turn.reply()
        _leave_out(turn, one)
        turn.say(event.by, _title(turn, one), words("own-left-out"), **HERE)
    else:
        turn.reply(words("press-stale"))


def _use(turn: Turn, own: OwnMedia) -> None:
    """Agreed: from now on it is used, in place of what was agreed to for the same exercise before."""
    others = [one for one in turn.client.own_media if one.id != own.id]
    stay = (one for one in others if one.exercise != own.exercise or one.kept_at is None)
    turn.set(own_media=(*stay, replace(own, kept_at=turn.at)))
    own_media.record(turn, own, turn.client.people.client, "agreed")
    own_media.tell_therapists(turn, own, "media-agreed")
    turn.say(turn.client.people.client, _title(turn, own), words("own-used"), words("own-used-change"), **HERE)


def _leave_out(turn: Turn, own: OwnMedia) -> None:
    own_media.take_out(turn, own)
    what = "removed" if own.kept_at is not None else "declined"
    own_media.record(turn, own, turn.client.people.client, what)
    own_media.tell_therapists(turn, own, f"media-{what}-by-client")


def listed(turn: Turn, choice: str) -> None:
    """What the client finds behind More: one recording at a time, told apart by its place ("n0")."""
    own, to = turn.client.own_media, turn.client.people.client
    if not own:
        turn.say(to, words("own-none"), **IN_MENU)
        return
    place = (place_in(choice, "n") or 0) % len(own)
    one = own[place]
    name = own_media.exercise_name(one.exercise, turn.rules)
    used = "own-item-kept" if fits(one, turn.client.plan) else "own-item-aside"
    state = used if one.kept_at is not None else "own-item-waiting"
    wish = ("b-own-leave-out", "leave_out") if one.kept_at is not None else ("b-own-show", "show")
    buttons = [turn.button(wish[0], "menu", one.id, wish[1])]
    if len(own) > 1:
        buttons.append(turn.button("b-own-next", "menu", "own", f"n{(place + 1) % len(own)}"))
    lines = (words("own-item", name=name, medium=one.media.medium.value), words(state))
    turn.say(to, *lines, buttons=tuple(buttons), **IN_MENU)


def chosen(turn: Turn, id: str, choice: str) -> None:
    """Under one of that list: it is left out from now on, or the question is asked again, with the file."""
    client = turn.client
    one = own_media.found(client, id)
    if one is None:
        listed(turn, "")
    elif choice == "leave_out":
        own_media.withdraw(turn, one)
        _leave_out(turn, one)
        turn.say(client.people.client, words("own-left-out"), **IN_MENU)
    elif one.kept_at is None and client.hold is None:
        _ask(turn, one)
    else:
        turn.say(client.people.client, words("held" if client.hold is not None else "own-item-kept"), **IN_MENU)


def _title(turn: Turn, own: OwnMedia) -> Words:
    """What it is for: the title of the set-up."""
    return words("set-up-title", name=own_media.exercise_name(own.exercise, turn.rules))


def _button(turn: Turn, label: str, own: OwnMedia, choice: str) -> Button:
    return Button(words(label), Press(turn.client.id, SCOPE, own.id, choice))
