"""The upper part of a form's picture: the client seen from the weaker side, with support, chair and helper."""

from companion.content.picture_shape import Motion, SupportAt
from companion.media.pictures import furniture, hands, motions
from companion.media.pictures.body import client, helper, helper_at, lid
from companion.media.pictures.canvas import FLOOR, INK, Canvas, Look, Point
from companion.media.pictures.placement import Placement
from companion.media.pictures.poses import BESIDE, SEAT_DEPTH, Pose, pose
from companion.media.pictures.view import CENTRE, GROUND, View

RING_AT = (160.0, 862.0)
"""The middle of the ring, from the side that the client looks to, pixels."""


def draw(canvas: Canvas, placement: Placement) -> None:
    """Draw it."""
    stands = pose(placement)
    view = View(1 if placement.weaker == "right" else -1, _middle(placement, stands))
    floor = [(60, GROUND - 50), (740, GROUND - 50), (740, GROUND + 30), (60, GROUND + 30)]
    canvas.shape(floor, Look(FLOOR, FLOOR, 0), "side-floor")
    if placement.support is not None:
        side = placement.support_at is SupportAt.SIDE
        spot = furniture.Standing(stands.support_from, stands.support_top, BESIDE if side else 0.0, side)
        furniture.support(canvas, view, placement.support, spot)
    if placement.chair:
        furniture.chair(canvas, view, stands.chair_front, stands.chair_seat)
    ring = (CENTRE + view.facing * (CENTRE - RING_AT[0]), RING_AT[1])
    moving = motions.Seen(canvas, view, placement, stands)
    motions.draw(moving, over=False)
    client(canvas, view, stands, placement.eyes_closed, motions.moved(placement))
    hands.ring_line(canvas, placement, view, stands, ring)
    motions.draw(moving, over=True)
    if placement.carer:
        helper(canvas, view, stands)
    hands.ring(canvas, placement, ring, view.facing)
    if placement.eyes_closed:
        _closed_eye(canvas, view.at(stands.head[0] + 33, stands.head[1] + 8))


def _closed_eye(canvas: Canvas, at: Point) -> None:
    """A closed eye in large."""
    edge, lashes = (
        [(at[0] + wide * x, at[1] + high * y) for x, y in lid(0, 0, 4.5)] for wide, high in ((6.4, 6.4), (10.5, 11.5))
    )
    canvas.line(edge, 9, INK, name="closed-eye")
    for place in (1, 3, 5, 7):
        canvas.line([edge[place], lashes[place]], 8, INK)


def _middle(placement: Placement, stands: Pose) -> float:
    """What is in the middle of the picture, in x."""
    back = stands.chair_front - SEAT_DEPTH if placement.chair else stands.hip[0] - 20
    if placement.carer:
        back = min(back, helper_at(stands)[0] - 14)
    ahead = stands.support_from + 52 if placement.support_at is SupportAt.FRONT else stands.hip[0] + 66
    if placement.seated:
        beside = placement.support_at is SupportAt.SIDE
        ahead += (50 if beside else 14) if placement.details.motion is Motion.STAND_UP else -30
    return (back + ahead) / 2 + 15
