"""Symmetry of 0.39 and 0.25 (a table of the J Phys Med Rehabil; Robinson 1987): a ratio of 1.56, 43.75 % of their mean."""

import pytest

from companion.core.programme import Side
from companion.measures.course import compared
from companion.measures.dated import dated
from companion.measures.holds import Hold
from companion.measures.sides import ratio, two_sides
from tests.measures.records import CLEAN, broke, session


def test_the_ratio_is_that_of_the_table_and_says_the_same_as_the_share_of_the_mean() -> None:
    found = ratio([Hold("s", 0.25, 0.25)], [Hold("s", 0.39, 0.39)], 30)
    assert found is not None and found == pytest.approx(1.56)
    assert 2 * (found - 1) / (found + 1) == pytest.approx(0.4375)


def test_both_sides_at_the_target_are_not_measurable_and_never_0() -> None:
    held = [Hold(str(at), 30, None) for at in range(12)]
    assert ratio(held, held, 30) is None and two_sides(held, held, 30) is None


def test_in_the_records_too_two_sides_that_are_always_clean_are_not_measurable() -> None:
    strong = broke(side=Side.STRONGER, quality=CLEAN.quality, broke_by=None, low=None)
    records = [one for day in range(12) for one in session(day, CLEAN, strong)]
    (found,) = compared(dated(records, "UTC"))
    assert found.sides is None
