"""Clocks and cues of a session, rest and quiet: what begins when, what ends it, what is kept of it."""

from datetime import timedelta

from companion.core.effects import Put
from companion.core.events import Arrived, Control, Woke
from companion.core.observations import Answer, Bounds, Ending, Quality, Reporter
from tests.core.home import carer_holding, holding, home
from tests.core.practice import CARER, CLIENT, plan, planned

# --- clocks and cues ----------------------------------------------------------------------------------------------


def test_a_hold_begins_when_the_platform_took_the_words_and_not_before() -> None:
    it = home(plan(planned("together"))).start().check()
    it.receipts = False
    it.press(CLIENT, "ready")
    assert it.session.clock_began is None
    it.wait(29)
    assert it.at.endswith(".into")
    it.wait(1)
    assert it.at.endswith(".again"), "a clock that never began is not run"


def test_an_end_cue_3_seconds_late_is_given_and_a_later_one_asks_what_happened() -> None:
    for late, step in ((3, ".how"), (3.5, ".lost")):
        it = holding()
        it.away(60 + late)
        assert it.at.endswith(step)
        assert ("time" in it.keys(CLIENT)) is (step == ".how")
        assert ("clock-stopped" in it.keys(CLIENT)) is (step == ".lost")


def test_an_end_cue_that_was_not_sent_in_time_asks_what_happened_and_the_time_stays_unknown() -> None:
    it = holding()
    it.receipts = False
    it.wait(60)
    it.lose()
    assert it.at.endswith(".lost")
    it.press(CLIENT, "held")
    assert (it.bouts[-1].quality, it.bouts[-1].practised_s, it.bouts[-1].first_break) == (Quality.UNKNOWN, None, None)


def test_a_go_that_was_lost_starts_no_clock() -> None:
    it = home(plan(planned("together"))).start().check()
    it.receipts = False
    it.press(CLIENT, "ready")
    it.lose()
    assert it.at.endswith(".again") and "clock-late" in it.keys(CLIENT)


def test_a_loss_that_is_told_after_the_receipt_changes_nothing() -> None:
    it = holding()
    it.lose()
    assert it.at.endswith(".hold")


def test_a_receipt_of_an_earlier_step_starts_no_clock() -> None:
    it = home(plan(planned("together"))).start().check()
    it.receipts = False
    it.press(CLIENT, "ready")
    it.lose()
    old = it.tags[-1]
    it.press(CLIENT, "ready")
    it.do(Arrived(it.now, old))
    assert it.session.clock_began is None


def test_a_receipt_that_comes_twice_starts_the_clock_once() -> None:
    it = holding()
    began = it.session.clock_began
    it.now += timedelta(seconds=20)
    it.do(Arrived(it.now, it.tags[-1]))
    assert it.session.clock_began == began


def test_the_carers_clock_begins_with_the_carers_press() -> None:
    it = home(plan(planned("dark"), eyes_closed=True)).start().check().reach(".start")
    it.wait(100)
    it.press(CARER, "start")
    began = it.now
    it.reach(".how")
    assert it.now - began == timedelta(seconds=60)
    assert "carer-time" in it.heard(CARER) and "time" in it.heard(CLIENT)


def test_the_moment_that_the_carer_tapped_is_shown_for_correction_and_kept() -> None:
    it = carer_holding()
    it.wait(22)
    it.press(CARER, "tap")
    it.reach(".how")
    it.press(CLIENT, "not_quite")
    assert it.at.endswith(".known")
    it.press(CLIENT, "right")
    it.press(CLIENT, "step")
    assert it.bouts[-1].first_break == Bounds(22.0, 22.0) and it.bouts[-1].reporter is Reporter.CARER


def test_only_the_first_tap_tells_the_moment() -> None:
    it = carer_holding()
    it.wait(22)
    it.press(CARER, "tap")
    it.wait(10)
    it.press(CARER, "tap")
    assert it.session.draft is not None
    assert it.session.draft.tapped_s == 22.0


def test_a_carer_who_saw_a_step_and_a_client_who_felt_none_are_both_in_the_record() -> None:
    it = carer_holding()
    it.wait(22)
    it.press(CARER, "tap")
    it.reach(".how")
    it.press(CLIENT, "clean")
    assert it.bouts[-1].quality is Quality.CLEAN
    taps = [answer for answer in it.all(Answer) if answer.question == "tap"]
    assert [(tap.answer, tap.by, tap.exercise) for tap in taps] == [("22.0", Reporter.CARER, "dark")]


def test_when_it_first_broke_is_kept_as_the_bounds_of_a_quarter() -> None:
    expected = {"q1": (0, 15), "q2": (15, 30), "q3": (30, 45), "q4": (45, 60), "unknown": (0, 60)}
    for choice, (low, high) in expected.items():
        it = holding().reach(".how")
        it.press(CLIENT, "not_quite")
        it.press(CLIENT, choice)
        it.press(CLIENT, "step")
        bout = it.bouts[-1]
        assert (bout.quality, bout.first_break, bout.practised_s) == (Quality.BROKE, Bounds(low, high), 60.0)


def test_a_clean_minute_is_known_to_have_lasted_to_its_end() -> None:
    it = holding().reach(".how")
    it.press(CLIENT, "clean")
    assert it.bouts[-1].first_break == Bounds(60.0, None)


def test_a_hold_over_the_change_of_the_clocks_is_as_long_as_any_other() -> None:
    """London's clocks go back at 01:00 UTC on 2026-10-25."""
    it = home(plan(planned("together")))
    it.now = it.now.replace(month=10, day=25, hour=0, minute=59, second=0)
    it.row(CLIENT, Control.MORE)
    it.press(CLIENT, "practise")
    it.check().reach(".hold")
    began = it.now
    it.reach(".how")
    assert it.now - began == timedelta(seconds=60) and began.hour == 0 and it.now.hour == 1


# --- rest and quiet -----------------------------------------------------------------------------------------------


def test_rest_has_a_least_time_and_no_most() -> None:
    it = home(plan(planned("tandem"), rest_s=60)).start().check().reach(".rest0")
    it.wait(59)
    assert it.at.endswith(".rest0")
    it.wait(1)
    assert it.at == "b2.4.set" and it.phone(CLIENT).said[-1].put is Put.IN_PLACE
    it.wait(3 * 3600)
    assert it.at == "b2.4.set"


def test_the_next_bout_starts_only_with_ready() -> None:
    it = home(plan(planned("tandem"))).start().check().reach("b2.4.set")
    it.wait(1000)
    it.press(CLIENT, "ready")
    assert it.at == "b2.4.into"


def test_from_ready_to_the_answer_the_phone_gets_only_the_clock_and_its_end() -> None:
    it = home(plan(planned("together"))).start().check()
    it.press(CLIENT, "ready")
    before = len(it.phone(CLIENT).said)
    it.reach(".how")
    said = it.phone(CLIENT).said[before:]
    assert [(say.words[0].key, say.put) for say in said] == [("hold-now", Put.IN_PLACE), ("time", Put.NEW)]
    assert said[0].buttons == (), "nothing to press while the clock runs"


def test_an_event_that_does_not_fit_changes_nothing() -> None:
    it = holding()
    was = it.client
    it.do(Woke(it.now))
    assert it.client == was


def test_a_second_side_that_no_ready_starts_is_followed_up_once_the_check_is_no_longer_fresh() -> None:
    """The result is what starts it, so a rest may be as long as the check is good, and no longer."""
    it = home(plan(planned("toes"))).start().check()
    checked = it.session.checked_at
    assert checked is not None
    it.reach("b2.2.count")
    it.until(checked + timedelta(seconds=1800 + 179))
    assert "nudge" not in it.heard(CLIENT)
    it.wait(1)
    assert "nudge" in it.keys(CLIENT)
    it.wait(420)
    assert it.over and it.ended[0].ending is Ending.NO_WORD


def test_enough_before_anybody_said_ready_does_not_say_that_a_bout_ended_early() -> None:
    seated = home(plan(planned("press"))).start().check()
    second = home(plan(planned("toes"))).start().check().reach("b2.2.count")
    ready = home(plan(planned("toes"))).start().check().reach("b1.2.count")
    for it, quality in ((seated, Quality.UNKNOWN), (second, Quality.UNKNOWN), (ready, Quality.ENDED_EARLY)):
        it.row(CLIENT, Control.ENOUGH)
        assert it.bouts[-1].quality is quality
