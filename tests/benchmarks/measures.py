"""How fast the measures of holds are, beside the same by lifelines.

    [TIMES=20] .venv/bin/pytest -qs tests/benchmarks/measures.py

A week of one stance (5 sessions of 2 holds) and 40 sessions; breaks known to the second, and known as quarters. Both
make the curve of first breaks, its median, and the mean up to the target. Of lifelines these are its Kaplan-Meier fitter, for
seconds or for bounds, and its restricted mean. Where breaks are known to the second both must find the same.
"""

import warnings
from collections.abc import Callable, Sequence
from math import inf, isclose, isinf
from statistics import median
from time import perf_counter

import numpy as np
from lifelines import KaplanMeierFitter
from lifelines.utils import restricted_mean_survival_time

from companion.measures.holds import Hold, curve, restricted_mean
from tests.benchmarks.table import Line, number, show
from tests.measures.simulated import Somebody, in_quarters

TARGET = 60
HOLDS = 2
GOAL = "20"


def holds(who: Somebody, sessions: int, seed: int) -> list[Hold]:
    """So many sessions of two holds."""
    chance = np.random.default_rng(seed)
    found = []
    for session in range(sessions):
        at = who.middle + who.day(chance)
        found += [who.hold(f"s{session}", at, chance) for _ in range(HOLDS)]
    return found


def ours(of: Sequence[Hold]) -> tuple[float | None, float]:
    """The median, None where it is not reached, and the mean up to the target."""
    found = curve(of)
    return found.median.high, restricted_mean(of, TARGET, found).value


def theirs(of: Sequence[Hold]) -> tuple[float | None, float]:
    """The same by lifelines, of breaks that are known to the second."""
    fitted = KaplanMeierFitter().fit([one.low for one in of], [one.high is not None for one in of])
    middle = float(fitted.median_survival_time_)
    return None if isinf(middle) else middle, float(restricted_mean_survival_time(fitted, t=TARGET))


def theirs_of_bounds(of: Sequence[Hold]) -> tuple[float | None, float]:
    """The same by lifelines, of breaks that are known as bounds; the mean is of a curve that falls as late as it may."""
    low = [one.low for one in of]
    high = [inf if one.high is None else one.high for one in of]
    fitted = KaplanMeierFitter().fit_interval_censoring(low, high)
    middle = float(fitted.median_survival_time_["NPMLE_estimate_upper"].iloc[0])
    late = fitted.survival_function_["NPMLE_estimate_upper"]
    seconds = np.append(late.index.to_numpy(dtype=float), TARGET).clip(max=TARGET)
    return None if isinf(middle) else middle, float((np.diff(seconds) * late.to_numpy(dtype=float)).sum())


def ms(work: Callable[[Sequence[Hold]], object], of: Sequence[Sequence[Hold]]) -> float:
    """Milliseconds of one, the middle of all."""
    taken = []
    for one in of:
        began = perf_counter()
        work(one)
        taken.append(1000 * (perf_counter() - began))
    return median(taken)


def test_measures_beside_lifelines() -> None:
    times, lines = number("TIMES", 20), []
    usual = Somebody(0.25, 0.4)
    ways = (("seconds", usual, theirs), ("quarters", in_quarters(usual), theirs_of_bounds))
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # theirs warns of what is too few for its bands, which nobody asks for here
        for sessions in (5, 40):
            for known, who, other in ways:
                series = [holds(who, sessions, seed) for seed in range(times)]
                if known == "seconds":
                    for one in series:
                        agree(one)
                ours(series[0])
                other(series[0])
                line = Line(f"{sessions} sessions, {known}, ms", ms(ours, series), ms(other, series), GOAL)
                lines.append(line)
    show(f"curve, median and restricted mean, {HOLDS} holds a session", "companion", "lifelines", lines)


def agree(of: Sequence[Hold]) -> None:
    """AssertionError unless both find the same: every session has as many holds, so the mean of sessions is that of holds."""
    here, there = ours(of), theirs(of)
    on_the_half = here[0] is not None and isclose(curve(of).lasting(here[0]), 0.5)
    assert here[0] == there[0] or on_the_half
    assert abs(here[1] - there[1]) < 0.01
