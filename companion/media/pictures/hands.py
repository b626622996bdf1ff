"""Hands: flat, on their fingertips, hovering over a gap, hanging; and the ring that shows the hand in large."""

import math
from dataclasses import dataclass, replace

from companion.core.programme import Side
from companion.media.pictures.canvas import GREY, INK, PAPER, Canvas, Look, Point
from companion.media.pictures.placement import Held, Placement
from companion.media.pictures.poses import GAP, Hand, Pose
from companion.media.pictures.view import SCALE, View

WEAK = Look(hatched=True)
RING = 78.0
"""The radius of the ring, pixels."""
SHOWN = (Held.ON, Held.FINGERTIPS, Held.HOVERS)


@dataclass(frozen=True, slots=True)
class Surface:
    """What is under a hand: a spot on it in pixels, `way`: 1 if the fingers point to the right, else -1, and the size of a
    centimetre."""

    at: Point
    way: int
    size: float

    def spot(self, x: float, y: float) -> Point:
        """Centimetres towards the fingers and above the surface, in pixels."""
        return self.at[0] + self.way * x * self.size, self.at[1] + y * self.size


def palm(canvas: Canvas, view: View, hand: Hand, look: Look, name: str) -> None:
    """A hand of a body."""
    x, y, z = hand.at
    if hand.over is None:
        canvas.limb([view.at(x, y + 4, z), view.at(x + 1, y - 6, z)], 10 * SCALE, look, name)
        return
    surface = Surface(view.at(x, hand.over, z), view.facing, SCALE)
    _over(canvas, surface, hand.held, look, name)


def _over(canvas: Canvas, surface: Surface, held: Held, look: Look, name: str) -> None:
    """A hand on its surface, or over it."""
    spot, size, gap = surface.spot, surface.size, GAP.get(held, 0.0)
    if held is Held.FINGERTIPS:
        fingers = replace(look, line=min(look.line, 4), hatched=False)
        for step in (-0.5, 4.5, 9.5):
            joints = [spot(step - 2.5, gap + 3.5), spot(step + 0.5, gap + 2), spot(step + 1, 2.0)]
            canvas.limb(joints, 3.0 * size, fingers, f"{name}:finger")
        canvas.limb([spot(-9, gap + 8), spot(5, gap + 4)], 7 * size, look, name)
        return
    canvas.limb([spot(-7, gap + 4), spot(10, gap + 4)], 7.5 * size, look, name)
    if held is Held.HOVERS:
        _gap(canvas, surface, gap, f"{name}:gap")


def _gap(canvas: Canvas, surface: Surface, gap: float, name: str) -> None:
    """A measure of the gap under a hand: no arrow, nothing moves there."""
    low, high, wide = 0.7, gap - 0.9, 2.4
    canvas.line([surface.spot(1, low), surface.spot(1, high)], 1.2 * surface.size, GREY, name=name)
    for y in (low, high):
        canvas.line([surface.spot(1 - wide, y), surface.spot(1 + wide, y)], 1.2 * surface.size, GREY)


def ring_line(canvas: Canvas, placement: Placement, view: View, stands: Pose, at: Point) -> None:
    """The line from the ring to the hand, to the nearer one if it shows both."""
    shown = [side for side in (Side.WEAKER, Side.STRONGER) if placement.hands[side] in SHOWN]
    if shown:
        target = view.at(*stands.hands[shown[0]].at)
        turn = math.atan2(target[1] - at[1], target[0] - at[0])
        canvas.line([(at[0] + RING * math.cos(turn), at[1] + RING * math.sin(turn)), target], 3, GREY, name="ring-line")
        canvas.circle(target, 6, Look(GREY, GREY, 0), "ring-line-end")


def ring(canvas: Canvas, placement: Placement, at: Point, facing: int) -> None:
    """What the hands do, in large; nothing if they are on nothing."""
    shown = [side for side in (Side.WEAKER, Side.STRONGER) if placement.hands[side] in SHOWN]
    if not shown:
        return
    canvas.circle(at, RING, Look(PAPER, GREY, 4), "ring")
    top = at[1] - 28
    half = math.sqrt(RING**2 - 28**2) - 3
    slab = [(at[0] - half, top), (at[0] + half, top), (at[0] + half - 9, top - 18), (at[0] - half + 9, top - 18)]
    if placement.support == "rail" and not placement.on_seat:
        canvas.line([(at[0], top - 10), (at[0], at[1] - RING + 3)], 15, GREY)
        canvas.limb([(at[0] - half + 10, top - 8), (at[0] + half - 10, top - 8)], 11, Look(PAPER, INK, 4), "ring-support")
    else:
        canvas.shape(slab, Look("#dddddd" if placement.on_seat else "#333333", INK, 3), "ring-support")
    size, aside = (4.7, 0.0) if len(shown) == 1 else (2.7, 33.0)
    for side in shown:
        look = WEAK if side is Side.WEAKER else Look()
        surface = Surface((at[0] + facing * (aside if side is Side.WEAKER else -aside), top), facing, size)
        _over(canvas, surface, placement.hands[side], look, f"ring-hand:{side}")
