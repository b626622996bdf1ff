"""The `picture:` block of a form: what its picture needs to know beyond stance, posture and hand.

Every key may be left out. A form without the block is drawn from its stance: a clinician's own exercise has a picture too.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from companion.content.yaml_lines import Loc, Page, Shape
from companion.core.programme import Posture, Sides, Stance
from companion.errors import Fault


class Feet(StrEnum):
    """Where the feet are, more closely than the stance says it."""

    FLAT = "flat"
    APART = "apart"
    TOGETHER = "together"
    WIDE_HALF_STEP = "wide_half_step"
    HALF_STEP = "half_step"
    SMALL_GAP = "small_gap"
    TOUCHING = "touching"
    TOES_REST = "toes_rest"
    ONE_UP = "one_up"


class Motion(StrEnum):
    """What moves. The picture shows it by an arrow or a second outline."""

    PRESS = "press"
    LIFT_HEELS = "lift_heels"
    LIFT_HEELS_A_LITTLE = "lift_heels_a_little"
    LIFT_HEEL = "lift_heel"
    LIFT_FOOT = "lift_foot"
    LIFT_KNEE = "lift_knee"
    SHIFT = "shift"
    SHIFT_HEEL_UP = "shift_heel_up"
    TURN_HEAD = "turn_head"
    TAP_FORWARD = "tap_forward"
    STEP_FORWARD = "step_forward"
    LONG_STEP_FORWARD = "long_step_forward"
    TAP_SIDE = "tap_side"
    STEP_SIDE = "step_side"
    LONG_STEP_SIDE = "long_step_side"
    STAND_UP = "stand_up"
    WALK = "walk"
    CLAP = "clap"
    PAT = "pat"
    REACH_NEAR = "reach_near"
    REACH_FAR = "reach_far"
    REACH_ACROSS = "reach_across"


class Seat(StrEnum):
    """How one sits, or sits before standing up."""

    BACK = "back"
    EDGE = "edge"
    LEAN = "lean"
    RAISED = "raised"


class SupportAt(StrEnum):
    """Where the support stands whatever the client's place is: one turns to it, or walks along it."""

    FRONT = "front"
    SIDE = "side"


STEPS = frozenset(motion for motion in Motion if motion.startswith(("tap_", "step_", "long_step_")))
"""The motions of one leg: the side of the bout is the leg that moves, not the one that is stood on."""

LIFTS = frozenset({Motion.LIFT_HEEL, Motion.LIFT_FOOT, Motion.LIFT_KNEE})
"""The motions of one leg after the other; where a bout has a leg, of the one that is not stood on."""

_SEATED = frozenset({Motion.PRESS, Motion.REACH_NEAR, Motion.REACH_FAR, Motion.REACH_ACROSS})
_STANDING = STEPS | {Motion.STAND_UP, Motion.SHIFT_HEEL_UP, Motion.LIFT_HEEL, Motion.CLAP, Motion.PAT}
_FEET: dict[Stance, tuple[Feet, ...]] = {
    Stance.SEATED: (Feet.FLAT,),
    Stance.FEET_APART: (Feet.APART, Feet.WIDE_HALF_STEP),
    Stance.FEET_TOGETHER: (Feet.TOGETHER,),
    Stance.HALF_STEP: (Feet.HALF_STEP, Feet.WIDE_HALF_STEP, Feet.TOES_REST),
    Stance.HEEL_TO_TOE: (Feet.TOUCHING, Feet.SMALL_GAP),
    Stance.ONE_LEG: (Feet.ONE_UP, Feet.TOES_REST),
    Stance.ONE_LEG_TOES: (Feet.ONE_UP,),
    Stance.TWO_LEG_TOES: (Feet.APART, Feet.TOGETHER),
    Stance.WALKING: (Feet.TOUCHING, Feet.SMALL_GAP, Feet.WIDE_HALF_STEP),
}
"""Which feet each stance allows; the first is meant where nothing is written."""
_MOTION = {Stance.TWO_LEG_TOES: Motion.LIFT_HEELS, Stance.WALKING: Motion.WALK}


@dataclass(frozen=True, slots=True)
class PictureDetails:
    """What the picture of a form shows beyond the form itself. `support` None: where it stands at the client's place."""

    feet: Feet
    motion: Motion | None = None
    seat: Seat | None = None
    support: SupportAt | None = None


class PictureShape(Shape):
    """The block as it is written."""

    feet: Feet | None = None
    motion: Motion | None = None
    seat: Seat | None = None
    support: SupportAt | None = None

    def details(self, stance: Stance) -> PictureDetails:
        """The block, filled up from the stance."""
        motion = self.motion or _MOTION.get(stance)
        seat = self.seat or (Seat.BACK if stance is Stance.SEATED else Seat.EDGE if motion is Motion.STAND_UP else None)
        toes = stance in (Stance.ONE_LEG_TOES, Stance.TWO_LEG_TOES)
        support = self.support or (SupportAt.FRONT if toes else SupportAt.SIDE if stance is Stance.WALKING else None)
        return PictureDetails(self.feet or _FEET[stance][0], motion, seat, support)


@dataclass(frozen=True, slots=True)
class Drawn:
    """The form that a block belongs to, as far as the two must agree."""

    posture: Posture
    stance: Stance
    sides: Sides


def faults(page: Page, loc: Loc, block: PictureShape, form: Drawn) -> Iterator[Fault]:
    """Where the block contradicts its form."""
    allowed = _FEET[form.stance]
    if block.feet is not None and block.feet not in allowed:
        yield page.fault((*loc, "feet"), f"{form.stance} has no feet {block.feet}", f"Use {', '.join(allowed)}")
    seated = form.posture is Posture.SEATED
    if block.motion in (_STANDING if seated else _SEATED):
        posture = "seated" if seated else "standing"
        yield page.fault((*loc, "motion"), f"{block.motion} can not be done {posture}", "Use another motion, or none")
    if block.motion in STEPS and form.sides is not Sides.LEG:
        yield page.fault((*loc, "motion"), "a step is of one leg, and the exercise has no legs", "Write sides: leg")
    if block.motion is Motion.WALK and form.stance is not Stance.WALKING:
        yield page.fault((*loc, "motion"), "this stance does not walk", "Use another motion, or stance: walking")
    if block.seat is not None and not seated and block.motion is not Motion.STAND_UP:
        yield page.fault((*loc, "seat"), "nobody sits in this form", "Take seat out")
