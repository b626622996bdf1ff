"""ProFaNE, Lamb 2005: a fall is coming to rest unexpectedly on the ground, floor or other lower level.

A stumble that was saved is a near-fall and no fall.
"""

import pytest

from companion.core.observations import FallKind, FallReported
from companion.core.red_flags import screen
from tests.core.practice import CLIENT
from tests.outside.practice_at_home import RULES, TEXTS, fallen, flag


@pytest.mark.parametrize(("answer", "kind"), [("up", FallKind.FALL), ("down", FallKind.FALL), ("saved", FallKind.NEAR_FALL)])
def test_who_came_to_rest_on_the_floor_fell_and_who_saved_themselves_did_not(answer: str, kind: FallKind) -> None:
    home = fallen()
    assert home.all(FallReported)[-1].fall is FallKind.UNKNOWN
    home.press(CLIENT, answer)
    assert home.all(FallReported)[-1].fall is kind


def test_the_button_for_a_near_fall_speaks_of_the_floor() -> None:
    assert TEXTS.readings("b-flag-saved-you", "en") == ("I did not reach the floor",)


def test_a_near_fall_raises_no_flag_of_its_own_and_a_fall_does() -> None:
    assert screen(["near_fall"], RULES) is None
    assert screen(["fall"], RULES) is not None


def test_still_being_on_the_floor_is_an_emergency() -> None:
    home = fallen()
    home.press(CLIENT, "down")
    assert flag(home).level == "emergency"
