"""What a carer finds behind *More*: at most 3 choices a screen, at most 3 screens deep.

    more -> They fell | Tell the therapist | Something else
    report -> They almost fell | I have a worry        beside -> How it goes | Read the briefing | How this works

A fall, a near-fall and a worry can be told at any time. What is asked then is kept as `Client.asked_carer`: one question, one
answer. Every screen stands on the card of the menu and is changed in place.
"""

from datetime import timedelta

from companion.core import alerts, carer_reports, carers, talk
from companion.core.effects import PersonId, Put, Words, words
from companion.core.events import Pressed
from companion.core.observations import Reporter
from companion.core.turn import ANSWER, Turn

SCREENS: dict[str, tuple[tuple[str, str], ...]] = {
    "more": (("b-they-fell", "fell"), ("b-report", "report"), ("b-beside", "beside")),
    "report": (("b-near-fall", "near_fall"), ("b-worry", "worry")),
    "beside": (("b-how-it-goes", "how_it_goes"), ("b-help", "help")),
}
"""The screens that only lead on: their buttons as (label, choice), by name."""


def more(turn: Turn, by: PersonId) -> None:
    """The first screen, said new."""
    _screen(turn, by, "more", Put.NEW)


def pressed(turn: Turn, event: Pressed) -> None:
    """A button of the menu, pressed by the carer."""
    choice, by = event.press.choice, event.by
    if carer_reports.answered(turn, event):
        return
    turn.reply()
    if choice == "fell":
        alerts.fell(turn, by)
    elif choice == "near_fall":
        carer_reports.ask_near_fall(turn, by)
    elif choice == "worry":
        carer_reports.ask_worry(turn, by)
    elif choice == "how_it_goes":
        turn.say(by, *_how_it_goes(turn), card="menu", put=Put.IN_PLACE, **ANSWER)
    elif choice in SCREENS:
        _screen(turn, by, choice, Put.IN_PLACE)
    else:
        talk.help_with(turn, by)


def _screen(turn: Turn, by: PersonId, name: str, put: Put) -> None:
    buttons = [turn.button(label, "menu", name, choice) for label, choice in SCREENS[name]]
    if name == "beside":
        buttons.insert(1, carers.read_again(by))
    title = words("more-about", name=turn.client.name)
    turn.say(by, title, buttons=tuple(buttons), card="menu", put=put, **ANSWER)


def _how_it_goes(turn: Turn) -> tuple[Words, ...]:
    """What the client allows, and no more. That practice is stopped by a red flag every carer is told in any case."""
    client = turn.client
    lines = [words("carer-view-stopped", name=client.name)] if client.hold is not None else []
    if not client.carer_sees:
        return (*lines, words("carer-view-none", name=client.name), words("carer-view-ask"))
    if "sessions" in client.carer_sees:
        lines += _week(turn)
    if "flags" in client.carer_sees and client.hold is None:
        lines.append(words("carer-view-no-stop"))
    if "words" in client.carer_sees:
        lines += _their_words(turn)
    return tuple(lines)


def _week(turn: Turn) -> list[Words]:
    monday = turn.today - timedelta(days=turn.today.weekday())
    days = {past.day for past in turn.client.past if past.done and monday <= past.day <= turn.today}
    if not days:
        return [words("carer-view-no-day", name=turn.client.name)]
    return [words("carer-view-days", name=turn.client.name, days=len(days)), words("carer-view-kind")]


def _their_words(turn: Turn) -> list[Words]:
    client = turn.client
    goal = [words("carer-view-goal", goal=client.goal)] if client.goal else []
    said = [one for one in client.said if one.by is Reporter.CLIENT and one.text]
    return goal + [words("carer-view-said", text=one.text) for one in said[-1:]]
