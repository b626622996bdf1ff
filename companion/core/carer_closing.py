"""The carer's last word after a session: is all well? With it, in one tap, their own report of what they saw.

What the carer saw is kept beside what the client said, never instead. Who said that they are not there is told, not asked.
"""

from companion.core import alerts, carers
from companion.core.cursor import Session
from companion.core.effects import PersonId, Put, words
from companion.core.events import Pressed
from companion.core.observations import Answer, CarerSeen, Reporter
from companion.core.steps import Label
from companion.core.turn import Turn

SAW = "carer_saw"
"""The question that a carer's own report answers, as it is recorded."""


def stood(session: Session) -> bool:
    """Whether this session had anything to stand for."""
    standing = any(isinstance(step, Label) and step.standing for step in session.script.steps)
    return standing and not session.seated_only


def ask(turn: Turn, over: Session) -> None:
    """Ask the carer of the session that is over, on the phone where their screens come."""
    client = turn.client
    carer = carers.carer_phone(client)
    if carer is None:
        return
    finished = words("carer-finished", name=client.name)
    if over.carer is CarerSeen.ABSENT:
        if carer != client.people.client:
            turn.say(carer, finished, card="carer", topic="closing")
        return
    turn.set(after=over.id)
    choices = [("b-all-is-well", "all_well"), ("b-saw-a-step", "saw_step"), ("b-something-happened", "happened")]
    if not stood(over):
        del choices[1]
    buttons = tuple(turn.button(label, over.id, "after", choice) for label, choice in choices)
    lines = (*carers.mark(client, carer), finished, words("carer-finished-ask"))
    turn.say(carer, *lines, buttons=buttons, card="carer", topic="closing")


def pressed(turn: Turn, event: Pressed) -> None:
    """The answer. That something happened is never too late to say, whatever session it was asked about."""
    client, press = turn.client, event.press
    open_still = client.after is not None and press.scope == client.after
    if press.choice == "happened" and not open_still:
        turn.reply()
        alerts.something_happened(turn, event.by)
    elif not open_still:
        turn.reply(words("press-over"))
    else:
        turn.reply()
        turn.set(after=None)
        _answered(turn, event.by, press.scope, press.choice)


def _answered(turn: Turn, by: PersonId, session: str, choice: str) -> None:
    happened = choice not in ("all_well", "saw_step")
    answer = "something_happened" if happened else "all_well"
    turn.record(Answer(turn.at, session, None, "carer_after", answer, Reporter.CARER))
    if happened:
        alerts.something_happened(turn, by)
        return
    if choice == "saw_step":
        turn.record(Answer(turn.at, session, None, SAW, "step_or_touch", Reporter.CARER))
    # the carer's card may be the next session's by now
    card = {"card": "carer", "put": Put.IN_PLACE} if turn.client.session is None else {}
    turn.say(by, *carers.mark(turn.client, by), words("carer-thanks"), topic="closing", **card)
