"""The therapist gives a client to a colleague, for good or for a time with start and end.

    who? --> (cover: when? --> dates, typed) --> sure? --> is the colleague still in the chat? --> the client's care is told

The care of the client acts (`assigning.py`). Whoever has left the chat meanwhile is refused with that reason.
"""

import re
from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import Any

from companion.core.colleagues import Choices, chosen, others, page
from companion.core.dialogues import HandingOver
from companion.core.effects import LookUp, Put, Words, words
from companion.core.events import CoverAgreed, Facts, Found, HandedOver, Pressed, Typed
from companion.core.person_turn import PersonTurn
from companion.core.schedule import clock_text, end_of_day, instant, local_day

CARD: dict[str, Any] = {"card": "desk", "put": Put.IN_PLACE, "topic": "desk"}
SPANS = {"today_only": (0, 0), "tomorrow_only": (1, 1), "1_week": (0, 6), "2_weeks": (0, 13)}
"""Covers offered, as the first and the last day counted from today."""
LONGEST_DAYS = 92
_DATE = re.compile(r"(?<!\d)(\d{4})-(\d{2})-(\d{2})(?!\d)")


def begin(turn: PersonTurn, facts: Facts, cover: bool) -> None:
    """Who shall see to this client?"""
    turn.open(HandingOver(turn.number(), facts, cover))
    turn.effects.append(LookUp("colleagues"))


def _show(turn: PersonTurn, dialogue: HandingOver, lines: tuple[Words, ...], choices: Choices) -> None:
    turn.set(dialogue=dialogue)
    all_choices: Choices = [*choices, ("b-hand-cancel", "cancel")]
    turn.say(
        *lines, buttons=tuple(turn.button(label, dialogue.id, dialogue.at, choice) for label, choice in all_choices), **CARD
    )


def _end(turn: PersonTurn, line: Words) -> None:
    turn.close()
    turn.say(line, **CARD)


# --- who ------------------------------------------------------------------------------------------------------


def found(turn: PersonTurn, event: Found, dialogue: HandingOver) -> None:
    """The colleagues on this bot: to choose from, or to see whether the one chosen is still there."""
    if dialogue.at == "check":
        _checked(turn, event, dialogue)
        return
    names = others(event, turn.person.id)
    if not names and event.first > 0:  # the last page is empty by now
        turn.effects.append(LookUp("colleagues"))
        return
    if dialogue.cover and dialogue.facts.cover is not None:
        names.append(("b-hand-end-cover", "end_cover"))
    if not names:
        _end(turn, words("colleagues-none"))
        return
    now = () if dialogue.facts.cover is None else (words("hand-cover-now", who=dialogue.facts.cover),)
    asked = words("hand-ask-cover" if dialogue.cover else "hand-ask-over", name=dialogue.facts.name)
    _show(turn, replace(dialogue, at="who", entries=event.entries, first=event.first), (asked, *now), names)


def pressed(turn: PersonTurn, event: Pressed, dialogue: HandingOver) -> None:
    """A button of the hand-over."""
    choice = event.press.choice
    if event.press.step != dialogue.at:
        turn.reply(words("press-stale"))
        return
    turn.reply()
    if choice == "cancel":
        _end(turn, words("hand-cancelled", name=dialogue.facts.name))
    elif choice == "end_cover":
        _end_cover(turn, dialogue)
    elif dialogue.at == "who":
        _who_pressed(turn, dialogue, choice)
    elif choice == "back":
        _ask_when(turn, dialogue) if dialogue.cover and dialogue.at != "when" else _again(turn, dialogue, dialogue.first)
    elif dialogue.at == "when":
        _when_pressed(turn, dialogue, choice)
    elif dialogue.at == "sure" and choice == "sure":
        turn.set(dialogue=replace(dialogue, at="check"))
        turn.effects.append(LookUp("colleagues", dialogue.first))


def _again(turn: PersonTurn, dialogue: HandingOver, first: int) -> None:
    turn.set(dialogue=replace(dialogue, at="who"))
    turn.effects.append(LookUp("colleagues", first))


def _who_pressed(turn: PersonTurn, dialogue: HandingOver, choice: str) -> None:
    first, entry = page(choice), chosen(choice, dialogue.first, dialogue.entries)
    if first is not None:
        _again(turn, dialogue, first)
    elif entry is not None:
        to_them = replace(dialogue, to=entry.id, name=entry.name)
        _ask_when(turn, to_them) if dialogue.cover else _ask_sure(turn, to_them)


# --- when -----------------------------------------------------------------------------------------------------


def _ask_when(turn: PersonTurn, dialogue: HandingOver, *first: Words) -> None:
    choices: Choices = [(f"b-hand-{name.replace('_', '-')}", name) for name in SPANS]
    lines = (*first, words("hand-ask-when", name=dialogue.facts.name, who=dialogue.name), words("hand-type-dates"))
    _show(turn, replace(dialogue, at="when"), lines, [*choices, ("b-hand-back", "back")])


def _when_pressed(turn: PersonTurn, dialogue: HandingOver, choice: str) -> None:
    if choice in SPANS:
        today = local_day(turn.at, turn.person.zone)
        first, last = (today + timedelta(days=days) for days in SPANS[choice])
        _ask_sure(turn, _over(turn, dialogue, first, last))


def _over(turn: PersonTurn, dialogue: HandingOver, first: date, last: date) -> HandingOver:
    """The cover of these days, both included, in the therapist's time zone. Today begins now."""
    zone = turn.person.zone
    return replace(dialogue, start=max(turn.at, instant(first, datetime.min.time(), zone)), end=end_of_day(last, zone))


def typed(turn: PersonTurn, event: Typed, dialogue: HandingOver) -> bool:
    """First and last day, typed where it is asked when; one date is one day."""
    if dialogue.at != "when":
        return False
    days = _dates(event.text)
    if days is None:
        _ask_when(turn, dialogue, words("hand-dates-unread"))
        return True
    first, last = days
    today = local_day(turn.at, turn.person.zone)
    if last < first or first < today:
        _ask_when(turn, dialogue, words("hand-dates-past"))
    elif (last - first).days >= LONGEST_DAYS:
        _ask_when(turn, dialogue, words("hand-dates-long", days=LONGEST_DAYS))
    else:
        _ask_sure(turn, _over(turn, dialogue, first, last))
    return True


def _dates(text: str) -> tuple[date, date] | None:
    """One or two ISO dates; None for anything else."""
    try:
        days = [date(int(year), int(month), int(day)) for year, month, day in _DATE.findall(text)]
    except ValueError:
        return None
    return (days[0], days[-1]) if len(days) in (1, 2) and days[-1].year < date.max.year else None


# --- sure -----------------------------------------------------------------------------------------------------


def _ask_sure(turn: PersonTurn, dialogue: HandingOver) -> None:
    names = {"name": dialogue.facts.name, "who": dialogue.name}
    if dialogue.cover and dialogue.start is not None and dialogue.end is not None:
        line = words("hand-sure-cover", **names, **_span(turn, dialogue.start, dialogue.end))
    else:
        line = words("hand-sure-over", **names)
    label = "b-hand-sure-cover" if dialogue.cover else "b-hand-sure-over"
    _show(turn, replace(dialogue, at="sure"), (line,), [(label, "sure"), ("b-hand-back", "back")])


def _span(turn: PersonTurn, start: datetime, end: datetime) -> dict[str, str]:
    zone = turn.person.zone
    return {"start": clock_text(start, zone), "end": clock_text(end, zone), "zone": zone}


def _checked(turn: PersonTurn, event: Found, dialogue: HandingOver) -> None:
    """Only who is in the chat now can see to somebody."""
    facts, me = dialogue.facts, turn.person.id
    to = dialogue.to
    if to is None or to not in [entry.id for entry in event.entries]:
        _end(turn, words("hand-has-left", name=facts.name, who=dialogue.name))
        return
    _end(turn, words("hand-passed-on", name=facts.name, who=dialogue.name))
    if not dialogue.cover:
        turn.tell(facts.client, HandedOver(turn.at, me, to, dialogue.name))
    elif dialogue.start is not None and dialogue.end is not None:
        turn.tell(facts.client, CoverAgreed(turn.at, me, to, dialogue.name, dialogue.start, dialogue.end))


def _end_cover(turn: PersonTurn, dialogue: HandingOver) -> None:
    me = turn.person.id
    _end(turn, words("hand-cover-ends", name=dialogue.facts.name))
    turn.tell(dialogue.facts.client, CoverAgreed(turn.at, me, me, turn.person.name, turn.at, turn.at))
