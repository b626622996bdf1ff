"""What stands around: the support in its five kinds, and the chair, each seen from the side."""

from dataclasses import dataclass
from typing import Protocol

from companion.media.pictures.canvas import GREY, INK, LIGHT, Canvas, Look, Point
from companion.media.pictures.poses import SEAT_DEPTH

SLAB = 5.0
LENGTH_BESIDE, LENGTH_AHEAD = 92.0, 44.0


class Seen(Protocol):
    """Whatever turns centimetres into pixels."""

    def at(self, x: float, y: float, z: float = 0.0) -> Point:
        """A spot in pixels."""


@dataclass(frozen=True, slots=True)
class Standing:
    """Where a support stands: from `start` forward, `top` high, `z` aside; `long`: it runs along the client."""

    start: float
    top: float
    z: float
    long: bool

    @property
    def length(self) -> float:
        """How long it is seen."""
        return LENGTH_BESIDE if self.long else LENGTH_AHEAD


BLOCK = Look(LIGHT, GREY, 4)
TOP = Look("#333333", INK, 3)


def support(canvas: Canvas, view: Seen, kind: str, stands: Standing) -> None:
    """A support of that kind; one that is not known looks like a worktop."""
    x, end, top, z = stands.start, stands.start + stands.length, stands.top, stands.z
    match kind:
        case "rail":
            for post in (x + 8, end - 8):
                _box(canvas, view, (post - 2, 0, post + 2, top - 2), z, Look(GREY, INK, 3))
            canvas.limb([view.at(x, top - 2.5, z), view.at(end, top - 2.5, z)], 13, TOP, "support")
        case "sturdy_chair":
            _sturdy_chair(canvas, view, stands)
        case "heavy_table":
            for leg in (x + 5, end - 12):
                _box(canvas, view, (leg, 0, leg + 8, top - SLAB), z, Look(GREY, INK, 3))
            _box(canvas, view, (x, top - 2 * SLAB, end, top), z, TOP, "support")
        case _:
            _box(canvas, view, (x + 2, 0, end - 2, top - SLAB), z, BLOCK)
            half = (x + end) / 2
            canvas.line([view.at(half, 8, z), view.at(half, top - 12, z)], 3, GREY)
            if kind == "sink":
                tap = [(end - 8, top), (end - 8, top + 20), (end - 18, top + 20), (end - 18, top + 13)]
                canvas.line([view.at(px, py, z) for px, py in tap], 8, INK)
            _box(canvas, view, (x, top - SLAB, end, top), z, TOP, "support")


def _sturdy_chair(canvas: Canvas, view: Seen, stands: Standing) -> None:
    """Its back is what the hand is on: the chair stands with its back to the client, or beside with the back along."""
    x, top, z = stands.start + (46 if stands.long else 0), stands.top, stands.z
    wood = Look(GREY, INK, 3)
    if stands.long:  # seen from behind: a back as wide as the chair
        for post in (x, x + 40):
            _box(canvas, view, (post, 0, post + 5, top), z, wood)
        _box(canvas, view, (x, top - 30, x + 45, top - 22), z, wood)
        _box(canvas, view, (x, 40, x + 45, 46), z, wood)
        _box(canvas, view, (x - 2, top - 9, x + 47, top), z, TOP, "support")
        return
    _box(canvas, view, (x + 4, 0, x + 9, top), z, wood)
    _box(canvas, view, (x + 40, 0, x + 45, 46), z, wood)
    _box(canvas, view, (x + 4, 41, x + 47, 47), z, wood)
    _box(canvas, view, (x + 1, top - 9, x + 22, top), z, TOP, "support")


def chair(canvas: Canvas, view: Seen, front: float, seat: float) -> None:
    """A chair whose front edge is there; its back is behind the client."""
    back = front - SEAT_DEPTH
    wood = Look("#f2f2f2", INK, 4)
    for leg in (back, front - 8):
        _box(canvas, view, (leg, 0, leg + 5, seat - 5), 0, wood)
    _box(canvas, view, (back - 1, 40, back + 5, 95), 0, wood, "chair-back")
    _box(canvas, view, (back - 1, 40, front, 46), 0, wood, "chair")
    if seat > 50:
        _box(canvas, view, (back + 5, 46, front + 1, seat), 0, Look("#777777", INK, 4), "cushion")


def _box(
    canvas: Canvas, view: Seen, corners: tuple[float, float, float, float], z: float, look: Look, name: str | None = None
) -> None:
    x, y, end, top = corners
    canvas.shape([view.at(x, y, z), view.at(end, y, z), view.at(end, top, z), view.at(x, top, z)], look, name)
