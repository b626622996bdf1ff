"""The tones: each as loud as the others, without clicks, for old ears and a small loudspeaker.

High-frequency hearing goes first with age, and a phone plays little below 500 Hz, so every note lies between 580 and 1200 Hz
and has one overtone, an octave above. A mark is the moment at which its tone begins.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Samples = NDArray[np.float32]
"""Mono sound, one value a sample, -1 to 1."""

RATE = 16_000
"""Samples a second. All that matters lies far below 8 kHz, so no byte is spent on more; Opus plays it at any rate."""

LOUDNESS = 0.22
"""The level (root mean square) of every tone while it sounds."""

_PARTIALS = (1.0, 0.5)  # strengths of the note and of its octave
_RAMP_S = 0.020  # a tone that begins at once clicks, and frightens
_PIP_S = 0.25  # a shorter tone sounds softer than a long one of the same level
_GAP_S = 0.20
_QUARTERS_HZ = (740.0, 880.0, 1175.0)


def tone(hertz: float, seconds: float) -> Samples:
    """One steady tone."""
    moments = np.arange(round(seconds * RATE)) / RATE
    wave = sum(strength * np.sin(2 * np.pi * hertz * times * moments) for times, strength in enumerate(_PARTIALS, start=1))
    level = np.sqrt(sum(strength**2 for strength in _PARTIALS) / 2)
    return faded(np.asarray(wave * (LOUDNESS / level), dtype=np.float32))


def start() -> Samples:
    """One long tone, lower than all that follow."""
    return tone(587.0, 1.0)


def quarter(number: int) -> Samples:
    """The first, second or third quarter: as many short tones, and higher each time."""
    return joined([tone(_QUARTERS_HZ[number - 1], _PIP_S)] * number, _GAP_S)


def end() -> Samples:
    """Two long notes that fall: the only sound that changes its pitch."""
    return joined([tone(988.0, 0.6), tone(659.0, 1.2)], 0.0)


def counted(number: int) -> Samples:
    """Tones to be counted by ear, slowly. Each is the tone of the first quarter: who hears these hears the clock."""
    return joined([tone(_QUARTERS_HZ[0], _PIP_S)] * number, 0.75)


def silence(seconds: float) -> Samples:
    """Nothing, for so long."""
    return np.zeros(round(seconds * RATE), dtype=np.float32)


def joined(pieces: Sequence[Samples], gap_s: float) -> Samples:
    """One after the other, with so much silence between."""
    gap = silence(gap_s)
    return np.concatenate([part for piece in pieces for part in (gap, piece)][1:])


def faded(samples: Samples) -> Samples:
    """The same with raised cosines at both ends."""
    ramp = np.sin(np.linspace(0, np.pi / 2, round(_RAMP_S * RATE), dtype=np.float32)) ** 2
    shaped = samples.copy()
    shaped[: len(ramp)] *= ramp
    shaped[-len(ramp) :] *= ramp[::-1]
    return shaped
