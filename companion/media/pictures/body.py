"""A body from the side: legs, feet, arms, trunk and head, for the client and the helper."""

import math
from dataclasses import dataclass, replace

from companion.core.programme import Side
from companion.media.pictures.canvas import BLUE, GHOST, GHOST_WEAK, GREY, LIGHT, PAPER, Canvas, Look
from companion.media.pictures.hands import palm
from companion.media.pictures.placement import Foot
from companion.media.pictures.poses import (
    FOREARM,
    HEAD,
    SEAT_DEPTH,
    SHIN,
    THIGH,
    UPPER_ARM,
    Pose,
    Spot,
    ankle,
    middle,
    turned,
)
from companion.media.pictures.view import DEPTH, SCALE, View

WEAK = Look(hatched=True)
STRONG = Look()
TRUNK = Look(fill=BLUE)
HELPER = Look(fill=LIGHT, edge=GREY, line=4)
BEHIND, ASIDE = 68.0, -44.0
"""How far the helper is behind the client, and how far on the weaker side."""
PROFILE = ((-1, 1), (0, 8), (4, 13), (10, 12), (19, 7), (26, 5), (27, 1), (25, 0), (19, 0), (1, 0))
"""A shoe from the side: before the heel, above the sole."""


@dataclass(frozen=True, slots=True)
class Moved:
    """A leg that is drawn where it goes, not where it starts: two legs of one side would be three. `straight`: the knee
    hardly bends, the hip gives way instead."""

    side: Side
    foot: Foot
    straight: bool = False


def client(canvas: Canvas, view: View, stands: Pose, eyes_closed: bool, moved: Moved | None = None) -> None:
    """The client, from the far side to the near one."""
    _leg(canvas, view, stands, Side.STRONGER, moved)
    _arm(canvas, view, stands, Side.STRONGER, STRONG)
    canvas.limb([view.at(*stands.hip), view.at(*stands.shoulder)], 25 * SCALE, TRUNK, "body")
    _head(canvas, view, stands.head, STRONG, eyes_closed)
    _leg(canvas, view, stands, Side.WEAKER, moved)
    _arm(canvas, view, stands, Side.WEAKER, WEAK)


def helper(canvas: Canvas, view: View, stands: Pose) -> None:
    """The helper: on the weaker side, so nearer to who looks; a little behind; hands ready, not touching."""
    x, z = helper_at(stands)
    for foot in (Foot(x - 12, z + 14), Foot(x - 6, z + 4)):
        canvas.limb([view.at(x, 90, z), view.at(*ankle(foot), foot.z)], 13 * SCALE, HELPER)
        shoe(canvas, view, foot, HELPER, "helper-foot")
    canvas.limb(view.all([(x, 128.0), (x + 4, 106.0), (x + 25, 116.0)], z + 10), 9 * SCALE, HELPER)
    canvas.limb([view.at(x, 90, z), view.at(x, 134, z)], 25 * SCALE, HELPER, "helper")
    _head(canvas, view, (x, 161, z), HELPER, False)
    canvas.limb(
        view.all([(x, 130.0), (x + 2, 106.0), (x + 25, 113.0)], z - 6), 9 * SCALE, replace(HELPER, fill=PAPER), "helper-arm"
    )


def helper_at(stands: Pose) -> tuple[float, float]:
    """x and z of the helper: behind the back of the chair, so that it is seen."""
    return min(stands.hip[0] - BEHIND, stands.chair_front - SEAT_DEPTH - 18), ASIDE


def shoe(canvas: Canvas, view: View, foot: Foot, look: Look, name: str) -> None:
    """A foot from the side."""
    canvas.shape(view.all([turned(foot, x, y) for x, y in PROFILE], foot.z), look, name)


def leg_joints(stands: Pose, foot: Foot, straight: bool = False) -> list[Spot]:
    """Hip, knee and ankle of the leg that ends in that foot; `straight` as in `Moved`."""
    low = ankle(foot)
    hip = (stands.hip[0], max(stands.hip[1], low[1] + 0.993 * (THIGH + SHIN)) if straight else stands.hip[1])
    knee = middle(hip, low, (THIGH, SHIN), ahead=True)
    return [(*hip, foot.z * 0.5), (*knee, foot.z), (*low, foot.z)]


def arm_joints(stands: Pose, wrist: Spot, side: Side) -> list[Spot]:
    """Shoulder, elbow and wrist of the arm that ends there."""
    z = 15.0 if side is Side.STRONGER else -15.0
    start = (stands.shoulder[0], stands.shoulder[1] - 3 + DEPTH * z)
    end = (wrist[0], wrist[1] + DEPTH * wrist[2])
    elbow = middle(start, end, (UPPER_ARM, FOREARM), ahead=False)
    return [(*start, 0.0), (*elbow, 0.0), (*end, 0.0)]


def _leg(canvas: Canvas, view: View, stands: Pose, side: Side, moved: Moved | None) -> None:
    weak = side is Side.WEAKER
    if moved is not None and moved.side is side:
        look, joints = GHOST_WEAK if weak else GHOST, leg_joints(stands, moved.foot, moved.straight)
        canvas.limb([view.at(*joint) for joint in joints], 13 * SCALE, look, "moved-leg")
        shoe(canvas, view, moved.foot, look, "moved-foot")
        return
    foot, look = stands.feet[side], WEAK if weak else STRONG
    canvas.limb([view.at(*joint) for joint in leg_joints(stands, foot)], 13 * SCALE, look, f"leg:{side}")
    shoe(canvas, view, foot, look, f"side-foot:{side}")


def _arm(canvas: Canvas, view: View, stands: Pose, side: Side, look: Look) -> None:
    hand = stands.hands[side]
    rests = hand.over is not None
    wrist = (hand.at[0] - (7 if rests else 0), hand.at[1] + (3 if rests else 7), hand.at[2])
    canvas.limb([view.at(*joint) for joint in arm_joints(stands, wrist, side)], 9.5 * SCALE, look, f"arm:{side}")
    palm(canvas, view, hand, look, f"hand:{side}")


def _head(canvas: Canvas, view: View, head: Spot, look: Look, eyes_closed: bool) -> None:
    x, y, z = head
    canvas.circle(view.at(x + HEAD - 0.5, y - 2, z), 3.6 * SCALE, look)
    canvas.circle(view.at(x, y, z), HEAD * SCALE, look, "head")
    canvas.circle(view.at(x + HEAD - 2.2, y - 2, z), 3.4 * SCALE, replace(look, line=0))
    if eyes_closed:
        canvas.line(view.all(lid(x + 6, y + 4, 4.5), z), 7, look.edge, name="eyes:closed")
    else:
        canvas.circle(view.at(x + 6, y + 4, z), 2.3 * SCALE, Look(look.edge, look.edge, 0), "eyes:open")


def lid(x: float, y: float, size: float) -> list[tuple[float, float]]:
    """A closed lid."""
    return [(x + size * math.cos(a), y + 0.75 * size * math.sin(a)) for a in (math.pi * (1 + n / 8) for n in range(9))]
