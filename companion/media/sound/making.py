"""A sound from its description to a file. The one door to this folder."""

from functools import partial

from companion.content.texts import Texts
from companion.core.media import SoundCheck, SoundClock
from companion.core.words import Words
from companion.media.sound import notes, ogg, speech
from companion.media.sound.tones import Samples


def make(media: SoundClock | SoundCheck, language: str, texts: Texts) -> bytes:
    """Ogg Opus, mono. Its comments: `DESCRIPTION`, what is heard, in words; `LANGUAGE`; `MARKS`, the seconds of its tones."""
    say = partial(_say, language=language, texts=texts)
    note = notes.clock(media, say) if isinstance(media, SoundClock) else notes.check(media, say)
    told = " ".join(texts.text(one, language) for one in note.told)
    marks = " ".join(f"{mark:.3f}" for mark in note.marks)
    return ogg.encoded(note.samples, {"DESCRIPTION": told, "LANGUAGE": language, "MARKS": marks})


def _say(words: Words, language: str, texts: Texts) -> Samples | None:
    return speech.spoken(texts.text(words, language), language)
