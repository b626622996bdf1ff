"""A bout while it is under way, and what it leaves behind when it is written down.

A step or a touch does not end a minute: what is kept is the time practised and, as bounds, when the hold first broke.
"""

from dataclasses import dataclass, replace
from datetime import datetime

from companion.core.observations import Bounds, Bout, BrokeBy, Quality, Reporter
from companion.core.programme import Clock, Measure
from companion.core.steps import BoutSpec


@dataclass(frozen=True, slots=True)
class Draft:
    """A bout under way. `practised_s` is what the clock ran, None while unknown; `tapped_s` the second the carer tapped."""

    spec: BoutSpec
    at: datetime
    sets: tuple[tuple[str, str], ...] = ()
    practised_s: float | None = None
    tapped_s: float | None = None

    def get(self, name: str) -> str | None:
        """The newest value written under that name, None if there is none."""
        return dict(self.sets).get(name)

    def with_sets(self, sets: tuple[tuple[str, str], ...]) -> "Draft":
        """The same draft with more written into it."""
        return replace(self, sets=(*self.sets, *sets))


def write_down(draft: Draft, session: str, quality: Quality | None = None) -> Bout:
    """The observation that a draft leaves. `quality` overrides what was answered (a session that was cut short).

    Where the clock was lost the time is unknown, and so is whether the hold was clean to its end.
    """
    spec = draft.spec
    lost = draft.get("clock") == "lost"
    said = Quality(draft.get("quality") or Quality.UNKNOWN)
    judged = quality or said
    if lost and judged is Quality.CLEAN:
        judged = Quality.UNKNOWN
    tapped = draft.get("moment") == "tapped" and draft.tapped_s is not None
    reporter = Reporter.CARER if tapped or draft.get("by") == "carer" else Reporter.CLIENT
    if judged is Quality.UNKNOWN and said is Quality.UNKNOWN:
        reporter = Reporter.NOBODY
    cause = draft.get("broke_by")
    done = draft.get("done")
    return Bout(
        at=draft.at,
        session=session,
        exercise=spec.exercise,
        form=spec.form,
        stance=spec.stance,
        eyes=spec.eyes,
        hand=spec.hand,
        clock=spec.clock,
        measure=spec.measure,
        target=spec.target,
        side=spec.side,
        quality=judged,
        practised_s=None if lost or spec.measure is Measure.COUNTED else _practised(draft, said),
        done=int(done) if done is not None else None,
        first_break=None if lost else _first_break(draft, judged),
        broke_by=BrokeBy(cause) if cause else None,
        reporter=reporter,
        eased=spec.eased,
    )


def _practised(draft: Draft, said: Quality) -> float | None:
    """What the clock ran. Of a voice note only who answers knows: who went on to its end says so."""
    if draft.spec.clock is not Clock.SOUND:
        return draft.practised_s
    return float(draft.spec.target) if said in (Quality.CLEAN, Quality.BROKE) else None


def _first_break(draft: Draft, quality: Quality) -> Bounds | None:
    if draft.spec.measure is Measure.COUNTED:
        return None
    if quality is Quality.CLEAN:
        return Bounds(float(draft.spec.target), None)
    if draft.get("moment") == "tapped" and draft.tapped_s is not None:
        return Bounds(draft.tapped_s, draft.tapped_s)
    low, high = draft.get("low"), draft.get("high")
    return Bounds(float(low), float(high)) if low is not None and high is not None else None
