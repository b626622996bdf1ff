"""The pause in which days of a week lie."""

from datetime import date

from companion.core.observations import Observation, PauseAgreed, PauseOver
from companion.reports.pauses import Pause, pause
from tests.reports.weeks import MONDAY, SUNDAY, ZONE, at, day

AGREED = PauseAgreed(at(day(-3), 18), "unwell", day(3))


def found(*what: Observation, stands: PauseAgreed | None = None) -> Pause | None:
    dated: list[tuple[date, Observation]] = [(one.at.date(), one) for one in what]
    return pause(dated, stands, ZONE, (MONDAY, SUNDAY))


def test_a_pause_is_told_by_its_agreement_and_by_when_it_was_over() -> None:
    assert found(AGREED) == Pause(day(-3), "unwell", day(3))
    assert found(AGREED, PauseOver(at(day(2), 9), "odda")) == Pause(day(-3), "unwell", day(3), day(2))


def test_a_pause_agreed_long_ago_is_known_from_the_case() -> None:
    long_ago = PauseAgreed(at(day(-40), 18), "holiday", None)
    assert found(stands=long_ago) == Pause(day(-40), "holiday", None)


def test_a_pause_over_before_the_week_or_agreed_after_it_is_none_of_it() -> None:
    assert found(PauseAgreed(at(day(-6), 18), "holiday", day(0))) is None
    assert found(AGREED, PauseOver(at(day(-1), 9), None)) is None
    assert found(stands=PauseAgreed(at(day(7), 9), "holiday", None)) is None
