"""Voice notes laid out in time, and told in words.

    a clock    before | seconds to get into place | START | 1st | breathe | 2nd | 3rd | END | after
    a check    before | seconds to get into place | so many tones

Nothing sounds while the client gets into place: whatever did could be taken for the start by somebody whose eyes are closed.
Tones always win: spoken words that would come closer than half a second to a mark are left out.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from companion.core.media import SoundCheck, SoundClock
from companion.core.words import Words, words
from companion.media.sound import tones
from companion.media.sound.tones import RATE, Samples

Say = Callable[[Words], Samples | None]
"""Speaks words, or can not."""

LEAD_S = 0.4  # some loudspeakers swallow the beginning of what they play
PAUSE_S = 0.6
_APART_S = 0.5
_QUARTERED_S = 5  # in a shorter hold the tones of a quarter would run into the next


@dataclass(slots=True)
class Note:
    """A voice note: its sound, the moments of its tones in seconds from its beginning, and what is heard, in words."""

    pieces: list[Samples] = field(default_factory=list)
    marks: list[float] = field(default_factory=list)
    told: list[Words] = field(default_factory=list)

    @property
    def samples(self) -> Samples:
        """All of it."""
        return tones.joined(self.pieces, 0)

    @property
    def seconds(self) -> float:
        """How long it is so far."""
        return sum(map(len, self.pieces)) / RATE

    def wait_until(self, moment: float) -> None:
        """Silence up to that second."""
        self.pieces.append(tones.silence(moment - self.seconds))

    def mark(self, sound: Samples, moment: float) -> None:
        """A tone that begins at that second."""
        self.wait_until(moment)
        self.marks.append(moment)
        self.pieces.append(sound)

    def speak(self, sound: Samples | None, what: Words) -> None:
        """Spoken words, where they could be."""
        if sound is not None:
            self.pieces.append(sound)
            self.told.append(words("sound-spoken", what=what))


def clock(media: SoundClock, say: Say) -> Note:
    """The clock of a hold. One shorter than 5 s has no room for quarters, only start and end."""
    note = Note()
    start = _until_in_place(note, media.before, media.into_place_s, say)
    note.mark(tones.start(), start)
    note.told.append(words("sound-start"))
    for number in (1, 2, 3) if media.seconds >= _QUARTERED_S else ():
        after = media.seconds * number / 4
        note.mark(tones.quarter(number), start + after)
        note.told.append(words("sound-quarter", seconds=f"{after:g}", tones=number))
        if number == 1:
            _breathe(note, media.breathe, start + media.seconds / 2, say)
    note.mark(tones.end(), start + media.seconds)
    note.told.append(words("sound-end", seconds=media.seconds))
    _all_spoken(note, media.after, say)
    note.wait_until(note.seconds + LEAD_S)
    return note


def check(media: SoundCheck, say: Say) -> Note:
    """Tones to be counted from where the client will stand."""
    note = Note()
    start = _until_in_place(note, media.before, media.into_place_s, say)
    note.mark(tones.counted(media.tones), start)
    note.told.append(words("sound-to-count", tones=media.tones))
    note.wait_until(note.seconds + PAUSE_S)
    return note


def _until_in_place(note: Note, before: Sequence[Words], seconds: int, say: Say) -> float:
    """The second at which they are in place."""
    _all_spoken(note, before, say)
    note.told.append(words("sound-into-place", seconds=seconds))
    return note.seconds + seconds


def _all_spoken(note: Note, what: Sequence[Words], say: Say) -> None:
    for one in what:
        sound = say(one)
        if sound is not None:
            note.wait_until(note.seconds + (PAUSE_S if note.pieces else LEAD_S))
            note.speak(sound, one)


def _breathe(note: Note, what: Words, next_mark: float, say: Say) -> None:
    sound = say(what)
    begin = note.seconds + _APART_S
    if sound is not None and begin + len(sound) / RATE + _APART_S <= next_mark:
        note.wait_until(begin)
        note.speak(sound, what)
