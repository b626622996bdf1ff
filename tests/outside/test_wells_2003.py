"""Wells 2003: weakness of the leg already scores a point, so one further sign (swollen, hot or painful calf) is urgent."""

from tests.core.practice import CLIENT
from tests.outside.practice_at_home import RULES, TEXTS, flag, started


def test_a_calf_that_is_different_is_reported_as_urgent_by_itself() -> None:
    home = started(sessions=0)
    for _ in range(RULES.signs.index("calf")):
        home.press(CLIENT, "same")
    home.press(CLIENT, "different")
    assert flag(home).level == "urgent" and flag(home).facts == ("sign.calf",)
    assert home.client.hold is not None


def test_the_question_speaks_of_a_swollen_hot_or_sore_calf() -> None:
    (asked, *_) = TEXTS.readings("sign-calf", "en")
    assert all(word in asked for word in ("swollen", "hot", "sore", "calf"))
