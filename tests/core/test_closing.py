"""How a session is closed: what is written down, the last words, and the carer's."""

from datetime import time, timedelta

from companion.core.events import Control
from companion.core.observations import Answer, DayClosed, Ending, FlagRaised
from companion.core.programme import Practice, Supervision
from tests.core.home import home
from tests.core.practice import CARER, CLIENT, MONDAY, THERAPIST, alone, full_plan, plan, planned


def test_the_closing_counts_what_was_done_and_how_much_of_it_was_clean() -> None:
    it = home(plan(planned("press"), planned("tandem"))).start().check().finish()
    params = {line.key: dict(line.params) for line in it.phone(CLIENT).said[-1].words}
    assert params["closing-all"]["planned"] == "3" and params["closing-clean"]["clean"] == "2"
    assert {"hand-down", "feet-apart", "closing-sit"} <= set(params)


def test_the_carer_is_asked_whether_all_is_well_and_the_answer_is_kept() -> None:
    it = home(plan(planned("press"))).start().check().finish()
    it.press(CARER, "all_well")
    kept = [answer for answer in it.all(Answer) if answer.question == "carer_after"]
    assert [(answer.answer, answer.session) for answer in kept] == [("all_well", it.ended[0].session)] and not it.held


def test_something_happened_is_a_red_flag() -> None:
    it = home(plan(planned("press"))).start().check().finish()
    it.press(CARER, "happened")
    assert it.held and "flag-ask-what" in it.keys(CARER)


def test_what_happened_in_the_last_session_is_heard_though_the_next_one_runs() -> None:
    it = home(plan(planned("press"), planned("together"), supervision=Supervision.WHEN_FORM_NEEDS)).start().check()
    it.row(CLIENT, Control.ENOUGH)
    it.row(CLIENT, Control.MORE)
    it.press(CLIENT, "practise")
    assert not it.over
    it.press(CARER, "happened")
    assert it.held and it.over


def test_effort_is_asked_once_at_the_end_and_goes_into_the_record() -> None:
    it = home(plan(planned("press"), planned("tandem"))).start().check().reach("effort")
    it.press(CLIENT, "hard")
    it.press(CLIENT, "a_little_sure")
    assert it.ended[0].effort == "hard" and it.heard(CLIENT).count("ask-effort") == 1


def test_confidence_is_asked_once_a_week() -> None:
    it = home(plan(planned("press"), planned("tandem"))).start().check().finish()
    assert it.heard(CLIENT).count("ask-confidence") == 1
    it.until(it.now + timedelta(days=1))
    it.start().check().finish()
    assert it.heard(CLIENT).count("ask-confidence") == 1


def test_a_session_with_nobody_to_ask_closes_without_a_carer() -> None:
    it = home(plan(planned("press"), supervision=Supervision.WHEN_FORM_NEEDS), **alone()).start().check().finish()
    assert it.ended[0].ending is Ending.DONE and it.client.after is None and CARER not in it.phones


def test_later_ends_the_session_kindly_and_is_no_practice() -> None:
    it = home(full_plan()).start().reach("helper")
    it.press(CARER, "not_there")
    it.press(CLIENT, "later")
    assert it.over and it.ended == [] and it.keys(CLIENT)[0] == "later" and it.client.sessions == 3
    it.until(MONDAY.replace(hour=23, minute=59))
    assert it.keys(THERAPIST) == []


def test_the_days_of_a_gap_start_with_the_last_session_in_which_something_was_done() -> None:
    it = home(full_plan()).start()
    it.row(CLIENT, Control.ENOUGH)
    assert it.client.last_session_at is not None and it.client.last_session_at < MONDAY
    done = home(full_plan()).start().check().finish()
    assert done.client.last_session_at == done.ended[0].at and done.client.sessions == 4


def test_something_happened_is_never_too_late_to_say() -> None:
    """The client pressed by mistake, and the carer answers the closing question afterwards."""
    it = home(plan(planned("press"))).start().check().finish()
    happened = next(button.press for button in it.phone(CARER).buttons() if button.press.choice == "happened")
    it.row(CLIENT, Control.SOMETHING_WRONG)
    it.press(CLIENT, "mistake")
    raised = len(it.all(FlagRaised))
    it.send(CARER, happened)
    assert it.keys(CARER)[:1] == ["emergency-go"] and "flag-ask-what" in it.keys(CARER) and len(it.all(FlagRaised)) == raised
    it.lift()
    it.send(CARER, happened)
    assert it.held


def test_a_session_put_off_after_midnight_leaves_its_day_accounted_for() -> None:
    it = home(full_plan(practice=Practice((0,), (time(23, 55),))))
    it.until(MONDAY.replace(hour=23, minute=55))
    it.press(CLIENT, "start")
    it.reach("helper")
    it.wait(600)
    it.press(CLIENT, "later")
    assert [(end.day.day, end.ending) for end in it.ended] == [(2, Ending.NO_ANSWER)] and it.all(DayClosed) == []
