"""A session under way: the check, the number, clocks and cues, rest, silence."""

from datetime import timedelta

from companion.core.effects import Put, Say
from companion.core.events import Control, Joined, Woke
from companion.core.observations import Answer, Bounds, CarerSeen, Ending, Quality, Reporter
from companion.core.programme import Supervision
from tests.core.home import Home, home
from tests.core.practice import CARER, CLIENT, THERAPIST, alone, full_plan, plan, planned


def holding(**more: object) -> Home:
    """A client in a hold on the screen's clock."""
    return home(plan(planned("press"), planned("together")), **more).start().check().reach(".hold")


def carer_holding() -> Home:
    """A client in a hold on the carer's clock, eyes closed."""
    return home(plan(planned("press"), planned("dark"), eyes_closed=True)).start().check().reach(".hold")


def timer_end_cues(home: Home) -> list[Say]:
    return [say for who in (CLIENT, CARER) for say in home.phone(who).said if say.words[0].key in ("time", "carer-time")]


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
