"""The shape of a scenario file, before names are looked up and local times are placed."""

import re
from datetime import date, datetime, time, timedelta
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BeforeValidator, Field, Strict

from companion.content.enrolment_file import PersonKey, Zone
from companion.content.yaml_lines import Id, Line, Shape, Switch, Whole, wrong

OFFSET = re.compile(r"\+(\d{1,5}) (s|min|h|days?)")
UNITS = {"s": "seconds", "min": "minutes", "h": "hours", "day": "days", "days": "days"}
MOMENT = re.compile(r"(\d{4}-\d\d-\d\d) (\d\d:\d\d(?::\d\d)?)")


def _day(given: object) -> date:
    try:
        return date.fromisoformat(str(given))
    except ValueError:
        raise wrong(f"{given!r} is not a day", "Write it like 2026-11-05") from None


def _local(given: object) -> datetime:
    found = MOMENT.fullmatch(str(given))
    try:
        if found is not None:
            return datetime.combine(date.fromisoformat(found[1]), time.fromisoformat(found[2]))
    except ValueError:
        pass
    raise wrong(f"{given!r} is not a day and time", "Write it like 2026-11-05 10:00, or with seconds, on the scenario's clock")


def _at(given: object) -> datetime | timedelta:
    found = OFFSET.fullmatch(str(given))
    if found is not None:
        return timedelta(**{UNITS[found[2]]: int(found[1])})
    if str(given).startswith("+"):
        raise wrong(f"{given!r} is not a span of time", "Write it like +90 s, +5 min, +2 h or +1 day")
    return _local(given)


def _listed(given: Any) -> Any:
    return [given] if isinstance(given, str) else given


def _told(text: str) -> str:
    told = " ".join(text.split())
    if "invented" not in told:
        raise wrong("it is not said that people and places are invented", 'Say so, with the word "invented"')
    return told


Day = Annotated[date, BeforeValidator(_day)]
Local = Annotated[datetime, BeforeValidator(_local)]
At = Annotated[datetime | timedelta, BeforeValidator(_at)]
Fragments = Annotated[tuple[Line, ...], BeforeValidator(_listed), Field(min_length=1)]
About = Annotated[str, Strict(), AfterValidator(_told)]
FromClient = Literal["client"]
FromNote = Literal["tones"]


class SentShape(Shape):
    """A file of a person's own: what it says or shows, and how long it plays."""

    form: Literal["voice", "photo", "video"]
    of: Line = ""
    seconds: Whole = Field(default=3, ge=1, le=60)


Sent = Annotated[SentShape, BeforeValidator(lambda given: {"form": given} if isinstance(given, str) else given)]
"""The form alone, or all of it."""


class RuleShape(Shape):
    """What a person does on seeing something."""

    sees: Fragments
    taps: Line | None = None
    copies: FromClient | None = None
    mistakes: FromClient | None = None
    counts: FromNote | None = None
    miscounts: FromNote | None = None
    types: Line | None = None
    sends: Sent | None = None
    ignores: Switch | None = None
    after: Whole = Field(default=4, ge=0, le=86_400)
    once: Switch = False
    on: Day | None = None
    since: Day | None = None
    until: Day | None = None
    in_mind: Fragments | None = None
    keeps_in_mind: Switch = False


class HabitsFileShape(Shape):
    """A file of habits that several scenarios use."""

    about: Line
    rules: tuple[RuleShape, ...] = Field(min_length=1)


class HabitsShape(Shape):
    """What one person is used to do. `like` names a file in habits/, whose rules come after the person's own."""

    like: Id | None = None
    twice: Switch = False
    rules: tuple[RuleShape, ...] = ()


class SeenShape(Shape):
    """When a phone shows something."""

    phone: PersonKey
    sees: Fragments
    on: Day | None = None


class ScanShape(Shape):
    """The start link that a phone shows now, in the newest message with all of `sees`."""

    phone: PersonKey
    sees: Fragments


class NewcomerShape(Shape):
    """Somebody who is not enrolled yet and comes by a link. `beside`: whom they stand beside, for a carer."""

    role: Literal["client", "carer", "contact"]
    name: Line
    beside: PersonKey | None = None


class HappeningShape(Shape):
    """One thing that happens: when, and what."""

    at: At | None = None
    when: SeenShape | None = None
    after: Whole | None = Field(default=None, ge=0, le=86_400)
    who: PersonKey | None = None
    taps: Line | None = None
    types: Line | None = None
    scans: ScanShape | None = None
    sends: Sent | None = None
    blocks: Switch | None = None
    power: Literal["cut", "back"] | None = None
    network: Literal["down", "up"] | None = None


class ExpectationShape(Shape):
    """What must come true, or must not."""

    phone: PersonKey
    text: Fragments
    since: Local | None = None
    by: Local | None = None
    never: Switch = False


class ScenarioShape(Shape):
    """The whole file. `people` names an enrolment file, or has one in it."""

    title: Line
    about: About
    language: Line = "en"
    zone: Zone
    starts: Local
    ends: Local
    people: Any
    newcomers: dict[PersonKey, NewcomerShape] = Field(default_factory=dict)
    habits: dict[PersonKey, HabitsShape] = Field(default_factory=dict)
    happens: tuple[HappeningShape, ...] = ()
    expects: tuple[ExpectationShape, ...] = ()
