"""What moves in a form, from the side: a dashed outline where it goes, and an arrow. What is solid is how one begins."""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from companion.content.picture_shape import STEPS, Motion
from companion.core.programme import Side
from companion.media.pictures.body import arm_joints, leg_joints, shoe
from companion.media.pictures.canvas import BLUE, GHOST, Canvas, curve
from companion.media.pictures.placement import FOOT, RISE, Foot, Placement, Sole
from companion.media.pictures.poses import HEAD, NECK, TRUNK, Pose, Spot, ankle
from companion.media.pictures.view import SCALE, View

AHEAD: Mapping[Motion, float] = {Motion.TAP_FORWARD: 30, Motion.STEP_FORWARD: 34, Motion.LONG_STEP_FORWARD: 52}
ASIDE: Mapping[Motion, float] = {Motion.TAP_SIDE: 15, Motion.STEP_SIDE: 17, Motion.LONG_STEP_SIDE: 30}
"""How far a foot goes, in centimetres."""
OVER = (Motion.CLAP, Motion.PAT, Motion.TURN_HEAD, Motion.REACH_ACROSS)
TAPS = (Motion.TAP_FORWARD, Motion.TAP_SIDE)


@dataclass(frozen=True, slots=True)
class Seen:
    """All that a motion is drawn from."""

    canvas: Canvas
    view: View
    placement: Placement
    stands: Pose

    def leg(self, foot: Foot) -> None:
        """A leg where it goes."""
        joints = [self.view.at(*joint) for joint in leg_joints(self.stands, foot)]
        self.canvas.limb(joints, 11 * SCALE, GHOST, "moved-leg")
        shoe(self.canvas, self.view, foot, GHOST, "moved-foot")

    def arm(self, wrist: Spot, side: Side) -> None:
        """An arm where it goes, without its hand."""
        joints = [self.view.at(*joint) for joint in arm_joints(self.stands, wrist, side)]
        self.canvas.limb(joints, 8 * SCALE, GHOST, "moved-arm")

    def palm(self, at: Spot, towards: tuple[float, float]) -> None:
        """A hand where it goes; `towards`: where its fingers are from its middle."""
        x, y, z = at
        ends = [self.view.at(x, y, z), self.view.at(x + towards[0], y + towards[1], z)]
        self.canvas.limb(ends, 7 * SCALE, GHOST, "moved-hand")

    def arrow(self, *spots: Spot, both: bool = False) -> None:
        """An arrow through those spots."""
        self.canvas.arrow([self.view.at(*spot) for spot in spots], 9, both=both, name="arrow")


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


def _moved(seen: Seen) -> Foot:
    """The foot that moves, or, where both do, the nearer one."""
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
    seen.leg(replace(foot, sole=Sole.TOES, tilt=RISE))
    seen.arrow((foot.heel - 12, 0, foot.z), (foot.heel - 12, 32, foot.z))


def _foot(seen: Seen) -> None:
    foot = _moved(seen)
    seen.leg(replace(foot, heel=foot.heel + 5, sole=Sole.UP, tilt=14.0, up=15.0))
    seen.arrow((foot.heel + 40, 2, foot.z), (foot.heel + 40, 32, foot.z))


def _knee(seen: Seen) -> None:
    foot = _moved(seen)
    moved = replace(
        foot,
        heel=foot.heel + (4 if seen.placement.seated else 22),
        sole=Sole.UP,
        tilt=8.0,
        up=16.0 if seen.placement.seated else 36.0,
    )
    seen.leg(moved)
    x = moved.heel + FOOT + 8
    seen.arrow((x, 4, foot.z), (x, moved.up + 24, foot.z))


def _shift(seen: Seen) -> None:
    """From side to side is towards and away from who looks: the feet from above show it."""
    if seen.placement.details.motion is Motion.SHIFT_HEEL_UP:
        _heel(seen)


def _head(seen: Seen) -> None:
    x, y, z = seen.stands.head
    arc = [(x + 17 * math.cos(a), y + HEAD + 5 + 5 * math.sin(a), z) for a in (math.radians(200 - n * 11) for n in range(21))]
    seen.arrow(*arc, both=True)


def _step(seen: Seen) -> None:
    moved, mover = target(seen.placement), seen.placement.mover
    if moved is None or mover is None or moved.z != seen.placement.feet[mover].z:
        return
    seen.leg(moved)
    foot = seen.placement.feet[mover]
    seen.arrow((foot.heel + FOOT + 3, -9, -11), (moved.heel + FOOT + 2, -9, -11))


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
        seen.palm((x, y + step, 0), (10, 3))
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
