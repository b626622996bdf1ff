"""What a client's practice amounts to, counted as it is recorded, for the summary at discharge. No scores."""

from collections.abc import Iterable

from companion.core.care import Tally
from companion.core.observations import Bout, DayClosed, FallKind, FallReported, Observation, Quality, SessionEnded


def counted(tally: Tally, seen: Iterable[Observation]) -> Tally:
    """The tally with these observations. Keys: `session.ENDING`, `day.ENDING`, `bout.EXERCISE`, `clean.EXERCISE`,
    `unknown.EXERCISE`. Of a fall the newest word of its flag counts; a second fall under one flag is a second one."""
    counts = dict(tally.counts)
    falls = list(tally.falls)
    for one in seen:
        if isinstance(one, FallReported):
            _fall(falls, one)
            continue
        for name in _names(one):
            counts[name] = counts.get(name, 0) + 1
    return Tally(tuple(counts.items()), tuple(falls))


def _names(seen: Observation) -> tuple[str, ...]:
    match seen:
        case Bout(exercise=exercise, quality=quality):
            extra = {Quality.CLEAN: (f"clean.{exercise}",), Quality.UNKNOWN: (f"unknown.{exercise}",)}
            return (f"bout.{exercise}", *extra.get(quality, ()))
        case SessionEnded(ending=ending):
            return (f"session.{ending.value}",)
        case DayClosed(ending=ending):
            return (f"day.{ending.value}",)
        case _:
            return ()


def _fall(falls: list[tuple[str, FallKind]], report: FallReported) -> None:
    if report.fall is not FallKind.UNKNOWN:
        for place in reversed(range(len(falls))):
            if falls[place][0] == report.flag:
                falls[place] = (report.flag, report.fall)
                return
    falls.append((report.flag, report.fall))
