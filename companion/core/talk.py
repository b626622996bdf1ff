"""What is said beside a session: joining, the menu, help, and an answer to typed words."""

from dataclasses import replace

from companion.core import agreement, carer_reports, carers, short_words, telling
from companion.core.care import seeing
from companion.core.effects import Button, PersonId, Say, Urgency, Words, words
from companion.core.events import Joined, Left, Typed
from companion.core.observations import OwnWords, Reporter
from companion.core.showing import ask_again, sounding, standing
from companion.core.turn import ANSWER, Turn

KEPT_CHARACTERS = 1000


def where_we_are(turn: Turn, to: PersonId, before: tuple[Words, ...]) -> Say | None:
    """The question this phone is at, said new with fresh buttons; None if it is asked nothing."""
    session = turn.client.session
    again = ask_again(session, before, to) if session is not None else None
    return replace(again, urgency=Urgency.ANSWER) if again is not None else None


def typed(turn: Turn, event: Typed) -> None:
    """Words are kept for the therapist, and answered with what can be pressed. Beside it, always, the emergency words."""
    client = turn.client
    if event.by not in client.people.at_home():
        turn.say(event.by, words("typed-therapist"), **ANSWER)
        return
    if event.by == client.people.client and client.consent is None and client.hold is None:
        # nothing is kept of somebody who has not agreed
        turn.say(event.by, words("consent-first"), words("typed-emergency", number=turn.rules.emergency_number), **ANSWER)
        agreement.ask(turn)
        return
    if carer_reports.wanted(turn, event):
        carer_reports.took(turn, event)
        return
    what = telling.wanted(turn, event)
    if what is not None:
        telling.took(turn, event, what)
        return
    kept = telling.in_a_session(turn, event) or _kept(turn, event)
    urgent = words("typed-emergency", number=turn.rules.emergency_number)
    session = client.session
    # while a sound may be playing its answers wait under it, and nobody is to tap
    heard_now = session is not None and event.by == session.phone and sounding(session, turn.at)
    again = where_we_are(turn, event.by, (kept, urgent)) if not heard_now else None
    if again is not None:
        turn.effects.append(again)
    else:
        running = session is not None and standing(session)
        # nothing to press is shown to somebody who stands
        turn.say(event.by, kept, urgent, *(() if running else (words("typed-row"),)), silent=running, **ANSWER)


def _kept(turn: Turn, event: Typed) -> Words:
    """Words are kept for the therapist; what to say of that."""
    client = turn.client
    text = event.text.strip()[:KEPT_CHARACTERS]
    if text:
        by = Reporter.CLIENT if event.by == client.people.client else Reporter.CARER
        turn.record(OwnWords(turn.at, by, text))
    return words("typed-kept", therapist=client.people.name(client.people.therapist)) if text else words("typed-other")


def help_with(turn: Turn, by: PersonId) -> None:
    """What the companion does, and what it does not do."""
    people = turn.client.people
    line = "help-client" if by == people.client else "help-carer"
    emergency = words("typed-emergency", number=turn.rules.emergency_number)
    buttons = _help_buttons(turn) if by == people.client else ()
    card = {"buttons": buttons, "card": "help"} if buttons else {}
    turn.say(by, words(line), emergency, words("help-not-watched"), **card, **ANSWER)


def _help_buttons(turn: Turn) -> tuple[Button, ...]:
    """What a client can do about how this works; nothing to press is shown to somebody who stands."""
    client = turn.client
    if client.session is not None and standing(client.session):
        return ()
    style = (short_words.other_style(turn),) if client.consent is not None else ()
    return (*style, carers.read_again(client.people.client)) if client.shared_phone else style


def joined(turn: Turn, event: Joined) -> None:
    """Somebody's phone is in the chat."""
    client = turn.client
    if event.by not in client.joined:
        turn.set(joined=(*client.joined, event.by))
    if event.by == client.people.client and not agreement.holds(client, turn.rules):
        agreement.ask(turn)
    if event.again:
        again = where_we_are(turn, event.by, ())
        if again is not None:
            turn.effects.append(again)


def left(turn: Turn, event: Left) -> None:
    """A phone blocked the companion, or came back. The therapist hears of a client or carer who can not be reached."""
    client = turn.client
    if event.back:
        if event.by not in client.joined:
            turn.set(joined=(*client.joined, event.by))
        return
    turn.set(joined=tuple(person for person in client.joined if person != event.by))
    if event.by in client.people.at_home():
        who = client.people.name(event.by)
        line = words("left-therapist", name=client.name, who=who)
        for therapist in seeing(client, turn.at):
            turn.say(therapist, line, urgency=Urgency.ANSWER, topic="talk")
