"""The shape of an enrolment file: who is who, and for each client the plan that the therapist prescribes.

What bears on safety has no default: it has to be written down by somebody who has looked.
"""

from datetime import time
from typing import Annotated, Literal
from zoneinfo import ZoneInfo

from pydantic import AfterValidator, BeforeValidator, Field

from companion.content.written_plan import PlannedShape
from companion.content.yaml_lines import Id, Line, Shape, Switch, Whole, wrong
from companion.core.duty import Hours
from companion.core.programme import CheckStyle, Place, Quiet, ReportTime, Supervision

DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
Day = Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]


def _zone(name: str) -> str:
    try:
        ZoneInfo(name)
    except (KeyError, ValueError, OSError):
        raise wrong(f'there is no time zone "{name}"', "Use a name like Europe/London") from None
    return name


def _time(given: object) -> time:
    hours, _, minutes = str(given).partition(":")
    if len(hours) == len(minutes) == 2 and (hours + minutes).isdecimal():
        try:
            return time(int(hours), int(minutes))
        except ValueError:
            pass
    raise wrong(f"{given!r} is not a time of day", "Write it like 09:30, from 00:00 to 23:59")


def _short_name(name: str) -> str:
    if len(name) > 30:
        raise wrong("the name is longer than 30 letters", "Write the name the person is called by")
    return name


def _short_id(name: str) -> str:
    if len(name) > 16:
        raise wrong(f'the id "{name}" is longer than 16 letters', "Use a shorter one; buttons carry it")
    return name


Zone = Annotated[Line, AfterValidator(_zone)]
TimeOfDay = Annotated[time, BeforeValidator(_time)]
PersonKey = Annotated[Id, AfterValidator(_short_id)]


class HoursShape(Shape):
    """A therapist's working hours, on their own clock. An end before the start is on the next day."""

    days: tuple[Day, ...] = Field(min_length=1)
    start: TimeOfDay
    end: TimeOfDay

    def core(self) -> Hours:
        """The core's value."""
        return Hours(tuple(sorted({DAYS.index(day) for day in self.days})), self.start, self.end)


class PersonShape(Shape):
    """One person. `user_id` is the chat platform's numeric id, where it is known already.

    A therapist may have `hours`, and a `deputy` who is told of red flags outside them.
    """

    role: Literal["therapist", "client", "carer"]
    name: Annotated[Line, AfterValidator(_short_name)]
    zone: Zone
    language: Line = "en"
    user_id: Whole | None = Field(default=None, ge=1, le=2**52 - 1)
    hours: HoursShape | None = None
    deputy: Id | None = None


class PracticeShape(Shape):
    """When practice is due, on the client's own clock."""

    days: tuple[Day, ...] = Field(min_length=1)
    times: tuple[TimeOfDay, ...] = Field(min_length=1, max_length=4)


class ReportShape(Shape):
    """When the weekly chart is due, on the therapist's clock."""

    day: Day
    time: TimeOfDay

    def core(self, zone: str) -> ReportTime:
        """The core's value."""
        return ReportTime(DAYS.index(self.day), self.time, zone)


class QuietShape(Shape):
    """Hours without reminders, on the client's own clock."""

    start: TimeOfDay
    end: TimeOfDay

    def core(self) -> Quiet:
        """The core's value."""
        return Quiet(self.start, self.end)


class PlaceShape(Shape):
    """Where the client practises."""

    support: Id
    footwear: Id
    chair_behind: Switch

    def core(self) -> Place:
        """The core's value."""
        return Place(self.support, self.footwear, self.chair_behind)


class BaselineShape(Shape):
    """What the therapist found. What bears on safety has no default; without a weaker side, pictures mark none."""

    weaker_side: Literal["left", "right"] | None = None
    one_good_hand: Switch
    ankle_blocked: Switch
    blood_thinner: Switch
    can_call_for_help: Switch


class PlanShape(Shape):
    """What the therapist prescribes."""

    practice: PracticeShape
    report: ReportShape
    place: PlaceShape
    baseline: BaselineShape
    supervision: Supervision
    eyes_closed: Switch
    check: CheckStyle = CheckStyle.ONE_LOOK
    into_place_s: Literal[10, 20, 30] = 20
    rest_s: Whole = Field(default=60, ge=10, le=600)
    minutes: Whole = Field(default=20, ge=5, le=60)
    exercises: tuple[PlannedShape, ...] = Field(min_length=1, max_length=12)


class ClientShape(Shape):
    """The care of one client, under the id of the client's entry in `people`."""

    therapist: Id
    carer: Id | None = None
    contacts: tuple[Id, ...] = Field(default=(), max_length=4)
    quiet: QuietShape | None = None
    plan: PlanShape


class EnrolmentShape(Shape):
    """The whole file. Without clients it enrols therapists, who make theirs in the chat."""

    people: dict[PersonKey, PersonShape] = Field(min_length=1)
    clients: dict[Id, ClientShape] = Field(default_factory=dict)
