"""What stands around: the support in its five kinds, and the chair, each seen from the side."""

from dataclasses import dataclass
from typing import Protocol

from companion.media.pictures.canvas import GREY, INK, LIGHT, PAPER, SOLID, Canvas, Look, Point
from companion.media.pictures.poses import REST, SEAT_DEPTH

SLAB = 5.0
DEEP = 15.0
"""How deep the top of a heavy table is."""
ROUND = 2.6
"""Half of how thick a rail is."""
ACROSS = (19.0, 28.0)
"""How far a rail that runs across goes each way: so much nearer or further ahead, and so far aside."""
LENGTH_BESIDE, LENGTH_AHEAD = 92.0, 46.0


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
            _rail(canvas, view, stands)
        case "sturdy_chair":
            _sturdy_chair(canvas, view, stands)
        case "heavy_table":
            for near, look in ((0, Look(GREY, INK, 3)), (1, Look(SOLID, INK, 4))):
                for leg in (x + 15, end - 26) if near == 0 else (x + 1, end - 12):
                    _box(canvas, view, (leg, 0 if near else 7, leg + 11, top - SLAB), z, look)
            _box(canvas, view, (x - 2, top - DEEP, end + 2, top), z, Look(SOLID, INK, 5), "support")
            canvas.line([view.at(x, top - 4, z), view.at(end, top - 4, z)], 3, INK)
        case _:
            _box(canvas, view, (x + 2, 0, end - 2, top - SLAB), z, BLOCK)
            half = (x + end) / 2
            canvas.line([view.at(half, 8, z), view.at(half, top - 12, z)], 3, GREY)
            if kind == "sink":
                tap = [(end - 8, top), (end - 8, top + 20), (end - 18, top + 20), (end - 18, top + 13)]
                canvas.line([view.at(px, py, z) for px, py in tap], 8, INK)
            _box(canvas, view, (x, top - SLAB, end, top), z, TOP, "support")


def _rail(canvas: Canvas, view: Seen, stands: Standing) -> None:
    """A thin round bar on two posts with plates on the floor; one that runs across slants, as what goes into the depth."""
    if stands.long:
        ends = [(stands.start, stands.z), (stands.start + stands.length, stands.z)]
    else:
        middle = stands.start + REST + 7.5
        ends = [(middle - ACROSS[0], ACROSS[1]), (middle + ACROSS[0], -ACROSS[1])]
    (x, z), (end, last) = ends
    for part in (0.14, 0.86):
        post, away = x + (end - x) * part, z + (last - z) * part
        _box(canvas, view, (post - 7, 0, post + 7, 2.5), away, Look(GREY, INK, 3))
        _box(canvas, view, (post - 1.3, 2, post + 1.3, stands.top - ROUND), away, Look(GREY, INK, 2))
    thick = view.at(0, 2 * ROUND)[1] - view.at(0, 0)[1]
    bar = Look(PAPER, INK, 4)
    canvas.limb([view.at(one, stands.top - ROUND, far) for one, far in ends], thick - 2 * bar.line, bar, "support")


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
