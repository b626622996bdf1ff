"""Voice notes measured after decoding: marks, level, loudness, peak, clicks, size, and the time to make one.

    .venv/bin/pytest -qs tests/benchmarks/sounds.py

Every usual hold with the longest time to get into place, of tones alone and, where an engine is installed, with spoken words.
Loudness is pyloudnorm's (ITU-R BS.1770-4), marks are where the decoded sound first exceeds 2 % of full scale.
"""

from time import perf_counter, process_time

import numpy as np
import pyloudnorm
import pytest

from companion.media.sound import engine, ogg
from companion.media.sound.making import make
from tests.media.listening import HOLDS, TEXTS, clock_of, heard

INTO_PLACE_S = 30
HEADER = "spoken hold    length   bytes   marks  tones within   LUFS   peak dBFS   made in (of the processor)"


@pytest.mark.parametrize("speaks", [False, True])
def test_measured(speaks: bool) -> None:
    if speaks and engine.engine() is None:
        pytest.skip(f"no {engine.PROGRAM} here")
    make(clock_of(10), "en", TEXTS, speaks)  # what is loaded when first used
    print(f"\n{HEADER}")
    for seconds in HOLDS:
        begun, used = perf_counter(), process_time()
        data = make(clock_of(seconds, INTO_PLACE_S), "en", TEXTS, speaks)
        took, worked = perf_counter() - begun, process_time() - used
        note = heard(data)
        marks = [float(mark) for mark in ogg.comments(data)["MARKS"].split()]
        at_marks = [min(note.tones, key=lambda tone: abs(tone.begin - mark)) for mark in marks]
        error = max(abs(tone.begin - mark) for tone, mark in zip(at_marks, marks, strict=True))
        levels = [tone.level for tone in at_marks]
        loudness = pyloudnorm.Meter(note.rate).integrated_loudness(note.samples)
        peak = 20 * np.log10(np.abs(note.samples).max())
        length = len(note.samples) / note.rate
        print(
            f"{'yes' if speaks else 'no':<6} {seconds:>3} s {length:>8.1f} s {len(data):>7} {1000 * error:>4.1f} ms"
            f" {max(levels) - min(levels):>10.2f} dB {loudness:>7.1f} {peak:>9.1f} {took:>11.2f} s ({worked:.2f} s)"
        )
