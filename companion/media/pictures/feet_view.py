"""The lower part of a form's picture: the feet from above, toes up, as somebody sees them who looks down.

What does not touch the floor has a dashed edge."""

import math
from collections.abc import Mapping
from itertools import product

from companion.content.picture_shape import Motion, SupportAt
from companion.core.programme import Side
from companion.media.pictures import motions
from companion.media.pictures.canvas import (
    BLUE,
    FLOOR,
    GHOST,
    GHOST_WEAK,
    GREY,
    INK,
    LIGHT,
    PALE,
    PAPER,
    Canvas,
    Look,
    Point,
    curve,
    smooth,
)
from companion.media.pictures.placement import FOOT, Foot, Placement, Sole
from companion.media.pictures.poses import BALL

SCALE = 4.6
"""Pixels of a centimetre, where there is room for it."""
CENTRE = 400.0
PANEL = (60.0, 740.0)
"""The left and the right edge of the floor, pixels."""
ROOM = (28.0, 392.0)
"""From where to where it goes up, pixels."""
HIPS = 4.0
"""How far the hips are before the heels, centimetres."""
CHAIR = 14.0
"""So much of a chair behind is shown at least, centimetres."""
SOLE = (
    (0, 0),
    (2.4, -3.6),
    (9, -4.1),
    (17, -5.3),
    (22, -4.6),
    (25.5, -1.6),
    (26, 2.0),
    (24.2, 4.9),
    (17.5, 5.1),
    (10, 3.2),
    (2.4, 3.6),
)
"""The outline of a foot: forward from the heel, and aside (minus is the outer side)."""
TAKES_TURNS = (Motion.LIFT_HEEL, Motion.LIFT_FOOT, Motion.LIFT_KNEE)
SHIFTS = (Motion.SHIFT, Motion.SHIFT_HEEL_UP)
BOARD = Look("#333333", INK, 3)
PLAN = (BOARD, 8.0, 38.0)
PLANS: Mapping[str, tuple[Look, float, float]] = {
    "rail": (Look(PAPER, INK, 5), 2.6, 38.0),
    "heavy_table": (Look(LIGHT, INK, 6), 22.0, 38.0),
    "sturdy_chair": (Look(PAPER, INK, 4), 18.0, 20.0),
}
"""How a support looks from above, how broad and half of how long it is in centimetres; another looks like a board."""

REACHES: Mapping[Motion, tuple[float, float]] = {
    Motion.REACH_NEAR: (16, 10),
    Motion.REACH_FAR: (32, 10),
    Motion.REACH_ACROSS: (14, -24),
}
"""How far before the feet a hand goes, and to which side."""


def draw(canvas: Canvas, placement: Placement, letters: Mapping[Side, str], room: tuple[float, float] = ROOM) -> None:
    """Draw it, within that height; `letters` stand on the feet."""
    low, high = room
    floor = [(PANEL[0], low - 16), (PANEL[1], low - 16), (PANEL[1], high + 12), (PANEL[0], high + 12)]
    canvas.shape(floor, Look(FLOOR, FLOOR, 0), "floor")
    plan = Plan(canvas, placement, letters, room)
    if placement.chair:
        plan.chair()
    if placement.support is not None:
        plan.support()
    if placement.carer:
        plan.helper()
    if placement.details.motion in SHIFTS:
        plan.hips()
    for side in (Side.STRONGER, Side.WEAKER):
        plan.foot(side)
    plan.motion()


class Plan:
    """The ground from above. Lives only while it is drawn."""

    def __init__(self, canvas: Canvas, placement: Placement, letters: Mapping[Side, str], room: tuple[float, float]) -> None:
        self.canvas, self.placement, self.letters = canvas, placement, letters
        self._stronger = -1 if placement.weaker == "right" else 1
        moved = motions.target(placement)
        heels = [foot.heel for foot in (*placement.feet.values(), *((moved,) if moved else ()))]
        self._low, self._high = min(heels), max(heels) + FOOT
        self._middle = (self._low + self._high) / 2
        before = placement.support is not None and placement.support_at is SupportAt.FRONT
        reach = REACHES.get(placement.details.motion, (0, 0))[0] if placement.details.motion else 0
        free = 17.0 if placement.details.motion is Motion.WALK else 12.0 + reach if reach else 3.0
        broad = PLANS.get(placement.support or "", PLAN)[1]
        ahead = self._high + (max(10 + broad, 17.0) if before else free)
        behind = self._low - (CHAIR if placement.chair else 3)
        self._scale = min(SCALE, (room[1] - room[0]) / (ahead - behind))
        self._origin = (room[0] + room[1]) / 2 - (ahead + behind) / 2 * self._scale
        self._back = max(behind - 12, (room[0] - 16 - self._origin) / self._scale)
        self._front = (room[1] - self._origin) / self._scale

    def at(self, x: float, z: float) -> Point:
        """A spot on the ground, in pixels."""
        return CENTRE + self._stronger * z * self._scale, self._origin + x * self._scale

    def foot(self, side: Side) -> None:
        """One foot, with its letter."""
        foot = self.placement.feet[side]
        weak = side is Side.WEAKER
        if side is self.placement.loaded:
            turns = [math.radians(n * 15) for n in range(24)]
            ring = [self.at(foot.heel + 13 + 16 * math.cos(a), foot.z + 8 * math.sin(a)) for a in turns]
            self.canvas.shape(ring, Look(PALE, BLUE, 6), "plan-weight")
        self.canvas.shape(self._sole(foot, side), Look(hatched=weak, dashed=foot.sole is Sole.UP), f"foot:{side}")
        if foot.sole is Sole.TOES:
            self._heel_up(foot, side)
        middle = self.at(foot.heel + (17 if foot.sole is Sole.TOES else 15), foot.z)
        self.canvas.circle(middle, 25, Look(PAPER, INK, 3))
        self.canvas.write(middle, self.letters[side], 40, name=f"letter:{side}")

    def _sole(self, foot: Foot, side: Side, start: float = 0.0) -> list[Point]:
        out = 1 if side is Side.WEAKER else -1
        points = smooth([(x, y * out) for x, y in SOLE])
        return [self.at(foot.heel + x, foot.z - y) for x, y in points if x >= start]

    def _heel_up(self, foot: Foot, side: Side) -> None:
        """Over the heel that is off the floor, paper; its outline dashed."""
        out = 1 if side is Side.WEAKER else -1
        points = [(x, y * out) for x, y in smooth(SOLE) if x <= BALL - 6]
        heel = [self.at(foot.heel + x, foot.z - y) for x, y in points]
        self.canvas.shape(heel, Look(FLOOR, FLOOR, 7))
        self.canvas.shape(heel, Look("none", INK, 4, dashed=True), f"heel-up:{side}")

    def support(self) -> None:
        """The support in front or along the stronger side: a narrow bar, a board, or a broad table."""
        look, wide, half = PLANS.get(self.placement.support or "", PLAN)
        if self.placement.support_at is SupportAt.FRONT:
            corners = (self._high + 9, -half, self._high + 9 + wide, half)
        else:
            corners = (max(self._middle - half, self._back), 26.0, min(self._middle + half, self._front), 26 + wide)
        self._box(corners, look, "plan-support")
        x, z, end, far = corners
        if self.placement.support == "heavy_table":
            for px, pz in product((x + 1, end - 6), (z + 1, far - 6)):
                self._box((px, pz, px + 5, pz + 5), Look(GREY, INK, 2), "plan-support-leg")
            return
        across = self.placement.support_at is SupportAt.FRONT
        if self.placement.support == "sturdy_chair":  # its back is towards the client
            self._box((x, z, x + 5, far) if across else (x, z, end, z + 5), BOARD, "plan-support-back")
        elif self.placement.support == "rail":
            for part in (0.12, 0.88):
                spot = ((x + end) / 2, z + (far - z) * part) if across else (x + (end - x) * part, (z + far) / 2)
                self.canvas.circle(self.at(*spot), 11, Look(GREY, INK, 3), "plan-support-post")

    def chair(self) -> None:
        """The seat of the chair; its back is the thick end."""
        edge = self._low - 6 if not self.placement.seated else self._low + 2
        self._box((max(edge - 30, self._back), -17, edge, 17), Look(PAPER, INK, 4), "plan-chair")
        if edge - 30 > self._back:
            self._box((edge - 34, -17, edge - 29, 17), Look(GREY, INK, 3), "plan-chair-back")

    def hips(self) -> None:
        """The hips over the feet: it is they that go from side to side."""
        turns = [math.radians(n * 10) for n in range(36)]
        ring = [self.at(self._low + HIPS + 6.5 * math.sin(a), 21 * math.cos(a)) for a in turns]
        self.canvas.shape(ring, GHOST, "plan-hips")

    def helper(self) -> None:
        """Head and shoulders of the helper from above: on the weaker side, a little behind, looking the same way."""
        stepping = self.placement.mover is Side.WEAKER and self.placement.details.motion in motions.ASIDE
        x, z = self._low - 14 if stepping else self._middle - 16, -44.0 if stepping else -38.0
        look = Look(LIGHT, GREY, 4)
        for hand in (-13, 13):
            self.canvas.limb([self.at(x, z + hand), self.at(x + 11, z + hand * 0.8)], 16, look)
        self.canvas.limb([self.at(x, z - 11), self.at(x, z + 11)], 40, look, "plan-helper")
        self.canvas.circle(self.at(x + 6, z), 8, look)
        self.canvas.circle(self.at(x, z), 27, look)

    def motion(self) -> None:
        """Where feet go, and from foot to foot."""
        details, moved, mover = self.placement.details, motions.target(self.placement), self.placement.mover
        if moved is not None and mover is not None:
            self.canvas.shape(self._sole(moved, mover), GHOST_WEAK if mover is Side.WEAKER else GHOST, "plan-moved")
            foot = self.placement.feet[mover]
            if moved.z == foot.z:
                inside = 2.5 if mover is Side.STRONGER else -2.5
                start, end = self.at(foot.heel + 13, inside), self.at(moved.heel + 15, inside)
            else:
                start, end = self.at(foot.heel + FOOT + 3.5, foot.z), self.at(foot.heel + FOOT + 3.5, moved.z)
            self.canvas.arrow([start, end], 8, both=details.motion in motions.TAPS, name="plan-arrow")
        elif details.motion in SHIFTS:
            spots = [self.at(self._low + HIPS, z) for z in (-19, 0, 19)]
            self.canvas.arrow(spots, 13, both=True, name="plan-arrow")
        elif details.motion in TAKES_TURNS and mover is None:
            high, wide = self._high + 1.5, self.placement.feet[Side.STRONGER].z
            arc = [self.at(high + 7 * (1 - (z / wide) ** 2) - 3, z) for z in (wide * (n / 6 - 1) for n in range(13))]
            self.canvas.arrow(arc, 9, both=True, name="plan-arrow")
        elif details.motion is Motion.WALK:
            self.canvas.arrow([self.at(self._high + 2, 0), self.at(self._high + 16, 0)], 9, name="plan-arrow")

        elif details.motion is not None and details.motion in REACHES:
            far = REACHES[details.motion]
            start, bend = self.at(self._high + 3, 10), self.at(self._high + 6 + far[0] * 0.7, 11)
            self.canvas.arrow(curve(start, bend, self.at(self._high + 8 + far[0], far[1])), 9, name="plan-arrow")

    def _box(self, corners: tuple[float, float, float, float], look: Look, name: str) -> None:
        x, z, end, far = corners
        self.canvas.shape([self.at(x, z), self.at(end, z), self.at(end, far), self.at(x, far)], look, name)
