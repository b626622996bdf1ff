"""Every case of every red-flag rule, and every fact that nothing may be made of."""

import pytest

from companion.content import library
from companion.content.folders import content_dir
from companion.content.library import Library
from companion.content.red_flag_file import FACTS, FlagCase
from companion.core.programme import Level
from companion.core.red_flags import screen

SHIPPED = library.load(content_dir())
LEVELS = list(Level)


def named(case: FlagCase) -> str:
    return f"{case.rule}-{'trips' if case.trips else 'passes'}-{'+'.join(sorted(case.facts)) or 'nothing'}"


@pytest.mark.parametrize("case", [case for case in SHIPPED.flag_cases if case.trips], ids=named)
def test_these_facts_stop_practice_at_least_as_gravely_as_the_rule_says(case: FlagCase) -> None:
    rules = SHIPPED.rules("000")
    rule = next(rule for rule in rules.flags if rule.id == case.rule)
    found = screen(case.facts, rules)
    assert found is not None
    assert LEVELS.index(found.level) <= LEVELS.index(rule.level)


@pytest.mark.parametrize("case", [case for case in SHIPPED.flag_cases if case.rule and not case.trips], ids=named)
def test_these_facts_do_not_trip_that_rule(case: FlagCase) -> None:
    found = screen(case.facts, SHIPPED.rules("000"))
    assert found is None or found.id != case.rule


@pytest.mark.parametrize("case", [case for case in SHIPPED.flag_cases if case.rule is None], ids=named)
def test_these_facts_raise_no_flag(case: FlagCase) -> None:
    assert screen(case.facts, SHIPPED.rules("000")) is None


def test_every_sign_that_is_asked_for_raises_a_flag_by_itself(shipped: Library) -> None:
    rules = shipped.rules("000")
    assert all(screen([f"sign.{sign}"], rules) for sign in rules.signs)


@pytest.mark.parametrize("fact", sorted(FACTS - {"near_fall", "blood_thinner"}))
def test_everything_else_that_can_be_reported_raises_a_flag_by_itself(fact: str) -> None:
    assert screen([fact], SHIPPED.rules("000")) is not None


@pytest.mark.parametrize("fact", sorted(FACTS | {f"sign.{sign}" for sign in SHIPPED.rules("000").signs}))
def test_one_more_fact_never_makes_a_flag_less_grave(fact: str) -> None:
    rules = SHIPPED.rules("000")
    for case in SHIPPED.flag_cases:
        before, after = screen(case.facts, rules), screen({*case.facts, fact}, rules)
        if before is not None:
            assert after is not None and LEVELS.index(after.level) <= LEVELS.index(before.level)
