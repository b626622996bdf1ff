"""The records of one client as data: a ZIP of CSV files (RFC 4180, UTF-8), with a dictionary of their columns.

A cell is empty where nothing belongs in it, and says "unknown" where something does and nobody told. Persons stand by their
part in the care, never by name. Times are ISO 8601 in UTC, days are the client's local ones.
"""

import csv
import io
import re
import unicodedata
import zipfile
from collections.abc import Iterable, Iterator, Mapping
from datetime import UTC, date, datetime
from enum import Enum
from zoneinfo import ZoneInfo

from companion.content.dictionary_file import Dictionary
from companion.core.observations import (
    Answer,
    Bout,
    DayClosed,
    FallReported,
    FlagAcknowledged,
    FlagLifted,
    FlagRaised,
    Observation,
    OwnWords,
    PlanPrescribed,
    Quality,
    Reporter,
    Reviewed,
    SessionEnded,
)
from companion.core.programme import Measure, Plan, Side
from companion.core.review_values import FourStage, ReviewValues
from companion.reports.asking import Task

UNKNOWN = "unknown"
BEGINNING = (1980, 1, 1, 0, 0, 0)
"""Every file in the ZIP bears this date, so that equal records are equal bytes."""

Cell = str | int | float | bool | date | datetime | Enum | None
Row = Mapping[str, Cell]


def files(task: Task, dictionary: Dictionary) -> dict[str, str]:
    """Each CSV by its name. The columns are those of the dictionary, in its order."""
    zone = ZoneInfo(task.case.zone)
    roles = dict(task.case.roles)
    seen = [(at, what) for at, what in task.observations if at <= task.as_of]
    rows: dict[str, list[Row]] = {name: [] for name in dictionary.names}
    for at, what in seen:
        for name, row in _rows(what, roles):
            rows[name].append({"at": at, "day": at.astimezone(zone).date(), **row})
    rows["dictionary"] = [
        {"file": name, "column": one.column, "meaning": one.meaning, "unit": one.unit, "values": one.values}
        for name in dictionary.names
        for one in dictionary.columns(name)
    ]
    return {f"{name}.csv": _written([one.column for one in dictionary.columns(name)], rows[name]) for name in dictionary.names}


def zipped(texts: Mapping[str, str]) -> bytes:
    """The files in one ZIP, the same bytes for the same texts."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as made:
        for name, text in texts.items():
            made.writestr(zipfile.ZipInfo(name, BEGINNING), text.encode(), zipfile.ZIP_DEFLATED)
    return out.getvalue()


def slug(task: Task) -> str:
    """The beginning of a file's name: who, and the local day up to which the records are."""
    name = unicodedata.normalize("NFKD", task.case.name).encode("ascii", "ignore").decode().lower()
    day = task.as_of.astimezone(ZoneInfo(task.case.zone)).date()
    return f"{re.sub(r'[^a-z0-9]+', '-', name).strip('-') or 'client'}-{day.isoformat()}"


def _rows(what: Observation, roles: Mapping[str, str]) -> Iterator[tuple[str, Row]]:
    """The rows that an observation makes, each with the name of its file."""
    match what:
        case Bout():
            yield "bouts", _bout(what)
        case SessionEnded():
            yield "sessions", {**_fields(what), "effort": what.effort or (UNKNOWN if what.done else None)}
        case DayClosed():
            yield "days", {"day": what.day, "ending": what.ending}
        case Answer():
            yield "answers", _fields(what)
        case OwnWords():
            yield "words", {"by": what.by, "text": what.text, "form": what.form or "text"}
        case FlagRaised() | FlagAcknowledged() | FlagLifted() | FallReported():
            yield "flags", _flag(what, roles)
        case PlanPrescribed(plan=plan):
            yield from (("plans", row) for row in _plan(what, plan))
        case Reviewed(values=values):
            decade = UNKNOWN if values.decade is None else values.decade
            yield from (("reviews", {"decade": decade, **row}) for row in _measured(values))
        case _:
            pass  # consent, pauses and whose client it is are no part of practice


def _fields(what: object) -> dict[str, Cell]:
    return {name: getattr(what, name) for name in getattr(what, "__slots__", ()) if name not in ("at", "kind")}


def _bout(what: Bout) -> Row:
    timed, told = what.measure is Measure.TIMED, what.quality is not Quality.UNKNOWN
    first = what.first_break
    row = _fields(what)
    del row["first_break"]
    return {
        **row,
        "unit": "s" if timed else "times",
        "practised_s": (UNKNOWN if what.practised_s is None else what.practised_s) if timed else None,
        "done": None if timed else UNKNOWN if what.done is None else what.done,
        "first_break_low_s": (UNKNOWN if first is None else first.low) if timed else None,
        "first_break_high_s": (UNKNOWN if first is None else first.high) if timed else None,
        "broke_by": what.broke_by or (UNKNOWN if what.quality is Quality.BROKE else None),
        "reporter": what.reporter if told else Reporter.NOBODY,
    }


def _flag(what: FlagRaised | FlagAcknowledged | FlagLifted | FallReported, roles: Mapping[str, str]) -> Row:
    row: dict[str, Cell] = {"flag": what.flag, "by": roles.get(what.by, "somebody else")}
    match what:
        case FlagRaised():
            return {**row, "what": "raised", "rule": what.rule, "level": what.level, "facts": " ".join(what.facts)}
        case FlagAcknowledged():
            return {**row, "what": "acknowledged"}
        case FlagLifted():
            return {**row, "what": "lifted", "reason": what.reason}
        case FallReported():
            return {**row, "what": what.fall}


def _plan(what: PlanPrescribed, plan: Plan | None) -> Iterator[Row]:
    about: dict[str, Cell] = {"version": what.version}
    if plan is None:
        yield {**about, "exercise": UNKNOWN}
        return
    about |= {"days_a_week": len(plan.practice.weekdays), "times_a_day": len(plan.practice.times), "minutes": plan.minutes}
    about |= {"supervision": plan.supervision, "eyes_closed": plan.eyes_closed, "support": plan.place.support}
    for planned in plan.exercises:
        row = _fields(planned)
        row["sides"] = " ".join(side.value for side in planned.sides) or "usual"
        yield {**about, **row}


def _measured(values: ReviewValues) -> Iterator[Row]:
    """What a therapist measured at a review, a row each."""
    for stage, seconds in zip(FourStage, values.four_stage, strict=False):
        yield {"measure": "four_stage", "part": stage, "value": seconds, "unit": "s"}
    times = (
        ("sit_to_stand_5", None, values.sit_to_stand_5),
        ("one_leg", Side.WEAKER, values.one_leg_weaker),
        ("one_leg", Side.STRONGER, values.one_leg_stronger),
    )
    for measure, side, time in times:
        if time is not None:
            yield {"measure": measure, "part": side, "value": time, "unit": "s"}
    if values.berg is not None:
        yield {"measure": "berg", "value": values.berg, "unit": "points"}
    for number, goal in enumerate(values.goals, 1):
        yield {
            "measure": "goal",
            "part": number,
            "value": goal.level,
            "unit": "level",
            "weight": goal.weight,
            "words": goal.words,
        }


def _written(columns: list[str], rows: Iterable[Row]) -> str:
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(columns)
    for row in rows:
        writer.writerow([_cell(row.get(column)) for column in columns])
    return out.getvalue()


def _cell(value: Cell) -> str:
    """A cell as text. Words that a spreadsheet would run as a formula get an apostrophe before them (OWASP, CSV injection)."""
    match value:
        case None:
            return ""
        case bool():
            return "yes" if value else "no"
        case datetime():
            return value.astimezone(UTC).isoformat(timespec="seconds")
        case date():
            return value.isoformat()
        case Enum():
            return str(value.value)
        case int() | float():
            return f"{value:g}"
        case str():
            return f"'{value}" if value[:1] in ("=", "+", "-", "@", "\t", "\r") else value
