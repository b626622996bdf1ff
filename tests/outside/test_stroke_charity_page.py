"""A UK stroke charity's public page: start with about 20 minutes at a time."""

from dataclasses import replace

from companion.core.plan_rules import Severity, judge
from companion.core.programme import Plan
from tests.core.practice import CLIENT
from tests.outside.practice_at_home import PLAN, RULES, reminded, said


def test_a_plan_that_says_nothing_is_of_20_minutes() -> None:
    assert Plan.__dataclass_fields__["minutes"].default == 20


def test_the_reminder_tells_how_long() -> None:
    home = reminded()
    assert PLAN.minutes == 20 and "About 20 minutes." in said(home, CLIENT)[-1]


def test_five_sessions_of_40_minutes_are_warned_of_with_that_source_and_sessions_of_20_are_not() -> None:
    practice = replace(PLAN.practice, weekdays=(0, 1, 2, 3, 4), times=PLAN.practice.times[:1])
    (warning,) = judge(replace(PLAN, minutes=40, practice=practice), RULES, carer=True)
    assert (warning.code, warning.severity, warning.param("times")) == ("long_to_begin", Severity.WARNED, "5")
    assert "stroke charity" in warning.param("source") and warning.param("usual") == "20"
    assert judge(replace(PLAN, minutes=20, practice=practice), RULES, carer=True) == ()
