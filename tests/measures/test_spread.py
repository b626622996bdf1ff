"""How much a client differs from session to session, and what fall that leaves to be noticed."""

from dataclasses import replace

import numpy as np
import pytest

from companion.core.programme import Noticeable
from companion.measures.holds import Hold
from companion.measures.notice import Session
from companion.measures.spread import allows, day_to_day
from tests.measures.simulated import Somebody, course, level

TABLE = (Noticeable(0.1, 95, 100), Noticeable(0.2, 51, 98))


def sessions(who: Somebody, seed: int, weeks: int = 14) -> list[Session]:
    return [session for _, session in course(who, weeks, level, np.random.default_rng(seed), (4, 1))][-44:]


@pytest.mark.parametrize("quarters", [False, True])
@pytest.mark.parametrize("spread", [0.10, 0.25, 0.45])
@pytest.mark.parametrize("full", [0.2, 0.6])
def test_the_spread_of_invented_courses_is_found_also_where_most_holds_are_full(
    spread: float, full: float, quarters: bool
) -> None:
    found = [day_to_day(sessions(Somebody(spread, full, quarters), seed)) for seed in range(6)]
    assert np.median([one for one in found if one is not None]) == pytest.approx(spread, rel=0.25)


def test_it_does_not_hang_on_the_unit_of_the_holds() -> None:
    seen = sessions(Somebody(0.25, 0.2), 3)

    def longer(hold: Hold) -> Hold:
        low, high = (max(0.0, hold.low - 0.5), (hold.high or 0) + 0.5) if hold.low == hold.high else (hold.low, hold.high)
        return Hold(hold.session, low * 4, None if high is None else high * 4)

    scaled = [{name: [longer(hold) for hold in holds] for name, holds in session.items()} for session in seen]
    one, other = day_to_day(seen), day_to_day(scaled)
    assert one is not None and other == pytest.approx(one, abs=0.01)


def test_with_few_sessions_or_only_full_holds_nothing_is_known_of_it() -> None:
    assert day_to_day(sessions(Somebody(0.25, 0.4), 1)[:14]) is None
    assert day_to_day([{"c": [Hold(str(at), 60, None)]} for at in range(40)]) is None
    assert day_to_day([]) is None


def test_sessions_that_are_all_alike_have_a_small_spread() -> None:
    found = day_to_day([{"c": [Hold(str(at), 30, 30)]} for at in range(20)])
    assert found is not None and found <= 0.05


def test_holds_of_0_seconds_and_unknown_breaks_are_borne() -> None:
    seen = sessions(Somebody(0.25, 0.2), 5)
    odd = [replace(seen[0]["c0"][0], low=0.0, high=0.0)], [replace(seen[1]["c0"][0], low=0.0, high=60.0)]
    found = day_to_day([{"c0": odd[0]}, {"c0": odd[1]}, *seen[2:]])
    assert found is not None and np.isfinite(found)


def test_what_is_noticed_is_read_off_the_row_at_or_above() -> None:
    assert allows(0.1, TABLE) is TABLE[0] and allows(0.11, TABLE) is TABLE[1]
    assert allows(0.21, TABLE) is None and allows(0.1, ()) is None
