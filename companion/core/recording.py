"""The therapist records a voice cue, a photo or a clip for one exercise of one client, by sending it to the chat.

    which exercise? --> (what is there: replace, take out) --> send it now --> shown back --> instead or beside? --> passed on

The client's care keeps it and asks the client (`own_media.py`). What the therapist does here decides nothing for them.
"""

from dataclasses import replace
from typing import Any

from companion.core.colleagues import Choices, place_in
from companion.core.dialogues import Recording
from companion.core.effects import Put, Words, words
from companion.core.events import Facts, MediaGiven, MediaRemoved, Pressed, Typed
from companion.core.media import Medium, OwnMedia, Recorded
from companion.core.own_media import exercise_name, fits, planned_form, stands
from companion.core.person_turn import PersonTurn
from companion.core.schedule import clock_text

CARD: dict[str, Any] = {"card": "desk", "put": Put.IN_PLACE, "topic": "desk"}
FORMS = {"voice": Medium.VOICE, "photo": Medium.PHOTO, "video": Medium.VIDEO}
"""What can be recorded, by what the platform calls it."""


def begin(turn: PersonTurn, facts: Facts) -> None:
    """The client's page was asked for it: for which exercise?"""
    _ask_which(turn, Recording(turn.number(), facts))


def _show(turn: PersonTurn, dialogue: Recording, lines: tuple[Words, ...], choices: Choices) -> None:
    turn.open(dialogue)
    buttons = [
        turn.button(label, dialogue.id, dialogue.at, choice) for label, choice in (*choices, ("b-media-cancel", "cancel"))
    ]
    turn.say(*lines, buttons=tuple(buttons), **CARD)


def _end(turn: PersonTurn, line: Words) -> None:
    turn.close()
    turn.say(line, **CARD)


# --- which exercise, and what is there ------------------------------------------------------------------------


def _exercises(dialogue: Recording) -> list[str]:
    """The exercises of the plan, then those that something is there for though the plan has them no more."""
    planned = dialogue.facts.plan.exercises if dialogue.facts.plan is not None else ()
    return list(dict.fromkeys((*(one.exercise for one in planned), *(own.exercise for own in dialogue.facts.own_media))))


def _there(dialogue: Recording, exercise: str) -> list[OwnMedia]:
    return [own for own in dialogue.facts.own_media if own.exercise == exercise]


def _ask_which(turn: PersonTurn, dialogue: Recording, *first: Words) -> None:
    exercises = _exercises(dialogue)
    there = [_line(turn, dialogue, own) for own in dialogue.facts.own_media]
    choices: Choices = []
    for place, exercise in enumerate(exercises):
        choices.append((words("b-media-exercise", exercise=exercise_name(exercise, turn.rules)), f"n{place}"))
    lines = (*first, words("media-which", name=dialogue.facts.name), *there, words("media-caution", name=dialogue.facts.name))
    _show(turn, replace(dialogue, at="which", exercise="", media=None), lines, choices)


def _line(turn: PersonTurn, dialogue: Recording, own: OwnMedia) -> Words:
    """What is there, in a line: medium, how it comes, what the client said. Unknown is where nobody answered."""
    used = "agreed" if fits(own, dialogue.facts.plan) else "aside"
    state = used if own.kept_at is not None else "asked" if stands(own) else "waits"
    at = own.kept_at or (own.ask_at if stands(own) else None) or own.given_at
    when = {"at": clock_text(at, turn.person.zone), "zone": turn.person.zone}
    name, way = exercise_name(own.exercise, turn.rules), "beside" if own.beside else "instead"
    return words("media-there", exercise=name, medium=own.media.medium.value, way=way, state=state, **when)


def _ask_there(turn: PersonTurn, dialogue: Recording) -> None:
    there = _there(dialogue, dialogue.exercise)
    choices: Choices = [("b-media-replace", "replace")] if _planned(dialogue) else []
    for own in there:
        state = "agreed" if own.kept_at is not None else "waits"
        choices.append((words("b-media-remove", medium=own.media.medium.value, state=state), own.id))
    lines = (
        *(_line(turn, dialogue, own) for own in there),
        words("media-keep-there" if _planned(dialogue) else "media-unplanned"),
    )
    _show(turn, replace(dialogue, at="there"), lines, [*choices, ("b-media-back", "back")])


def _planned(dialogue: Recording) -> bool:
    return planned_form(dialogue.facts.plan, dialogue.exercise) is not None


# --- sent, shown back, passed on ------------------------------------------------------------------------------


def _ask_send(turn: PersonTurn, dialogue: Recording, *first: Words) -> None:
    name = exercise_name(dialogue.exercise, turn.rules)
    lines = (*first, words("media-send", name=dialogue.facts.name, exercise=name))
    _show(turn, replace(dialogue, at="send", media=None), lines, [("b-media-back", "back")])


def _show_back(turn: PersonTurn, dialogue: Recording, media: Recorded) -> None:
    """First as it will reach the client, in a message of its own; then what is asked about it."""
    turn.say(words("set-up-title", name=exercise_name(dialogue.exercise, turn.rules)), media=media, silent=True)
    _ask_how(turn, replace(dialogue, media=media))


def _ask_how(turn: PersonTurn, dialogue: Recording, *first: Words) -> None:
    choices: Choices = [("b-media-instead", "instead"), ("b-media-beside", "beside"), ("b-media-again", "send")]
    _show(turn, replace(dialogue, at="how"), (*first, words("media-how", name=dialogue.facts.name)), choices)


def typed(turn: PersonTurn, event: Typed, dialogue: Recording) -> bool:
    """The file that was asked for; another one in its place; or something that can not be taken."""
    medium = FORMS.get(event.form)
    if dialogue.at not in ("send", "how"):
        _ask_which(turn, dialogue, words("media-first-which"))
    elif medium is not None and event.file_id:
        _show_back(turn, dialogue, Recorded(medium, event.file_id))
    elif dialogue.at == "send":
        _ask_send(turn, dialogue, words("media-not-taken"))
    else:
        _ask_how(turn, dialogue, words("media-not-taken"))
    return True


# --- presses --------------------------------------------------------------------------------------------------


def pressed(turn: PersonTurn, event: Pressed, dialogue: Recording) -> None:
    """A button of this dialogue. One of another screen than stands there changes nothing."""
    choice = event.press.choice
    if event.press.step != dialogue.at:
        turn.reply(words("press-stale"))
        return
    turn.reply()
    if choice == "cancel":
        _end(turn, words("media-cancelled", name=dialogue.facts.name))
    elif dialogue.at == "which":
        _which_pressed(turn, dialogue, choice)
    elif dialogue.at == "there":
        _there_pressed(turn, dialogue, choice)
    elif dialogue.at == "send" and choice == "back":
        _ask_there(turn, dialogue) if _there(dialogue, dialogue.exercise) else _ask_which(turn, dialogue)
    elif dialogue.at == "how" and choice == "send":
        _ask_send(turn, dialogue)
    elif dialogue.at == "how" and choice in ("instead", "beside") and dialogue.media is not None:
        _end(turn, words("media-passed-on", name=dialogue.facts.name))
        given = MediaGiven(turn.at, turn.person.id, dialogue.exercise, dialogue.media, choice == "beside")
        turn.tell(dialogue.facts.client, given)


def _which_pressed(turn: PersonTurn, dialogue: Recording, choice: str) -> None:
    place, exercises = place_in(choice, "n"), _exercises(dialogue)
    if place is None or place >= len(exercises):
        return
    dialogue = replace(dialogue, exercise=exercises[place])
    _ask_there(turn, dialogue) if _there(dialogue, dialogue.exercise) else _ask_send(turn, dialogue)


def _there_pressed(turn: PersonTurn, dialogue: Recording, choice: str) -> None:
    if choice == "back":
        _ask_which(turn, dialogue)
    elif choice == "replace" and _planned(dialogue):
        _ask_send(turn, dialogue)
    elif choice in [own.id for own in _there(dialogue, dialogue.exercise)]:
        _end(turn, words("media-passed-on", name=dialogue.facts.name))
        turn.tell(dialogue.facts.client, MediaRemoved(turn.at, turn.person.id, choice))
