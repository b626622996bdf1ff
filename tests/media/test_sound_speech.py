"""Spoken words around the tones: where an engine is installed, where it is not, and where it fails. Tones always win."""

from pathlib import Path

import numpy as np
import pyloudnorm
import pytest

from companion.content.folders import content_dir
from companion.core.media import SoundCheck, SoundClock
from companion.core.words import Words, words
from companion.media.sound import engine, notes, ogg, speech, tones
from companion.media.sound.making import make
from companion.media.sound.tones import RATE, Samples
from companion.media.version import edition
from tests.media.listening import HOLDS, INTO_PLACE, TEXTS, check, clock, clock_of, heard

needs_engine = pytest.mark.skipif(engine.engine() is None, reason=f"no {engine.PROGRAM} here, so nothing can be spoken")


def says(seconds: float) -> notes.Say:
    """Speaks anything for so long, as a steady hum."""
    return lambda _: tones.tone(100.0, seconds)


def engine_that(does: str, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Let the only engine there is be a script."""
    program = folder / engine.PROGRAM
    program.write_text(f"#!/bin/sh\n{does}\n")
    program.chmod(0o755)
    monkeypatch.setenv("PATH", f"{folder}:/usr/bin:/bin")


def of_tones(data: bytes) -> bool:
    return data == make(clock_of(10), "en", TEXTS, speaks=False)


def test_without_an_engine_the_tones_remain(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    assert of_tones(make(clock_of(10), "en", TEXTS))


@pytest.mark.parametrize("does", ["exit 1", "echo this is no sound", "true", "kill -9 $$"])
def test_where_the_engine_fails_the_tones_remain(does: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    engine_that(does, tmp_path, monkeypatch)
    assert of_tones(make(clock_of(10), "en", TEXTS))


def test_an_engine_makes_another_edition_unless_nothing_is_to_be_spoken(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    without = edition(content_dir())
    assert without == edition(content_dir(), speaks=False)
    engine_that("exit 1", tmp_path, monkeypatch)
    assert edition(content_dir()) != without
    assert edition(content_dir(), speaks=False) == without


@pytest.mark.parametrize("into_place_s", INTO_PLACE)
@pytest.mark.parametrize("seconds", HOLDS)
def test_between_the_last_word_and_the_start_there_is_all_the_time_to_get_into_place(seconds: int, into_place_s: int) -> None:
    note = notes.clock(clock_of(seconds, into_place_s), says(1.5))
    spoken_until = notes.LEAD_S + 1.5 + notes.PAUSE_S + 1.5
    assert note.marks[0] == pytest.approx(spoken_until + into_place_s, abs=0.001)
    assert [mark - note.marks[0] for mark in note.marks] == pytest.approx([seconds * n / 4 for n in range(5)], abs=0.001)


@pytest.mark.parametrize(
    ("seconds", "speech_s", "fits"), [(10, 0.8, True), (10, 1.5, False), (60, 5.0, True), (60, 15.0, False)]
)
def test_breathe_is_left_out_rather_than_come_close_to_the_next_mark(seconds: int, speech_s: float, fits: bool) -> None:
    note = notes.clock(SoundClock((), 10, seconds, words("sound-breathe"), ()), says(speech_s))
    assert (words("sound-spoken", what=words("sound-breathe")) in note.told) == fits
    assert note.marks == pytest.approx([10 + seconds * n / 4 for n in range(5)], abs=0.001)


def test_breathe_ends_half_a_second_before_the_second_quarter_or_earlier() -> None:
    note = heard(ogg.encoded(notes.clock(SoundClock((), 10, 10, words("sound-breathe"), ()), says(1.25)).samples, {}))
    _, first, breathe, second, *_ = note.tones
    assert breathe.begin - first.end >= 0.45
    assert second.begin - breathe.end >= 0.45


def test_what_is_spoken_is_told_in_its_place() -> None:
    note = notes.clock(SoundClock((words("hand-down"),), 10, 60, words("sound-breathe"), (words("feet-apart"),)), says(1.0))
    keys = [one.key for one in note.told]
    assert keys == [
        "sound-spoken",
        "sound-into-place",
        "sound-start",
        "sound-quarter",
        "sound-spoken",
        "sound-quarter",
        "sound-quarter",
        "sound-end",
        "sound-spoken",
    ]
    assert TEXTS.text(note.told[0], "en").startswith("A voice says: “")


def test_words_that_can_not_be_spoken_leave_no_hole() -> None:
    def only_first(what: Words) -> Samples | None:
        return tones.tone(100.0, 1.0) if what == words("hand-down") else None

    note = notes.check(SoundCheck((words("hand-down"), words("feet-apart")), 10, 2), only_first)
    assert note.marks == [pytest.approx(notes.LEAD_S + 1.0 + 10)]


@pytest.mark.parametrize("rate", [8_000, 16_000, 22_050, 44_100, 48_000])
def test_another_rate_keeps_pitch_level_and_length(rate: int) -> None:
    moments = np.arange(rate) / rate
    wave = np.asarray(0.5 * np.sin(2 * np.pi * 1000 * moments), dtype=np.float32)
    again = speech.resampled(wave, rate)
    assert len(again) == pytest.approx(RATE, abs=2)
    wanted = 0.5 * np.sin(2 * np.pi * 1000 * np.arange(len(again)) / RATE)
    middle = slice(RATE // 10, -RATE // 10)
    assert np.abs(again[middle] - wanted[middle]).max() < 0.01


def test_what_the_new_rate_has_no_room_for_is_left_out_and_not_folded_back() -> None:
    wave = np.asarray(np.sin(2 * np.pi * 9000 * np.arange(22_050) / 22_050), dtype=np.float32)
    assert np.abs(speech.resampled(wave, 22_050)[1600:-1600]).max() < 0.02


@needs_engine
@pytest.mark.parametrize("seconds", [10, 60])
def test_spoken_a_note_keeps_its_marks_its_loudness_its_peak_and_its_size(seconds: int) -> None:
    note = clock(seconds, 30, speaks=True)
    told = [float(mark) for mark in ogg.comments(note.data)["MARKS"].split()]
    begins = [tone.begin for tone in note.tones]
    assert [min(begins, key=lambda begin: abs(begin - mark)) for mark in told] == pytest.approx(told, abs=0.020)
    assert [mark - told[0] for mark in told] == pytest.approx([seconds * n / 4 for n in range(5)], abs=0.001)
    assert -18.0 <= pyloudnorm.Meter(note.rate).integrated_loudness(note.samples) <= -14.0
    assert 20 * np.log10(np.abs(note.samples).max()) <= -1.0
    assert len(note.data) < 150_000


@needs_engine
def test_speech_is_about_as_loud_as_the_tones() -> None:
    meter = pyloudnorm.Meter(RATE)
    spoken = speech.spoken("Hand down. Eyes open. Feet apart.", "en")
    assert spoken is not None
    tone = meter.integrated_loudness(tones.tone(880.0, 2.0).astype(np.float64))
    assert meter.integrated_loudness(spoken.astype(np.float64)) == pytest.approx(tone, abs=4)


@needs_engine
def test_the_one_word_breathe_fits_into_a_hold_of_10_seconds() -> None:
    assert "A voice says: “Breathe.”" in ogg.comments(clock(10, 10, speaks=True).data)["DESCRIPTION"]


@needs_engine
def test_a_check_speaks_before_its_tones() -> None:
    note = check(2, speaks=True)
    (mark,) = [float(mark) for mark in ogg.comments(note.data)["MARKS"].split()]
    assert mark > 11
    assert [tone.begin for tone in note.tones[-2:]] == pytest.approx([mark, mark + 1.0], abs=0.020)


@needs_engine
def test_a_language_that_the_engine_does_not_speak_leaves_the_tones() -> None:
    assert speech.spoken("Hand down.", "xx") is None


@needs_engine
def test_the_engine_speaks_the_language_by_its_code() -> None:
    english, german = speech.spoken("Hand", "en"), speech.spoken("Hand", "de")
    assert english is not None and german is not None
    assert len(english) != len(german)


@needs_engine
def test_spoken_notes_are_equal_bytes_too() -> None:
    assert make(clock_of(10), "en", TEXTS) == make(clock_of(10), "en", TEXTS)


@needs_engine
def test_words_are_read_and_never_run() -> None:
    assert speech.spoken("-w /tmp/x; $(exit 1) `exit 1` <speak>", "en") is not None
