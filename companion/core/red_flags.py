"""Red flags: which facts, reported together, stop all practice. The rules themselves are content.

Facts are plain names: `sign.face` and the other signs, `fall`, `still_down`, `near_fall`, `hurt`, `head_knock`, `head_unsure`,
`blood_thinner`, `pressed_wrong`, `felt_unwell`, `carer_different`. The companion names what was reported. It never diagnoses.
"""

from collections.abc import Iterable

from companion.core.programme import FlagRule, Level, Plan, Rules

GRAVITY = {Level.EMERGENCY: 0, Level.URGENT: 1}


def screen(facts: Iterable[str], rules: Rules) -> FlagRule | None:
    """The gravest rule whose facts are all present (the one with most facts among equals), or None."""
    present = frozenset(facts)
    tripped = [rule for rule in rules.flags if rule.when <= present]
    return min(tripped, key=lambda rule: (GRAVITY[rule.level], -len(rule.when)), default=None)


def known_facts(plan: Plan | None) -> frozenset[str]:
    """What the plan says of this client that bears on a flag."""
    return frozenset({"blood_thinner"}) if plan is not None and plan.blood_thinner else frozenset()
