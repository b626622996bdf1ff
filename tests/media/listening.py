"""Ears for the tests: what is heard in a voice note, from its bytes alone."""

import io
from dataclasses import dataclass
from functools import cache, cached_property

import numpy as np
import soundfile
from numpy.typing import NDArray

from companion.content.folders import content_dir
from companion.content.texts import Texts
from companion.core.media import SoundCheck, SoundClock
from companion.core.words import words
from companion.media.sound.making import make

TEXTS = Texts(content_dir() / "texts")
HOLDS = (10, 30, 45, 60)
INTO_PLACE = (10, 20, 30)
SPOKEN = tuple(words(key) for key in ("sound-lies", "hand-down", "feet-apart"))

_HEARD = 0.02  # of full scale: 20 dB under a tone
_APART_S = 0.06  # a shorter silence is part of a tone
_TOGETHER_S = 0.5  # tones that begin sooner after the last one belong to the same mark


@dataclass(frozen=True)
class Tone:
    """Something that sounds, from second `begin` to `end`."""

    begin: float
    end: float
    samples: NDArray[np.float64]
    rate: int

    @cached_property
    def level(self) -> float:
        """In dB under full scale, without its ends."""
        edge = self.rate // 50
        return float(10 * np.log10(np.mean(self.samples[edge:-edge] ** 2)))

    @cached_property
    def pitch(self) -> float:
        """Its strongest frequency, in Hz, to 1 Hz."""
        spectrum = np.abs(np.fft.rfft(self.samples * np.hanning(len(self.samples)), self.rate))
        return float(np.argmax(spectrum))

    def half(self, second: bool) -> "Tone":
        """Its first third, or its last half: before and after the pitch of an end tone changes."""
        middle = len(self.samples) // 2 if second else len(self.samples) // 3
        return Tone(self.begin, self.end, self.samples[middle:] if second else self.samples[:middle], self.rate)


@dataclass(frozen=True)
class Heard:
    """A decoded voice note."""

    data: bytes
    samples: NDArray[np.float64]
    rate: int

    @cached_property
    def tones(self) -> list[Tone]:
        """Everything that sounds, in order."""
        loud = np.flatnonzero(np.abs(self.samples) > _HEARD)
        breaks = np.flatnonzero(np.diff(loud) > _APART_S * self.rate)
        begins, ends = loud[np.r_[0, breaks + 1]], loud[np.r_[breaks, len(loud) - 1]]
        return [
            Tone(begin / self.rate, end / self.rate, self.samples[begin : end + 1], self.rate)
            for begin, end in zip(begins, ends, strict=True)
        ]

    @cached_property
    def marks(self) -> list[list[Tone]]:
        """The tones, those that belong together together."""
        groups: list[list[Tone]] = []
        for tone in self.tones:
            if groups and tone.begin - groups[-1][-1].end < _TOGETHER_S:
                groups[-1].append(tone)
            else:
                groups.append([tone])
        return groups


def heard(data: bytes) -> Heard:
    """A voice note, decoded."""
    samples, rate = soundfile.read(io.BytesIO(data), dtype="float64")
    return Heard(data, samples, rate)


def clock_of(seconds: int, into_place_s: int = 20) -> SoundClock:
    """The clock of a hold, as a session asks for it."""
    return SoundClock(SPOKEN[:2], into_place_s, seconds, words("sound-breathe"), SPOKEN[1:])


@cache
def clock(seconds: int, into_place_s: int = 20, speaks: bool = False) -> Heard:
    """The same as somebody hears it."""
    return heard(make(clock_of(seconds, into_place_s), "en", TEXTS, speaks))


@cache
def check(tones: int, into_place_s: int = 10, speaks: bool = False) -> Heard:
    """A sound check."""
    return heard(make(SoundCheck(SPOKEN[:1], into_place_s, tones), "en", TEXTS, speaks))
