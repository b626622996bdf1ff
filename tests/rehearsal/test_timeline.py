"""What happens, in order, and what must come true."""

from datetime import UTC, datetime, timedelta

import pytest

from companion.rehearsal.habits import ScenarioFailed
from companion.rehearsal.scenario import Expectation, Happening, Power, Seen
from companion.rehearsal.server import Entry
from companion.rehearsal.timeline import Timeline

START = datetime(2026, 7, 6, 9, 0, tzinfo=UTC)


def at(seconds: int) -> datetime:
    return START + timedelta(seconds=seconds)


def entry(text: str, seconds: int) -> Entry:
    return Entry(at(seconds), 1, "out", "text", text)


def happening(when: datetime | Seen | None, after: int = 0) -> Happening:
    return Happening("file:1", when, timedelta(seconds=after), Power(on=False))


def timeline(*happenings: Happening, expects: tuple[Expectation, ...] = ()) -> Timeline:
    return Timeline(happenings, expects, datetime.date)


def expectation(text: str, since: int, by: int, never: bool = False) -> Expectation:
    return Expectation("file:2", "olga", (text,), at(since), at(by), never)


def test_a_moment_of_the_clock_is_kept() -> None:
    told = timeline(happening(at(30))).next(START)
    assert told is not None and told[0] == at(30)


def test_without_a_moment_it_is_counted_from_what_happened_before() -> None:
    line = timeline(happening(at(30)), happening(None, 5))
    line.next(START)
    told = line.next(at(30))
    assert told is not None and told[0] == at(35)


def test_what_waits_to_be_seen_is_seen_on_that_phone_and_that_day_only() -> None:
    seen = Seen("olga", ("Go",), at(0).date() + timedelta(days=1))
    line = timeline(happening(seen, 7))
    assert line.next(START) is None
    day = 24 * 3600
    assert line.saw("olga", entry("Go", 1)) is None, "the day before"
    assert line.saw("carl", entry("Go", day)) is None, "another phone"
    assert line.saw("olga", entry("Stop", day)) is None, "other words"
    told = line.saw("olga", entry("Go", day))
    assert told is not None and told[0] == at(day + 7)
    assert line.saw("olga", entry("Go", day + 1)) is None, "once"


def test_nothing_waits_to_be_seen_before_its_turn() -> None:
    line = timeline(happening(at(30)), happening(Seen("olga", ("Go",), None)))
    line.next(START)
    assert line.saw("olga", entry("Go", 10)) is None
    line.next(at(30))
    assert line.saw("olga", entry("Go", 40)) is not None


def test_a_moment_that_is_past_fails() -> None:
    with pytest.raises(ScenarioFailed, match="file:1: this moment is past"):
        timeline(happening(at(30))).next(at(31))


def test_what_must_come_true_must_do_so_in_its_time() -> None:
    line = timeline(expects=(expectation("Go", 10, 20),))
    line.saw("olga", entry("Go", 9))
    line.saw("olga", entry("Go", 21))
    assert line.unmet() == ["file:2: olga's phone never showed 'Go' in time"]
    line.saw("olga", entry("Go", 20))
    assert line.unmet() == []


def test_what_must_not_come_fails_when_it_does_and_in_its_time_only() -> None:
    line = timeline(expects=(expectation("Go", 10, 20, never=True),))
    line.saw("olga", entry("Go", 21))
    assert line.unmet() == []
    with pytest.raises(ScenarioFailed, match="olga's phone shows it: 'Go'"):
        line.saw("olga", entry("Go", 15))


def test_what_is_still_to_come_at_the_end_is_told() -> None:
    assert timeline(happening(Seen("olga", ("Go",), None))).unmet() == ["file:1: it never happened"]
