"""NICE QS74 statement 2: a head knock while on a blood thinner goes the emergency way (CT within 8 h)."""

import pytest

from tests.core.practice import CLIENT, THERAPIST
from tests.outside.practice_at_home import NUMBER, fallen, flag, said


@pytest.mark.parametrize(
    ("blood_thinner", "head", "level"),
    [(True, "hit", "emergency"), (True, "not_sure", "emergency"), (False, "hit", "urgent"), (True, "not_hit", "urgent")],
)
def test_a_head_knock_on_a_blood_thinner_is_an_emergency(blood_thinner: bool, head: str, level: str) -> None:
    home = fallen(blood_thinner=blood_thinner)
    home.press(CLIENT, "up")
    home.press(CLIENT, head)
    assert flag(home).level == level


def test_it_gives_the_number_to_call_and_the_therapist_reads_of_the_blood_thinner() -> None:
    home = fallen(blood_thinner=True)
    home.press(CLIENT, "up")
    before = len(said(home, CLIENT))
    home.press(CLIENT, "hit")
    assert any(NUMBER in text for text in said(home, CLIENT)[before:])
    assert "blood thinner" in said(home, THERAPIST)[-1]
