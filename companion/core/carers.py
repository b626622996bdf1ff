"""Who stands by: on which phone the carer's screens come, and whether the one who reads them was briefed.

Until the briefing was gone through, the client practises as with a carer who is not there: seated, or later.
"""

from typing import Any

from companion.core import briefing
from companion.core.care import Client
from companion.core.effects import Button, PersonId, Words, words
from companion.core.events import Briefed, Press
from companion.core.programme import Rules
from companion.core.script import needs_carer
from companion.core.turn import ANSWER, Turn


def carer_phone(client: Client) -> PersonId | None:
    """The phone on which the carer's screens of a session come; None if there is none in the chat."""
    phone = client.people.client if client.shared_phone else client.people.carer
    return phone if phone in client.joined else None


def is_carer(client: Client, by: PersonId) -> bool:
    """Whether that phone speaks for the carer: their own, or the client's where they share it."""
    return by == client.people.carer or (client.shared_phone and by == client.people.client)


def mark(client: Client, phone: PersonId | None) -> tuple[Words, ...]:
    """On the client's own phone it is said whom the carer's words are for."""
    return (words("for-helper"),) if phone == client.people.client else ()


def is_briefed(client: Client, rules: Rules) -> bool:
    """Whether the carer of this client went through the briefing as it is now: on the phone where their screens come, or, with
    a shared one, on one of their own."""
    version = rules.briefing.version
    return not rules.briefing.topics or any(is_carer(client, by) and read == version for by, read in client.briefed)


def must_read_first(client: Client, rules: Rules) -> bool:
    """Whether the plan needs a carer, one is in the chat, and they were not briefed yet."""
    if client.plan is None or carer_phone(client) is None or is_briefed(client, rules):
        return False
    return needs_carer(client.plan, rules.exercises)


def briefed(turn: Turn, event: Briefed) -> None:
    """A carer went through the briefing. Of an older version nothing is kept."""
    if event.by in turn.client.people.at_home():
        others = tuple(one for one in turn.client.briefed if one[0] != event.by)
        turn.set(briefed=(*others, (event.by, event.version)))


def remind(turn: Turn, minutes: Words, how: dict[str, Any]) -> None:
    """The carer's part of a reminder, which informs; with what is still to be read."""
    client = turn.client
    carer = client.people.carer
    if carer not in client.joined:
        return
    first = must_read_first(client, turn.rules) and not client.shared_phone
    lines = (_to_read(turn),) if first else ()
    buttons = (read_button(carer),) if first and carer else ()
    said = words("reminder-carer", name=client.name)
    turn.say(carer, said, minutes, *lines, buttons=buttons, card="carer", **how)


def share(turn: Turn, shared: bool) -> None:
    """The therapist allows, or no longer allows, the carer's screens on the client's phone. A session under way ends on its own
    script. The carer reads the briefing there before anybody stands."""
    client = turn.client
    if client.shared_phone is shared:
        return
    turn.set(shared_phone=shared)
    phone = client.people.client
    if phone not in client.joined or client.session is not None:
        return
    if not shared:
        turn.say(phone, words("shared-no-more"), **ANSWER)
        return
    first = must_read_first(turn.client, turn.rules)
    lines = (words("shared-now"), *((*mark(client, phone), words("shared-read")) if first else ()))
    turn.say(phone, *lines, buttons=(read_button(phone),) if first else (), card="carer", **ANSWER)


def ask_to_read(turn: Turn) -> None:
    """Tell the carer why nobody stands today, with the way to mend it."""
    carer = carer_phone(turn.client)
    if carer is not None:
        turn.say(carer, *mark(turn.client, carer), _to_read(turn), buttons=(read_button(carer),), card="carer", **ANSWER)


def _to_read(turn: Turn) -> Words:
    return words("carer-unbriefed", parts=len(turn.rules.briefing.topics), name=turn.client.name)


def read_again(carer: PersonId) -> Button:
    """What opens it again, for who knows it."""
    return Button(words("b-briefing-again"), read_button(carer).press)


def read_button(carer: PersonId) -> Button:
    """What opens the briefing on that phone."""
    return Button(words("b-read-briefing"), Press(*briefing.opens(carer)))
