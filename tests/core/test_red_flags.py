"""Which facts trip which rule. The rules themselves are content, with cases of their own."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from companion.core.programme import FlagRule, Level
from companion.core.red_flags import GRAVITY, known_facts, screen
from tests.core.practice import RULES, full_plan

FACTS = ["sign.face", "fall", "head_knock", "blood_thinner", "pressed_wrong", "felt_unwell", "near_fall"]
SETS = st.sets(st.sampled_from(FACTS))


def test_no_facts_trip_nothing_and_a_near_fall_alone_does_not() -> None:
    assert screen((), RULES) is None and screen(("near_fall",), RULES) is None


def test_each_sign_alone_is_an_emergency() -> None:
    for sign in RULES.signs:
        rule = screen((f"sign.{sign}",), RULES)
        assert rule is not None and rule.level is Level.EMERGENCY


def test_the_gravest_rule_wins_and_among_equals_the_one_that_says_most() -> None:
    rule = screen(("head_knock", "fall", "blood_thinner"), RULES)
    assert rule is not None and rule.id == "head_knock_blood_thinner"
    two = replace(
        RULES, flags=(FlagRule("a", Level.URGENT, frozenset({"x"})), FlagRule("b", Level.URGENT, frozenset({"x", "y"})))
    )
    found = screen(("x", "y"), two)
    assert found is not None and found.id == "b"


@given(SETS, SETS)
def test_more_facts_never_make_a_flag_less_grave(some: set[str], more: set[str]) -> None:
    before, after = screen(some, RULES), screen(some | more, RULES)
    if before is not None:
        assert after is not None and GRAVITY[after.level] <= GRAVITY[before.level]


def test_a_blood_thinner_of_the_plan_is_a_known_fact() -> None:
    assert known_facts(full_plan(blood_thinner=True)) == {"blood_thinner"}
    assert known_facts(full_plan()) == frozenset() == known_facts(None)
