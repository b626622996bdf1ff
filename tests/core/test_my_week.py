"""The client's own week: kind, true, and unknown where nobody said."""

from datetime import timedelta

from companion.core.care import Past
from companion.core.effects import Report, Sheet
from companion.core.events import Control
from companion.core.observations import Ending
from companion.core.recent import Blank
from tests.core.home import Home, home
from tests.core.practice import CLIENT, MONDAY, alone, full_plan, plan, planned

TODAY = MONDAY.date()


def week(it: Home) -> dict[str, dict[str, object]]:
    """The lines of the week, by key, with what is filled in."""
    it.row(CLIENT, Control.MORE)
    it.press(CLIENT, "else")
    it.press(CLIENT, "week")
    return {line.key: dict(line.params) for line in it.phone(CLIENT).said[-1].words}


def past(days: int, ending: Ending = Ending.DONE, done: int = 2, practised_s: float = 0.0) -> Past:
    return Past(TODAY + timedelta(days=days), ending, done, 3, practised_s)


def test_a_week_without_practice_is_said_kindly() -> None:
    assert list(week(home(full_plan()))) == ["week-none", "week-none-kind"]


def test_days_parts_and_minutes_are_those_that_were_reported() -> None:
    it = home(plan(planned("press"), planned("together"))).start().check().finish(("clean",))
    lines = week(it)
    assert lines["week-days"] == {"days": "1"}
    assert lines["week-parts-and-minutes"] == {"parts": "2", "minutes": "1"}


def test_two_sessions_of_one_day_are_one_day() -> None:
    it = home(full_plan(), past=(past(0), past(0)))
    assert week(it)["week-days"] == {"days": "1"} and week(it)["week-parts"] == {"parts": "4"}


def test_what_was_before_monday_is_another_week() -> None:
    assert "week-none" in week(home(full_plan(), past=(past(-1),)))


def test_minutes_are_whole_ones_that_surely_ran() -> None:
    assert week(home(full_plan(), past=(past(0, practised_s=119.0),)))["week-parts-and-minutes"]["minutes"] == "1"
    assert "week-parts" in week(home(full_plan(), past=(past(0, practised_s=59.0),)))


def test_a_session_that_ended_without_word_is_said_to_be_unknown() -> None:
    lines = week(home(full_plan(), past=(past(0, Ending.NO_WORD, 0),)))
    assert lines["week-unsure"] == {"days": "1"} and "week-none" in lines


def test_only_who_has_a_carer_is_offered_what_the_carer_sees() -> None:
    for more, choices in (({}, ["goal", "sees"]), (alone(), ["goal"])):
        it = home(full_plan(), **more)
        week(it)
        assert [button.press.choice for button in it.phone(CLIENT).said[-1].buttons] == choices


def test_a_day_that_nobody_answered_is_unknown_and_a_declined_or_paused_one_is_not_mentioned() -> None:
    blanks = tuple(Blank(TODAY, ending) for ending in (Ending.NO_ANSWER, Ending.DECLINED, Ending.PAUSED, Ending.NOT_ASKED))
    assert [("week-unsure" in week(home(full_plan(), blanks=(blank,)))) for blank in blanks] == [True, False, False, False]


def test_the_same_week_comes_as_a_picture_of_the_clients_own() -> None:
    it = home(full_plan())
    week(it)
    asked = [effect for effect in it.last if isinstance(effect, Report)]
    assert [(one.to, one.sheet, (one.last - one.first).days) for one in asked] == [(CLIENT, Sheet.OWN_WEEK, 6)]
