"""The therapist enters what was measured at a review.

    (begun before: go on, or anew?) --> the measures <--> a screen each --> preview --> saved: the client's care keeps it

Every screen has a number, as those of a plan: a press of an older one, or a second press, gets one line. A number that is not
taken changes nothing. Until it is saved it is known to this phone only, and is kept there while something else is done.
"""

from dataclasses import replace
from typing import assert_never

from companion.core.dialogues import Reviewing
from companion.core.effects import Put, Words, words
from companion.core.events import Facts, Pressed, ReviewDone, Typed
from companion.core.person_turn import PersonTurn
from companion.core.review_entries import Act, Screen, measured
from companion.core.review_screens import screen
from companion.core.review_values import NOTHING
from companion.core.schedule import local_day

CARD = "desk"


def begin(turn: PersonTurn, facts: Facts) -> None:
    """The client's page was asked for it. What was begun before and holds something is offered to go on with."""
    old = _draft_of(turn, facts.client)
    new = Reviewing(turn.number(), facts, turn.at)
    if old is not None:
        turn.set(drafts=tuple(draft for draft in turn.person.drafts if draft.id != old.id))
        if turn.person.dialogue == old:
            turn.close()
        if old.values != NOTHING:
            new = replace(new, at="resume", values=old.values, begun=old.begun)
    _show(turn, new)


def pressed(turn: PersonTurn, event: Pressed, dialogue: Reviewing) -> None:
    """A button of the review."""
    options, choice = _screen(turn, dialogue).options, event.press.choice
    if event.press.step != str(dialogue.turn) or not choice.isdecimal() or int(choice) >= len(options):
        turn.reply(words("press-over"))
        return
    turn.reply()
    then = options[int(choice)].then
    match then:
        case Reviewing():
            _show(turn, then)
        case Act.SAVE:
            _save(turn, dialogue)
        case Act.DROP:
            turn.close()
            page = turn.client_button("b-plan-page", dialogue.facts.client, "open", "open")
            turn.say(words("review-dropped", name=dialogue.facts.name), buttons=(page,), card=CARD, put=Put.IN_PLACE)
        case Act.ANEW:
            _show(turn, replace(dialogue, at="menu", values=NOTHING, begun=turn.at))
        case _:
            assert_never(then)


def typed(turn: PersonTurn, event: Typed, dialogue: Reviewing) -> None:
    """Words typed while a review is entered: the number where one is asked for, else the screen again."""
    reads = _screen(turn, dialogue).reads
    if reads is None:
        _show(turn, dialogue, words("plan-only-buttons"))
        return
    read = reads(event.text)
    if isinstance(read, Reviewing):
        _show(turn, read)
    else:
        _show(turn, dialogue, read)


def _save(turn: PersonTurn, dialogue: Reviewing) -> None:
    """To the client's care, which has the last word on it."""
    if measured(dialogue.values):
        turn.close()
        turn.tell(dialogue.facts.client, ReviewDone(turn.at, turn.person.id, dialogue.values))


def _show(turn: PersonTurn, dialogue: Reviewing, *first: Words) -> None:
    """The screen that stands, as a new one: the buttons of what was shown before are over."""
    dialogue = replace(dialogue, turn=dialogue.turn + 1)
    turn.open(dialogue)
    shown = _screen(turn, dialogue)
    buttons = tuple(
        turn.button(option.label, dialogue.id, str(dialogue.turn), str(place)) for place, option in enumerate(shown.options)
    )
    turn.say(*first, *shown.lines, buttons=buttons, card=CARD, put=Put.IN_PLACE)


def _screen(turn: PersonTurn, dialogue: Reviewing) -> Screen:
    return screen(dialogue, local_day(turn.at, dialogue.facts.zone))


def _draft_of(turn: PersonTurn, client: str) -> Reviewing | None:
    """The review of that client that was begun, under way or put by."""
    person = turn.person
    begun = (*person.drafts, *((person.dialogue,) if person.dialogue is not None else ()))
    return next((one for one in reversed(begun) if isinstance(one, Reviewing) and one.facts.client == client), None)
