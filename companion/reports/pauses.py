"""The pause in which days of a week lie: since when, why, until when, off the records. Pure."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

from companion.core.observations import Observation, PauseAgreed, PauseOver
from companion.core.schedule import local_day


@dataclass(frozen=True, slots=True)
class Pause:
    """Local days: `since` it was agreed, `until` is the first one after it (None: no end was named), `over` when it ended.

    `why` is the client's reason, as reported: "holiday" or "unwell".
    """

    since: date
    why: str
    until: date | None
    over: date | None = None


def pause(
    dated: Iterable[tuple[date, Observation]], stands: PauseAgreed | None, zone: str, week: tuple[date, date]
) -> Pause | None:
    """The newest pause that reaches into the week, both days included; None: none is on record.

    `stands` is the one under way now: it may have been agreed before what `dated` holds.
    """
    first, last = week
    known = [(day, what) for day, what in dated if isinstance(what, PauseAgreed | PauseOver)]
    if stands is not None:
        known.append((local_day(stands.at, zone), stands))
    found: Pause | None = None
    for day, what in sorted(known, key=lambda one: one[1].at):
        if day > last:
            break
        if isinstance(what, PauseAgreed):
            found = Pause(day, what.why, what.until)
        elif found is not None:
            found = replace(found, over=day)
    if found is None or any(end is not None and end <= first for end in (found.until, found.over)):
        return None
    return found
