"""Shares, their differences and rates agree with statsmodels, at the ends too."""

import warnings

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import binomtest
from statsmodels.stats.descriptivestats import sign_test
from statsmodels.stats.proportion import confint_proportions_2indep, proportion_confint
from statsmodels.stats.rates import confint_poisson

from companion.measures.holds import Hold
from companion.measures.proportions import Share, difference, rate
from companion.measures.sides import LEAST_SESSIONS, two_sides

shares = st.integers(1, 400).flatmap(lambda total: st.builds(Share, st.integers(0, total), st.just(total)))


@settings(max_examples=1000, deadline=None)
@given(shares)
def test_the_interval_of_a_share_agrees_with_statsmodels(share: Share) -> None:
    found = share.interval
    assert found is not None
    assert (found.low, found.high) == pytest.approx(proportion_confint(share.count, share.total, method="wilson"), abs=1e-9)


@settings(max_examples=1000, deadline=None)
@given(shares, shares)
def test_the_interval_of_a_difference_agrees_with_statsmodels(one: Share, other: Share) -> None:
    found = difference(one, other)
    theirs = confint_proportions_2indep(one.count, one.total, other.count, other.total, method="newcomb")
    assert found is not None and (found.low, found.high) == pytest.approx(theirs, abs=1e-9)


@settings(max_examples=1000, deadline=None)
@given(st.integers(0, 300), st.floats(0.5, 600))
def test_the_interval_of_a_rate_agrees_with_statsmodels_none_included(events: int, minutes: float) -> None:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        low, high = confint_poisson(events, minutes, method="exact-c")
    found, interval = rate(events, minutes)
    assert found == events / minutes
    assert (interval.low, interval.high) == pytest.approx((low if events else 0.0, high))


@settings(max_examples=1000, deadline=None)
@given(st.lists(st.tuples(st.integers(1, 60), st.integers(1, 60)), min_size=1, max_size=40))
def test_the_test_of_two_sides_agrees_with_statsmodels_sessions_alike_left_out(pairs: list[tuple[int, int]]) -> None:
    def holds(seconds: list[int]) -> list[Hold]:
        return [Hold(str(at), held, held if held < 60 else None) for at, held in enumerate(seconds)]

    found = two_sides(holds([one for one, _ in pairs]), holds([other for _, other in pairs]), 60)
    differences = [one - other for one, other in pairs]
    if sum(map(bool, differences)) < LEAST_SESSIONS:
        assert found is None
        return
    assert found is not None
    assert found.p == pytest.approx(sign_test(differences)[1])
    assert found.p == pytest.approx(binomtest(found.shorter.count, found.shorter.total).pvalue)
