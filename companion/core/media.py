"""Pictures and sounds, named as data: what is to be seen or heard. How it is made is nobody's business here.

Equal values are one file: it is made once, kept by the chat platform, and sent again by its id. Words in them are keys, as
everywhere. What a therapist recorded for one client is a file that is there already.
"""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import Literal

from companion.core.programme import Hand, Side
from companion.core.words import Words


class Medium(StrEnum):
    """What a file is to the chat platform. Nothing ever becomes a VOICE, and a VOICE nothing else."""

    PHOTO = "photo"
    VOICE = "voice"
    VIDEO = "video"
    DOCUMENT = "document"


@dataclass(frozen=True, slots=True)
class Scene:
    """What stands where at this client's place, for a picture. `weaker` is the body's side: "left", "right" or "unknown".

    `support` is a key of `place-support-*`; it stands on the side `support_side`, "stronger" or "front". `carer`: one is there.
    """

    weaker: str = "unknown"
    support: str = "worktop"
    support_side: str = "stronger"
    chair: bool = True
    carer: bool = False


@dataclass(frozen=True, slots=True)
class FormPicture:
    """One form of an exercise, done with this hand support; `side` as in the bout."""

    exercise: str
    form: str
    hand: Hand
    side: Side | None
    scene: Scene
    kind: Literal["form_picture"] = "form_picture"


@dataclass(frozen=True, slots=True)
class SignsPicture:
    """The sheet of the signs of "new, or worse than usual", in this order."""

    signs: tuple[str, ...]
    kind: Literal["signs_picture"] = "signs_picture"


@dataclass(frozen=True, slots=True)
class PlacePicture:
    """This client's own place, ready to practise. `footwear` is a key of `place-footwear-*`."""

    scene: Scene
    footwear: str
    kind: Literal["place_picture"] = "place_picture"


@dataclass(frozen=True, slots=True)
class SoundClock:
    """A voice note that is the clock of one hold.

    `before` is spoken, then come `into_place_s` seconds, a start tone, a tone at each quarter of `seconds`, `breathe` spoken
    once, an end tone, and `after` spoken.
    """

    before: tuple[Words, ...]
    into_place_s: int
    seconds: int
    breathe: Words
    after: tuple[Words, ...]
    kind: Literal["sound_clock"] = "sound_clock"


@dataclass(frozen=True, slots=True)
class SoundCheck:
    """A voice note to find out whether tones are heard where the client will stand: `before` spoken, `into_place_s` seconds,
    then so many `tones` to be counted."""

    before: tuple[Words, ...]
    into_place_s: int
    tones: int
    kind: Literal["sound_check"] = "sound_check"


@dataclass(frozen=True, slots=True)
class Recorded:
    """A file that a person sent, by the platform's own id."""

    medium: Medium
    file_id: str
    kind: Literal["recorded"] = "recorded"


@dataclass(frozen=True, slots=True)
class OwnMedia:
    """What a therapist recorded for one exercise of one client. It is used once the client has agreed to it, at `kept_at`.

    `beside`: it comes beside the standard picture, else instead of it. `by` is the therapist. `ask_at`: when the client is to
    be asked at the earliest; once `asked`, when they were. `form` is that of the plan then: it is not used for another one.
    """

    id: str
    exercise: str
    media: Recorded
    beside: bool
    by: str
    given_at: datetime
    kept_at: datetime | None = None
    ask_at: datetime | None = None
    asked: bool = False
    form: str = ""


Made = FormPicture | SignsPicture | PlacePicture | SoundClock | SoundCheck
"""What has to be made before it can be sent."""

Media = Made | Recorded


@dataclass(frozen=True, slots=True)
class Filed:
    """A document that was made for one request, with the name of its file."""

    name: str
    kind: Literal["filed"] = "filed"


def medium(media: Media | Filed) -> Medium:
    """What it is to the chat platform."""
    match media:
        case FormPicture() | SignsPicture() | PlacePicture():
            return Medium.PHOTO
        case SoundClock() | SoundCheck():
            return Medium.VOICE
        case Recorded():
            return media.medium
        case Filed():
            return Medium.DOCUMENT
