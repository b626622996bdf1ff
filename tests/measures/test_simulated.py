"""The simulation that the measures were chosen by: its people are as told, and what it counts can go wrong."""

import numpy as np
import pytest

from companion.measures.holds import Hold
from tests.measures.simulated import (
    Fall,
    Somebody,
    course,
    covered,
    doubling,
    fall_noticed,
    false_notices,
    in_quarters,
    learning,
    level,
    trend_shown,
    weaker_found,
)

CALM = Somebody(0.10, 0.4)


def chance() -> np.random.Generator:
    return np.random.default_rng(7)


def test_the_share_of_full_holds_is_that_of_the_person() -> None:
    luck = chance()
    holds = [CALM.hold("s", CALM.middle + CALM.day(luck), luck) for _ in range(4000)]
    assert sum(hold.high is None for hold in holds) / 4000 == pytest.approx(0.4, abs=0.03)


def test_quarters_are_bounds_a_quarter_wide() -> None:
    luck, who = chance(), in_quarters(CALM)
    broke = [hold for _ in range(200) if (hold := who.hold("s", who.middle, luck)).high is not None]
    assert broke and all(hold.high is not None and hold.high - hold.low == 15 for hold in broke)
    assert who.hold("s", 9.0, luck) == Hold("s", 60.0, None)


def test_one_session_in_five_is_missing() -> None:
    found = course(CALM, 100, level, chance(), (1, 1))
    assert 0.75 < len(found) / 400 < 0.85


def test_learning_is_a_fifth_and_ends() -> None:
    assert np.exp(learning(12)) == pytest.approx(1.2) and learning(26) == learning(12) and learning(0) == 0


def test_most_intervals_hold_the_truth_and_not_all() -> None:
    found = covered(Somebody(0.25, 0.4), 8, chance(), 150)
    assert 0.85 < found.mean <= 1 and 0.85 < found.median <= 1 and found.given > 0.9


def test_a_doubling_is_found_and_a_level_course_mostly_shows_none() -> None:
    assert trend_shown(Somebody(0.10, 0.0005), doubling, chance(), 10)[1] >= 0.8
    assert trend_shown(CALM, level, chance(), 20)[0] <= 0.3


def test_a_weaker_side_is_found_and_sides_alike_mostly_not() -> None:
    assert weaker_found(CALM, 2 / 3, chance(), 20) >= 0.8
    assert weaker_found(CALM, 1, chance(), 40) <= 0.2


def test_a_fall_is_noticed_more_often_than_no_fall() -> None:
    assert fall_noticed(CALM, Fall(0.5), chance(), 10) >= 0.8
    assert fall_noticed(CALM, Fall(1.0), chance(), 10) <= 0.3
    assert false_notices(CALM, level, chance(), 3) < 3


def test_exercises_that_are_left_out_are_missing_from_sessions_but_never_the_first() -> None:
    uneven = course(Somebody(0.10, 0.4, left_out=0.35), 30, level, chance(), (4, 1))
    sizes = [len(session) for _, session in uneven]
    assert set(sizes) <= {1, 2, 3, 4} and 2.6 < sum(sizes) / len(sizes) < 3.3
    assert all("c0" in session for _, session in uneven)
