"""The carer's last word, and with it what they saw: kept beside what the client said."""

import pytest

from companion.core.observations import Answer, Bout, CarerSeen, Quality, Reporter
from tests.core.home import Home, home
from tests.core.practice import CARER, CLIENT, plan, planned


def finished(*exercises: str) -> Home:
    return home(plan(*(planned(name) for name in exercises))).start().check().finish(("clean",))


def choices(it: Home) -> list[str]:
    return [button.press.choice for button in it.phone(CARER).cards["carer"].buttons]


def said(it: Home) -> list[tuple[str, str]]:
    return [(one.question, one.answer) for one in it.all(Answer) if one.by is Reporter.CARER]


def test_all_is_well_stays_one_tap_and_says_nothing_of_steps() -> None:
    it = finished("press", "together")
    assert choices(it) == ["all_well", "saw_step", "happened"]
    it.press(CARER, "all_well")
    assert said(it) == [("carer_after", "all_well")] and choices(it) == []


def test_what_the_carer_saw_is_one_tap_too_and_leaves_what_the_client_said_as_it_is() -> None:
    it = finished("press", "together")
    it.press(CARER, "saw_step")
    assert said(it) == [("carer_after", "all_well"), ("carer_saw", "step_or_touch")]
    assert [bout.quality for bout in it.all(Bout)] == [Quality.CLEAN, Quality.CLEAN] and it.keys(CARER) == ["carer-thanks"]
    assert it.keys(CLIENT) == [], "no argument in the chat"


def test_where_nobody_stood_no_step_is_asked_about() -> None:
    assert choices(finished("sit")) == ["all_well", "happened"]


@pytest.mark.parametrize("again", ["all_well", "saw_step"])
def test_the_last_word_counts_once(again: str) -> None:
    it = finished("press", "together")
    presses = {button.press.choice: button.press for button in it.phone(CARER).cards["carer"].buttons}
    it.press(CARER, "saw_step")
    it.send(CARER, presses[again])
    assert len(said(it)) == 2 and it.replies[-1] is not None and it.replies[-1].key == "press-over"


def test_something_happened_is_never_too_late() -> None:
    it = finished("press", "together")
    late = next(button.press for button in it.phone(CARER).cards["carer"].buttons if button.press.choice == "happened")
    it.press(CARER, "all_well")
    it.wait(86400)
    it.send(CARER, late)
    assert it.held


def test_who_was_not_there_is_told_and_not_asked() -> None:
    it = home(plan(planned("press"), planned("together"))).start().reach("helper")
    it.press(CARER, "not_there")
    it.press(CLIENT, "seated")
    it.finish()
    assert it.ended[-1].carer is CarerSeen.ABSENT and choices(it) == []
