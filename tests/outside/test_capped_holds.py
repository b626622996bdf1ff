"""Capped holds (our own example): 12 and 18 s, and three clean to 30 s. The plain mean, 24.0, is the wrong answer."""

from dataclasses import replace

import pytest

from companion.core.observations import Bounds
from companion.measures.course import measured, series
from companion.measures.dated import dated
from companion.measures.holds import Between, curve
from tests.measures.records import CLEAN, broke, session

FULL = replace(CLEAN, target=30, practised_s=30.0, first_break=Bounds(30.0, None))
BOUTS = (broke(12, target=30), broke(18, target=30), FULL, FULL, FULL)


def test_what_is_told_of_them_is_the_share_that_lasted_and_that_half_was_not_reached() -> None:
    (held,) = series(dated(session(0, *BOUTS), "UTC"))
    lasted = curve(held.holds)
    assert lasted.lasting(12) == pytest.approx(0.8) and lasted.lasting(18) == pytest.approx(0.6)
    assert lasted.median == Between(30, None)


def test_of_one_session_no_mean_is_told_with_an_interval_as_if_five_holds_were_five_sessions() -> None:
    (held,) = series(dated(session(0, *BOUTS), "UTC"))
    found = measured(held)
    assert found is not None and found.sessions == 1
    assert found.mean.interval is None and found.median_from is None and len(found.listed) == 5
