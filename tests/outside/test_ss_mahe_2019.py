"""SS-MAHE 2019: adherent after stroke is more than 70 % of the prescribed dose. 7 of 10 is not, 8 of 10 is."""

import pytest

from companion.measures.due import State, Tally
from tests.outside.practice_at_home import RULES


@pytest.mark.parametrize(("done", "planned", "adherent"), [(7, 10, False), (8, 10, True), (5, 7, True), (14, 20, False)])
def test_more_than_70_percent_is_adherent_and_70_is_not(done: int, planned: int, adherent: bool) -> None:
    assert RULES.progression.is_adherent(done, planned) is adherent
    tally = Tally(((State.DONE, planned),), extra=0, sessions=done, asked=planned)
    assert tally.more_than_70 is adherent, "the dose is in sessions, not in days"


def test_where_nothing_was_planned_nobody_is_adherent_or_not() -> None:
    assert RULES.progression.is_adherent(0, 0) is None
