"""What happens in a scenario, in the order in which it is written, and what must come true."""

from collections.abc import Callable, Iterable
from datetime import date, datetime

from companion.rehearsal.habits import ScenarioFailed, shows
from companion.rehearsal.scenario import Expectation, Happening, Seen
from companion.rehearsal.server import Entry


class Timeline:
    """Tells when the next thing happens. `local_day` places an instant on the scenario's calendar."""

    def __init__(
        self, happenings: Iterable[Happening], expectations: Iterable[Expectation], local_day: Callable[[datetime], date]
    ) -> None:
        self._to_come = list(happenings)
        self._open = list(expectations)
        self._local_day = local_day
        self._awaited: Seen | None = None

    def next(self, before: datetime) -> tuple[datetime, Happening] | None:
        """What happens next and when, now that everything up to `before` has happened; None: it waits, or nothing does.

        Raises ScenarioFailed if its moment is past.
        """
        if not self._to_come:
            return None
        happening = self._to_come[0]
        if isinstance(happening.at, Seen):
            self._awaited = happening.at
            return None
        at = (happening.at or before) + happening.after
        if at < before:
            raise ScenarioFailed(f"{happening.where}: this moment is past")
        return at, self._to_come.pop(0)

    def saw(self, person: str, entry: Entry) -> tuple[datetime, Happening] | None:
        """Something came to a phone; what happens because of it, and when. Raises ScenarioFailed: it must never come."""
        self._hold_against(person, entry)
        awaited = self._awaited
        if awaited is None or awaited.who != person or not shows(entry, awaited.sees):
            return None
        if awaited.day is not None and awaited.day != self._local_day(entry.at):
            return None
        self._awaited = None
        happening = self._to_come.pop(0)
        return entry.at + happening.after, happening

    def unmet(self) -> list[str]:
        """What did not come true and what did not happen, at the end."""
        told = [f"{expected.where}: {_expected(expected)}" for expected in self._open if not expected.never]
        return told + [f"{happening.where}: it never happened" for happening in self._to_come]

    def _hold_against(self, person: str, entry: Entry) -> None:
        for expected in list(self._open):
            if expected.who != person or not expected.since <= entry.at <= expected.by or not shows(entry, expected.text):
                continue
            if expected.never:
                raise ScenarioFailed(f"{expected.where}: {person}'s phone shows it: {entry.text!r}")
            self._open.remove(expected)


def _expected(expected: Expectation) -> str:
    return f"{expected.who}'s phone never showed {' and '.join(map(repr, expected.text))} in time"
