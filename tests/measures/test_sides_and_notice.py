"""The weaker side against the stronger one, and the last sessions against the client's own usual."""

import pytest

from companion.measures.holds import Hold
from companion.measures.notice import Standing, notice
from companion.measures.proportions import Share, rate
from companion.measures.sides import ratio, two_sides


def held(*seconds: float | None, target: float = 30.0) -> list[Hold]:
    """A hold a session; None: clean to the target."""
    return [Hold(str(at), target, None) if one is None else Hold(str(at), one, one) for at, one in enumerate(seconds)]


def test_shorter_in_each_of_six_sessions_is_told_with_its_exact_p() -> None:
    found = two_sides(held(*[10] * 6), held(*[20] * 6), 30)
    assert found is not None
    assert found.shorter == Share(6, 6) and found.p == pytest.approx(2 / 64)
    assert found.at_least == 2.0 and found.alike == 0


def test_sessions_in_which_both_were_clean_show_nothing_and_are_counted_apart() -> None:
    found = two_sides(held(*[10] * 6, None, None), held(*[20] * 6, None, None), 30)
    assert found is not None and found.shorter.total == 6 and found.alike == 2


def test_both_at_the_target_is_not_measurable_and_never_0() -> None:
    assert two_sides(held(*[None] * 12), held(*[None] * 12), 30) is None
    assert ratio(held(None, None), held(None), 30) is None


def test_a_ratio_is_that_of_the_means() -> None:
    # 0.39 and 0.25: a ratio of 1.56 (J Phys Med Rehabil, table)
    assert ratio(held(0.25), held(0.39), 30) == pytest.approx(1.56)


def test_bounds_that_overlap_are_no_difference_that_could_be_seen() -> None:
    quarters = [Hold(str(at), 15.0, 22.5) for at in range(8)]
    assert two_sides(quarters, quarters, 30) is None
    lower = [Hold(str(at), 7.5, 15.0) for at in range(8)]
    found = two_sides(lower, quarters, 30)
    assert found is not None and found.shorter == Share(8, 8)


def sessions(*seconds: float | None) -> list[dict[str, list[Hold]]]:
    return [{"together": [hold]} for hold in held(*seconds, target=60.0)]


USUAL = [30.0, 42.0, 35.0, 50.0, 38.0, 44.0, 33.0, 47.0, None, 40.0] * 2


def test_four_sessions_among_the_lowest_are_noticed() -> None:
    found = notice(sessions(*USUAL, 12.0, 15.0, 11.0, 14.0))
    assert found.standing is Standing.LOW and found.under == 4 and found.p is not None and found.p <= 0.01


def test_four_usual_sessions_close_a_notice() -> None:
    assert notice(sessions(*USUAL, 41.0, 36.0, None, 45.0)).standing is Standing.USUAL


def test_with_fewer_than_15_earlier_sessions_nothing_is_noticed() -> None:
    found = notice(sessions(*USUAL[:14], 2.0, 2.0, 2.0, 2.0))
    assert found.standing is Standing.TOO_FEW and found.p is None


def test_a_new_target_starts_a_new_usual() -> None:
    changed = [{"together, 90 s": [hold]} for hold in held(5.0, 5.0, 5.0, 5.0, target=90.0)]
    assert notice([*sessions(*USUAL), *changed]).standing is Standing.TOO_FEW


def test_all_alike_is_usual() -> None:
    assert notice(sessions(*[None] * 30)).standing is Standing.USUAL


def test_only_the_last_forty_earlier_sessions_count() -> None:
    assert notice(sessions(*[5.0] * 50, *USUAL, *USUAL, 12.0, 15.0, 11.0, 14.0)).earlier == 40


def test_a_rate_has_an_exact_interval_and_none_seen_is_not_none_possible() -> None:
    per_minute, interval = rate(0, 10.0)
    assert per_minute == 0.0 and interval.low == 0.0 and interval.high == pytest.approx(0.3689, abs=5e-5)


def test_a_rate_without_time_is_refused() -> None:
    with pytest.raises(ValueError, match="no rate"):
        rate(1, 0.0)
