"""The client's own words to the therapist, passed on at once and read when the therapist reads them; and the client's goal.

What the next words are for is kept (`Client.writing`) until "That is all", or for as long as `Patience.writing_s`. Several
messages in a row are passed on one by one. Voice notes and pictures are passed on as they are: nothing here hears or sees them.
"""

from datetime import timedelta

from companion.core.care import Writing, seeing
from companion.core.effects import PassOn, Put, Words, words
from companion.core.events import Typed
from companion.core.observations import GoalSet, OwnWords, Reporter
from companion.core.schedule import clock_text
from companion.core.turn import ANSWER, Turn

FORMS = frozenset({"voice", "audio", "photo", "video", "video_note", "document"})
"""What can be passed on beside words."""

KEPT_CHARACTERS = 1000
GOAL_CHARACTERS = 150


def begin(turn: Turn) -> None:
    """Ask for words, a voice note or a picture for the therapist."""
    _open(turn, "tell")
    lines = (words("tell-how"), *_unread(turn))
    _say(turn, *lines)


def begin_goal(turn: Turn) -> None:
    """Ask for the goal. What was kept before is shown."""
    _open(turn, "goal")
    goal = turn.client.goal
    before = (words("goal-is", goal=goal),) if goal else ()
    _say(turn, *before, words("goal-ask"), words("goal-how"), label="b-goal-later")


def done(turn: Turn) -> None:
    """That is all; or no goal now."""
    writing = turn.client.writing
    said = "stayed" if writing is not None and writing.what == "goal" else "tell-done"
    turn.set(writing=None)
    turn.say(turn.client.people.client, words(said), card="menu", put=Put.IN_PLACE, **ANSWER)


def wanted(turn: Turn, event: Typed) -> str | None:
    """What these words of the client are for: "tell", "goal", or None for no more than being kept.

    A voice note or a picture is always meant to be passed on.
    """
    client = turn.client
    if event.by != client.people.client or client.session is not None or client.consent is None:
        return None
    if event.form in FORMS and event.message_id is not None:
        return "tell"
    writing = client.writing
    if writing is None or event.form or not event.text.strip():
        return None
    return writing.what if turn.at < writing.since + timedelta(seconds=turn.rules.patience.writing_s) else None


def took(turn: Turn, event: Typed, what: str) -> None:
    """The words that were asked for have come."""
    text = event.text.strip()
    if what == "goal":
        goal = " ".join(text.split())[:GOAL_CHARACTERS]
        turn.set(goal=goal, writing=None)
        turn.record(GoalSet(turn.at, goal))
        turn.say(event.by, words("goal-kept"), words("goal-is", goal=goal), card="menu", **ANSWER)
        return
    _open(turn, "tell")
    _say(turn, _passed(turn, event), *_unread(turn))


def in_a_session(turn: Turn, event: Typed) -> Words | None:
    """A voice note or a picture that the client sends in a session is passed on, and never guessed at. What to say of it; None
    if it is none."""
    client = turn.client
    mine = event.by == client.people.client and client.session is not None
    if not mine or event.form not in FORMS or event.message_id is None:
        return None
    return words("tell-in-session", kept=_passed(turn, event), form=event.form)


def _passed(turn: Turn, event: Typed) -> Words:
    """It is kept, and goes to the therapists who can be reached; what to say of that."""
    text = event.text.strip()
    turn.record(OwnWords(turn.at, Reporter.CLIENT, text[:KEPT_CHARACTERS], event.form))
    reached = [person for person in seeing(turn.client, turn.at) if person in turn.client.joined]
    for person in reached:
        turn.say(person, _announced(turn, event, text), **ANSWER)
        if event.form and event.message_id is not None:
            turn.effects.append(PassOn(person, event.by, event.message_id))
    therapist = turn.client.people.name(turn.client.people.therapist)
    return words("tell-passed" if reached else "tell-kept", therapist=therapist)


def _announced(turn: Turn, event: Typed, text: str) -> Words:
    at = clock_text(turn.at, turn.client.zone)
    if event.form:
        return words("tell-therapist-form", name=turn.client.name, at=at, form=event.form)
    return words("tell-therapist", name=turn.client.name, at=at, text=text[:KEPT_CHARACTERS])


def _unread(turn: Turn) -> tuple[Words, ...]:
    return (words("tell-not-read"), words("typed-emergency", number=turn.rules.emergency_number))


def _open(turn: Turn, what: str) -> None:
    turn.set(writing=Writing(what, turn.at))


def _say(turn: Turn, *lines: Words, label: str = "b-tell-done") -> None:
    buttons = (turn.button(label, "menu", "tell", "done"),)
    turn.say(turn.client.people.client, *lines, buttons=buttons, card="menu", put=Put.IN_PLACE, **ANSWER)
