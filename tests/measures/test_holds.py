"""How long a stance was held, from records that are partly bounds."""

import warnings

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lifelines import KaplanMeierFitter
from lifelines.fitters.npmle import npmle
from numpy.typing import NDArray

from companion.measures.holds import Between, Curve, Hold, curve, median_interval, restricted_mean, session_means

TARGET = 60.0


def own(*seconds: float | None) -> list[Hold]:
    """A hold a session; None: clean to the target."""
    return [Hold(str(at), TARGET, None) if held is None else Hold(str(at), held, held) for at, held in enumerate(seconds)]


def test_the_plain_mean_of_capped_holds_is_not_what_is_said() -> None:
    # own example: 12, 18 and three that were clean to 30 s
    found = curve([Hold("a", 12, 12), Hold("b", 18, 18), *(Hold(name, 30, None) for name in "cde")])
    assert found.lasting(12) == pytest.approx(0.8) and found.lasting(18) == pytest.approx(0.6)
    assert found.median == Between(30, None)


def test_a_median_known_as_bounds_is_told_as_bounds() -> None:
    holds = [Hold("a", 15, 30), Hold("b", 0, 15), Hold("c", 30, 45), Hold("d", 30, 45), Hold("e", 60, None)]
    assert curve(holds).median == Between(30, 45)


def test_a_hold_that_broke_at_an_unknown_time_counts_between_0_and_the_target() -> None:
    found = curve([Hold("a", 0, 60), Hold("b", 15, 30), Hold("c", 15, 30), Hold("d", 60, None)])
    assert [(piece.low, piece.high) for piece in found.pieces] == [(15, 30)]
    assert found.pieces[0].share == pytest.approx(0.75)


def test_without_holds_there_is_no_curve() -> None:
    with pytest.raises(ValueError, match="no holds"):
        curve([])


@pytest.mark.parametrize(("low", "high"), [(-1, 2), (5, 4), (float("nan"), 3)])
def test_bounds_that_can_not_be_are_refused(low: float, high: float) -> None:
    with pytest.raises(ValueError, match="can not break"):
        Hold("a", low, high)


known = st.builds(lambda at, seen: (float(at), seen), st.integers(min_value=1, max_value=60), st.booleans())


@settings(max_examples=1000, deadline=None)
@given(st.lists(known, min_size=1, max_size=30))
def test_a_curve_of_known_seconds_agrees_with_lifelines_ties_and_all_censored_included(
    seen: list[tuple[float, bool]],
) -> None:
    found = curve([Hold(str(number), at, at if broke else None) for number, (at, broke) in enumerate(seen)])
    theirs = KaplanMeierFitter().fit([at for at, _ in seen], [broke for _, broke in seen])
    for at in {at for at, _ in seen}:
        assert found.lasting(at) == pytest.approx(float(theirs.predict(at)), abs=1e-9)
    median = float(theirs.median_survival_time_)
    if any(abs(found.lasting(at) - 0.5) < 1e-9 for at, _ in seen):
        return  # exactly half: there the last digit of lifelines decides
    assert (found.median.high if found.median.high is not None else np.inf) == pytest.approx(median)


bounded = st.one_of(
    st.integers(min_value=1, max_value=59).map(lambda at: (float(at), float(at))),
    st.integers(min_value=0, max_value=3).map(lambda quarter: (15.0 * quarter, 15.0 * quarter + 15)),
    st.just((0.0, 60.0)),
    st.just((60.0, None)),
)


@settings(max_examples=100, deadline=None)
@given(st.lists(bounded, min_size=1, max_size=20))
def test_a_curve_of_bounds_fits_the_records_no_worse_than_that_of_lifelines(seen: list[tuple[float, float | None]]) -> None:
    holds = [Hold(str(number), low, high) for number, (low, high) in enumerate(seen)]
    # a break after `low`: lifelines takes bounds as closed, so the lower one is moved by a hair
    low = np.array([hold.low if hold.high == hold.low else hold.low + 1e-4 for hold in holds])
    high = np.array([1e6 if hold.high is None else hold.high for hold in holds])
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # where it has not converged it may only fit less well
        shares, pieces = npmle(low, high, tol=1e-7, max_iter=500, verbose=False)[:2]
    theirs = fit_of([(piece.left, piece.right, share) for piece, share in zip(pieces, shares, strict=True)], low, high)
    assert fit_of(pieces_of(curve(holds)), low, high) >= theirs - 1e-4


def pieces_of(found: Curve) -> list[tuple[float, float, float]]:
    """The pieces of a curve as lifelines has them: from `low` to `high`, share; what had not broken at the end."""
    pieces = [(piece.low if piece.low == piece.high else piece.low + 1e-4, piece.high, piece.share) for piece in found.pieces]
    return [*pieces, (60 + 1e-4, 1e6, found.lasting(1e6))]


def fit_of(pieces: list[tuple[float, float, float]], low: NDArray[np.float64], high: NDArray[np.float64]) -> float:
    """The log-likelihood of holds within bounds."""
    total = 0.0
    for a, b in zip(low, high, strict=True):
        share = sum(share for left, right, share in pieces if left >= a - 1e-9 and right <= b + 1e-9)
        total += float(np.log(max(share, 1e-300)))
    return total


def test_each_session_counts_once_in_the_mean() -> None:
    holds = [Hold("a", 10, 10), Hold("a", 10, 10), Hold("a", 10, 10), Hold("b", 40, 40)]
    assert session_means(holds, TARGET) == [10, 40]
    assert restricted_mean(holds, TARGET).value == 25


def test_under_8_sessions_no_interval_is_given() -> None:
    assert restricted_mean(own(10, 20, 30, 40, 50, None, 20), TARGET).interval is None
    assert restricted_mean(own(10, 20, 30, 40, 50, None, 20, 30), TARGET).interval is not None
    assert median_interval(own(10, 20, 30, 40, 50, None, 20)) is None


def test_all_clean_is_the_target_without_an_interval() -> None:
    found = restricted_mean(own(*[None] * 12), TARGET)
    assert found.value == TARGET and found.interval is None and found.sessions == 12


def test_the_interval_stays_between_0_and_the_target() -> None:
    found = restricted_mean(own(59, 58, None, None, None, None, None, 2), TARGET).interval
    assert found is not None and 0 < found.low < found.high < TARGET


def test_a_hold_above_a_lower_target_counts_as_that_target() -> None:
    assert restricted_mean(own(20, 50, None), 30).value == pytest.approx((20 + 30 + 30) / 3)


def test_a_median_whose_interval_reaches_past_the_target_has_no_upper_end() -> None:
    found = median_interval(own(10, 20, 30, 40, None, None, None, None))
    assert found is not None and found.high is None and found.low == 20
