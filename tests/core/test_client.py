"""The care of a client: reminders, days, reports, presses that come late, twice or from elsewhere."""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta

from companion.core import client as care
from companion.core.effects import Urgency
from companion.core.events import Control, Controlled, Joined, Left, Prescribed, Press
from companion.core.observations import DayClosed, Ending
from companion.core.programme import Practice, Quiet
from tests.core.home import Home, home
from tests.core.practice import CARER, CLIENT, CONTACT, MONDAY, NINE, STRANGER, THERAPIST, full_plan, plan, planned

TUESDAY_NINE = NINE + timedelta(days=1)


def reminders(it: Home, who: str = CLIENT) -> list[str]:
    return [key for key in it.heard(who) if key in ("reminder", "reminder-carer")]


# --- reminders ----------------------------------------------------------------------------------------------------


def test_the_reminder_goes_to_client_and_carer_and_only_the_client_can_start() -> None:
    it = home(full_plan())
    it.until(NINE)
    assert [button.press.choice for button in it.phone(CLIENT).buttons()] == ["start", "later", "not_today"]
    assert reminders(it, CARER) == ["reminder-carer"] and it.phone(CARER).buttons() == []


def test_nobody_is_reminded_on_a_day_that_is_not_agreed() -> None:
    it = home(full_plan())
    it.until(NINE + timedelta(days=5, hours=12))  # Saturday
    assert len(reminders(it)) == 5


def test_later_asks_again_after_half_an_hour_and_says_so() -> None:
    it = home(full_plan())
    it.until(NINE)
    it.press(CLIENT, "later")
    assert it.keys(CLIENT) == ["later"]
    it.wait(1799)
    assert len(reminders(it)) == 1
    it.wait(1)
    assert len(reminders(it)) == 2


def test_not_today_is_the_end_of_it_for_that_day_and_is_written_down_as_such() -> None:
    it = home(full_plan(practice=Practice((0, 1), (time(9), time(16)))))
    it.until(NINE)
    it.press(CLIENT, "not_today")
    it.until(TUESDAY_NINE)
    assert [closed.ending for closed in it.all(DayClosed)] == [Ending.DECLINED] and len(reminders(it)) == 2


def test_not_today_may_be_thought_better_of() -> None:
    it = home(full_plan())
    it.until(NINE)
    offer = it.phone(CLIENT).buttons()[0].press
    it.press(CLIENT, "not_today")
    it.send(CLIENT, offer)
    it.check().finish()
    it.until(TUESDAY_NINE)
    assert it.ended[0].ending is Ending.DONE and it.all(DayClosed) == []


def test_a_missed_day_is_unknown_and_the_next_one_is_reminded_as_ever() -> None:
    it = home(full_plan())
    it.until(TUESDAY_NINE)
    assert [(closed.day, closed.ending) for closed in it.all(DayClosed)] == [(date(2026, 11, 2), Ending.NO_ANSWER)]
    assert len(reminders(it)) == 2


def test_a_reminder_hours_late_is_skipped_and_the_day_counts_as_not_asked() -> None:
    it = home(full_plan())
    it.away(3600 + 7201)
    assert reminders(it) == []
    it.until(TUESDAY_NINE - timedelta(seconds=1))
    assert [closed.ending for closed in it.all(DayClosed)] == [Ending.NOT_ASKED]


def test_a_reminder_a_little_late_still_goes_out() -> None:
    it = home(full_plan())
    it.away(3600 + 7199)
    assert reminders(it) == ["reminder"]


def test_a_second_reminder_hours_late_or_on_another_day_is_skipped() -> None:
    for away in (5 * 3600, 20 * 3600):
        it = home(full_plan())
        it.until(NINE)
        it.press(CLIENT, "later")
        it.away(away)
        assert len(reminders(it)) == 1


def test_a_reminder_is_not_sent_when_its_day_is_over() -> None:
    it = home(full_plan(practice=Practice((0,), (time(23, 30),))))
    it.until(MONDAY.replace(hour=23))
    it.away(3600 + 600)
    assert reminders(it) == [] and [closed.ending for closed in it.all(DayClosed)] == [Ending.NOT_ASKED]


def test_nothing_is_sent_in_the_quiet_hours_however_the_alarm_is_late() -> None:
    quiet = Quiet(time(21), time(8))
    it = home(full_plan(practice=Practice((0,), (time(20),))), quiet=quiet)
    it.until(MONDAY.replace(hour=19))
    it.away(3600 + 5400)
    assert reminders(it) == []
    early = home(full_plan(practice=Practice((0, 1), (time(6),))), quiet=quiet)
    early.until(TUESDAY_NINE)
    assert len(reminders(early)) == 1 and early.phone(CLIENT).said[0].urgency is Urgency.REMINDER


def test_a_reminder_stays_at_nine_across_the_change_of_the_clocks() -> None:
    """Europe/London goes from BST to GMT on 2026-10-25: 09:00 is 08:00 UTC before and 09:00 UTC after."""
    saturday = datetime(2026, 10, 24, 5, tzinfo=UTC)
    it = home(full_plan(practice=Practice((5, 6), (time(9),))), looked_at=saturday, reported_at=saturday)
    it.now = saturday
    it.until(saturday.replace(day=26))
    closed = [when.day for when in it.all(DayClosed)]
    assert closed == [date(2026, 10, 24), date(2026, 10, 25)] and len(reminders(it)) == 2
    twin = home(full_plan(practice=Practice((5, 6), (time(9),))), looked_at=saturday, reported_at=saturday)
    twin.now = saturday
    assert twin.wake == saturday.replace(hour=8)
    twin.until(saturday.replace(day=25, hour=2))
    assert twin.wake == saturday.replace(day=25, hour=9)


def test_after_days_away_every_day_is_accounted_for_and_nobody_is_sent_old_reminders() -> None:
    it = home(full_plan())
    it.away(14 * 86400 - 1)
    assert reminders(it) == []
    assert len(it.all(DayClosed)) == 10 and {closed.ending for closed in it.all(DayClosed)} == {Ending.NOT_ASKED}


def test_years_away_are_caught_up_with() -> None:
    it = home(full_plan())
    it.away(3 * 365 * 86400)
    assert it.wake > it.now


def test_a_client_whose_phone_is_not_in_the_chat_is_not_reminded() -> None:
    it = home(full_plan(), joined=(THERAPIST,))
    it.until(TUESDAY_NINE)
    assert it.heard(CLIENT) == []
    it.do(Joined(it.now, CLIENT))
    it.until(TUESDAY_NINE + timedelta(days=1))
    assert reminders(it) == ["reminder"]


def test_who_blocked_the_companion_is_not_reminded_and_the_therapist_hears_of_it() -> None:
    it = home(full_plan())
    it.do(Left(it.now, CLIENT))
    assert it.keys(THERAPIST) == ["left-therapist"]
    it.until(NINE)
    assert reminders(it) == []


# --- two practices a day, midnight --------------------------------------------------------------------------------


def test_two_practices_a_day_are_both_offered_whole() -> None:
    it = home(full_plan(practice=Practice((0,), (time(9), time(16)))))
    it.until(NINE)
    it.press(CLIENT, "start")
    it.check().finish()
    it.until(NINE.replace(hour=16))
    it.press(CLIENT, "start")
    it.check().finish()
    assert [(end.ending, end.done) for end in it.ended] == [(Ending.DONE, 9), (Ending.DONE, 9)]


def test_who_practised_before_the_reminder_is_not_reminded_that_day() -> None:
    it = home(full_plan())
    it.row(CLIENT, Control.MORE)
    it.press(CLIENT, "practise")
    it.check().finish()
    it.until(TUESDAY_NINE)
    assert len(reminders(it)) == 1 and it.all(DayClosed) == []


def test_after_everything_is_done_nothing_is_left_for_that_day() -> None:
    it = home(full_plan()).start().check().finish()
    it.row(CLIENT, Control.MORE)
    it.press(CLIENT, "practise")
    assert it.keys(CLIENT) == ["nothing-left"]


def test_after_enough_only_what_is_left_is_offered_after_a_new_check() -> None:
    it = home(full_plan()).start().check().reach("b3.4.set")
    it.row(CLIENT, Control.ENOUGH)
    assert it.keys(CLIENT)[0] == "closing-enough" and it.ended[0].ending is Ending.PARTLY
    it.row(CLIENT, Control.MORE)
    it.press(CLIENT, "practise")
    assert it.at == "check"
    it.check().finish()
    assert [bout.exercise for bout in it.bouts[:3]] == ["press", "together", "tandem"] and it.ended[1].done == 7


def test_a_session_over_midnight_belongs_to_the_day_on_which_it_began() -> None:
    it = home(full_plan(practice=Practice((0, 1), (time(23, 55),))))
    it.until(MONDAY.replace(hour=23, minute=55))
    it.press(CLIENT, "start")
    it.check().finish()
    assert it.now.day == 3 and [end.day for end in it.ended] == [date(2026, 11, 2)]
    it.until(TUESDAY_NINE.replace(hour=23, minute=55))
    it.press(CLIENT, "start")
    assert len(it.session.script.bouts) == 9, "yesterday's bouts are not today's"
    it.check().finish()
    assert [end.day for end in it.ended] == [date(2026, 11, 2), date(2026, 11, 3)] and it.all(DayClosed) == []


def test_the_day_after_a_session_over_midnight_is_still_accounted_for() -> None:
    it = home(full_plan(practice=Practice((0, 1), (time(23, 55),))))
    it.until(MONDAY.replace(hour=23, minute=55))
    it.press(CLIENT, "start")
    it.check().finish()
    it.until(TUESDAY_NINE + timedelta(days=1))
    assert [(closed.day, closed.ending) for closed in it.all(DayClosed)] == [(date(2026, 11, 3), Ending.NO_ANSWER)]


# --- presses that do not fit --------------------------------------------------------------------------------------


def test_another_days_buttons_are_answered_kindly_and_change_nothing() -> None:
    it = home(full_plan())
    it.until(NINE)
    old = it.phone(CLIENT).buttons()[0].press
    it.until(TUESDAY_NINE)
    was = it.client
    it.send(CLIENT, old)
    assert it.client == was and it.replies[-1] is not None and it.replies[-1].key == "press-another-day"


def test_a_press_is_counted_once() -> None:
    it = home(full_plan()).start().check()
    once = it.phone(CLIENT).buttons()[0].press
    it.send(CLIENT, once)
    it.send(CLIENT, once)
    assert len(it.bouts) == 1 and it.replies[-1] is not None and it.replies[-1].key == "press-stale"


def test_a_button_of_a_session_that_is_over_is_answered_kindly() -> None:
    it = home(full_plan()).start()
    press = it.phone(CLIENT).buttons()[0].press
    it.row(CLIENT, Control.ENOUGH)
    was = it.client
    it.send(CLIENT, press)
    assert it.client == was and it.replies[-1] is not None and it.replies[-1].key == "press-over"


def test_a_press_of_another_client_changes_nothing() -> None:
    """Session names are each client's own, so the same one exists next door."""
    it = home(full_plan()).start()
    there = it.phone(CLIENT).buttons()[0].press
    was = it.client
    it.send(CLIENT, Press("c2", there.scope, there.step, there.choice))
    assert it.client == was


def test_a_stranger_changes_nothing_by_any_press() -> None:
    reminded = home(full_plan())
    reminded.until(NINE)
    for it in (reminded, home(full_plan()).start()):
        was = it.client
        for by in (STRANGER, CONTACT, THERAPIST):
            for press in [button.press for button in it.phone(CLIENT).buttons()] + [Press("c1", "menu", "more", "fell")]:
                it.send(by, press)
                assert it.client == was


def test_start_pressed_in_a_session_shows_the_question_again() -> None:
    it = home(full_plan())
    it.until(NINE)
    start = it.phone(CLIENT).buttons()[0].press
    it.send(CLIENT, start)
    it.send(CLIENT, start)
    assert it.at == "check" and "how-are-you" in it.keys(CLIENT) and len(it.phone(CLIENT).buttons()) == 2


def test_a_row_press_outside_a_session_gets_one_kind_line() -> None:
    it = home(full_plan())
    for by, control in ((CLIENT, Control.ENOUGH), (CARER, Control.HAD_TO_LEAVE)):
        it.do(Controlled(it.now, by, control))
        assert it.keys(by) == ["nothing-runs"]


# --- sign by sign -------------------------------------------------------------------------------------------------


def test_the_check_is_sign_by_sign_in_the_first_three_sessions_after_a_gap_and_after_a_flag() -> None:
    assert home(full_plan()).start().at == "check"
    assert home(full_plan(), sessions=2).start().at == "check.balance"
    assert home(full_plan(), last_session_at=NINE - timedelta(days=7)).start().at == "check.balance"
    assert home(full_plan(), flagged_since=True).start().at == "check.balance"


# --- plans, reports -----------------------------------------------------------------------------------------------


def test_without_a_plan_nothing_is_due_and_the_first_plan_starts_now() -> None:
    it = home(None)
    assert care.wake_at(it.client, it.rules) is None
    it.do(Prescribed(it.now, full_plan()))
    assert it.wake == NINE and it.heard(CLIENT) == []


def test_a_plan_that_the_library_no_longer_fits_starts_nothing_and_says_whom_to_ask() -> None:
    gone = replace(full_plan(), exercises=(replace(planned("press"), exercise="gone"),))
    unknown = replace(full_plan(), exercises=(replace(planned("press"), hardest="gone"),))
    for of in (gone, unknown):
        it = home(of).start()
        assert it.over and it.keys(CLIENT) == ["no-plan"]


def test_a_new_plan_makes_nothing_due_in_the_past() -> None:
    it = home(full_plan(practice=Practice((0, 1), (time(9),))))
    it.until(NINE.replace(hour=15))
    new = full_plan(practice=Practice((0, 1), (time(10),)))
    it.do(Prescribed(it.now, new))
    assert it.wake > it.now
    it.until(TUESDAY_NINE)
    assert [closed.ending for closed in it.all(DayClosed)] == [Ending.NO_ANSWER], "Monday was asked at nine"


def test_what_the_old_plan_made_due_is_seen_to_before_the_new_one_holds() -> None:
    it = home(full_plan())
    it.now = NINE  # the alarm has not gone off yet
    it.do(Prescribed(it.now, full_plan(practice=Practice((0,), (time(8),)))))
    assert reminders(it) == ["reminder"]


def test_a_new_plan_changes_nothing_in_a_session_under_way_and_keeps_quiet_in_a_stance() -> None:
    it = home(plan(planned("together"))).start().check().reach(".hold")
    heard = len(it.phone(CLIENT).said)
    it.do(Prescribed(it.now, plan(planned("press"))))
    assert len(it.phone(CLIENT).said) == heard
    it.finish()
    assert [bout.exercise for bout in it.bouts] == ["together"]


def test_a_session_and_an_open_flag_are_looked_at_before_reminders() -> None:
    it = home(full_plan())
    assert care.wake_class(it.client) == 1
    it.start()
    assert care.wake_class(it.client) == 0
    it.row(CLIENT, Control.SOMETHING_WRONG)
    assert care.wake_class(it.client) == 0


def test_a_fall_without_an_answer_is_looked_at_first_though_the_alert_was_seen() -> None:
    it = home(full_plan())
    it.row(CLIENT, Control.MORE)
    it.press(CLIENT, "fell")
    it.press(THERAPIST, "seen")
    assert care.wake_class(it.client) == 0


def test_a_countdown_runs_only_while_a_clock_does() -> None:
    it = home(plan(planned("together"))).start().check()
    assert care.countdowns(it.client, it.rules) == ()
    it.reach(".hold")
    (running,) = care.countdowns(it.client, it.rules)
    assert (running.to, running.seconds, running.began) == (CLIENT, 60, it.now)
    it.reach(".how")
    assert care.countdowns(it.client, it.rules) == ()
