"""Spoken words, where a speech engine is installed. Where none is, or it fails, nothing is spoken and the tones remain."""

import io
import subprocess
import sys

import numpy as np
import soundfile
from numpy.typing import NDArray

from companion.media.sound.engine import engine
from companion.media.sound.tones import LOUDNESS, RATE, Samples, faded

_WORDS_A_MINUTE = "120"  # slowly, for somebody who takes words in slowly
_PATIENCE_S = 5  # it takes a few hundredths
_LOUDEST = 0.85
_OVER_TONES = 1.15  # speech spreads over pitches where a tone has two, and sounds softer at the same level
_WINDOW_S = 0.05


def spoken(text: str, language: str) -> Samples | None:
    """The text as sound, without silence at its ends, about as loud as the tones. None: it can not be spoken here."""
    program = engine()
    if program is None:
        return None
    command = [program, "-v", language.lower(), "-s", _WORDS_A_MINUTE, "-b", "1", "--stdin", "--stdout"]
    try:
        done = subprocess.run(command, input=text.encode(), capture_output=True, timeout=_PATIENCE_S, check=True)
        wave, rate = soundfile.read(io.BytesIO(done.stdout), dtype="float32")
    except (OSError, subprocess.SubprocessError, soundfile.SoundFileError) as error:
        print(f"nothing is spoken: {error}", file=sys.stderr)
        return None
    return _levelled(_trimmed(resampled(wave, rate)))


def resampled(wave: Samples, rate: int) -> Samples:
    """The same sound at `RATE` samples a second: its spectrum, as far as there is room for it."""
    whole = np.gcd(RATE, rate)
    blocks = -(-len(wave) // (rate // whole))  # so that both lengths are whole numbers of samples
    spectrum = np.fft.rfft(wave, blocks * (rate // whole))
    again = np.fft.irfft(spectrum, blocks * (RATE // whole)) * (RATE / rate)
    return np.asarray(again, dtype=np.float32)


def _trimmed(wave: Samples) -> Samples:
    loud = np.flatnonzero(np.abs(wave) > 0.01 * np.max(np.abs(wave), initial=0))
    return wave[loud[0] : loud[-1] + 1] if len(loud) else wave


def _levelled(wave: Samples) -> Samples:
    """Soft syllables raised and loud ones lowered, so that a small loudspeaker carries them all."""
    level = np.sqrt(_averaged(wave.astype(np.float64) ** 2, round(_WINDOW_S * RATE)))
    evened = wave / np.sqrt(np.maximum(level, 0.1 * np.max(level)))
    sounding = evened[np.abs(evened) > 0.05 * np.max(np.abs(evened))]
    scaled = evened * (_OVER_TONES * LOUDNESS / np.sqrt(np.mean(sounding**2)))
    return faded(np.asarray(_LOUDEST * np.tanh(scaled / _LOUDEST), dtype=np.float32))


def _averaged(values: NDArray[np.float64], width: int) -> NDArray[np.float64]:
    """Each with its neighbours, `width` in all."""
    sums = np.cumsum(np.pad(values, (width // 2 + 1, width - width // 2 - 1)))
    return np.maximum(sums[width:] - sums[:-width], 0) / width
