"""Common practice, no source: the support stands on the stronger side; the carer on the weaker side, a little behind, not
holding the weak arm; carers are briefed before the first session; the plan names a support, which must not move.
"""

from dataclasses import replace

import pytest

from companion.core.effects import words
from companion.core.events import Joined
from companion.core.person import Part, Person
from companion.core.programme import Posture
from tests.core.home import Home
from tests.core.people import People
from tests.core.practice import CARER, CLIENT, MONDAY
from tests.outside.practice_at_home import PLAN, RULES, TEXTS, after_a_hold, at_home, said, started, text

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


@pytest.mark.parametrize("key", SUPPORTS)
def test_the_set_up_names_the_support_of_the_plan_and_no_other(key: str) -> None:
    named = key.removeprefix("place-support-").replace("-", "_")
    home = after_a_hold(place=replace(PLAN.place, support=named, name=""))
    told = "\n".join(said(home, CLIENT))
    assert TEXTS.text(words(key, side=PLAN.place.side), "en") in told
    others = {TEXTS.text(words(other, side=PLAN.place.side), "en") for other in SUPPORTS if other != key}
    assert not [other for other in others if other in told]


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
    care = replace(at_home(sessions=0).client, briefed=())
    it = People([Person(CARER, Part.CARER, "Ben", "Europe/London", ("c1",))], [care], RULES)
    it.tell(CARER, Joined(it.now, CARER))
    for topic in RULES.briefing.topics:
        it.press(CARER, "b-go-on")
        it.press(CARER, topic.right)
    told = "\n".join(text(say) for say in it.phones[CARER].said)
    for point in ("weaker side, a little behind", "Do not hold the weak arm", "sway is normal", "A step to save", "unwell"):
        assert point in told, point
    assert it.clients["c1"].briefed == ((CARER, RULES.briefing.version),)
    unbriefed = Home(care, RULES)
    unbriefed.until(MONDAY.replace(hour=10))
    unbriefed.press(CLIENT, "start")
    unbriefed.reach("no-carer-briefed")
    assert "No standing now." in said(unbriefed, CLIENT)[-1], "nobody stands with a carer who was not briefed"


def test_the_carers_place_is_asked_for_before_the_number_is_picked() -> None:
    home = started()
    home.press("c1", "same")
    home.press("c1", "ready")
    assert "Stand beside them, on the weaker side." in said(home, CARER)[-1]
