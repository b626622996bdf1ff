"""A plan and its exercises in a therapist's words: dense, with units. Texts: `progression.ftl`, `caseload.ftl`."""

from collections.abc import Sequence

from companion.core.effects import Words, words
from companion.core.how import key
from companion.core.programme import Exercise, Measure, Planned


def way(planned: Planned, exercise: Exercise) -> Words:
    """How an exercise is planned: form, hand support, dose."""
    form = exercise.form(planned.form)
    unit = "seconds" if form.measure is Measure.TIMED else "times"
    weaker = planned.weaker_target
    if weaker is None or weaker == planned.target:
        dose = words(f"dose-{unit}", dose=planned.target)
    else:
        dose = words(f"dose-{unit}-sides", dose=planned.target, weaker=weaker)
    name, hand = words(f"form-{key(exercise.id)}-{key(form.id)}"), words(f"hand-{key(planned.hand)}.short")
    return words("way", form=name, hand=hand, dose=dose)


def listed(items: Sequence[Words], close: bool = False) -> Words:
    """Several as one line, with semicolons, or commas if they are `close`; there must be one at least."""
    line = items[0]
    for item in items[1:]:
        line = words("listed-close" if close else "listed", before=line, item=item)
    return line
