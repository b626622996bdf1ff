"""The upper part of a form's picture: the client seen from the weaker side, with support, chair and helper."""

from companion.content.picture_shape import Motion, SupportAt
from companion.core.programme import Side
from companion.media.pictures import furniture, hands, motions
from companion.media.pictures.body import BEHIND, client, helper, lid
from companion.media.pictures.canvas import INK, Canvas
from companion.media.pictures.placement import Placement
from companion.media.pictures.poses import BESIDE, SEAT_DEPTH, Pose, pose
from companion.media.pictures.view import CENTRE, GROUND, View

RING_AT = (160.0, 862.0)
"""The middle of the ring, from the side that the client looks to, pixels."""


def draw(canvas: Canvas, placement: Placement) -> None:
    """Draw it."""
    stands = pose(placement)
    view = View(1 if placement.weaker == "right" else -1, _middle(placement, stands))
    canvas.line([(50, GROUND - 52), (750, GROUND - 52)], 5, INK)
    if placement.support is not None:
        side = placement.support_at is SupportAt.SIDE
        spot = furniture.Standing(stands.support_from, stands.support_top, BESIDE if side else 0.0, side)
        furniture.support(canvas, view, placement.support, spot)
    if placement.chair:
        furniture.chair(canvas, view, stands.chair_front, stands.chair_seat)
    moving = motions.Seen(canvas, view, placement, stands)
    motions.draw(moving, over=False)
    client(canvas, view, stands, placement.eyes_closed)
    motions.draw(moving, over=True)
    if placement.carer:
        helper(canvas, view, stands)
    _notes(canvas, view, placement, stands)


def _notes(canvas: Canvas, view: View, placement: Placement, stands: Pose) -> None:
    """What is small on a body, shown in large before it: the hand, and closed eyes."""
    x = CENTRE + view.facing * (CENTRE - RING_AT[0])
    hand = stands.hands[Side.STRONGER]
    hands.ring(canvas, placement, (x, RING_AT[1]), view.facing, view.at(hand.at[0] + 3, hand.at[1] + 7, hand.at[2]))
    if placement.eyes_closed:
        head = view.at(stands.head[0] + 33, stands.head[1] + 8)
        closed = [(head[0] + 6.4 * px, head[1] + 6.4 * py) for px, py in lid(0, 0, 4.5)]
        canvas.line(closed, 9, INK, name="closed-eye")
        for near, far in zip(
            closed[1:8:2], [(head[0] + 10.5 * px, head[1] + 11.5 * py) for px, py in lid(0, 0, 4.5)][1:8:2], strict=True
        ):
            canvas.line([near, far], 8, INK)


def _middle(placement: Placement, stands: Pose) -> float:
    """What is in the middle of the picture, in x."""
    back = stands.chair_front - SEAT_DEPTH if placement.chair else stands.hip[0] - 20
    if placement.carer:
        back = min(back, stands.hip[0] - BEHIND - 14)
    ahead = stands.support_from + 52 if placement.support_at is SupportAt.FRONT else stands.hip[0] + 66
    if placement.details.motion is Motion.STAND_UP:
        ahead += 50
    return (back + ahead) / 2 + 15
