"""Aroor 2017, Stroke 48:479: balance, eyes, face, arm, speech. Face, arm and speech alone missed 14.1 % of strokes.

Each of the five alone, new or suddenly worse than usual, gives the emergency words.
"""

import pytest

from companion.core.programme import Level
from companion.core.red_flags import screen
from tests.core.practice import CARER, CLIENT, THERAPIST
from tests.outside.practice_at_home import NUMBER, RULES, TEXTS, said, started

FIVE = ["balance", "eyes", "face", "arm", "speech"]


def test_balance_and_eyes_are_asked_for_beside_face_arm_and_speech() -> None:
    assert set(FIVE) <= set(RULES.signs)


@pytest.mark.parametrize("sign", FIVE)
def test_one_of_the_five_alone_is_an_emergency(sign: str) -> None:
    found = screen([f"sign.{sign}"], RULES)
    assert found is not None and found.level is Level.EMERGENCY


@pytest.mark.parametrize("sign", FIVE)
def test_one_of_the_five_pressed_at_the_check_gives_the_number_to_call_at_once(sign: str) -> None:
    home = started(sessions=0)
    for before in RULES.signs[: RULES.signs.index(sign)]:
        home.press(CLIENT, "same")
        assert before
    heard = {who: len(said(home, who)) for who in (CLIENT, CARER, THERAPIST)}
    home.press(CLIENT, "different")
    assert NUMBER in said(home, CLIENT)[heard[CLIENT]]
    assert NUMBER in said(home, CARER)[heard[CARER]]
    assert TEXTS.readings(f"sign-{sign}.title", "en")[0] in said(home, THERAPIST)[heard[THERAPIST]]
    assert home.client.hold is not None and home.client.session is None


def test_the_look_at_all_signs_asks_for_what_is_new_or_worse_than_usual() -> None:
    home = started()
    asked = said(home, CLIENT)[-1]
    assert "new, or worse than usual" in asked
    assert all(TEXTS.readings(f"sign-{sign}.short", "en")[0] in asked for sign in FIVE)
