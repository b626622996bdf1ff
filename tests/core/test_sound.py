"""A session by sound: the voice note is the clock, silence while it plays, and tones that are heard before it is trusted."""

from dataclasses import replace
from datetime import timedelta

import pytest

from companion.core.effects import Put, Say
from companion.core.events import Arrived, Control, Joined, Prescribed, Why
from companion.core.hearing import tones
from companion.core.media import SoundCheck, SoundClock
from companion.core.observations import Bounds, BrokeBy, CarerSeen, Ending, Quality, Reporter
from companion.core.programme import Clock, Eyes, Place, Planned, Supervision
from companion.core.steps import Ask, Timed
from tests.core.everywhere import by_sound, waiting_ids
from tests.core.home import Home, home
from tests.core.practice import CARER, CLIENT, NINE, THERAPIST, plan, planned, sound_plan

ALONE = Supervision.WHEN_FORM_NEEDS


def by_sound_only(*items: Planned, **more: object) -> Home:
    """At the first set-up of a plan by sound, tones not yet tried."""
    return home(plan(*(items or (planned("together", clock=Clock.SOUND),)), **{"eyes_closed": True, **more})).start().check()


def playing(*items: Planned, **more: object) -> Home:
    """A note was sent, and nothing is heard of the client since."""
    return by_sound_only(*items, **more).reach(".note")


def right(it: Home) -> str:
    step = it.session.current
    assert isinstance(step, Ask) and isinstance(step.media, SoundCheck)
    return f"t{step.media.tones}"


def notes(it: Home) -> list[Say]:
    return [say for say in it.phone(CLIENT).said if isinstance(say.media, SoundClock)]


def test_every_step_of_a_session_by_sound_is_reached() -> None:
    """But for two kinds that stand in the script for nothing: see the same of the full plan."""
    script = by_sound()["sound-check.ready"].session.script
    screens = {step.id.rpartition(".")[0] for step in script.steps if isinstance(step, Timed) and step.tap is None}
    nothing = {"b1.0.count"} | {f"{name}.known" for name in screens if name.startswith("b")}
    assert waiting_ids(script) - set(by_sound()) == nothing


# --- the note -----------------------------------------------------------------------------------------------------


def test_a_session_wholly_by_sound_goes_to_its_end() -> None:
    it = home(sound_plan()).start().check().finish()
    assert it.ended[0].ending is Ending.DONE and it.ended[0].carer is CarerSeen.VERIFIED
    timed = [bout for bout in it.bouts if bout.exercise != "press"]
    assert {bout.clock for bout in timed} == {Clock.SOUND} and {bout.practised_s for bout in timed} == {60.0}
    assert {bout.quality for bout in timed} == {Quality.CLEAN} and {bout.reporter for bout in timed} == {Reporter.CLIENT}
    assert len(notes(it)) == len(timed) == 4


def test_the_note_holds_all_that_a_clock_needs_and_its_answers_stand_under_it() -> None:
    it = playing(planned("dark", clock=Clock.SOUND), into_place_s=30)
    (note,) = notes(it)
    media = note.media
    assert isinstance(media, SoundClock) and (media.into_place_s, media.seconds) == (30, 60)
    assert [line.key for line in media.before] == [
        "hand-hovering",
        "form-dark-shut.setup",
        "hand-hovering.then",
        "sound-starts",
    ]
    assert [line.key for line in media.after] == ["hand-down", "eyes-open", "feet-apart"]
    assert [button.press.choice for button in note.buttons] == ["clean", "not_quite", "unwell"] and note.put is Put.NEW


def test_from_the_note_to_the_answer_nothing_is_sent_and_no_end_is_called() -> None:
    it = playing()
    said = len(it.phone(CLIENT).said)
    it.wait(20 + 60 + 30 + it.rules.patience.nudge_s - 1)
    assert len(it.phone(CLIENT).said) == said and it.at.endswith(".note")


def test_silence_after_the_note_is_followed_up_client_then_carer_then_the_end() -> None:
    it = playing()
    patience = it.rules.patience
    it.wait(110 + patience.nudge_s)
    assert it.keys(CLIENT) == ["nudge", "sound-then"], "the question comes again, and no second note"
    assert it.phone(CLIENT).cards["session"].media is None
    it.wait(patience.carer_nudge_s - patience.nudge_s)
    assert it.keys(CARER) == ["nudge-carer", "nudge-carer-wrong"]
    it.wait(patience.no_word_s)
    assert it.ended[-1].ending is Ending.NO_WORD and it.bouts[-1].quality is Quality.UNKNOWN
    assert it.bouts[-1].practised_s is None


def test_a_hold_that_broke_is_told_by_its_tones_and_was_practised_to_its_end() -> None:
    it = playing()
    it.wait(100)
    it.press(CLIENT, "not_quite")
    it.press(CLIENT, "step")
    labels = [button.label for button in it.phone(CLIENT).cards["session"].buttons]
    assert [label.key for label in labels] == ["b-tones"] * 4 + ["b-when-unknown"]
    it.press(CLIENT, "q3")
    bout = it.bouts[-1]
    assert (bout.quality, bout.broke_by, bout.first_break) == (Quality.BROKE, BrokeBy.STEP, Bounds(30, 45))
    assert bout.practised_s == 60.0


def test_who_answers_before_the_note_can_have_been_played_through_has_an_unknown_time() -> None:
    it = playing()
    it.wait(79)
    it.press(CLIENT, "clean")
    assert (it.bouts[-1].quality, it.bouts[-1].practised_s) == (Quality.UNKNOWN, None)
    it = playing()
    it.wait(80)
    it.press(CLIENT, "clean")
    assert (it.bouts[-1].quality, it.bouts[-1].practised_s) == (Quality.CLEAN, 60.0)


def test_a_note_can_not_have_been_played_before_the_platform_took_it() -> None:
    it = by_sound_only().reach(".set")
    it.receipts = False
    it.press(CLIENT, "ready")
    it.wait(40)
    it.do(Arrived(it.now, it.tags[-1]))
    it.wait(79)
    it.press(CLIENT, "clean")
    assert it.bouts[-1].practised_s is None


def test_a_note_that_did_not_come_asks_and_sends_it_again_or_takes_the_answer() -> None:
    it = playing()
    it.lose(Why.UNDELIVERABLE)
    assert it.at.endswith(".no-note") and it.keys(CLIENT) == ["sound-did-not-come", "hand-down", "feet-apart"]
    again, heard = it.copy(), it.copy()
    again.press(CLIENT, "again")
    assert again.at.endswith(".note") and len(notes(again)) == 2
    heard.press(CLIENT, "heard")
    assert heard.at.endswith(".how")
    heard.press(CLIENT, "clean")
    assert [(bout.quality, bout.practised_s) for bout in heard.bouts] == [(Quality.CLEAN, 60.0)]
    it.press(CLIENT, "easier")
    assert it.at.endswith(".set") and not it.bouts, "what was never done leaves nothing behind"
    it.row(CLIENT, Control.ENOUGH)
    assert not it.bouts


def test_a_note_that_did_not_come_is_followed_up_as_for_somebody_who_stands() -> None:
    it = playing()
    it.lose(Why.EXPIRED)
    it.wait(it.rules.patience.nudge_s)
    assert it.keys(CLIENT)[0] == "nudge"


def test_a_note_is_not_sent_when_nobody_waits_for_it_any_more() -> None:
    (note,) = notes(playing())
    assert note.not_after is not None and note.tag is not None


def test_enough_in_a_note_ends_kindly_and_nobody_knows_how_far_it_went() -> None:
    it = playing()
    it.wait(50)
    it.row(CLIENT, Control.ENOUGH)
    assert it.ended[-1].ending is Ending.PARTLY
    assert (it.bouts[-1].quality, it.bouts[-1].practised_s, it.bouts[-1].reporter) == (Quality.UNKNOWN, None, Reporter.NOBODY)


def test_a_red_flag_in_a_note_stops_everything() -> None:
    it = playing()
    it.wait(30)
    it.row(CARER, Control.SOMETHING_WRONG)
    assert it.over and it.held and "emergency-stop" in it.keys(CLIENT)
    said = len([say for say in it.phone(CLIENT).said if say.topic == "session"])
    it.wait(3600)
    assert len([say for say in it.phone(CLIENT).said if say.topic == "session"]) == said


def test_the_carer_leaves_in_a_note_and_standing_ends_at_once() -> None:
    it = playing(planned("dark", clock=Clock.SOUND))
    it.wait(30)
    it.row(CARER, Control.HAD_TO_LEAVE)
    assert it.keys(CLIENT) == ["carer-left", "hand-down", "feet-apart", "sit-down"] and it.at == "carer-left"


def test_the_clock_in_words_says_how_to_play_it_and_when_to_stop() -> None:
    it = by_sound_only().reach(".set")
    assert "sound-ready-first" in it.keys(CLIENT)
    it.press(CLIENT, "ready")
    end = ["sound-last-tone", "hand-down", "feet-apart"]
    assert it.keys(CLIENT) == ["sound-play", "sound-lies", *end, "sound-stop", "sound-then"]


def test_starting_again_in_a_note_shows_its_question_and_no_second_note() -> None:
    it = playing()
    it.wait(120)
    it.do(Joined(it.now, CLIENT, again=True))
    assert it.keys(CLIENT) == ["sound-then"] and it.phone(CLIENT).cards["session"].buttons
    it.press(CLIENT, "clean")
    assert it.bouts[-1].quality is Quality.CLEAN


# --- is the sound heard? ------------------------------------------------------------------------------------------


def test_with_eyes_closed_nobody_gets_a_note_before_tones_were_heard() -> None:
    it = by_sound_only(planned("dark", clock=Clock.SOUND))
    assert it.at == "sound-check.ready" and not notes(it)
    it.press(CLIENT, "ready")
    it.wait(60)
    it.press(CLIENT, right(it))
    assert it.at.endswith(".set") and it.client.sound_heard_at == it.now
    it.press(CLIENT, "ready")
    assert it.at.endswith(".note")


def test_once_heard_the_sound_is_not_checked_again_in_this_session_nor_in_the_next() -> None:
    it = by_sound_only(planned("together", clock=Clock.SOUND), planned("tandem", clock=Clock.SOUND)).finish()
    assert it.heard(CLIENT).count("sound-check") == 1
    it.until(NINE + timedelta(days=1))
    it.press(CLIENT, "start")
    it.check()
    assert it.at.endswith(".set")


def test_a_wrong_number_makes_it_louder_and_tries_once_more_with_another_number() -> None:
    it = by_sound_only()
    it.press(CLIENT, "ready")
    first = right(it)
    it.press(CLIENT, "nothing")
    assert it.keys(CLIENT) == ["sound-louder", "sound-nearer", "sound-check-ready"]
    it.press(CLIENT, "ready")
    assert right(it) != first
    it.press(CLIENT, right(it))
    assert it.at.endswith(".set") and it.client.sound_heard_at is not None


@pytest.mark.parametrize("answers", [("nothing", "nothing"), ("wrong", "nothing")])
def test_a_check_that_fails_twice_goes_on_on_another_clock_and_the_therapist_is_told_once(answers: tuple[str, str]) -> None:
    it = by_sound_only(planned("together", clock=Clock.SOUND), planned("tandem", clock=Clock.SOUND))
    for answer in answers:
        it.press(CLIENT, "ready")
        others = {"t2", "t3", "t4"} - {right(it)}
        it.press(CLIENT, min(others) if answer == "wrong" else answer)
    assert it.keys(CLIENT)[:3] == ["sound-not-heard", "sound-without", "sound-told"]
    assert it.at.endswith(".other.set") and "phone-in-view" in it.keys(CLIENT)
    it.finish()
    assert not notes(it) and {bout.clock for bout in it.bouts} == {Clock.SCREEN} and it.ended[-1].ending is Ending.DONE
    assert it.heard(THERAPIST).count("sound-unheard-therapist") == 1 and it.client.sound_heard_at is None


def test_with_eyes_closed_and_no_sound_the_carer_keeps_the_time() -> None:
    it = by_sound_only(planned("dark", clock=Clock.SOUND))
    it.press(CLIENT, "without")
    it.finish()
    assert [(bout.form, bout.eyes, bout.clock) for bout in it.bouts] == [("shut", Eyes.CLOSED, Clock.CARER)]


def test_what_has_no_other_clock_is_left_out_and_counts_as_planned_and_not_done() -> None:
    it = home(
        plan(planned("press"), planned("dark", form="open", hardest="open", clock=Clock.SOUND), supervision=ALONE)
    ).start()
    it.check().reach("sound-check.ready")
    it.press(CLIENT, "without")
    assert it.keys(CLIENT)[:2] == ["sound-without", "sound-told"] and it.at == "effort"
    it.finish()
    assert (it.ended[-1].ending, it.ended[-1].done, it.ended[-1].planned) == (Ending.PARTLY, 1, 2)


def test_easier_after_a_failed_check_is_on_the_other_clock_too() -> None:
    it = by_sound_only(planned("tandem", clock=Clock.SOUND))
    it.press(CLIENT, "without")
    while "easier" in [button.press.choice for button in it.phone(CLIENT).buttons()]:
        it.press(CLIENT, "easier")
        assert it.at.endswith(".other.set")


def test_the_check_is_tried_again_in_the_next_session() -> None:
    it = by_sound_only()
    it.press(CLIENT, "without")
    it.finish()
    it.until(NINE + timedelta(days=1))
    it.press(CLIENT, "start")
    it.check()
    assert it.at == "sound-check.ready"


def test_who_heard_no_sound_of_a_note_tries_the_sound_again_with_a_new_number_and_nothing_is_recorded() -> None:
    it = by_sound_only()
    it.press(CLIENT, "ready")
    first = right(it)
    it.press(CLIENT, first)
    it.reach(".note")
    it.wait(100)
    it.press(CLIENT, "not_quite")
    it.press(CLIENT, "unheard")
    assert it.at == "sound-again.ready" and not it.bouts and it.client.sound_heard_at is None
    it.press(CLIENT, "ready")
    assert right(it) != first
    it.press(CLIENT, right(it))
    it.reach(".note")
    it.wait(100)
    it.press(CLIENT, "not_quite")
    it.press(CLIENT, "unheard")
    assert it.at.endswith(".other.set") and not it.bouts, "a second time in a session it goes on without sound"
    assert it.client.sound_heard_at is None


def test_another_place_wants_another_sound_check() -> None:
    it = by_sound_only().finish()
    assert it.client.sound_heard_at is not None and it.client.plan is not None
    here = replace(it.client.plan, version=2, minutes=25)
    it.do(Prescribed(it.now, here))
    assert it.client.sound_heard_at is not None
    it.do(Prescribed(it.now, replace(here, version=3, place=Place("sink", "shoes"))))
    assert it.client.sound_heard_at is None


def test_a_test_note_that_did_not_come_is_sent_again_or_goes_without() -> None:
    it = by_sound_only()
    it.press(CLIENT, "ready")
    it.lose(Why.UNDELIVERABLE)
    assert it.keys(CLIENT) == ["sound-did-not-come", "hand-down"]
    again = it.copy()
    again.press(CLIENT, "again")
    assert again.at == "sound-check.once.tones"
    it.press(CLIENT, "without")
    assert it.at.endswith(".other.set")


def test_a_check_that_grew_old_while_the_sound_was_tried_is_asked_again() -> None:
    it = by_sound_only()
    it.wait(it.rules.patience.check_fresh_s + 1)
    it.press(CLIENT, "ready")
    assert it.at == "check"
    it.check()
    assert it.at == "sound-check.ready"


def test_silence_in_a_sound_check_is_followed_up_for_somebody_stands() -> None:
    it = by_sound_only()
    it.press(CLIENT, "ready")
    it.wait(20 + 30 + it.rules.patience.nudge_s - 1)
    assert "nudge" not in it.heard(CLIENT)
    it.wait(1)
    assert it.keys(CLIENT) == ["nudge", "ask-tones"]


def test_the_numbers_of_tones_differ_and_are_2_to_4() -> None:
    drawn = {tones(seed) for seed in range(60)}
    assert drawn == {(a, b) for a in (2, 3, 4) for b in (2, 3, 4) if a != b}


def test_nobody_hears_of_a_failed_check_but_the_therapist_of_this_client() -> None:
    it = by_sound_only()
    it.press(CLIENT, "without")
    assert "sound-unheard-therapist" not in it.heard(CARER) + it.heard(CLIENT)
