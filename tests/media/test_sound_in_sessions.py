"""The voice notes that sessions really ask for: every exercise on the sound's clock, in every form that can have it."""

import io
from collections.abc import Iterator
from dataclasses import replace
from datetime import time
from functools import cache

import pytest
import soundfile

from companion.content import library
from companion.content.folders import content_dir
from companion.core.how import How
from companion.core.media import SoundCheck, SoundClock
from companion.core.programme import Clock, Exercise, Form, Measure, Place, Plan, Planned, Practice, ReportTime, Side, Sides
from companion.core.script import compile_session
from companion.core.showing import SPOKEN_S
from companion.core.steps import Ask, Sounded
from companion.core.words import Words
from companion.media.sound import engine, notes, ogg, speech
from companion.media.sound.making import make
from companion.media.sound.tones import Samples
from tests.media.listening import TEXTS

RULES = library.load(content_dir()).rules("000")
HOW = How("s1", "mara", "Mara", "mara", "tomas", "000", False, RULES.signs, RULES.patience)
CASES = [
    (exercise, form)
    for exercise in RULES.exercises.values()
    if Clock.SOUND in exercise.clocks
    for form in exercise.forms
    if form.measure is Measure.TIMED
]
needs_engine = pytest.mark.skipif(engine.engine() is None, reason=f"no {engine.PROGRAM} here, so nothing can be spoken")


@cache
def say(words: Words) -> Samples | None:
    return speech.spoken(TEXTS.text(words, "en"), "en")


def of_session(exercise: Exercise, form: Form) -> Iterator[SoundClock | SoundCheck]:
    """Every note in a session of this one exercise, with everything permitted, for one good hand and for two."""
    sides = () if exercise.sides is Sides.NONE else (Side.STRONGER, Side.WEAKER)
    hand = form.hands[-1]
    item = Planned(exercise.id, form.id, form.target, hand, Clock.SOUND, form.id, hand, sides)
    timed = Practice((0,), (time(10),)), ReportTime(0, time(8), "UTC")
    plan = Plan(1, (item,), *timed, Place("worktop", "shoes"), eyes_closed=True, into_place_s=30)
    for one_good_hand in (False, True) if not form.needs_two_hands else (False,):
        script = compile_session(replace(plan, one_good_hand=one_good_hand), RULES.exercises, HOW)
        for step in script.steps:
            if isinstance(step, Ask | Sounded) and isinstance(step.media, SoundClock | SoundCheck):
                yield step.media


def every_note() -> set[SoundClock | SoundCheck]:
    return {media for exercise, form in CASES for media in of_session(exercise, form)}


def test_there_are_clocks_and_checks() -> None:
    assert {type(media) for media in every_note()} == {SoundClock, SoundCheck}
    assert len(CASES) > 5


@needs_engine
def test_no_note_speaks_longer_than_a_session_allows_for_before_it_follows_up_a_silence() -> None:
    for media in every_note():
        note = notes.clock(media, say) if isinstance(media, SoundClock) else notes.check(media, say)
        holds = media.seconds if isinstance(media, SoundClock) else 0
        assert note.seconds - media.into_place_s - holds <= SPOKEN_S, media


@needs_engine
def test_the_note_with_the_most_to_say_is_under_150_kb() -> None:
    longest = max(
        (media for media in every_note() if isinstance(media, SoundClock)), key=lambda one: notes.clock(one, say).seconds
    )
    assert (longest.seconds, longest.into_place_s) == (60, 30)
    assert len(make(longest, "en", TEXTS)) < 150_000


def test_what_every_note_is_told_in_reads_in_the_language_of_the_client() -> None:
    for media in every_note():
        note = notes.clock(media, lambda _: None) if isinstance(media, SoundClock) else notes.check(media, lambda _: None)
        assert all(TEXTS.text(one, "en") for one in note.told)


def test_the_shortest_and_the_longest_hold_of_any_exercise_can_be_made() -> None:
    for seconds in {bound for _, form in CASES for bound in (form.least, form.most)}:
        data = make(SoundClock((), 10, seconds, Words("sound-breathe"), ()), "en", TEXTS, speaks=False)
        assert f"At {seconds} seconds: a long falling tone: the end." in ogg.comments(data)["DESCRIPTION"]
        assert soundfile.info(io.BytesIO(data)).duration > 10 + seconds
