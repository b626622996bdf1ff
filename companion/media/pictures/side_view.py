"""The upper part of a form's picture: the client seen from the weaker side, with support, chair and helper."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from companion.content.picture_shape import SupportAt
from companion.core.programme import Side
from companion.media.pictures import furniture
from companion.media.pictures.canvas import BLUE, GREY, INK, LIGHT, PAPER, Canvas, Look, Point
from companion.media.pictures.placement import Foot, Held, Placement, Sole
from companion.media.pictures.poses import (
    BESIDE,
    FOREARM,
    HEAD,
    SEAT_DEPTH,
    SHIN,
    THIGH,
    UPPER_ARM,
    Hand,
    Pose,
    Spot,
    ankle,
    middle,
    pose,
    turned,
)

DEPTH = 0.22
"""What is a centimetre further away is drawn so much higher."""
SCALE = 2.7
"""Pixels of a centimetre."""
GROUND = 450.0
CENTRE = 400.0

WEAK = Look(hatched=True)
STRONG = Look()
BODY = Look(fill=BLUE)
HELPER = Look(fill=LIGHT, edge=GREY, line=4)


@dataclass(frozen=True, slots=True)
class View:
    """From centimetres to pixels. `facing`: 1 if the body looks to the right of the picture, else -1."""

    facing: int
    middle: float = 0.0
    scale: float = SCALE

    def at(self, x: float, y: float, z: float = 0.0) -> Point:
        """A spot in pixels."""
        return CENTRE + self.facing * (x - self.middle) * self.scale, GROUND + (y + DEPTH * z) * self.scale

    def all(self, spots: Sequence[tuple[float, float]], z: float = 0.0) -> list[Point]:
        """Spots of one depth, in pixels."""
        return [self.at(x, y, z) for x, y in spots]


def draw(canvas: Canvas, placement: Placement) -> None:
    """Draw it."""
    stands = pose(placement)
    view = View(1 if placement.weaker == "right" else -1, _middle(placement, stands))
    canvas.line([(40, GROUND - 40), (760, GROUND - 40)], 6, INK)
    if placement.support is not None:
        side = placement.support_at is SupportAt.SIDE
        spot = furniture.Standing(stands.support_from, stands.support_top, BESIDE if side else 0.0, side)
        furniture.support(canvas, view, placement.support, spot)
    if placement.chair:
        furniture.chair(canvas, view, stands.chair_front, stands.chair_seat)
    client(canvas, view, stands, placement.eyes_closed)
    if placement.carer:
        helper(canvas, view, stands)


def client(canvas: Canvas, view: View, stands: Pose, eyes_closed: bool) -> None:
    """The client, from the far side to the near one."""
    for side, look in ((Side.STRONGER, STRONG), (Side.WEAKER, WEAK)):
        _leg(canvas, view, stands, side, look)
        if side is Side.STRONGER:
            _arm(canvas, view, stands, side, look)
            canvas.limb([view.at(*stands.hip), view.at(*stands.shoulder)], 25 * view.scale, BODY, "body")
            _head(canvas, view, stands.head, STRONG, eyes_closed)
    _arm(canvas, view, stands, Side.WEAKER, WEAK)


def _middle(placement: Placement, stands: Pose) -> float:
    """What is in the middle of the picture, in x."""
    back = stands.chair_front - SEAT_DEPTH if placement.chair else stands.hip[0] - 20
    if placement.carer:
        back = min(back, stands.hip[0] - 75)
    ahead = stands.support_from + 52 if placement.support_at is SupportAt.FRONT else stands.hip[0] + 66
    return (back + ahead) / 2


def _leg(canvas: Canvas, view: View, stands: Pose, side: Side, look: Look) -> None:
    foot = stands.feet[side]
    z = foot.z
    top, low = (stands.hip[0], stands.hip[1]), ankle(foot)
    knee = middle(top, low, (THIGH, SHIN), ahead=True)
    joints = [view.at(*top, z * 0.5), view.at(*knee, z), view.at(*low, z)]
    canvas.limb(joints, 13 * view.scale, look, f"leg:{side}")
    _foot(canvas, view, foot, look, f"side-foot:{side}")


def _foot(canvas: Canvas, view: View, foot: Foot, look: Look, name: str) -> None:
    profile = ((-1, 1), (0, 8), (4, 13), (10, 12), (19, 7), (26, 5), (27, 1), (25, 0), (1, 0))
    canvas.shape(view.all([turned(foot, x, y) for x, y in profile], foot.z), look, name)


def _arm(canvas: Canvas, view: View, stands: Pose, side: Side, look: Look) -> None:
    hand = stands.hands[side]
    z = 15.0 if side is Side.STRONGER else -15.0
    start = (stands.shoulder[0], stands.shoulder[1] - 3 + DEPTH * z)
    wrist = (
        hand.at[0] - (7 if hand.over is not None else 0),
        hand.at[1] + (3 if hand.over is not None else 7) + DEPTH * hand.at[2],
    )
    elbow = middle(start, wrist, (UPPER_ARM, FOREARM), ahead=False)
    canvas.limb(view.all([start, elbow, wrist]), 9.5 * view.scale, look, f"arm:{side}")
    palm(canvas, view, hand, look, f"hand:{side}")


def palm(canvas: Canvas, view: View, hand: Hand, look: Look, name: str) -> None:
    """A hand: flat, on its fingertips, hovering with a gap that is marked, or hanging."""
    x, y, z = hand.at
    if hand.over is None:
        canvas.limb([view.at(x, y + 4, z), view.at(x + 1, y - 6, z)], 10 * view.scale, replace(look, hatched=False), name)
        return
    fingers = replace(look, line=4)
    if hand.held is Held.FINGERTIPS:
        for step in (-1.5, 4.0, 9.5):
            canvas.limb([view.at(x + step - 1, y, z), view.at(x + step, hand.over + 2.2, z)], 3.2 * view.scale, fingers)
        canvas.limb([view.at(x - 8, y + 3, z), view.at(x + 7, y, z)], 7.5 * view.scale, look, name)
        return
    canvas.limb([view.at(x - 7, y, z), view.at(x + 10, y, z)], 7.5 * view.scale, look, name)
    if hand.held is Held.HOVERS:
        for step in (-4.0, 8.0):
            low, high = view.at(x + step, hand.over + 1.5, z), view.at(x + step, y - 5.5, z)
            canvas.line([low, high], 5, BLUE, dashed=True, name="gap")


def _head(canvas: Canvas, view: View, head: Spot, look: Look, eyes_closed: bool) -> None:
    x, y, z = head
    nose = [(x + HEAD - 3, y + 3), (x + HEAD + 5, y - 3), (x + HEAD - 3, y - 5)]
    canvas.shape(view.all(nose, z), look)
    canvas.circle(view.at(x, y, z), HEAD * view.scale, look, "head")
    canvas.shape(
        view.all([(x + HEAD - 5, y + 2), (x + HEAD + 3, y - 3), (x + HEAD - 5, y - 4)], z), Look(look.fill, look.fill, 0)
    )
    if eyes_closed:
        arc = [(x + 6 + 4.5 * math.cos(a), y + 3 + 3.6 * math.sin(a)) for a in (math.pi * (1 + n / 8) for n in range(9))]
        canvas.line(view.all(arc, z), 6, look.edge, name="eyes:closed")
    else:
        canvas.circle(view.at(x + 6, y + 3, z), 2.4 * view.scale, Look(look.edge, look.edge, 0), "eyes:open")


def helper(canvas: Canvas, view: View, stands: Pose) -> None:
    """The helper: on the weaker side, so nearer to who looks; a little behind; hands ready, not touching."""
    x, z = stands.hip[0] - 58, -44.0
    near = Foot(x - 6, z + 6, Sole.FLAT)
    for foot in (replace(near, heel=x - 10, z=z + 14), near):
        canvas.limb([view.at(x, 90, z), view.at(*ankle(foot), foot.z)], 13 * view.scale, HELPER)
        _foot(canvas, view, foot, HELPER, "helper-foot")
    reach = [(x, 128.0), (x + 10, 104.0), (x + 30, 108.0)]
    canvas.limb(view.all(reach, z + 8), 9 * view.scale, HELPER)
    canvas.limb([view.at(x, 90, z), view.at(x, 134, z)], 25 * view.scale, HELPER, "helper")
    _head(canvas, view, (x, 162, z), HELPER, False)
    canvas.limb(
        view.all([(x, 130.0), (x + 8, 102.0), (x + 30, 98.0)], z - 6), 9 * view.scale, replace(HELPER, fill=PAPER), "helper-arm"
    )
