"""What stands where in the picture of a form: the one thing that both the drawing and its description are made from.

Centimetres of the client's own space: x forward, y up, z towards the stronger side; (0, 0, 0) is on the floor under the
body. Nothing here is left or right: which side is the stronger is only needed where it is drawn.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from companion.content.picture_shape import LIFTS, STEPS, Feet, Motion, PictureDetails, Seat, SupportAt
from companion.core.media import FormPicture
from companion.core.programme import Exercise, Eyes, Form, Hand, Posture, Side, Sides, Stance

FOOT = 26.0
"""Heel to toe."""
LIFT = 14.0
"""How high a lifted foot is."""
RISE, SMALL_RISE = 42.0, 22.0
"""How far a heel is up, in degrees."""


class Sole(StrEnum):
    """What of a foot is on the floor."""

    FLAT = "flat"
    TOES = "toes"
    UP = "up"


@dataclass(frozen=True, slots=True)
class Foot:
    """A foot: where its heel would touch the floor, and what of it does. `tilt`: how far the heel is turned up, degrees;
    `up`: how high the ball of the foot is."""

    heel: float
    z: float
    sole: Sole = Sole.FLAT
    tilt: float = 0.0
    up: float = 0.0


class Held(StrEnum):
    """What a hand does. The first four are about the support, or about the seat of a chair."""

    ON = "on"
    FINGERTIPS = "fingertips"
    HOVERS = "hovers"
    SIDE = "side"
    LAP = "lap"


@dataclass(frozen=True, slots=True)
class Placement:
    """One form, placed. `front`: the foot in front, the leg stood on, or None. `mover`: the one leg that moves. `loaded`:
    the leg of two that has more of the weight.

    `on_seat`: hands are on the chair's seat, not on the support. `support`: a key of `place-support-*`, None for not shown.
    """

    feet: Mapping[Side, Foot]
    hands: Mapping[Side, Held]
    details: PictureDetails
    front: Side | None
    mover: Side | None
    loaded: Side | None
    seated: bool
    on_seat: bool
    eyes_closed: bool
    support: str | None
    support_at: SupportAt
    chair: bool
    carer: bool
    weaker: str

    @property
    def on_toes(self) -> bool:
        """Whether somebody stands on the toes."""
        return any(foot.sole is Sole.TOES for foot in self.feet.values()) and self.details.feet is not Feet.TOES_REST


def place(picture: FormPicture, exercise: Exercise, details: PictureDetails) -> Placement:
    """The placement of that picture. KeyError: the exercise has no such form."""
    form = exercise.form(picture.form)
    scene = picture.scene
    seated = form.posture is Posture.SEATED
    sits = details.seat is not None
    leg = picture.side if exercise.sides is Sides.LEG else None
    mover = _mover(details.motion, leg)
    feet = _IN_FRONT.get(details.feet, details.feet) if exercise.sides is Sides.FRONT_FOOT else details.feet
    details = replace(details, feet=feet)
    abreast = feet in (Feet.APART, Feet.TOGETHER, Feet.FLAT)
    front = None if abreast else picture.side or Side.STRONGER
    return Placement(
        feet=_feet(details, form, front),
        hands=_hands(picture.hand, form, sits),
        details=details,
        front=front,
        mover=mover,
        loaded=leg if abreast and mover is None else None,
        seated=sits,
        on_seat=sits,
        eyes_closed=form.eyes is Eyes.CLOSED,
        support=None if seated else scene.support,
        support_at=details.support or (SupportAt.FRONT if scene.support_side == "front" else SupportAt.SIDE),
        chair=scene.chair or sits,
        carer=scene.carer,
        weaker=scene.weaker,
    )


def other(side: Side) -> Side:
    """The other side."""
    return Side.STRONGER if side is Side.WEAKER else Side.WEAKER


def _mover(motion: Motion | None, leg: Side | None) -> Side | None:
    if motion in STEPS:
        return leg or Side.WEAKER
    return other(leg) if motion in LIFTS and leg is not None else None


_IN_FRONT: Mapping[Feet, Feet] = {Feet.APART: Feet.WIDE_HALF_STEP, Feet.TOGETHER: Feet.HALF_STEP}
"""What feet side by side are in an exercise that has one foot in front."""

_LINES: Mapping[Feet, tuple[Foot, Foot]] = {
    Feet.FLAT: (Foot(-12, 9), Foot(-12, 9)),
    Feet.APART: (Foot(-10, 11), Foot(-10, 11)),
    Feet.TOGETHER: (Foot(-10, 5.7), Foot(-10, 5.7)),
    Feet.WIDE_HALF_STEP: (Foot(1, 11), Foot(-21, 11)),
    Feet.HALF_STEP: (Foot(-1, 5.7), Foot(-24, 5.7)),
    Feet.SMALL_GAP: (Foot(6, 0), Foot(-32, 0)),
    Feet.TOUCHING: (Foot(0, 0), Foot(-26, 0)),
    Feet.TOES_REST: (Foot(-8, 5.7), Foot(-40, 6.5, Sole.TOES, RISE)),
    Feet.ONE_UP: (Foot(-10, 5.7), Foot(-22, 7.5, Sole.UP, 28.0, LIFT)),
}
"""The foot in front (or stood on), then the other; z is the distance from the middle."""


def _feet(details: PictureDetails, form: Form, front: Side | None) -> Mapping[Side, Foot]:
    first = front or Side.STRONGER
    ahead, behind = _LINES[details.feet]
    if form.stance in (Stance.ONE_LEG_TOES, Stance.TWO_LEG_TOES) or details.motion in _HEELS:
        rise = SMALL_RISE if details.motion is Motion.LIFT_HEELS_A_LITTLE else RISE
        ahead = replace(ahead, sole=Sole.TOES, tilt=rise)
        behind = behind if behind.sole is Sole.UP else replace(behind, sole=Sole.TOES, tilt=rise)
    feet = {}
    for side, foot in ((first, ahead), (other(first), behind)):
        pulled = -8 if details.seat not in (None, Seat.BACK) or (details.seat and details.motion in _HEELS) else 0
        feet[side] = replace(foot, heel=foot.heel + pulled, z=foot.z if side is Side.STRONGER else -foot.z)
    return feet


_HEELS = (Motion.LIFT_HEELS, Motion.LIFT_HEELS_A_LITTLE)


def _hands(hand: Hand, form: Form, sits: bool) -> Mapping[Side, Held]:
    free = Held.LAP if sits else Held.SIDE
    strong = {Hand.FINGERTIPS: Held.FINGERTIPS, Hand.HOVERING: Held.HOVERS, Hand.NONE: free}.get(hand, Held.ON)
    both = hand is Hand.TWO_HANDS or (hand is Hand.FINGERTIPS and form.needs_two_hands)
    return {Side.STRONGER: strong, Side.WEAKER: strong if both else free}
