"""What a therapist measures at a review, as it is entered, and the 4-stage balance test, which says what comes next.

These are the therapist's own measures, taken at the visit: they never stand beside home practice, and they move nobody up.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

STAGE_S = 10.0


class FourStage(StrEnum):
    """The stances of the 4-stage balance test, in order (CDC STEADI)."""

    SIDE_BY_SIDE = "side_by_side"
    HALF_STEP = "half_step"
    HEEL_TO_TOE = "heel_to_toe"
    ONE_LEG = "one_leg"


@dataclass(frozen=True, slots=True)
class FourStageResult:
    """`held` are the seconds of the stages that were tried. `next`: the stage to try now, None: it is over. `at_risk`:
    heel-to-toe was not held for 10 s, or was not reached after a failure; None: not yet known."""

    held: tuple[float, ...]
    next: FourStage | None
    at_risk: bool | None


def four_stage(held: Sequence[float]) -> FourStageResult:
    """The 4-stage balance test: 10 s each, it stops at the first stage not held (CDC STEADI, 4-Stage Balance Test).

    Seconds. ValueError: below 0, more than 4, or a stage after one that was not held.
    """
    stages = list(FourStage)
    if len(held) > len(stages) or any(not seconds >= 0 for seconds in held):
        raise ValueError(f"{list(held)} are not the seconds of up to 4 stages")
    failed = next((place for place, seconds in enumerate(held) if seconds < STAGE_S), None)
    if failed is not None and failed + 1 < len(held):
        raise ValueError(f"the test stops at {stages[failed]}, which was held for {held[failed]} s")
    over = failed is not None or len(held) == len(stages)
    heel_to_toe = stages.index(FourStage.HEEL_TO_TOE)
    at_risk = failed <= heel_to_toe if failed is not None else False if len(held) > heel_to_toe else None
    return FourStageResult(tuple(held), None if over else stages[len(held)], at_risk)


@dataclass(frozen=True, slots=True)
class GoalLevel:
    """How far a goal was attained: `level` -2 to 2, 0 as expected; `weight` 1 to 5. `words`: the goal, None: not named."""

    words: str | None
    level: int
    weight: int


@dataclass(frozen=True, slots=True)
class ReviewValues:
    """What was measured; what was left out is None, or empty.

    `four_stage`: seconds of the stages that were tried, in order. `sit_to_stand_5`: seconds for five. `one_leg_weaker`,
    `one_leg_stronger`: seconds on that leg, eyes open, no hand. `berg`: the total of the scale, points, 0 to 56.
    `decade`: the first year of the decade of the client's age then, 50 for all below 60; None: not told, so no norm is shown.
    """

    four_stage: tuple[float, ...] = ()
    sit_to_stand_5: float | None = None
    one_leg_weaker: float | None = None
    one_leg_stronger: float | None = None
    berg: int | None = None
    goals: tuple[GoalLevel, ...] = ()
    decade: int | None = None


NOTHING = ReviewValues()
"""Nothing was measured."""
