"""The therapist's own settings, by taps: working hours, deputy, when the weekly digest comes and with which charts.

    menu --> days [--> pick] --> times --> menu      menu --> deputy --> menu      menu --> digest day --> digest time --> menu

What bears on red flags (hours, deputy) is told to the care of each client at once. The screens stand in the card of the desk.
"""

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import time
from typing import Any

from companion.core.colleagues import Choices, chosen, others, page, place_in
from companion.core.dialogues import Setting
from companion.core.duty import Duty, Hours
from companion.core.effects import LookUp, Put, Words, words
from companion.core.events import DutySet, Found, Pressed, Typed
from companion.core.person_turn import PersonTurn
from companion.core.phone import Person
from companion.core.programme import ReportTime

CARD: dict[str, Any] = {"card": "desk", "put": Put.IN_PLACE, "topic": "desk"}
DAYS = {"mon_fri": (0, 1, 2, 3, 4), "mon_thu": (0, 1, 2, 3), "every_day": (0, 1, 2, 3, 4, 5, 6)}
SPANS = {"from_8_to_16": (time(8), time(16)), "from_9_to_17": (time(9), time(17)), "from_8_to_18": (time(8), time(18))}
DIGEST_TIMES = {"at_7": time(7), "at_8": time(8), "at_12": time(12), "at_17": time(17)}
_TIME = re.compile(r"(?<!\d)([01]?\d|2[0-3])[:.]([0-5]\d)(?!\d)")


def tell_duty(turn: PersonTurn, clients: tuple[str, ...]) -> None:
    """Tell the care of these clients this therapist's hours and deputy, as far as any are set."""
    person = turn.person
    if person.hours is None and person.deputy is None:
        return
    _tell(turn, clients)


def _tell(turn: PersonTurn, clients: tuple[str, ...]) -> None:
    person = turn.person
    duty = Duty(person.id, person.zone, person.hours, person.deputy)
    for client in clients:
        turn.tell(client, DutySet(turn.at, duty, person.deputy_name or person.deputy or ""))


def begin(turn: PersonTurn) -> None:
    """The settings as they are, and what can be changed."""
    turn.open(Setting(turn.number(), "menu"))
    _menu(turn)


# --- screens --------------------------------------------------------------------------------------------------


def _show(turn: PersonTurn, at: str, lines: tuple[Words, ...], choices: Choices) -> None:
    dialogue = turn.person.dialogue
    assert isinstance(dialogue, Setting)
    turn.set(dialogue=replace(dialogue, at=at))
    buttons = tuple(turn.button(label, dialogue.id, at, choice) for label, choice in choices)
    turn.say(*lines, buttons=buttons, **CARD)


def _menu(turn: PersonTurn, *first: Words) -> None:
    person = turn.person
    charts = "all" if person.all_charts else "own"
    lines = (words("setting-title"), hours_words(person), _deputy_words(person), _digest_words(person))
    choices: Choices = [
        ("b-setting-hours", "days"),
        ("b-setting-deputy", "deputy"),
        ("b-setting-digest", "digest_day"),
        (f"b-setting-charts-{'own' if person.all_charts else 'all'}", "some" if person.all_charts else "all"),
        ("b-setting-close", "close"),
    ]
    _show(turn, "menu", (*first, *lines, words(f"setting-charts-{charts}")), choices)


def hours_words(person: Person) -> Words:
    """A therapist's working hours in one line."""
    hours = person.hours
    if hours is None:
        return words("setting-hours-none")
    return words("setting-hours", days=_days(hours.weekdays), start=_hm(hours.start), end=_hm(hours.end), zone=person.zone)


def _deputy_words(person: Person) -> Words:
    if person.deputy is None:
        return words("setting-deputy-none")
    return words("setting-deputy", name=person.deputy_name or person.deputy)


def _digest_words(person: Person) -> Words:
    digest = person.digest
    if digest is None:
        return words("setting-digest-none")
    return words("setting-digest", day=_day(digest.weekday), at=_hm(digest.at), zone=digest.zone)


def _day(weekday: int) -> Words:
    return words(f"report-weekday-{weekday + 1}")


def _days(weekdays: tuple[int, ...]) -> Words:
    """Weekdays as a list in words."""
    said = _day(weekdays[-1]) if weekdays else words("setting-no-days")
    for weekday in reversed(weekdays[:-1]):
        said = words("setting-day-list", first=_day(weekday), rest=said)
    return said


def _hm(at: time) -> str:
    return at.strftime("%H:%M")


def _ask_days(turn: PersonTurn) -> None:
    presets: Choices = [(f"b-setting-{name.replace('_', '-')}", name) for name in DAYS]
    more: Choices = [
        ("b-setting-pick", "pick"),
        ("b-setting-no-hours", "no_hours"),
        ("b-setting-back", "back"),
    ]
    _show(turn, "days", (words("setting-ask-days"),), [*presets, *more])


def _pick_days(turn: PersonTurn, weekdays: tuple[int, ...]) -> None:
    """A tick only ever sets, so that a second press of the same button is harmless."""
    assert isinstance(turn.person.dialogue, Setting)
    turn.set(dialogue=replace(turn.person.dialogue, weekdays=weekdays))
    left: Choices = [(_day(day), f"n{day}") for day in range(7) if day not in weekdays]
    done: Choices = [("b-setting-days-done", "done"), ("b-setting-clear", "clear")] if weekdays else []
    _show(turn, "pick", (words("setting-picked", days=_days(weekdays)),), [*left, *done, ("b-setting-back", "back")])


def _ask_times(turn: PersonTurn, weekdays: tuple[int, ...], *first: Words) -> None:
    assert isinstance(turn.person.dialogue, Setting)
    turn.set(dialogue=replace(turn.person.dialogue, weekdays=weekdays))
    spans: Choices = [(words("b-setting-span", start=_hm(start), end=_hm(end)), name) for name, (start, end) in SPANS.items()]
    lines = (*first, words("setting-ask-times", days=_days(weekdays), zone=turn.person.zone))
    _show(turn, "times", lines, [*spans, ("b-setting-back", "back")])


def _ask_digest_day(turn: PersonTurn) -> None:
    days: Choices = [(_day(day), f"n{day}") for day in range(7)]
    _show(
        turn,
        "digest_day",
        (words("setting-ask-digest-day"),),
        [*days, ("b-setting-no-digest", "no_digest"), ("b-setting-back", "back")],
    )


def _ask_digest_time(turn: PersonTurn, weekday: int, *first: Words) -> None:
    assert isinstance(turn.person.dialogue, Setting)
    turn.set(dialogue=replace(turn.person.dialogue, weekdays=(weekday,)))
    times: Choices = [(words("b-setting-time", at=_hm(at)), name) for name, at in DIGEST_TIMES.items()]
    _show(
        turn, "digest_time", (*first, words("setting-ask-digest-time", day=_day(weekday))), [*times, ("b-setting-back", "back")]
    )


def found(turn: PersonTurn, event: Found, dialogue: Setting) -> None:
    """The colleagues on this bot, to choose the deputy from."""
    if dialogue.at not in ("menu", "deputy"):
        return
    names = others(event, turn.person.id)
    if not names and event.first > 0:  # the last page is empty by now
        turn.effects.append(LookUp("colleagues"))
        return
    turn.set(dialogue=replace(dialogue, first=event.first, entries=event.entries))
    line = words("setting-ask-deputy") if names else words("colleagues-none")
    _show(turn, "deputy", (line,), [*names, ("b-setting-no-deputy", "no_deputy"), ("b-setting-back", "back")])


# --- presses and words ----------------------------------------------------------------------------------------


def pressed(turn: PersonTurn, event: Pressed, dialogue: Setting) -> None:
    """A button of the settings."""
    if event.press.step != dialogue.at:
        turn.reply(words("press-stale"))
        return
    turn.reply()
    if event.press.choice == "back":
        _menu(turn)
    else:
        _PRESSED[dialogue.at](turn, dialogue, event.press.choice)


def _menu_pressed(turn: PersonTurn, dialogue: Setting, choice: str) -> None:
    if choice == "days":
        _ask_days(turn)
    elif choice == "deputy":
        turn.effects.append(LookUp("colleagues"))
    elif choice == "digest_day":
        _ask_digest_day(turn)
    elif choice in ("all", "some"):
        turn.set(all_charts=choice == "all")
        _menu(turn)
    elif choice == "close":
        turn.close()
        turn.say(words("setting-closed"), hours_words(turn.person), _deputy_words(turn.person), **CARD)


def _days_pressed(turn: PersonTurn, dialogue: Setting, choice: str) -> None:
    if choice in DAYS:
        _ask_times(turn, DAYS[choice])
    elif choice == "pick":
        _pick_days(turn, ())
    elif choice == "no_hours":
        _keep_hours(turn, None)


def _pick_pressed(turn: PersonTurn, dialogue: Setting, choice: str) -> None:
    if choice == "done" and dialogue.weekdays:
        _ask_times(turn, dialogue.weekdays)
    elif choice == "clear":
        _pick_days(turn, ())
    elif (day := _weekday(choice)) is not None:
        _pick_days(turn, tuple(sorted({*dialogue.weekdays, day})))


def _times_pressed(turn: PersonTurn, dialogue: Setting, choice: str) -> None:
    if choice in SPANS:
        _keep_hours(turn, Hours(dialogue.weekdays, *SPANS[choice]))


def _keep_hours(turn: PersonTurn, hours: Hours | None) -> None:
    turn.set(hours=hours)
    _tell(turn, turn.person.clients)
    _menu(turn, words("setting-kept"))


def _deputy_pressed(turn: PersonTurn, dialogue: Setting, choice: str) -> None:
    first, entry = page(choice), chosen(choice, dialogue.first, dialogue.entries)
    if first is not None:
        turn.effects.append(LookUp("colleagues", first))
        return
    if choice == "no_deputy":
        turn.set(deputy=None, deputy_name="")
    elif entry is not None:
        turn.set(deputy=entry.id, deputy_name=entry.name)
    else:
        return
    _tell(turn, turn.person.clients)
    _menu(turn, words("setting-kept"))


def _digest_day_pressed(turn: PersonTurn, dialogue: Setting, choice: str) -> None:
    day = _weekday(choice)
    if choice == "no_digest":
        turn.set(digest=None)
        _menu(turn, words("setting-kept"))
    elif day is not None:
        _ask_digest_time(turn, day)


def _digest_time_pressed(turn: PersonTurn, dialogue: Setting, choice: str) -> None:
    if choice in DIGEST_TIMES and dialogue.weekdays:
        _keep_digest(turn, dialogue.weekdays[0], DIGEST_TIMES[choice])


def _keep_digest(turn: PersonTurn, weekday: int, at: time) -> None:
    turn.set(digest=ReportTime(weekday, at, turn.person.zone), digested_at=turn.at)
    _menu(turn, words("setting-kept"))


def _weekday(choice: str) -> int | None:
    day = place_in(choice, "n")
    return day if day is not None and day < 7 else None


_PRESSED: dict[str, Callable[[PersonTurn, Setting, str], None]] = {
    "menu": _menu_pressed,
    "days": _days_pressed,
    "pick": _pick_pressed,
    "times": _times_pressed,
    "deputy": _deputy_pressed,
    "digest_day": _digest_day_pressed,
    "digest_time": _digest_time_pressed,
}


def typed(turn: PersonTurn, event: Typed, dialogue: Setting) -> bool:
    """Times of day, typed where a time is asked: two of them for working hours, one for the digest."""
    times = [time(int(hour), int(minute)) for hour, minute in _TIME.findall(event.text)]
    if dialogue.at == "times":
        if len(times) == 2 and times[0] != times[1]:
            _keep_hours(turn, Hours(dialogue.weekdays, times[0], times[1]))
        else:
            _ask_times(turn, dialogue.weekdays, words("setting-times-unread"))
        return True
    if dialogue.at == "digest_time" and dialogue.weekdays:
        if len(times) == 1:
            _keep_digest(turn, dialogue.weekdays[0], times[0])
        else:
            _ask_digest_time(turn, dialogue.weekdays[0], words("setting-time-unread"))
        return True
    return False
