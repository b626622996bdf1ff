"""Three public home-exercise pages: chest pain, severe breathlessness, dizziness: stop."""

import pytest

from tests.core.practice import CLIENT
from tests.outside.practice_at_home import RULES, after_a_hold, started


@pytest.mark.parametrize("sign", ["chest", "breath", "dizzy"])
def test_each_of_the_three_before_practice_stops_it(sign: str) -> None:
    home = started(sessions=0)
    for _ in range(RULES.signs.index(sign)):
        home.press(CLIENT, "same")
    home.press(CLIENT, "different")
    assert home.client.session is None and home.client.hold is not None


def test_feeling_unwell_after_a_hold_stops_all_that_is_left() -> None:
    home = after_a_hold()
    home.press(CLIENT, "unwell")
    assert home.client.session is None and home.client.hold is not None
    assert home.ended[-1].ending == "stopped"
    assert home.bouts[-1].quality == "unwell"
