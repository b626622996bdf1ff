"""Makes a file from its description. Loaded only in the process that draws."""

from companion.content.library import Library
from companion.content.texts import Texts
from companion.core.media import FormPicture, Made, PlacePicture, SignsPicture, SoundCheck, SoundClock
from companion.media.pictures import door
from companion.media.sound import making


def make(media: Made, language: str, library: Library, texts: Texts, speaks: bool = True) -> bytes:
    """The file: PNG for a picture, Ogg Opus for a sound, each with its description in words inside.

    If it `speaks` not, no word is spoken even where a speech engine is installed: a rehearsal is the same everywhere.
    """
    match media:
        case FormPicture() | SignsPicture() | PlacePicture():
            return door.png(media, language, library, texts)
        case SoundClock() | SoundCheck():
            return making.make(media, language, texts, speaks)
