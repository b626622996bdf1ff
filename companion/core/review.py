"""What a therapist measured at a review reaches the care, and is recorded; the therapist gets all reviews as one picture.

Nothing of it is said to client, carer or contacts, and nobody practises otherwise for it.
"""

from typing import Any

from companion.core.care import facts, seeing
from companion.core.effects import Pass, PersonId, Put, Report, Sheet, Subject, words
from companion.core.events import Opened, Opens, ReviewDone
from companion.core.observations import Reviewed
from companion.core.schedule import local_day
from companion.core.turn import ANSWER, Turn

TO_DESK: dict[str, Any] = {"card": "desk", "put": Put.IN_PLACE, **ANSWER}


def opened(turn: Turn, by: PersonId) -> None:
    """The dialogue was asked for on the client's page, by somebody who sees to the client."""
    if turn.client.discharged_at is not None:
        turn.reply(words("review-discharged"))
        return
    turn.reply()
    turn.effects.append(Pass(Subject("person", by), Opened(turn.at, Opens.REVIEW, facts(turn.client))))


def done(turn: Turn, event: ReviewDone) -> None:
    """A therapist measured something. A red flag does not stand in its way: it is taken at the visit."""
    client, by = turn.client, event.by
    if by not in seeing(client, turn.at):
        if by not in client.people.at_home():
            turn.say(by, words("not-your-client"), **ANSWER)
        return
    if client.discharged_at is not None:
        turn.say(by, words("review-discharged"), **TO_DESK)
        return
    turn.record(Reviewed(turn.at, by, event.values))
    turn.set(first_review=client.first_review or turn.today, last_review=turn.today)
    page = turn.button("b-open-page", "page", "open", "open")
    turn.say(by, words("review-kept", name=client.name, day=str(turn.today)), buttons=(page,), **TO_DESK)
    _draw(turn, by)


def asked(turn: Turn, by: PersonId) -> None:
    """All reviews so far were asked for on the client's page, by somebody who sees to the client."""
    if turn.client.first_review is None:
        turn.reply(words("review-none"))
        return
    turn.reply(words("review-comes"))
    _draw(turn, by)


def _draw(turn: Turn, by: PersonId) -> None:
    """From the first plan or the first review on, whichever came before."""
    client, today = turn.client, turn.today
    days = [today] + ([client.first_review] if client.first_review is not None else [])
    days += [local_day(client.since, client.zone)] if client.since is not None else []
    turn.effects.append(Report(by, min(days), today, Sheet.REVIEWS))
