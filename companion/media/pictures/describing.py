"""What a picture shows, as words by key: made from the same placement as the drawing, so that the two can not differ."""

from collections.abc import Iterator

from companion.content.picture_shape import Motion, SupportAt
from companion.content.texts import key_of
from companion.core.media import PlacePicture, SignsPicture
from companion.core.programme import Side
from companion.core.words import Words, words
from companion.media.pictures.placement import Held, Placement


def form(placement: Placement) -> Iterator[Words]:
    """The picture of a form: feet, support, hands, eyes, what moves, what is around."""
    details = placement.details
    front = placement.front.value if placement.front else "none"
    yield words(key_of("picture-posture", details.seat or "standing"))
    yield words(key_of("picture-feet", details.feet), side=front)
    if placement.on_toes and details.motion not in (Motion.LIFT_HEELS, Motion.LIFT_HEELS_A_LITTLE):
        yield words("picture-toes")
    if placement.loaded is not None:
        yield words("picture-weight", side=placement.loaded.value)
    if placement.support is not None:
        yield words(key_of("place-support", placement.support), side=support_side(placement.support_at))
    yield words(_hands(placement))
    if placement.eyes_closed:
        yield words("picture-eyes-closed")
    if details.motion is not None:
        yield words(key_of("picture-motion", details.motion), side=placement.mover.value if placement.mover else "none")
    if placement.chair and not placement.seated:
        yield words("picture-chair")
    if placement.carer:
        yield words("picture-helper")
    yield words("picture-marks", weaker=letter(Side.WEAKER), stronger=letter(Side.STRONGER))
    yield weaker(placement.weaker)


def support_side(at: SupportAt) -> str:
    """As the texts of the place want it."""
    return "front" if at is SupportAt.FRONT else "stronger"


def letter(side: Side) -> Words:
    """What stands on the foot of that side."""
    return words(f"picture-letter-{side.value}")


def weaker(side: str) -> Words:
    """Which side of the body is the weaker."""
    return words(key_of("picture-weaker", side if side in ("left", "right") else "unknown"))


def signs(picture: SignsPicture) -> Iterator[Words]:
    """The sheet of signs."""
    yield words("picture-signs")
    for sign in picture.signs:
        yield words("picture-sign", sign=short(sign))


def short(sign: str) -> Words:
    """The short word of a sign."""
    return words(key_of("sign", sign) + ".short")


def place(picture: PlacePicture) -> Iterator[Words]:
    """The client's own place."""
    scene = picture.scene
    yield words("picture-place")
    yield words(key_of("place-support", scene.support), side=scene.support_side)
    yield words("picture-hand-on")
    if scene.chair:
        yield words("picture-chair")
    yield words("picture-place-floor")
    yield words(key_of("place-footwear", picture.footwear))
    yield words("picture-place-you")
    if scene.carer:
        yield words("picture-helper")
    yield words("picture-marks", weaker=letter(Side.WEAKER), stronger=letter(Side.STRONGER))
    yield weaker(scene.weaker)


def _hands(placement: Placement) -> str:
    strong, weak = placement.hands[Side.STRONGER], placement.hands[Side.WEAKER]
    about = "seat" if placement.on_seat else "hand"
    both = "both-" if strong is weak and strong in (Held.ON, Held.FINGERTIPS) else ""
    return f"picture-{about}-{both}{strong.value}"
