"""Common practice, no source: the support stands on the stronger side; the carer on the weaker side, a little behind, not
holding the weak arm; carers are briefed before the first session; the plan names a support, which must not move.
"""

import pytest

from companion.core.effects import words
from companion.core.events import Joined
from companion.core.programme import Posture
from tests.core.practice import CARER
from tests.outside.practice_at_home import RULES, TEXTS, at_home, said, started

STILL_STANDING = [
    f"form-{exercise.id}-{form.id}.carer".replace("_", "-")
    for exercise in RULES.exercises.values()
    for form in exercise.forms
    if form.posture is Posture.STANDING and exercise.id != "heel_to_toe_walk"
]
SUPPORTS = [key for key in TEXTS.keys("en") if key.startswith("place-support-")]


@pytest.mark.parametrize("key", SUPPORTS)
def test_every_support_is_set_up_on_the_stronger_side(key: str) -> None:
    assert "on your stronger side" in TEXTS.text(words(key, side="stronger"), "en")


@pytest.mark.parametrize("key", ["place-support-heavy-table", "place-support-sturdy-chair"])
def test_what_could_be_moved_must_not_move(key: str) -> None:
    assert "It must not move" in TEXTS.readings(key, "en")[0]


@pytest.mark.parametrize("key", STILL_STANDING)
def test_the_carer_of_every_standing_form_is_on_the_weaker_side_a_little_behind(key: str) -> None:
    (reading,) = TEXTS.readings(key, "en")
    assert "weaker side, a little behind" in reading


def test_the_carer_walks_along_on_the_weaker_side() -> None:
    for form in RULES.exercises["heel_to_toe_walk"].forms:
        key = f"form-heel-to-toe-walk-{form.id}.carer".replace("_", "-")
        assert "on their weaker side. Do not hold the weak arm" in TEXTS.readings(key, "en")[0]


def test_a_carer_is_briefed_on_joining_before_any_session() -> None:
    home = at_home(sessions=0)
    home.do(Joined(home.now, CARER))
    told = "\n".join(said(home, CARER))
    assert home.client.session is None
    for point in ("weaker side, a little behind", "Do not hold the weak arm", "sway is normal", "A step to save", "unwell"):
        assert point in told, point


def test_the_carers_place_is_asked_for_before_the_number_is_picked() -> None:
    home = started()
    home.press("c1", "same")
    home.press("c1", "ready")
    assert "Stand beside them, on the weaker side." in said(home, CARER)[-1]
