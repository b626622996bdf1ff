"""The lower part of a form's picture: the feet from above, toes up, as somebody sees them who looks down."""

from companion.content.picture_shape import SupportAt
from companion.core.programme import Side
from companion.media.pictures.canvas import INK, PAPER, Canvas, Look, Point, smooth
from companion.media.pictures.placement import FOOT, Placement, Sole

SCALE = 4.2
CENTRE = (400.0, 196.0)
SOLE = (
    (0, 0),
    (3, -3.2),
    (9, -3.6),
    (17, -4.8),
    (22, -4.2),
    (25.5, -1.2),
    (26, 1.8),
    (24.5, 4.6),
    (18, 4.8),
    (10, 2.6),
    (3, 3.2),
)
"""The outline of a right foot: forward from the heel, and to its outer side (minus is outer)."""


def draw(canvas: Canvas, placement: Placement, raised: float = 0) -> None:
    """Draw it, so many pixels higher than usual."""
    plan = Plan(canvas, placement, raised)
    if placement.chair:
        plan.chair()
    if placement.support is not None:
        plan.support()
    for side in (Side.STRONGER, Side.WEAKER):
        plan.foot(side)


class Plan:
    """The ground from above. Lives only while it is drawn."""

    def __init__(self, canvas: Canvas, placement: Placement, raised: float) -> None:
        self.canvas, self.placement, self._raised = canvas, placement, raised
        self._stronger = -1 if placement.weaker == "right" else 1
        heels = [foot.heel for foot in placement.feet.values()]
        self._low, self._high = min(heels), max(heels) + FOOT
        self._middle = (self._low + self._high) / 2

    def at(self, x: float, z: float) -> Point:
        """A spot on the ground, in pixels."""
        return CENTRE[0] + self._stronger * z * SCALE, CENTRE[1] + self._raised + (x - self._middle) * SCALE

    def foot(self, side: Side) -> None:
        """One foot, with its letter."""
        foot = self.placement.feet[side]
        weak = side is Side.WEAKER
        look = Look(hatched=weak, dashed=foot.sole is Sole.UP)
        # the outer side is away from the middle: of the stronger foot towards the support
        out = 1 if weak else -1
        points = smooth([self.at(foot.heel + x, foot.z + y * out) for x, y in SOLE])
        self.canvas.shape(points, look, f"foot:{side}")
        middle = self.at(foot.heel + 14.5, foot.z)
        self.canvas.circle(middle, 30, Look(PAPER, INK, 3))
        self.canvas.write(middle, "W" if weak else "S", 44, name=f"letter:{side}")

    def support(self) -> None:
        """The support as a bar, in front or along the stronger side."""
        look = Look("#333333", INK, 3)
        if self.placement.support_at is SupportAt.FRONT:
            self._box(self._high + 6, -44, self._high + 14, 44, look, "plan-support")
            return
        self._box(self._middle - 40, 25, self._middle + 40, 33, look, "plan-support")

    def chair(self) -> None:
        """The seat of the chair."""
        edge = self._low - 6 if not self.placement.seated else self._low + 4
        self._box(edge - 30, -21, edge, 21, Look("#f2f2f2", INK, 4), "plan-chair")

    def _box(self, x: float, z: float, end: float, far: float, look: Look, name: str) -> None:
        corners = [self.at(x, z), self.at(end, z), self.at(end, far), self.at(x, far)]
        self.canvas.shape(corners, look, name)
