"""Reads demo_scenarios/*.yaml. Every fault is told with file and line."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

from companion.content import enrolment
from companion.content.enrolment import Enrolment
from companion.content.library import Library
from companion.content.texts import Texts
from companion.content.yaml_lines import Loc, Page, parse, read
from companion.errors import Fault, FoundWrong, UsedWrong
from companion.rehearsal.scenario import (
    ALL_DAYS,
    Act,
    Copies,
    Counts,
    Does,
    Event,
    Expectation,
    Habits,
    Happening,
    Ignores,
    Network,
    Newcomer,
    Power,
    Rule,
    Scans,
    Scenario,
    Seen,
    Sends,
    Shuts,
    Taps,
    Types,
)
from companion.rehearsal.scenario_shapes import (
    ExpectationShape,
    HabitsFileShape,
    HabitsShape,
    HappeningShape,
    RuleShape,
    ScenarioShape,
    SentShape,
)

ACTS = ("taps", "copies", "mistakes", "counts", "miscounts", "types", "sends", "ignores")
EVENTS = ("taps", "types", "scans", "sends", "blocks", "power", "network")


@dataclass(frozen=True, slots=True)
class Readers:
    """What a scenario is read with: the folder it is in, the library and the texts."""

    folder: Path
    library: Library
    texts: Texts


def names(folder: Path) -> tuple[str, ...]:
    """The scenarios in that folder, by name."""
    return tuple(sorted(path.stem for path in folder.glob("*.yaml")))


def path_of(name: str, folder: Path) -> Path:
    """The file of a scenario. UsedWrong if there is none of that name."""
    path = folder / f"{name}.yaml"
    if not path.is_file():
        raise UsedWrong(f'There is no scenario "{name}". There are: {", ".join(names(folder)) or "none"}.')
    return path


def load(path: Path, readers: Readers) -> Scenario:
    """The scenario in that file. Raises FoundWrong with every fault, in the order of the lines."""
    page = read(path)
    shape = parse(page, ScenarioShape)
    people = _enrolment(page, shape, readers)
    reading = _Reading(page, shape, people, readers.folder)
    faults = [*reading.faults(), *_language_faults(page, shape, people)]
    habits = reading.habits(faults)
    if faults:
        raise FoundWrong(sorted(set(faults), key=lambda fault: (fault.where, fault.line or 0, fault.what)))
    return Scenario(
        name=path.stem,
        title=shape.title,
        about=shape.about,
        starts=reading.instant(shape.starts),
        ends=reading.instant(shape.ends),
        zone=shape.zone,
        enrolment=people,
        habits=habits,
        happenings=reading.happenings(),
        expectations=reading.expectations(),
        newcomers=tuple(Newcomer(id, one.role, one.name, one.beside) for id, one in shape.newcomers.items()),
    )


def _enrolment(page: Page, shape: ScenarioShape, readers: Readers) -> Enrolment:
    if isinstance(shape.people, dict):
        inside = {loc[1:]: line for loc, line in page.lines.items() if loc[:1] == ("people",)}
        return enrolment.in_page(Page(page.where, shape.people, inside), readers.library, readers.texts)
    file = readers.folder / str(shape.people)
    if not file.is_file():
        do = "Name a file beside this one, or write people and clients here"
        raise FoundWrong([page.fault(("people",), f"there is no enrolment file {shape.people!r}", do)])
    return enrolment.load(file, readers.library, readers.texts)


def _language_faults(page: Page, shape: ScenarioShape, people: Enrolment) -> Iterator[Fault]:
    for person in people.people:
        if person.language != shape.language:
            what = f'"{person.id}" is spoken to in "{person.language}" and the scenario is in "{shape.language}"'
            yield page.fault(("language",), what, "What people see is told in one language: mend one of them")


class _Reading:
    """One file on its way into values."""

    def __init__(self, page: Page, shape: ScenarioShape, people: Enrolment, folder: Path) -> None:
        self.page, self.shape, self.folder = page, shape, folder
        self.enrolled = {person.id for person in people.people}
        self.people = self.enrolled | set(shape.newcomers)
        self.zone = ZoneInfo(shape.zone)

    def instant(self, local: datetime) -> datetime:
        """A local time of the scenario as an instant, UTC."""
        return local.replace(tzinfo=self.zone).astimezone(UTC)

    # faults that need the whole file

    def faults(self) -> Iterator[Fault]:
        shape = self.shape
        if shape.ends <= shape.starts:
            yield self.page.fault(("ends",), "it ends before it starts", "Mend one of them")
        for person in shape.habits:
            yield from self._known(("habits", person), person)
        for id, newcomer in shape.newcomers.items():
            if id in self.enrolled:
                yield self.page.fault(("newcomers", id), f'"{id}" is enrolled already', "Take one of the two out")
            if newcomer.beside is not None:
                yield from self._known(("newcomers", id, "beside"), newcomer.beside)
        for place, happening in enumerate(shape.happens):
            yield from self._happening_faults(("happens", place), happening)
        for place, expected in enumerate(shape.expects):
            loc: Loc = ("expects", place)
            yield from self._known((*loc, "phone"), expected.phone)
            for key in ("since", "by"):
                yield from self._inside((*loc, key), getattr(expected, key))

    def _happening_faults(self, loc: Loc, shape: HappeningShape) -> Iterator[Fault]:
        if (shape.at is None) == (shape.when is None):
            yield self.page.fault(loc, 'it has no moment, or two: "at" or "when"', "Write one of them")
        if shape.after is not None and shape.when is None:
            yield self.page.fault((*loc, "after"), '"after" goes with "when"', 'Write "at: +90 s" instead')
        yield from self._one(loc, shape, EVENTS, "nothing happens here, or two things")
        if shape.who is not None:
            yield from self._known((*loc, "who"), shape.who)
        if (shape.who is None) != (shape.power is not None or shape.network is not None):
            yield self.page.fault(loc, '"who" goes with what a person does', "Add it, or take it out")
        if shape.when is not None:
            yield from self._known((*loc, "when", "phone"), shape.when.phone)
        if shape.scans is not None:
            yield from self._known((*loc, "scans", "phone"), shape.scans.phone)
        if isinstance(shape.at, datetime):
            yield from self._inside((*loc, "at"), shape.at)

    def _inside(self, loc: Loc, local: datetime | None) -> Iterator[Fault]:
        if local is not None and not self.shape.starts <= local <= self.shape.ends:
            yield self.page.fault(loc, f"{local} is before the scenario starts or after it ends", "Mend the moment")

    def _known(self, loc: Loc, person: str) -> Iterator[Fault]:
        if person not in self.people:
            do = f"Use one of {', '.join(sorted(self.people))}"
            yield self.page.fault(loc, f'there is nobody called "{person}"', do)

    def _one(self, loc: Loc, shape: object, keys: tuple[str, ...], what: str) -> Iterator[Fault]:
        if sum(getattr(shape, key) is not None for key in keys) != 1:
            yield self.page.fault(loc, what, f"Write one of {', '.join(keys)}")

    # habits

    def habits(self, faults: list[Fault]) -> Mapping[str, Habits]:
        """By person; what is wrong is added to `faults`."""
        found = {}
        for person, shape in self.shape.habits.items():
            own = self._rules(self.page, ("habits", person, "rules"), shape.rules, faults)
            shared = self._shared(person, shape, faults)
            found[person] = Habits((*own, *shared), shape.twice)
        return found

    def _shared(self, person: str, shape: HabitsShape, faults: list[Fault]) -> tuple[Rule, ...]:
        if shape.like is None:
            return ()
        path = self.folder / "habits" / f"{shape.like}.yaml"
        if not path.is_file():
            known = ", ".join(names(self.folder / "habits")) or "none yet"
            do = f"Use one of habits/: {known}"
            faults.append(self.page.fault(("habits", person, "like"), f'there are no habits "{shape.like}"', do))
            return ()
        page = read(path)
        return self._rules(page, ("rules",), parse(page, HabitsFileShape).rules, faults)

    def _rules(self, page: Page, loc: Loc, shapes: tuple[RuleShape, ...], faults: list[Fault]) -> tuple[Rule, ...]:
        rules = []
        for place, shape in enumerate(shapes):
            here: Loc = (*loc, place)
            if sum(getattr(shape, key) is not None for key in ACTS) != 1:
                faults.append(page.fault(here, "it says nothing to do, or two things", f"Write one of {', '.join(ACTS)}"))
            if shape.on is not None and (shape.since is not None or shape.until is not None):
                faults.append(page.fault(here, '"on" beside "since" or "until"', "Write one or the other"))
            rules.append(_rule(f"{page.where}:{page.line(here)}", shape, own=page is self.page))
        return tuple(rules)

    # what happens

    def happenings(self) -> tuple[Happening, ...]:
        return tuple(
            Happening(self._where("happens", place), self._moment(shape), _after(shape), _event(shape))
            for place, shape in enumerate(self.shape.happens)
        )

    def _moment(self, shape: HappeningShape) -> datetime | Seen | None:
        if shape.when is not None:
            return Seen(shape.when.phone, shape.when.sees, shape.when.on)
        return self.instant(shape.at) if isinstance(shape.at, datetime) else None

    def expectations(self) -> tuple[Expectation, ...]:
        return tuple(self._expectation(self._where("expects", place), one) for place, one in enumerate(self.shape.expects))

    def _expectation(self, where: str, shape: ExpectationShape) -> Expectation:
        since = self.instant(shape.since or self.shape.starts)
        by = self.instant(shape.by or self.shape.ends)
        return Expectation(where, shape.phone, shape.text, since, by, shape.never)

    def _where(self, key: str, place: int) -> str:
        return f"{self.page.where}:{self.page.line((key, place))}"


def _rule(where: str, shape: RuleShape, own: bool) -> Rule:
    first, last = ALL_DAYS
    days = (shape.on, shape.on) if shape.on is not None else (shape.since or first, shape.until or last)
    return Rule(
        where, shape.sees, _act(shape), timedelta(seconds=shape.after), shape.once, days, shape.in_mind or (),
        shape.keeps_in_mind, own,
    )  # fmt: skip


def _act(shape: RuleShape) -> Act:
    if shape.taps is not None:
        return Taps(shape.taps)
    if shape.types is not None:
        return Types(shape.types)
    if shape.copies is not None or shape.mistakes is not None:
        return Copies(wrong=shape.mistakes is not None)
    if shape.counts is not None or shape.miscounts is not None:
        return Counts(wrong=shape.miscounts is not None)
    if shape.sends is not None:
        return _sent(shape.sends)
    return Ignores()


def _sent(shape: SentShape) -> Sends:
    return Sends(shape.form, shape.of, shape.seconds)


def _after(shape: HappeningShape) -> timedelta:
    if isinstance(shape.at, timedelta):
        return shape.at
    return timedelta(seconds=shape.after or 0)


def _event(shape: HappeningShape) -> Event:
    if shape.power is not None:
        return Power(shape.power == "back")
    if shape.network is not None:
        return Network(shape.network == "up")
    assert shape.who is not None
    if shape.scans is not None:
        return Scans(shape.who, shape.scans.phone, shape.scans.sees)
    if shape.sends is not None:
        return Does(shape.who, _sent(shape.sends))
    if shape.blocks is not None:
        return Shuts(shape.who, not shape.blocks)
    return Does(shape.who, Taps(shape.taps) if shape.taps is not None else Types(shape.types or ""))
