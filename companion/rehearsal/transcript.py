"""transcript.md: a rehearsal to read, the phones side by side, a day after the other.

The days are fixed-width blocks, which read alike in a text editor and rendered. A running clock's steps, one edit every
few seconds, are told in one line; `messages.jsonl` has each of them.
"""

import re
import textwrap
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from itertools import groupby
from zoneinfo import ZoneInfo

from companion.rehearsal.messages import Note, Shown
from companion.rehearsal.server import Entry

WIDTH = 116
TIME = 8
WIDEST = 40
BETWEEN = " | "
LEGEND = (
    "`*` new message, with a sound (`*.` without) · `~` changed in place, no sound · `>` pressed or typed · "
    "`[ ]` button, picture or sound · `( )` shown for a moment · `=` the fixed row at the bottom of the screen"
)
NUMBER = re.compile(r"\d+")
BEGINNING = re.compile(r"(?:.*?[.?!] ){5}")
"""As much of a picture that was there before tells it from the others."""


@dataclass(frozen=True, slots=True)
class Column:
    """One phone: whose, and its heading. One that is not `always` there is left out on days on which it shows nothing."""

    person: str
    heading: str
    always: bool = True


@dataclass(frozen=True, slots=True)
class Page:
    """What a transcript is of."""

    title: str
    about: str
    zone: str
    columns: tuple[Column, ...]


@dataclass(slots=True)
class _Block:
    """Rows that stand side by side: what several phones show at one moment, at most one thing each."""

    at: datetime
    way: str
    cells: dict[int, list[str]] = field(default_factory=dict)


def transcript(page: Page, record: Sequence[Shown | Note]) -> str:
    """The whole file, in Markdown."""
    zone = ZoneInfo(page.zone)
    legend = f"Times are local ({page.zone}). {LEGEND}."
    told = [f"# {page.title}", "", *textwrap.wrap(page.about, WIDTH), "", *textwrap.wrap(legend, WIDTH), ""]
    for day, of_day in groupby(_without_ticks(_told_once(record)), key=lambda one: _at(one).astimezone(zone).date()):
        ones = list(of_day)
        used = {one.person for one in ones if not isinstance(one, Note)}
        columns = tuple(column for column in page.columns if column.always or column.person in used)
        told += [f"## {_heading(day)}", "", "```text", *_table(columns, ones, zone), "```", ""]
    return "\n".join(told)


def _at(one: "Shown | Note | _Ticks") -> datetime:
    return one.entry.at if isinstance(one, Shown) else one.at


def _told_once(record: Iterable[Shown | Note]) -> Iterator[Shown | Note]:
    """The record, with what a picture or a sound tells cut short where that phone had it before."""
    told = set[tuple[str, str]]()
    for one in record:
        if isinstance(one, Shown) and one.file is not None:
            again, beginning = (one.person, one.file) in told, BEGINNING.match(one.file)
            told.add((one.person, one.file))
            if again and beginning is not None:
                one = replace(one, file=f"{beginning[0]}...")
        yield one


def _heading(day: date) -> str:
    return f"{day:%A} {day.day} {day:%B %Y}"


# --- a running clock in one line ------------------------------------------------------------------------------


@dataclass(slots=True)
class _Ticks:
    """Edits of one message that differ in one number only."""

    at: datetime
    person: str
    texts: list[str]
    newest: Entry

    def told(self) -> str:
        """All their numbers in one text, as in: 55, 50, 45 seconds left."""
        first = NUMBER.search(self.texts[0])
        if first is None or len(self.texts) == 1:
            return self.texts[0]
        numbers = [found[0] for found in map(NUMBER.search, self.texts) if found is not None]
        return f"{self.texts[0][: first.start()]}{', '.join(numbers)}{self.texts[0][first.end() :]}"


def _without_ticks(record: Iterable[Shown | Note]) -> list[Shown | Note | _Ticks]:
    """The record, with the steps of each running clock brought together at the place of the first."""
    told: list[Shown | Note | _Ticks] = []
    running: dict[str, _Ticks] = {}
    newest: dict[str, Entry] = {}
    for one in record:
        if isinstance(one, Note):
            told.append(one)
            running.clear()
            continue
        entry, before, ticks = one.entry, newest.get(one.person), running.get(one.person)
        if entry.kind == "edit" and before is not None and _is_step(entry, before):
            if ticks is None or ticks.newest.message_id != entry.message_id:
                ticks = _Ticks(entry.at, one.person, [], entry)
                running[one.person] = ticks
                told.append(ticks)
            ticks.texts.append(entry.text)
            ticks.newest = entry
        else:
            running.pop(one.person, None)
            told.append(one)
        newest[one.person] = entry
    return told


def _is_step(entry: Entry, before: Entry) -> bool:
    """Whether an edit is a further step of a clock: words with one number that differs, or the first step after "Go"."""
    same = (before.message_id, before.buttons, before.file) == (entry.message_id, entry.buttons, entry.file)
    if not same or before.way != "out":
        return False
    numbers, earlier = NUMBER.findall(entry.text), NUMBER.findall(before.text)
    return len(numbers) == len(earlier) == 1 and int(numbers[0]) < int(earlier[0])


# --- side by side ---------------------------------------------------------------------------------------------


def _table(columns: tuple[Column, ...], of_day: Iterable[Shown | Note | _Ticks], zone: ZoneInfo) -> Iterator[str]:
    width = min(WIDEST, (WIDTH - TIME - len(BETWEEN) * len(columns)) // len(columns))
    places = {column.person: place for place, column in enumerate(columns)}
    rule = "-+-".join(["-" * TIME, *("-" * width for _ in columns)])
    yield _row("", [column.heading for column in columns], width)
    yield rule
    for block in _blocks(of_day, places, width):
        clock = f"{block.at.astimezone(zone):%H:%M:%S}"
        if isinstance(block, Note):
            yield f"{clock}{BETWEEN}--- {block.text} ---"
            continue
        height = max(len(cell) for cell in block.cells.values())
        for line in range(height):
            cells = [block.cells.get(place, []) for place in range(len(columns))]
            yield _row(clock if line == 0 else "", [cell[line] if line < len(cell) else "" for cell in cells], width)
    yield rule


def _row(clock: str, cells: list[str], width: int) -> str:
    return BETWEEN.join([clock.ljust(TIME), *(cell.ljust(width) for cell in cells)]).rstrip()


def _blocks(of_day: Iterable[Shown | Note | _Ticks], places: dict[str, int], width: int) -> Iterator[_Block | Note]:
    block: _Block | None = None
    before: dict[tuple[str, int | None], Entry] = {}
    for one in of_day:
        if isinstance(one, Note):
            if block is not None:
                yield block
            block = None
            yield one
            continue
        place, at, way = places[one.person], _at(one), one.entry.way if isinstance(one, Shown) else "out"
        # What a person does stands alone, so that what follows from it is read below it.
        beside = block is not None and block.at == at and way == block.way == "out" and place not in block.cells
        if not beside:
            if block is not None:
                yield block
            block = _Block(at, way)
        assert block is not None
        block.cells[place] = _cell(one, before, width)
        newest = one.entry if isinstance(one, Shown) else one.newest
        if newest.message_id is not None and newest.way == "out":
            before[one.person, newest.message_id] = newest
    if block is not None:
        yield block


def _cell(one: Shown | _Ticks, before: dict[tuple[str, int | None], Entry], width: int) -> list[str]:
    if isinstance(one, _Ticks):
        return _marked("~", one.told(), width)
    entry = one.entry
    match entry.kind:
        case "press":
            return _marked(">", f"[{entry.text}]", width)
        case "toast":
            return _marked(" ", f"( {entry.text} )", width)
        case "delete":
            return _marked("~", "(deleted)", width)
        case _ if entry.way == "in":
            return _marked(">", _words(one, f'"{entry.text}"' if entry.text else ""), width)
        case "edit":
            return _edited(one, before.get((one.person, entry.message_id)), width)
        case _:
            mark = "*." if entry.silent else "*"
            return [*_marked(mark, _words(one, entry.text), width), *_buttons(entry, width)]


def _edited(one: Shown, before: Entry | None, width: int) -> list[str]:
    entry = one.entry
    same_file = before is not None and before.file == entry.file
    if before is not None and same_file and before.text == entry.text and before.buttons and not entry.buttons:
        return _marked("~", "(the buttons are gone)", width)
    # A picture that stays under changed words was told before.
    return [*_marked("~", entry.text if same_file else _words(one, entry.text), width), *_buttons(entry, width)]


def _words(one: Shown, text: str) -> str:
    """The words of a message, below what came with it."""
    return "\n".join(part for part in (f"[{one.file}]" if one.file is not None else "", text) if part)


def _marked(mark: str, text: str, width: int) -> list[str]:
    lines = [part for line in text.split("\n") for part in (textwrap.wrap(line, width - 2) or [""])]
    return [f"{mark if place == 0 else ' ':<2}{line}" for place, line in enumerate(lines)]


def _buttons(entry: Entry, width: int) -> list[str]:
    """Buttons as they lie: those of a message one below the other, so on one line as many as fit; the fixed row marked."""
    labels = [label for row in entry.buttons for label in row]
    if not labels:
        return []
    fixed = any(len(row) > 1 for row in entry.buttons)
    lines, line = [], ""
    for label in labels:
        button = f"={label}=" if fixed else f"[{label}]"
        if len(button) > width - 2:
            lines += [line] if line else []
            lines += textwrap.wrap(button, width - 2, subsequent_indent=" ")
            line = ""
            continue
        if line and len(line) + 1 + len(button) > width - 2:
            lines.append(line)
            line = ""
        line = f"{line} {button}".strip()
    return [f"  {one}" for one in (*lines, line) if one]
