"""The therapist's desk: the caseload on one screen, who needs a look first and why, one button a client.

The list is asked with `LookUp` and comes back as `Found`, gravest first; a press of a name opens that client's page in the same
place. The list is a card that changes in place, so pressing twice shows it once.
"""

from typing import Any

from companion.core import enrolling, setting
from companion.core.described import listed
from companion.core.effects import PAGE, Button, LookUp, Put, Words, words
from companion.core.events import Control, Controlled, Entry, Found, Pressed
from companion.core.person_turn import PersonTurn
from companion.core.phone import Part
from companion.core.summary import reason

MOST_REASONS = 4
CARD: dict[str, Any] = {"card": "desk", "put": Put.IN_PLACE, "topic": "desk"}


def controlled(turn: PersonTurn, event: Controlled) -> None:
    """A control of the therapist's fixed row."""
    if turn.person.role is not Part.THERAPIST:
        turn.say(words("typed-therapist"))
    elif event.control is Control.CASELOAD:
        turn.effects.append(LookUp("caseload"))
    elif event.control is Control.NEW_CLIENT:
        enrolling.begin(turn)
    elif event.control is Control.SETTINGS:
        setting.begin(turn)
    else:
        turn.say(words("typed-therapist"))


def pressed(turn: PersonTurn, event: Pressed) -> None:
    """A button of the desk: the list again, from some place on."""
    place = event.press.choice.removeprefix("n")
    if event.press.step != "list" or not place.isdecimal() or len(place) > 6:
        turn.reply(words("press-stale"))
        return
    turn.reply()
    turn.effects.append(LookUp("caseload", int(place)))


def found(turn: PersonTurn, event: Found) -> None:
    """The caseload was looked up."""
    if not event.entries:
        empty = words("desk-empty" if event.first == 0 else "desk-no-more")
        turn.say(empty, buttons=_turning(turn, event), **CARD)
        return
    last = event.first + len(event.entries)
    title = words("desk-title", total=event.total, first=event.first + 1, last=last)
    lines = [line(event.first + place, entry) for place, entry in enumerate(event.entries, start=1)]
    names = [turn.client_button(words("b-desk-client", name=entry.name), entry.id, "open", "open") for entry in event.entries]
    turn.say(title, *lines, buttons=(*names, *_turning(turn, event)), **CARD)


def line(number: int, entry: Entry) -> Words:
    """A client of a list: number, name, and why they need a look, gravest first."""
    if not entry.reasons:
        return words("desk-client", number=number, name=entry.name)
    reasons = [reason(one) for one in entry.reasons[:MOST_REASONS]]
    if len(entry.reasons) > MOST_REASONS:
        reasons.append(words("desk-more-reasons", count=len(entry.reasons) - MOST_REASONS))
    return words("desk-client-look", number=number, name=entry.name, reasons=listed(reasons))


def _turning(turn: PersonTurn, event: Found) -> tuple[Button, ...]:
    """To the page before and the next, where there are any."""
    last = event.first + len(event.entries)
    before = [("b-desk-before", max(0, event.first - PAGE))] if event.first > 0 else []
    after = [("b-desk-next", last)] if event.entries and last < event.total else []
    return tuple(turn.button(label, "desk", "list", f"n{first}") for label, first in (*before, *after))
