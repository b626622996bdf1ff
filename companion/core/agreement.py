"""What the client's care makes of the consent: asked for, given, refused, withdrawn.

Nobody without consent is reminded or starts a session. "Something is wrong" and "I fell" work without it.
The screens themselves are a dialogue of the client's own phone, see `consenting.py`.
"""

from companion.core.care import Client, Consent, seeing
from companion.core.closing import end_early
from companion.core.effects import Pass, Put, Subject, TakeBack, words
from companion.core.events import Consented, Declined, Facts, Opened, Opens
from companion.core.observations import ConsentAnswer, ConsentNoted
from companion.core.programme import Rules
from companion.core.turn import ANSWER, Turn

CARD = "consent"


def holds(client: Client, rules: Rules) -> bool:
    """Whether the client agreed to the words as they are now."""
    return client.consent is not None and client.consent.version == rules.consent.version


def ask(turn: Turn) -> None:
    """Open the consent on the client's phone, at the screen where it was left."""
    client = turn.client
    carer = client.people.carer
    facts = Facts(client.id, client.name, client.zone, carer=client.people.name(carer) if carer else None)
    turn.effects.append(Pass(Subject("person", client.people.client), Opened(turn.at, Opens.CONSENT, facts)))


def ask_instead_of_reminding(turn: Turn) -> None:
    """Practice is due and the client has not answered yet: asked again. Who declined or left is not."""
    client = turn.client
    if client.people.client in client.joined and client.refused_at is None and client.hold is None:
        ask(turn)


def given(turn: Turn, event: Consented) -> None:
    """The client agreed. What is practised next follows the plan."""
    client = turn.client
    if event.by != client.people.client:
        return
    turn.set(consent=Consent(event.version, turn.at), carer_sees=event.carer_sees, refused_at=None)
    turn.record(ConsentNoted(turn.at, event.by, event.version, ConsentAnswer.AGREED, event.carer_sees))
    if client.session is not None:
        return  # a phone in a session stays quiet
    buttons = (turn.button("b-practise-now", "menu", "more", "practise"),) if client.plan is not None else ()
    next_one = words("consent-next" if client.plan is not None else "consent-next-no-plan")
    turn.say(event.by, words("consent-thanks"), next_one, buttons=buttons, card=CARD, put=Put.IN_PLACE, **ANSWER)


def declined(turn: Turn, event: Declined) -> None:
    """The client did not agree: kind, and the therapist is told. What was agreed before is over too."""
    client = turn.client
    if event.by != client.people.client:
        return
    _no_more(turn, event.version, ConsentAnswer.DECLINED)
    again = turn.button("b-consent-read", "menu", "more", "consent")
    lines = (words("consent-declined"), words("consent-declined-care"))
    turn.say(event.by, *lines, buttons=(again,), card=CARD, put=Put.IN_PLACE, **ANSWER)
    for therapist in seeing(turn.client, turn.at):
        turn.say(therapist, words("consent-declined-therapist", name=client.name), **ANSWER)


def withdrawn(turn: Turn) -> None:
    """The client leaves. What was reported so far is kept; nobody is reminded any more, and a red flag stays open."""
    client = turn.client
    people, version = client.people, client.consent.version if client.consent is not None else ""
    _no_more(turn, version, ConsentAnswer.WITHDRAWN)
    for therapist in seeing(turn.client, turn.at):
        turn.say(therapist, words("left-for-good-therapist", name=client.name), **ANSWER)
    if people.carer in client.joined:
        turn.say(people.carer, words("left-for-good-carer", name=client.name), **ANSWER)


def _no_more(turn: Turn, version: str, answer: ConsentAnswer) -> None:
    if turn.client.session is not None:
        end_early(turn)
    turn.effects.append(TakeBack("reminder"))
    turn.set(consent=None, refused_at=turn.at, day=None, pause=None, writing=None)
    turn.record(ConsentNoted(turn.at, turn.client.people.client, version, answer))
