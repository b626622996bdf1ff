"""Where the joints of a body are, seen from its side: a placement's feet and hands, and what follows for the rest.

Centimetres as in `placement`. A middle joint (knee, elbow) follows from the two ends of its limb.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from companion.content.picture_shape import Feet, Seat, SupportAt
from companion.core.programme import Side
from companion.media.pictures.placement import FOOT, Foot, Held, Placement, Sole

Spot = tuple[float, float, float]
"""x forward, y up, z towards the stronger side."""

ANKLE, THIGH, SHIN = 9.0, 42.0, 41.0
BALL = 19.0
"""How far the ball of the foot is before the heel: a heel goes up around it."""
TRUNK, NECK, HEAD = 46.0, 25.0, 13.0
UPPER_ARM, FOREARM = 28.0, 27.0
SEAT, SEAT_DEPTH = 46.0, 46.0
CUSHION = 9.0
GAP: Mapping[Held, float] = {Held.HOVERS: 11.0, Held.FINGERTIPS: 8.0}
"""How far a palm that hovers is above the support (more than it should be, so that it is seen on a small screen), and how far
one whose fingertips touch."""
REST = 10.0
"""How far behind the edge of a support in front the hands rest."""
BESIDE = 34.0
"""How far aside the middle of the support is."""
TOPS: Mapping[str, float] = {"heavy_table": 78.0}
TOP = 90.0
"""How high the support is."""


@dataclass(frozen=True, slots=True)
class Hand:
    """A hand: the middle of the palm, what it does, and how high what is under it stands (None: it hangs)."""

    at: Spot
    held: Held
    over: float | None


@dataclass(frozen=True, slots=True)
class Pose:
    """The joints of one body. `lean`: how far the shoulders are before the hips."""

    hip: Spot
    shoulder: Spot
    head: Spot
    feet: Mapping[Side, Foot]
    hands: Mapping[Side, Hand]
    support_from: float
    """Where the support begins, in x; it runs forward from there."""
    support_top: float
    chair_front: float
    """Where the front edge of the chair is, in x."""
    chair_seat: float


def pose(placement: Placement) -> Pose:
    """The pose of the client in that placement."""
    seat = SEAT + (CUSHION if placement.details.seat is Seat.RAISED else 0)
    hip = _sitting(placement, seat) if placement.seated else _standing(placement)
    lean = _lean(placement)
    shoulder = (hip[0] + TRUNK * math.sin(lean), hip[1] + TRUNK * math.cos(lean), 0.0)
    head = (shoulder[0] + NECK * math.sin(lean * 0.6), shoulder[1] + NECK * math.cos(lean * 0.6), 0.0)
    toes = max(foot.heel + FOOT for foot in placement.feet.values())
    heels = min(foot.heel for foot in placement.feet.values())
    front = toes + 8 if placement.support_at is SupportAt.FRONT else hip[0] - 26
    chair_front = hip[0] + (30 if placement.details.seat is Seat.BACK else 16) if placement.seated else heels - 12
    top = TOPS.get(placement.support or "", TOP)
    hands = _hands(placement, hip, front if placement.support_at is SupportAt.FRONT else None, (top, seat))
    return Pose(hip, shoulder, head, placement.feet, hands, front, top, chair_front, seat)


def ankle(foot: Foot) -> tuple[float, float]:
    """x and y of the ankle."""
    return turned(foot, 6.0, ANKLE)


def turned(foot: Foot, x: float, y: float) -> tuple[float, float]:
    """A point of the foot, `x` before its heel and `y` above its sole, where it comes to be with the heel up or the foot up."""
    angle = math.radians(foot.tilt)
    dx = x - BALL
    if foot.sole is Sole.TOES and dx > 0:
        return foot.heel + x, foot.up + y  # the toes stay on the floor
    return (
        foot.heel + BALL + dx * math.cos(angle) + y * math.sin(angle),
        foot.up + y * math.cos(angle) - dx * math.sin(angle),
    )


def middle(
    start: tuple[float, float], end: tuple[float, float], lengths: tuple[float, float], ahead: bool
) -> tuple[float, float]:
    """The knee or elbow between two ends; `ahead`: it points forward. A limb too short is drawn straight."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    reach = max(math.hypot(dx, dy), 1e-6)
    first, second = lengths
    if reach >= first + second:
        share = first / (first + second)
        return start[0] + dx * share, start[1] + dy * share
    along = (first**2 - second**2 + reach**2) / (2 * reach)
    off = math.sqrt(max(first**2 - along**2, 0.0))
    mid = (start[0] + dx * along / reach, start[1] + dy * along / reach)
    one = (mid[0] - dy * off / reach, mid[1] + dx * off / reach)
    two = (mid[0] + dy * off / reach, mid[1] - dx * off / reach)
    return max(one, two) if ahead else min(one, two)


def _standing(placement: Placement) -> Spot:
    bearing = [foot for foot in placement.feet.values() if foot.sole is not Sole.UP]
    if placement.details.feet is Feet.TOES_REST:
        bearing = [foot for foot in bearing if foot.sole is Sole.FLAT]
    ankles = [ankle(foot) for foot in bearing]
    x = sum(at[0] for at in ankles) / len(ankles) + 2
    leg = (THIGH + SHIN) * 0.995
    y = min(at[1] + math.sqrt(max(leg**2 - (at[0] - x) ** 2, 0.0)) for at in ankles)
    return (x, y, 0.0)


def _sitting(placement: Placement, seat: float) -> Spot:
    heel = min(foot.heel for foot in placement.feet.values())
    return (heel + 6 - (41 if placement.details.seat is Seat.BACK else 32), seat + 9, 0.0)


def _lean(placement: Placement) -> float:
    match placement.details.seat:
        case Seat.LEAN:
            return math.radians(34)
        case Seat.EDGE | Seat.RAISED if placement.support is not None:
            return math.radians(26)
        case _:
            return 0.0


def _hands(placement: Placement, hip: Spot, front: float | None, tops: tuple[float, float]) -> Mapping[Side, Hand]:
    found = {}
    for side, held in placement.hands.items():
        away = 1 if side is Side.STRONGER else -1
        if held is Held.SIDE:
            found[side] = Hand((hip[0] + (9 if side is Side.STRONGER else 2), hip[1] - 14, 19.0 * away), held, None)
            continue
        if held is Held.LAP:
            found[side] = Hand((hip[0] + 24, hip[1] + 10, 10.0 * away), held, None)
            continue
        if placement.on_seat:
            x, z, top = hip[0] - (16 if side is Side.STRONGER else 6), 20.0 * away, tops[1]
        elif front is not None:
            x, z, top = front + REST + 2.5 * away, 4.0 * away, tops[0]
        else:
            x, z, top = hip[0] + (32 if side is Side.STRONGER else 54), BESIDE, tops[0]
        found[side] = Hand((x, top + 4.0 + GAP.get(held, 0.0), z), held, top)
    return found
