"""A UK stroke charity's public page: start with about 20 minutes at a time."""

from companion.core.programme import Plan
from tests.core.practice import CLIENT
from tests.outside.practice_at_home import PLAN, reminded, said


def test_a_plan_that_says_nothing_is_of_20_minutes() -> None:
    assert Plan.__dataclass_fields__["minutes"].default == 20


def test_the_reminder_tells_how_long() -> None:
    home = reminded()
    assert PLAN.minutes == 20 and "About 20 minutes." in said(home, CLIENT)[-1]
