"""From centimetres of the client's space to pixels: seen from the weaker side, a little from above."""

from collections.abc import Sequence
from dataclasses import dataclass

from companion.media.pictures.canvas import Point

DEPTH = 0.22
"""What is a centimetre further away is drawn so much higher."""
SCALE = 2.75
"""Pixels of a centimetre."""
GROUND = 462.0
"""The height of the floor under the client."""
CENTRE = 400.0


@dataclass(frozen=True, slots=True)
class View:
    """`facing`: 1 if the body looks to the right of the picture, else -1. `middle`: what x is in the middle of the picture."""

    facing: int
    middle: float = 0.0

    def at(self, x: float, y: float, z: float = 0.0) -> Point:
        """A spot in pixels."""
        return CENTRE + self.facing * (x - self.middle) * SCALE, GROUND + (y + DEPTH * z) * SCALE

    def all(self, spots: Sequence[tuple[float, float]], z: float = 0.0) -> list[Point]:
        """Spots of one depth, in pixels."""
        return [self.at(x, y, z) for x, y in spots]
