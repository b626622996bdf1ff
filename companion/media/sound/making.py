"""A sound from its description to a file. The one door to this folder."""

from companion.content.texts import Texts
from companion.core.media import SoundCheck, SoundClock
from companion.core.words import Words
from companion.media.sound import notes, ogg, speech
from companion.media.sound.tones import Samples


def make(media: SoundClock | SoundCheck, language: str, texts: Texts, speaks: bool = True) -> bytes:
    """Ogg Opus, mono. Its comments: `DESCRIPTION`, what is heard, in words; `LANGUAGE`; `MARKS`, the seconds of its tones.

    Words are spoken where an engine is installed, and nowhere if it `speaks` not.
    """

    def say(words: Words) -> Samples | None:
        return speech.spoken(texts.text(words, language), language) if speaks else None

    note = notes.clock(media, say) if isinstance(media, SoundClock) else notes.check(media, say)
    told = " ".join(texts.text(one, language) for one in note.told)
    marks = " ".join(f"{mark:.3f}" for mark in note.marks)
    return ogg.encoded(note.samples, {"DESCRIPTION": told, "LANGUAGE": language, "MARKS": marks})
