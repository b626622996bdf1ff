"""How long a stance was held, from records that are partly bounds."""

import warnings

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lifelines import KaplanMeierFitter
from lifelines.fitters.npmle import npmle
from lifelines.utils import restricted_mean_survival_time
from numpy.typing import NDArray
from statsmodels.duration.survfunc import SurvfuncRight

from companion.measures.holds import Between, Curve, Hold, _sessions, curve, median_interval, restricted_mean

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
    ends = sorted({at for at, _ in seen})
    lasted = theirs.survival_function_["KM_estimate"]
    assert [found.lasting(at) for at in ends] == pytest.approx([lasted[at] for at in ends], abs=1e-9)
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


@settings(max_examples=1000, deadline=None)
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


def session_means(holds: list[Hold]) -> list[float]:
    return [mean for mean, _ in _sessions(holds, TARGET)]


def test_each_session_counts_once_in_the_mean() -> None:
    holds = [Hold("a", 10, 10), Hold("a", 10, 10), Hold("a", 10, 10), Hold("b", 40, 40)]
    assert session_means(holds) == [10, 40]
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


def test_a_median_of_one_hold_a_session_is_told_by_order_statistics() -> None:
    # the ranks whose coverage comes nearest to 95 %: 2nd of 8, 3rd of 12, 6th of 20
    for count, rank in ((8, 2), (12, 3), (20, 6)):
        assert median_interval(own(*range(1, count + 1))) == Between(rank, count + 1 - rank)


def test_a_full_hold_in_every_session_leaves_the_median_open_above_and_known_below() -> None:
    holds = [Hold(str(at), low, high) for at in range(12) for low, high in ((50, 50), (TARGET, None))]
    assert median_interval(holds) == Between(50, None)


def test_one_full_hold_in_some_sessions_does_not_hide_where_the_median_ends() -> None:
    seconds = [(20, None), (22, None), (24, 26), (25, 27), (26, 28), (27, 29), (28, 30), (29, 31), (30, 32), (31, 33)]
    holds = [hold for at, pair in enumerate(seconds) for hold in own(*pair)]
    holds = [Hold(str(at // 2), hold.low, hold.high) for at, hold in enumerate(holds)]
    found = median_interval(holds)
    assert found is not None and found.high is not None and 24 <= found.low < found.high <= 32


def test_holds_that_all_broke_at_once_have_a_median_of_0() -> None:
    assert median_interval(own(*[0] * 9)) == Between(0, 0)


def test_breaks_in_the_one_quarter_that_there_is_stand_in_its_middle() -> None:
    assert session_means([Hold("a", 15, 30), Hold("b", 15, 30)]) == pytest.approx([22.5, 22.5])


def test_breaks_that_become_more_and_more_stand_later_than_the_middle_of_their_quarter() -> None:
    rising = [Hold("a", 30, 45), *[Hold(name, 45, 60) for name in "bcdef"], *[Hold(name, 60, None) for name in "ghi"]]
    means = session_means(rising)
    assert 37.5 < means[0] < 45 and 52.5 < means[1] < 60 and means[1:6] == [means[1]] * 5


def test_what_is_known_as_bounds_is_known_less_well_and_widens_the_interval() -> None:
    quarters = [Hold(str(at), *bounds) for at, bounds in enumerate([(15.0, 30.0), (30.0, 45.0)] * 6)]
    unsure, as_if_sure = restricted_mean(quarters, TARGET), restricted_mean(own(*session_means(quarters)), TARGET)
    assert unsure.value == as_if_sure.value
    assert unsure.interval is not None and as_if_sure.interval is not None
    assert unsure.interval.low < as_if_sure.interval.low and as_if_sure.interval.high < unsure.interval.high


def test_breaks_all_in_one_quarter_have_no_interval_since_the_records_do_not_tell_where_in_it() -> None:
    assert restricted_mean([Hold(str(at), 30, 45) for at in range(12)], TARGET).interval is None


@settings(max_examples=300, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 9), bounded), min_size=1, max_size=30))
def test_a_mean_and_a_median_lie_within_what_is_known_whatever_the_bounds(
    seen: list[tuple[int, tuple[float, float | None]]],
) -> None:
    holds = [Hold(str(session), low, high) for session, (low, high) in seen]
    highs = [Hold(hold.session, TARGET if hold.high is None else hold.high, None) for hold in holds]
    lows = [Hold(hold.session, hold.low, None) for hold in holds]
    mean, median = restricted_mean(holds, TARGET), median_interval(holds)
    at_least, at_most = restricted_mean(lows, TARGET).value, restricted_mean(highs, TARGET).value
    assert at_least - 1e-6 <= mean.value <= at_most + 1e-6
    assert mean.interval is None or mean.interval.low <= mean.value <= mean.interval.high
    assert (median is None) == (len({hold.session for hold in holds}) < 8)
    assert median is None or median.high is None or median.low <= median.high


@settings(max_examples=300, deadline=None)  # theirs takes its time
@given(st.lists(st.one_of(st.integers(1, 59), st.none()), min_size=1, max_size=30))
def test_the_mean_of_known_seconds_is_the_area_that_lifelines_finds_all_censored_included(seen: list[int | None]) -> None:
    times, broke = [TARGET if held is None else held for held in seen], [held is not None for held in seen]
    area = restricted_mean_survival_time(KaplanMeierFitter().fit(times, broke), t=TARGET)
    assert restricted_mean(own(*seen), TARGET).value == pytest.approx(float(area))


@settings(max_examples=1000, deadline=None)
@given(st.lists(known, min_size=1, max_size=30))
def test_a_curve_of_known_seconds_agrees_with_statsmodels_ties_and_all_censored_included(
    seen: list[tuple[float, bool]],
) -> None:
    found = curve([Hold(str(number), at, at if broke else None) for number, (at, broke) in enumerate(seen)])
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # its standard errors divide by nothing where nothing is left
        theirs = SurvfuncRight([at for at, _ in seen], [int(broke) for _, broke in seen])
    lasting = dict(zip(theirs.surv_times, theirs.surv_prob, strict=True))
    assert [found.lasting(at) for at in lasting] == pytest.approx(list(lasting.values()), abs=1e-9)
    assert {piece.high for piece in found.pieces} == {at for at, broke in seen if broke}
