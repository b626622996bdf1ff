"""Nonoverlap of all pairs and Tau-U (Parker 2011, by the tests of a package for single-case designs): not shown by us, but
the place of a session's holds among earlier ones is the former, and the score of a trend is what the latter takes off."""

import numpy as np
import pytest

from companion.measures.holds import Hold
from companion.measures.notice import _mark
from companion.measures.trend import mann_kendall

BEFORE, AFTER = (20, 20, 26, 25, 22, 23), (28, 25, 24, 27, 30, 30, 29)
RISING, HIGHER = (3, 3, 4, 5), (4, 5, 6, 7, 7)


def place(after: tuple[int, ...], before: tuple[int, ...]) -> float:
    """The mean place of the later holds among the earlier, 0 to 1."""
    found = _mark({"c": [Hold("s", at, at) for at in after]}, {"c": np.array(before)})
    assert found is not None
    return found


def test_the_place_among_earlier_holds_is_the_nonoverlap_of_all_pairs() -> None:
    assert place(AFTER, BEFORE) == pytest.approx(0.9167, abs=5e-5)


def test_the_score_of_a_trend_is_what_tau_u_takes_off() -> None:
    tau = 2 * place(HIGHER, RISING) - 1
    assert tau == pytest.approx(0.80)
    assert tau - mann_kendall(RISING).score / (len(RISING) * len(HIGHER)) == pytest.approx(0.55)
