"""A carer goes: for now (*I had to leave*, standing ends at once), or for good (the therapist takes them out of the care)."""

from dataclasses import replace

from companion.core.care import Client
from companion.core.closing import end_early
from companion.core.effects import ClearButtons, Pass, PersonId, Subject, TakeBack, words
from companion.core.events import Released
from companion.core.session import carer_left, in_doubt
from companion.core.steps import Ask
from companion.core.turn import ANSWER, Turn

TOPICS = ("session", "closing", "reminder", "talk", "alert")
CARDS = ("carer", "flag", "menu")


def counts_on(client: Client, by: PersonId) -> bool:
    """Whether a session under way counts on the carer for whom that phone speaks."""
    session = client.session
    return session is not None and session.carer_phone is not None and by in (session.carer_phone, client.people.carer)


def had_to_leave(turn: Turn, by: PersonId) -> None:
    """The carer of the session under way had to leave, says the phone `by`. There must be a session with a carer's phone."""
    client, session = turn.client, turn.client.session
    assert session is not None and session.carer_phone is not None
    if in_doubt(session):
        end_early(turn)
        return
    if not (isinstance(session.current, Ask) and session.current.id == "carer-left"):  # else it was said before
        left, effects = carer_left(session, turn.at, turn.seed, turn.rules.patience)
        turn.set(session=left)
        turn.effects += effects
    if by != client.people.client:
        turn.effects.append(ClearButtons(by, "carer"))
        turn.say(by, words("carer-left-thanks", name=client.name), **ANSWER)


def remove(turn: Turn) -> None:
    """The carer is the client's carer no longer: sees and does nothing more here, also not as a next contact.

    A session that counts on a carer ends; what they reported stays in the record under their name.
    """
    client, people = turn.client, turn.client.people
    carer = people.carer
    if carer is None:
        return
    without = replace(people, carer=None, contacts=tuple(one for one in people.contacts if one != carer))
    turn.set(
        people=without,
        joined=tuple(one for one in client.joined if one != carer),
        briefed=(),  # also what they read on a shared phone
        asked_carer=None,
        after=client.after if client.shared_phone else None,
    )
    if client.session is not None and client.session.carer_phone is not None:
        end_early(turn)
    _tell_nothing_more(turn, carer)
    turn.effects.append(Pass(Subject("person", carer), Released(turn.at, client.id)))
    turn.say(carer, words("carer-removed", name=client.name), **ANSWER)
    if turn.client.session is None:  # a phone in a session stays quiet
        turn.say(people.client, words("carer-removed-client", carer=people.name(carer)), **ANSWER)


def _tell_nothing_more(turn: Turn, carer: PersonId) -> None:
    """What was written down for them and not yet sent is not sent, and their buttons go."""
    turn.effects += [TakeBack(topic, carer) for topic in TOPICS]
    turn.effects += [ClearButtons(carer, card, "talk") for card in CARDS]
