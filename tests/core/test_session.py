"""A session under way: the check, the number, a carer who has to leave, silence."""

from collections.abc import Callable
from datetime import timedelta

import pytest

from companion.core.events import Control, Joined
from companion.core.observations import Bounds, CarerSeen, Ending, Quality, Reporter
from companion.core.programme import Posture, Supervision
from tests.core.home import Home, holding, home
from tests.core.practice import CARER, CLIENT, THERAPIST, full_plan, plan, planned

# --- what was answered stays --------------------------------------------------------------------------------------


def test_enough_after_a_whole_hold_leaves_how_it_went_unknown() -> None:
    it = holding().reach(".how")
    it.row(CLIENT, Control.ENOUGH)
    assert [(bout.quality, bout.practised_s, bout.reporter) for bout in it.bouts[1:]] == [
        (Quality.UNKNOWN, 60.0, Reporter.NOBODY)
    ]


def test_enough_in_mid_hold_is_written_down_as_ended_early_with_the_time_it_ran() -> None:
    it = holding()
    it.wait(23)
    it.row(CLIENT, Control.ENOUGH)
    assert [(bout.quality, bout.practised_s) for bout in it.bouts[1:]] == [(Quality.ENDED_EARLY, 23.0)]


def test_what_was_told_of_a_bout_is_kept_when_the_session_is_cut_off() -> None:
    for stop in (Control.ENOUGH, Control.SOMETHING_WRONG):
        it = holding().reach(".how")
        it.press(CLIENT, "not_quite")
        it.press(CLIENT, "q2")
        it.row(CLIENT, stop)
        assert [(bout.quality, bout.first_break) for bout in it.bouts[1:]] == [(Quality.BROKE, Bounds(15.0, 30.0))]


# --- silence ------------------------------------------------------------------------------------------------------


def test_after_a_standing_bout_the_client_is_nudged_at_3_minutes_and_the_carer_told_at_5() -> None:
    it = holding().reach(".how")
    it.wait(179)
    assert "nudge" not in it.heard(CLIENT)
    it.wait(1)
    assert "nudge" in it.keys(CLIENT) and "ask-how" in it.keys(CLIENT)
    it.wait(119)
    assert "nudge-carer" not in it.heard(CARER)
    it.wait(1)
    assert it.keys(CARER)[0] == "nudge-carer"


def test_silence_after_a_standing_bout_ends_without_word_and_is_never_counted_as_done() -> None:
    it = holding().reach(".how")
    it.wait(600)
    assert [(end.ending, end.done) for end in it.ended] == [(Ending.NO_WORD, 1)]
    assert it.bouts[-1].quality is Quality.UNKNOWN and it.bouts[-1].reporter is Reporter.NOBODY
    assert "no-word-therapist" in it.heard(THERAPIST) and "no-word-carer" in it.heard(CARER)


def test_an_answer_after_the_nudge_counts_and_stops_the_following_up() -> None:
    it = holding().reach(".how")
    it.wait(200)
    it.press(CLIENT, "clean")
    it.wait(1000)
    assert it.bouts[-1].quality is Quality.CLEAN and "nudge-carer" not in it.heard(CARER)


def test_silence_after_a_standing_bout_is_told_however_late_it_is_seen() -> None:
    it = holding().reach(".how")
    it.away(5 * 3600)
    assert it.ended[0].ending is Ending.NO_WORD and "no-word-therapist" in it.heard(THERAPIST)


def test_silence_of_somebody_who_got_into_place_and_whose_clock_never_began_is_followed_up() -> None:
    late = home(plan(planned("together"))).start().check().reach(".into")
    late.away(60)
    waiting = home(plan(planned("dark"), eyes_closed=True)).start().check().reach(".start")
    waiting.wait(300)
    for it in (late, waiting):
        assert it.at.endswith(".again")
        it.wait(600)
        assert it.ended[0].ending is Ending.NO_WORD and "no-word-therapist" in it.heard(THERAPIST)


def test_silence_between_bouts_is_no_alarm() -> None:
    it = home(plan(planned("press"), planned("together"))).start().check().reach(".set")
    it.wait(4 * 3600)
    assert it.ended[0].ending is Ending.PARTLY and "no-word-therapist" not in it.heard(THERAPIST)


# --- the safety check ---------------------------------------------------------------------------------------------


def test_different_or_not_sure_with_no_sign_found_means_not_today_and_the_therapist_is_told() -> None:
    it = home(full_plan()).start()
    it.press(CLIENT, "different")
    assert it.keys(CLIENT)[:1] == ["emergency-stop"]
    for _ in it.rules.signs:
        it.press(CLIENT, "same")
    assert it.ended[0].ending is Ending.NOT_READY and "unsure-therapist" in it.heard(THERAPIST)
    it.row(CLIENT, Control.MORE)
    it.press(CLIENT, "practise")
    assert it.keys(CLIENT) == ["off-today"]


def unsure_client() -> Home:
    it = home(full_plan()).start()
    it.press(CLIENT, "different")
    return it


def unsure_carer() -> Home:
    it = home(full_plan()).start().reach("helper")
    it.press(CARER, "different")
    return it


LEAVES: dict[str, Callable[[Home], object]] = {
    "silence": lambda it: it.wait(600),
    "a late wake": lambda it: it.away(5 * 3600),
    "enough": lambda it: it.row(CLIENT, Control.ENOUGH),
    "the carer leaves": lambda it: it.row(CARER, Control.HAD_TO_LEAVE),
}


@pytest.mark.parametrize("leave", LEAVES)
def test_a_doubt_that_nobody_follows_up_never_ends_in_practice(leave: str) -> None:
    """Silence, "enough" and a carer who leaves are no answer to "is something different?"."""
    for doubtful in (unsure_client, unsure_carer):
        it = doubtful()
        LEAVES[leave](it)
        assert it.over and it.ended[0].ending is Ending.NOT_READY
        assert "unsure-therapist" in it.heard(THERAPIST) and "unsure-today" in it.heard(CLIENT)
        it.row(CLIENT, Control.MORE)
        it.press(CLIENT, "practise")
        assert it.keys(CLIENT) == ["off-today"]


def test_a_sign_that_the_carer_sees_is_a_red_flag() -> None:
    it = unsure_carer()
    assert "emergency-go" in it.heard(CARER) and it.keys(CLIENT)[-2:] == ["carer-looks", "sit-down"]
    assert "emergency-stop" in it.heard(CLIENT)
    it.press(CARER, "different")
    assert set(it.hold.facts) == {"sign.balance", "carer_different"}


def test_a_wrong_number_proves_nothing_and_a_new_one_is_asked_for() -> None:
    it = home(full_plan()).start().reach("helper")
    first = it.session.numbers
    it.press(CARER, f"n{first[1]}")
    assert it.at == "helper" and it.session.numbers[0] != first[0]
    assert "gate-carer-wrong" in it.keys(CARER) and "gate-client" in it.keys(CLIENT)
    it.number()
    assert it.at == "b1.1.count" and it.session.carer is CarerSeen.VERIFIED


def test_after_three_wrong_numbers_nobody_is_taken_to_be_there() -> None:
    it = home(full_plan()).start().reach("helper")
    for _ in range(3):
        it.press(CARER, f"n{it.session.numbers[1]}")
    assert it.at == "carer-not-there" and it.session.carer is not CarerSeen.VERIFIED
    it.press(CLIENT, "seated")
    assert it.session.draft is not None and it.session.draft.spec.posture is Posture.SEATED


def test_a_right_number_forgets_the_wrong_ones() -> None:
    it = home(full_plan()).start().reach("helper")
    for _ in range(2):
        it.press(CARER, f"n{it.session.numbers[1]}")
    it.number()
    assert it.session.wrong_numbers == 0 and it.session.carer is CarerSeen.VERIFIED


def test_only_the_carer_can_pick_the_number() -> None:
    it = home(full_plan()).start().reach("helper")
    shown = next(button.press for button in it.phone(CARER).buttons() if button.press.choice == f"n{it.session.numbers[0]}")
    for other in (CLIENT, THERAPIST, "nobody"):
        it.send(other, shown)
        assert it.at == "helper"


def test_a_number_picked_after_the_carer_was_given_up_counts_for_nothing() -> None:
    it = home(full_plan()).start().reach("helper")
    it.now += timedelta(seconds=601)  # the alarm has not gone off yet
    it.number()
    assert it.at == "no-carer"


def test_a_start_pressed_after_the_carers_clock_was_called_off_starts_nothing() -> None:
    it = home(plan(planned("dark"), eyes_closed=True)).start().check().reach(".start")
    it.now += timedelta(seconds=400)  # the alarm has not gone off yet
    it.press(CARER, "start")
    assert it.at.endswith(".again") and it.bouts == []


def test_a_carer_who_does_not_come_leaves_seated_exercises_or_later() -> None:
    it = home(full_plan()).start().reach("helper")
    it.wait(600)
    assert it.at == "no-carer" and {button.press.choice for button in it.phone(CLIENT).buttons()} == {"seated", "later"}
    it.press(CLIENT, "seated")
    it.finish()
    assert {bout.exercise for bout in it.bouts} == {"press", "sit"}
    assert (it.ended[0].ending, it.ended[0].carer) == (Ending.PARTLY, CarerSeen.ABSENT)


def test_a_carer_who_is_not_there_and_no_seated_exercise_leaves_only_later() -> None:
    it = home(plan(planned("together"))).start().reach("helper")
    it.press(CARER, "not_there")
    assert [button.press.choice for button in it.phone(CLIENT).buttons()] == ["later"]
    it.press(CLIENT, "later")
    it.wait(1800)
    assert it.keys(CLIENT)[0] == "reminder"


def test_a_check_is_good_for_30_minutes_and_is_then_asked_again_before_anybody_stands() -> None:
    for late, again in ((1799, False), (1801, True)):
        it = home(plan(planned("together"))).start().check()
        assert it.at == "b1.3.set"
        it.wait(late)
        it.press(CLIENT, "ready")
        assert it.at == ("check" if again else "b1.3.into")


def test_after_the_second_check_the_session_goes_on_where_it_was() -> None:
    it = home(plan(planned("press"), planned("together"), planned("tandem"))).start().check().reach("b3.4.set")
    it.wait(1801)
    it.press(CLIENT, "ready")
    it.check()
    assert it.at == "b3.4.set"
    it.finish()
    assert [bout.exercise for bout in it.bouts] == ["press", "together", "tandem", "tandem"] and it.ended[
        0
    ].ending is Ending.DONE


def test_an_answer_of_the_check_does_not_wait_for_the_next_one_longer_than_the_check_is_good() -> None:
    """Well at nine and "all ready" at noon: nobody asked in between."""
    it = home(plan(planned("together"))).start()
    it.press(CLIENT, "same")
    it.wait(1801)
    assert it.at == "check"
    by_sign = home(plan(planned("together")), sessions=0).start()
    by_sign.press(CLIENT, "same")
    by_sign.wait(1801)
    assert by_sign.at == "check.balance"


def test_not_ready_waits_and_ends_kindly() -> None:
    it = home(full_plan()).start()
    it.press(CLIENT, "same")
    it.press(CLIENT, "not_ready")
    assert it.at == "place-wait"
    it.press(CLIENT, "not_today")
    assert it.ended[0].ending is Ending.NOT_READY and "not-today-kind" in it.heard(CLIENT)


# --- the carer had to leave ---------------------------------------------------------------------------------------


def test_a_carer_who_leaves_ends_standing_at_once() -> None:
    it = holding()
    it.wait(20)
    it.row(CARER, Control.HAD_TO_LEAVE)
    assert it.at == "carer-left" and {"hand-down", "feet-apart", "sit-down"} <= set(it.keys(CLIENT))
    assert [(bout.quality, bout.practised_s) for bout in it.bouts[1:]] == [(Quality.ENDED_EARLY, 20.0)]


def test_a_carer_who_comes_back_needs_a_new_check_and_a_new_number() -> None:
    it = holding()
    old = it.session.numbers
    it.row(CARER, Control.HAD_TO_LEAVE)
    it.press(CLIENT, "back")
    assert it.at == "check-back", "one look is enough for who was checked a while ago"
    it.press(CLIENT, "same")
    it.press(CLIENT, "ready")
    assert it.at == "helper" and it.session.numbers[0] != old[0]
    it.number()
    assert it.at == "b2.3.set"


def test_a_bout_that_is_done_is_not_asked_for_again_when_the_carer_comes_back() -> None:
    for where in ("i1.rest0", "effort"):
        it = home(plan(planned("press"), planned("tandem"))).start().check().reach(where)
        it.row(CARER, Control.HAD_TO_LEAVE)
        it.press(CLIENT, "back")
        it.check().finish()
        assert [bout.exercise for bout in it.bouts] == ["press", "tandem", "tandem"]
        assert (it.ended[0].done, it.ended[0].planned) == (3, 3)


def test_a_carer_who_joined_after_the_start_and_leaves_again_breaks_nothing() -> None:
    """The script of that session knows of no carer."""
    single = plan(planned("press"), planned("together"), supervision=Supervision.WHEN_FORM_NEEDS)
    it = home(single, joined=(CLIENT, THERAPIST)).start().check()
    it.do(Joined(it.now, CARER))
    it.row(CARER, Control.HAD_TO_LEAVE)
    assert it.at == "b1.1.count"
