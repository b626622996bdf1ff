"""What the measures find in courses whose truth is known, with seconds and with quarter answers, beside the goals.

    .venv/bin/pytest -qs tests/benchmarks/simulation.py           (COURSES=400 by default; SEED=1)

How courses are invented is in `tests/measures/simulated.py`. Its last table is what `content/spread.yaml` holds.
"""

from collections.abc import Callable, Iterator

import numpy as np
from rich.console import Console
from rich.table import Table

from tests.benchmarks.table import number
from tests.measures.limits import by_single_limits, by_weighted_limits
from tests.measures.simulated import (
    Fall,
    Growth,
    Somebody,
    covered,
    doubling,
    fall_noticed,
    false_notices,
    in_quarters,
    learning,
    level,
    own_rule,
    trend_shown,
    weaker_found,
)

COURSES, SEED = number("COURSES", 400), number("SEED", 1)
SPREADS = (0.10, 0.25, 0.45)
FULL = (0.2, 0.4, 0.6)
Row = tuple[str, str, str, str]


def chance(*place: int) -> np.random.Generator:
    """Chance of a row of its own, so that leaving one out changes no other."""
    return np.random.default_rng((SEED, *place))


def both(who: Somebody, measure: Callable[[Somebody, np.random.Generator], float], place: int) -> tuple[str, str]:
    """The figure with seconds and with quarters."""
    return f"{measure(who, chance(place, 0)):.3f}", f"{measure(in_quarters(who), chance(place, 1)):.3f}"


def show(title: str, rows: Iterator[Row], headings: Row = ("what", "seconds", "quarters", "goal (seconds)")) -> None:
    """Print rows as they are made."""
    table = Table(title=title, title_justify="left")
    for heading in headings:
        table.add_column(heading, justify="left" if heading in ("what", "goal (seconds)") else "right")
    for row in rows:
        table.add_row(*row)
    Console(width=140).print(table)


def coverage() -> Iterator[Row]:
    place = 0
    for sessions in (8, 12, 20):
        for spread in SPREADS:
            for full in FULL:
                place += 1
                who = Somebody(spread, full)
                seconds = covered(who, sessions, chance(1, place, 0), COURSES)
                quarters = covered(in_quarters(who), sessions, chance(1, place, 1), COURSES)
                what = f"{sessions} sessions, log-SD {spread:.2f}, {full:.0%} full"
                yield f"mean covered, {what}", f"{seconds.mean:.3f}", f"{quarters.mean:.3f}", "0.93 to 0.97"
                goal = "0.92 to 0.98" if full < 0.5 else "past the target: open above"
                yield "  median covered", f"{seconds.median:.3f}", f"{quarters.median:.3f}", goal
                yield "  median's interval open above", f"{seconds.open:.3f}", f"{quarters.open:.3f}", ""


def test_coverage() -> None:
    show(f"95 % intervals, {COURSES} courses a row, two holds a session", coverage())


def trends() -> Iterator[Row]:
    for place, spread in enumerate((0.10, 0.15, 0.25, 0.45)):
        usual = Somebody(spread, 0.4)
        shown = both(usual, lambda who, luck: trend_shown(who, level, luck, COURSES)[0], 100 + place)
        yield f"trend shown where there is none, log-SD {spread:.2f}", *shown, "at most 0.07"
        low = Somebody(spread, 0.0005 if spread < 0.2 else 0.01)  # half the target at first, so that it can double
        found = both(low, lambda who, luck: trend_shown(who, doubling, luck, COURSES)[1], 110 + place)
        yield f"doubling found, log-SD {spread:.2f}", *found, "at least 0.85" if spread <= 0.15 else ""


def test_trend() -> None:
    show(f"trend over 12 weeks, {COURSES} courses a row, one session in five missing", trends())


def sides() -> Iterator[Row]:
    for place, (spread, full) in enumerate((spread, full) for spread in SPREADS for full in FULL):
        who = Somebody(spread, full)
        found = both(who, lambda who, luck: weaker_found(who, 2 / 3, luck, COURSES), 200 + place)
        yield f"a third weaker side found, log-SD {spread:.2f}, {full:.0%} full", *found, "at least 0.75"
        false = both(who, lambda who, luck: weaker_found(who, 1, luck, COURSES), 220 + place)
        yield "  a side found where both are alike", *false, ""


def test_two_sides() -> None:
    show(f"two sides in 20 sessions, {COURSES} courses a row", sides())


CASES: tuple[tuple[float, Growth, str, str, str], ...] = (
    (0.10, level, "", "at least 0.90", ""),
    (0.15, learning, ", learning a fifth", "at least 0.75", ""),
    (0.20, level, "", "", "at least 0.95"),
    (0.20, learning, ", learning a fifth", "", "at least 0.95"),
)
"""Log-SD and growth before, its words, the goals for a fall of a third and of a half."""
FALLS = ((2 / 3, "third"), (1 / 2, "half"))
LIVES = max(20, COURSES // 2)


def notices() -> Iterator[Row]:
    for place, (spread, growth, also, *goals) in enumerate(CASES):
        who, what = Somebody(spread, 0.4), f"log-SD {spread:.2f}{also}"

        def falsely(who: Somebody, luck: np.random.Generator, growth: Growth = growth) -> float:
            return false_notices(who, growth, luck, LIVES)

        yield f"false notices in 26 weeks, {what}", *both(who, falsely, 300 + place), "under 1"
        for at, ((left, name), goal) in enumerate(zip(FALLS, goals, strict=True)):

            def noticed(who: Somebody, luck: np.random.Generator, left: float = left, growth: Growth = growth) -> float:
                return fall_noticed(who, Fall(left, growth), luck, COURSES)

            yield f"  a fall of a {name} noticed within 4 sessions", *both(who, noticed, 310 + 2 * place + at), goal


def test_early_notice() -> None:
    show(f"early notice, {COURSES} courses a row, 4 conditions a session, 40 % full", notices())


def beside_limits() -> Iterator[Row]:
    """The same courses, with seconds, seen by each rule: as above, then of less even sessions, then mostly full holds."""
    people = [(Somebody(spread, 0.4), growth, also) for spread, growth, also, *_ in CASES]
    people += [(Somebody(spread, 0.4, left_out=0.35), level, ", exercises left out") for spread in (0.15, 0.25)]
    people += [(Somebody(spread, 0.85), level, ", 85 % full") for spread in (0.15, 0.25)]
    rules = (own_rule, by_single_limits, by_weighted_limits)
    for place, (who, growth, also) in enumerate(people):
        one, two, three = (f"{false_notices(who, growth, chance(300 + place, 0), LIVES, rule):.3f}" for rule in rules)
        yield f"false notices in 26 weeks, log-SD {who.spread:.2f}{also}", one, two, three
        for at, (left, name) in enumerate(FALLS):
            fall, here = Fall(left, growth), (310 + 2 * place + at, 0)
            one, two, three = (f"{fall_noticed(who, fall, chance(*here), COURSES, rule):.3f}" for rule in rules)
            yield f"  a fall of a {name} noticed within 4 sessions", one, two, three


def test_early_notice_beside_control_limits() -> None:
    headings = ("what", "the notice", "limits of single values", "limits of a weighted average")
    show(f"early notice beside control limits, {COURSES} courses a row, the same for each rule", beside_limits(), headings)


def test_what_a_spread_allows() -> None:
    print("\ncontent/spread.yaml: seconds known, 4 conditions a session, 40 % full, learning a fifth")
    for place, spread in enumerate((0.10, 0.15, 0.20, 0.25, 0.30, 0.40, 0.50)):
        who = Somebody(spread, 0.4)
        third, half = (
            fall_noticed(who, Fall(left, learning), chance(400, place, at), COURSES) for at, (left, _) in enumerate(FALLS)
        )
        print(f"  - {{log_sd: {spread:.2f}, third: {round(third * 100)}, half: {round(half * 100)}}}")
