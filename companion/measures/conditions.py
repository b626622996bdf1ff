"""Which holds may be compared: the same stance, side, eyes, hand support and clock. Nothing is computed here, and no library of
numbers is loaded: also the companion's own process asks."""

from dataclasses import dataclass

from companion.core.observations import Bout
from companion.core.programme import Clock, Eyes, Hand, Measure, Side, Stance

HELD_STANCES = frozenset(
    {
        Stance.FEET_TOGETHER,
        Stance.HALF_STEP,
        Stance.HEEL_TO_TOE,
        Stance.ONE_LEG,
        Stance.ONE_LEG_TOES,
        Stance.TWO_LEG_TOES,
    }
)


LAST = 4
MOST_EARLIER = 40
"""So many sessions, the last ones, are set against up to so many before them, of the client's own; see `notice.py`."""


@dataclass(frozen=True, slots=True)
class Condition:
    """How a stance was held. `exercise` None: every exercise that holds this stance. `side` None: it has no sides."""

    exercise: str | None
    stance: Stance
    side: Side | None
    eyes: Eyes
    hand: Hand
    clock: Clock


def own_line(bout: Bout) -> str | None:
    """The exercise that a bout goes by; None: it goes by its stance, with whatever exercise holds that.

    Holds in a stance of the ladder belong together; what is counted or moves goes by its exercise. So does a hold on a side in
    an easier stance than its exercise is named for: of a half-step the side is the foot in front, of one leg with the
    other's toes at rest in the same stance it is the leg that stands.
    """
    own = bout.side is None or bout.exercise == bout.stance
    by_stance = bout.measure is Measure.TIMED and bout.stance in HELD_STANCES and own
    return None if by_stance else bout.exercise


def condition(bout: Bout) -> Condition:
    """The condition of a bout."""
    return Condition(own_line(bout), bout.stance, bout.side, bout.eyes, bout.hand, bout.clock)
