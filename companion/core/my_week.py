"""The client's own view of the week under way: kind and true. What nobody reported is not guessed, and nothing is scolded."""

from datetime import timedelta

from companion.core.care import Past
from companion.core.effects import Put, Report, Sheet, Words, words
from companion.core.observations import Ending
from companion.core.turn import ANSWER, Turn

UNSURE = (Ending.NO_WORD, Ending.NO_ANSWER)
"""Endings of which nobody knows how it went."""


def show(turn: Turn) -> None:
    """The week so far, and the goal if there is one; then the same as a picture.

    From here on to what the therapist recorded, if there is any.
    """
    client = turn.client
    goal = (words("goal-is", goal=client.goal),) if client.goal else ()
    labels = [("b-goal", "goal")]
    if client.people.carer is not None:
        labels.append(("b-carer-sees", "sees"))
    if client.own_media:
        labels.append(("b-own", "own"))
    buttons = tuple(turn.button(label, "menu", "week", choice) for label, choice in labels)
    turn.say(client.people.client, *_lines(turn), *goal, buttons=buttons, card="menu", put=Put.IN_PLACE, **ANSWER)
    if client.plan is not None and client.session is None:  # nothing new comes to the phone of who practises
        monday = turn.today - timedelta(days=turn.today.weekday())
        turn.effects.append(Report(client.people.client, monday, monday + timedelta(days=6), Sheet.OWN_WEEK))


def _lines(turn: Turn) -> tuple[Words, ...]:
    monday = turn.today - timedelta(days=turn.today.weekday())
    week = [past for past in turn.client.past if monday <= past.day <= turn.today]
    practised = [past for past in week if past.done]
    blanks = {blank.day for blank in turn.client.blanks if blank.ending in UNSURE and monday <= blank.day <= turn.today}
    unsure = blanks | {past.day for past in week if past.ending in UNSURE}
    if not practised:
        lines = [words("week-none"), words("week-none-kind")]
    else:
        lines = [words("week-days", days=len({past.day for past in practised})), _parts(practised), words("week-kind")]
    return tuple(lines) if not unsure else (*lines, words("week-unsure", days=len(unsure)))


def _parts(practised: list[Past]) -> Words:
    parts = sum(past.done for past in practised)
    minutes = int(sum(past.practised_s for past in practised) // 60)
    return words("week-parts-and-minutes", parts=parts, minutes=minutes) if minutes else words("week-parts", parts=parts)
