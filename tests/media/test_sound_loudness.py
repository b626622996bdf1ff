"""Loud enough and even, without clicks, and within what old ears and a small loudspeaker can do."""

import numpy as np
import pyloudnorm
import pytest
from numpy.typing import NDArray

from companion.media.sound import ogg, tones
from tests.media.listening import HOLDS, Heard, check, clock, heard

EVEN_DB = 2.0
LOUDNESS_LUFS = (-18.0, -14.0)
PEAK_DBFS = -1.0
CLICK_DB = -40.0


def splash(note: Heard) -> float:
    """The loudest moment above 5 kHz, in dB under the loudest moment: a click has all frequencies, a tone has not."""
    size = note.rate // 100
    windows = np.lib.stride_tricks.sliding_window_view(note.samples, size)[:: size // 4]
    spectra = np.abs(np.fft.rfft(windows * np.hanning(size))) ** 2
    high = np.fft.rfftfreq(size, 1 / note.rate) > 5000
    return float(10 * np.log10(spectra[:, high].sum(axis=1).max() / spectra.sum(axis=1).max()))


def below(note: Heard, hertz: float) -> float:
    """The share of all energy under that frequency."""
    spectrum = np.abs(np.fft.rfft(note.samples)) ** 2
    return float(spectrum[np.fft.rfftfreq(len(note.samples), 1 / note.rate) < hertz].sum() / spectrum.sum())


@pytest.mark.parametrize("seconds", HOLDS)
def test_all_tones_are_within_2_db_of_each_other(seconds: int) -> None:
    levels = [tone.level for tone in clock(seconds).tones]
    assert max(levels) - min(levels) < EVEN_DB


def test_to_the_ear_too_all_tones_are_within_2_db_of_each_other() -> None:
    meter = pyloudnorm.Meter(clock(60).rate, block_size=0.1)  # blocks short enough for the shortest tone
    levels = [meter.integrated_loudness(tone.samples) for tone in clock(60).tones]
    assert max(levels) - min(levels) < EVEN_DB


@pytest.mark.parametrize("seconds", HOLDS)
def test_the_loudness_of_a_note_is_between_minus_18_and_minus_14_lufs_and_its_peak_under_minus_1_dbfs(seconds: int) -> None:
    note = clock(seconds)
    least, most = LOUDNESS_LUFS
    assert least <= pyloudnorm.Meter(note.rate).integrated_loudness(note.samples) <= most
    assert 20 * np.log10(np.abs(note.samples).max()) <= PEAK_DBFS


@pytest.mark.parametrize("seconds", HOLDS)
def test_nothing_clicks(seconds: int) -> None:
    assert splash(clock(seconds)) < CLICK_DB
    assert splash(check(4)) < CLICK_DB


def test_a_tone_that_began_at_once_would_be_noticed_as_a_click() -> None:
    abrupt = tones.tone(740.0, 0.5)[200:-200]
    assert splash(heard(ogg.encoded(tones.joined([tones.silence(0.5), abrupt, tones.silence(0.5)], 0), {}))) > CLICK_DB


def test_no_sample_jumps_further_than_the_tones_themselves_swing() -> None:
    for tone in clock(60).tones:
        edge = tone.rate // 50
        jumps = np.abs(np.diff(tone.samples))
        assert max(jumps[:edge].max(), jumps[-edge:].max()) <= 1.05 * jumps[edge:-edge].max()


def test_nothing_that_matters_lies_above_4_khz_or_below_500_hz() -> None:
    for note in (clock(60), check(3)):
        assert below(note, 4000) > 0.999
        assert below(note, 500) < 0.01


def test_every_tone_is_of_500_to_1500_hz() -> None:
    assert all(500 <= tone.pitch <= 1500 for tone in clock(60).tones)


def test_while_nothing_sounds_there_is_silence() -> None:
    note = clock(60)
    quiet: NDArray[np.float64] = note.samples[: int(19.9 * note.rate)]
    assert np.abs(quiet).max() < 0.001


@pytest.mark.parametrize("seconds", HOLDS)
def test_a_note_of_tones_is_under_60_kb(seconds: int) -> None:
    assert len(clock(seconds, 30).data) < 60_000
