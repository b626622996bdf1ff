"""How little it takes a client from the start link to the first exercise, counted on what was really tapped."""

import pytest

from tests.scenarios.playing import Line, Rehearsals
from tests.scenarios.test_budget import EXERCISES

MOST_TAPS = 15


def taps_to_the_first_exercise(lines: list[Line]) -> int:
    """What the client tapped from the link to the first set-up on their phone."""
    client = [line for line in lines if line.phone == "client"]
    begins = next(place for place, line in enumerate(client) if line.way == "in" and line.text.startswith("/start"))
    ends = next(place for place, line in enumerate(client) if line.way == "out" and line.text.startswith(EXERCISES))
    return sum(line.kind == "press" for line in client[begins:ends])


@pytest.mark.parametrize("name", ["first_session", "fortnight"])
def test_from_the_link_to_the_first_exercise_a_client_taps_at_most_15_times(name: str, rehearsals: Rehearsals) -> None:
    taps = taps_to_the_first_exercise(rehearsals.lines(name))
    assert 0 < taps <= MOST_TAPS
