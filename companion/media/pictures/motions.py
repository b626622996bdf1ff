"""What moves in a form, from the side: blue where it goes, and an arrow; of a leg that moves only that is drawn here, the feet
from above show where it starts."""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from companion.content.picture_shape import STEPS, Motion
from companion.core.programme import Side
from companion.media.pictures.body import Moved, arm_joints
from companion.media.pictures.canvas import BLUE, GHOST, GHOST_WEAK, Canvas, Look, curve
from companion.media.pictures.placement import FOOT, Foot, Placement, Sole
from companion.media.pictures.poses import HEAD, NECK, TRUNK, Pose, Spot, ankle
from companion.media.pictures.view import SCALE, View

AHEAD: Mapping[Motion, float] = {Motion.TAP_FORWARD: 30, Motion.STEP_FORWARD: 34, Motion.LONG_STEP_FORWARD: 52}
ASIDE: Mapping[Motion, float] = {Motion.TAP_SIDE: 15, Motion.STEP_SIDE: 17, Motion.LONG_STEP_SIDE: 30}
"""How far a foot goes, in centimetres."""
HEEL_UP = 30.0
"""How far the heel of one foot is turned up, degrees."""
TOWARDS, NEAREST = 1.9, 48.0
"""A step aside is towards or away from who looks: it is drawn so many times as far, and so far at most, to be seen."""
OVER = (Motion.CLAP, Motion.PAT, Motion.TURN_HEAD, Motion.REACH_ACROSS, *ASIDE)
TAPS = (Motion.TAP_FORWARD, Motion.TAP_SIDE)


@dataclass(frozen=True, slots=True)
class Seen:
    """All that a motion is drawn from."""

    canvas: Canvas
    view: View
    placement: Placement
    stands: Pose

    def arm(self, wrist: Spot, side: Side) -> None:
        """An arm where it goes, without its hand."""
        joints = [self.view.at(*joint) for joint in arm_joints(self.stands, wrist, side)]
        self.canvas.limb(joints, 8 * SCALE, GHOST_WEAK if side is Side.WEAKER else GHOST, "moved-arm")

    def palm(self, at: Spot, towards: tuple[float, float], side: Side = Side.STRONGER) -> None:
        """A hand where it goes; `towards`: where its fingers are from its middle."""
        x, y, z = at
        ends = [self.view.at(x, y, z), self.view.at(x + towards[0], y + towards[1], z)]
        self.canvas.limb(ends, 7 * SCALE, GHOST_WEAK if side is Side.WEAKER else GHOST, "moved-hand")

    def arrow(self, *spots: Spot, both: bool = False, width: float = 9) -> None:
        """An arrow through those spots."""
        self.canvas.arrow([self.view.at(*spot) for spot in spots], width, both=both, name="arrow")


def draw(seen: Seen, *, over: bool) -> None:
    """Draw what moves: hands and the head `over` the client, legs and the whole body under."""
    motion = seen.placement.details.motion
    if motion is not None and over is (motion in OVER):
        DRAWN[motion](seen)


def target(placement: Placement) -> Foot | None:
    """Where the foot of a step comes to; None if the form has no step."""
    motion, mover = placement.details.motion, placement.mover
    if motion is None or mover is None or motion not in STEPS:
        return None
    foot = placement.feet[mover]
    away = 1 if mover is Side.STRONGER else -1
    moved = replace(foot, heel=foot.heel + AHEAD.get(motion, 0), z=foot.z + away * ASIDE.get(motion, 0))
    return replace(moved, sole=Sole.TOES, tilt=18.0) if motion in TAPS else moved


def moved(placement: Placement) -> Moved | None:
    """The leg that is drawn where it goes: the one that moves, or, where both do in turn, the nearer one."""
    motion, side = placement.details.motion, placement.mover or Side.WEAKER
    foot, lifts = placement.feet[side], 16.0 if placement.seated else 36.0
    match motion:
        case Motion.LIFT_HEEL | Motion.SHIFT_HEEL_UP:
            return Moved(side, replace(foot, sole=Sole.TOES, tilt=HEEL_UP), straight=not placement.seated)
        case Motion.LIFT_FOOT:
            return Moved(side, replace(foot, heel=foot.heel + 5, sole=Sole.UP, tilt=14.0, up=15.0))
        case Motion.LIFT_KNEE:
            ahead = 4 if placement.seated else 22
            return Moved(side, replace(foot, heel=foot.heel + ahead, sole=Sole.UP, tilt=8.0, up=lifts))
        case _:
            goes = target(placement)
    if goes is None:
        return None
    far = foot.z + (goes.z - foot.z) * TOWARDS
    return Moved(side, replace(goes, z=max(-NEAREST, min(NEAREST, far))), straight=motion is Motion.TAP_SIDE)


def _moved(seen: Seen) -> Foot:
    """The foot that moves, where it starts."""
    return seen.placement.feet[seen.placement.mover or Side.WEAKER]


def _press(seen: Seen) -> None:
    foot = _moved(seen)
    x = foot.heel + FOOT + 9
    seen.arrow((x, 40, foot.z), (x, 6, foot.z))
    seen.arrow((x + 11, 40, -foot.z), (x + 11, 6, -foot.z))


def _heels(seen: Seen) -> None:
    foot = _moved(seen)
    high = 20 if seen.placement.details.motion is Motion.LIFT_HEELS_A_LITTLE else 34
    seen.arrow((foot.heel - 12, 0, foot.z), (foot.heel - 12, high, foot.z))


def _heel(seen: Seen) -> None:
    foot = _moved(seen)
    seen.arrow((foot.heel - 6, 1, foot.z), (foot.heel - 6, 21, foot.z), width=7)


def _foot(seen: Seen) -> None:
    foot = _moved(seen)
    seen.arrow((foot.heel + 40, 2, foot.z), (foot.heel + 40, 32, foot.z))


def _knee(seen: Seen) -> None:
    foot = _moved(seen)
    x = foot.heel + FOOT + (12 if seen.placement.seated else 30)
    seen.arrow((x, 4, foot.z), (x, 40 if seen.placement.seated else 60, foot.z))


def _shift(seen: Seen) -> None:
    """From side to side is towards and away from who looks: the hips from above show it."""
    if seen.placement.details.motion is Motion.SHIFT_HEEL_UP:
        _heel(seen)


def _head(seen: Seen) -> None:
    x, y, z = seen.stands.head
    arc = [(x + 17 * math.cos(a), y + HEAD + 5 + 5 * math.sin(a), z) for a in (math.radians(200 - n * 11) for n in range(21))]
    seen.arrow(*arc, both=True)


def _step(seen: Seen) -> None:
    goes, foot, back = target(seen.placement), _moved(seen), seen.placement.details.motion in TAPS
    if goes is None:
        return
    if goes.z == foot.z:
        seen.arrow((foot.heel + FOOT - 8, -9, -11), (goes.heel + FOOT + 2, -9, -11), both=back)
        return
    _floor_arrow(seen, foot.heel + FOOT + 13, 1 if goes.z > foot.z else -1, back)


def _floor_arrow(seen: Seen, x: float, way: int, back: bool) -> None:
    """An arrow that lies on the floor and points away from who looks (1) or to whom (-1); `back`: and back again."""
    head = [(3.2, 18.0), (9.5, 18.0), (0.0, 50.0), (-9.5, 18.0), (-3.2, 18.0)]
    end = [(-wide, -z) for wide, z in head] if back else [(-3.2, -46.0), (3.2, -46.0)]
    spots = [*head, *end]
    middle = -14.0 if way < 0 else -4.0
    seen.canvas.shape([seen.view.at(x + wide, 0, middle + way * z) for wide, z in spots], Look(BLUE, BLUE, 2), "arrow")


def _stand_up(seen: Seen) -> None:
    view, tip = seen.view, seen.stands.head
    x, y = ankle(_moved(seen))[0] + 2, 92.0
    seen.canvas.limb(view.all([(x, 12.0), (x + 1, 50.0), (x, y)]), 11 * SCALE, GHOST, "moved-leg")
    seen.canvas.limb(view.all([(x, y), (x, y + TRUNK)]), 22 * SCALE, GHOST, "moved-body")
    seen.canvas.circle(view.at(x, y + TRUNK + NECK), HEAD * SCALE, GHOST, "moved-head")
    start = max(tip[0] + 24, x + 24)
    seen.arrow((start, 62, 0), (start, 128, 0))


def _walk(seen: Seen) -> None:
    front = max(foot.heel for foot in seen.placement.feet.values()) + FOOT
    seen.arrow((front + 4, 2, -20), (front + 44, 2, -20))


def _clap(seen: Seen) -> None:
    x, y = seen.stands.hip[0] + 27, seen.stands.shoulder[1] - 4
    for side, step in ((Side.STRONGER, 4.0), (Side.WEAKER, -4.0)):
        seen.arm((x - 6, y + step, 0), side)
        seen.palm((x, y + step, 0), (10, 3), side)
    for turn in (62, 28, -6):
        a = math.radians(turn)
        seen.canvas.line([seen.view.at(x + r * math.cos(a) + 5, y + r * math.sin(a)) for r in (15, 22)], 7, BLUE)


def _pat(seen: Seen) -> None:
    x, y = seen.stands.shoulder[0], seen.stands.shoulder[1] - 14
    elbow = (x + 27, y - 20)
    seen.canvas.limb(seen.view.all([(x + 10, y - 16), elbow, (x + 12, y - 3)]), 8 * SCALE, GHOST, "moved-arm")
    seen.palm((x + 11, y - 3, 0), (-9, 6))
    hand = seen.stands.hands[Side.STRONGER].at
    start, bend, end = (
        seen.view.at(hand[0] + 10, hand[1] + 9, hand[2]),
        seen.view.at(x + 48, y + 4),
        seen.view.at(x + 20, y + 9),
    )
    seen.canvas.arrow(curve(start, bend, end), 8, both=True, name="arrow")


def _reach(seen: Seen) -> None:
    motion = seen.placement.details.motion
    x, y = seen.stands.shoulder[0], seen.stands.shoulder[1]
    goes: Mapping[Motion | None, Spot] = {Motion.REACH_FAR: (52, -2, 8), Motion.REACH_ACROSS: (34, -22, -24)}
    far = goes.get(motion, (40, -12, 8))
    end: Spot = (x + far[0], y + far[1], far[2])
    seen.arm(end, Side.STRONGER)
    seen.palm((end[0] + 5, end[1] + 1, end[2]), (9, 0))
    if motion is Motion.REACH_ACROSS:
        return  # across is towards who looks: the feet from above show it
    seen.arrow((end[0] - 20, end[1] - 17, end[2]), (end[0] + 12, end[1] - 17, end[2]))


DRAWN: Mapping[Motion, Callable[[Seen], None]] = {
    Motion.PRESS: _press,
    Motion.LIFT_HEELS: _heels,
    Motion.LIFT_HEELS_A_LITTLE: _heels,
    Motion.LIFT_HEEL: _heel,
    Motion.LIFT_FOOT: _foot,
    Motion.LIFT_KNEE: _knee,
    Motion.SHIFT: _shift,
    Motion.SHIFT_HEEL_UP: _shift,
    Motion.TURN_HEAD: _head,
    Motion.TAP_FORWARD: _step,
    Motion.STEP_FORWARD: _step,
    Motion.LONG_STEP_FORWARD: _step,
    Motion.TAP_SIDE: _step,
    Motion.STEP_SIDE: _step,
    Motion.LONG_STEP_SIDE: _step,
    Motion.STAND_UP: _stand_up,
    Motion.WALK: _walk,
    Motion.CLAP: _clap,
    Motion.PAT: _pat,
    Motion.REACH_NEAR: _reach,
    Motion.REACH_FAR: _reach,
    Motion.REACH_ACROSS: _reach,
}
