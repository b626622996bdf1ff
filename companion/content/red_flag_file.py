"""red_flags.yaml: the rules by which practice is stopped, each with the cases that must and must not trip it."""

from collections.abc import Iterator
from dataclasses import dataclass

from pydantic import Field

from companion.content.yaml_lines import Id, Line, Loc, Page, Shape
from companion.core.programme import FlagRule, Level
from companion.errors import Fault

FACTS = frozenset(
    {
        "fall",
        "near_fall",
        "still_down",
        "head_knock",
        "head_unsure",
        "blood_thinner",
        "pressed_wrong",
        "felt_unwell",
        "carer_different",
        "hurt",
    }
)

NEVER_SOFTENED = (
    *(f"sign.{sign}" for sign in ("balance", "eyes", "face", "arm", "speech", "chest", "breath", "dizzy")),
    "still_down",
)
"""Facts that are an emergency by themselves, whatever a service writes. Sources: the rules' own, in red_flags.yaml."""


@dataclass(frozen=True, slots=True)
class FlagCase:
    """Facts that must trip (`rule` is an id), must not trip that rule, or (`rule` None) must raise nothing at all."""

    rule: str | None
    trips: bool
    facts: frozenset[str]


class CasesShape(Shape):
    """Lists of facts."""

    trips: tuple[tuple[Line, ...], ...] = Field(min_length=1)
    passes: tuple[tuple[Line, ...], ...] = Field(min_length=1)


class RuleShape(Shape):
    """One rule. `source` says where it comes from; a named clinician answers for what has no source."""

    id: Id
    level: Level
    when: tuple[Line, ...] = Field(min_length=1)
    source: Line
    cases: CasesShape


class RedFlagsShape(Shape):
    """The whole file. `no_flag`: facts that raise nothing."""

    rules: tuple[RuleShape, ...] = Field(min_length=1)
    no_flag: tuple[tuple[Line, ...], ...]

    def core(self) -> tuple[FlagRule, ...]:
        """The core's rules, gravest first, in the order of the file within a level."""
        levels = list(Level)
        rules = [FlagRule(rule.id, rule.level, frozenset(rule.when)) for rule in self.rules]
        return tuple(sorted(rules, key=lambda rule: levels.index(rule.level)))

    def cases(self) -> tuple[FlagCase, ...]:
        """Every case of every rule."""
        found = [
            FlagCase(rule.id, trips, frozenset(facts))
            for rule in self.rules
            for trips, cases in ((True, rule.cases.trips), (False, rule.cases.passes))
            for facts in cases
        ]
        return (*found, *(FlagCase(None, False, frozenset(facts)) for facts in self.no_flag))


def faults(page: Page, file: RedFlagsShape, signs: tuple[str, ...]) -> Iterator[Fault]:
    """Unknown facts, a rule twice, a sign without a rule, an emergency made less, a case that does not hold."""
    known = FACTS | {f"sign.{sign}" for sign in signs}
    for place, rule in enumerate(file.rules):
        loc: Loc = ("rules", place)
        if rule.id in [other.id for other in file.rules[:place]]:
            yield page.fault((*loc, "id"), f'the rule "{rule.id}" is here twice', "Name one of them anew")
        yield from _unknown(page, (*loc, "when"), rule.when, known)
        yield from _case_faults(page, (*loc, "cases"), rule, known)
    for place, facts in enumerate(file.no_flag):
        yield from _unknown(page, ("no_flag", place), facts, known)
        tripped = [rule.id for rule in file.rules if set(rule.when) <= set(facts)]
        if tripped:
            yield page.fault(("no_flag", place), f'the rule "{tripped[0]}" is tripped', "Mend the rule or the case")
    yield from _softened(page, file)
    for sign in signs:
        fact = f"sign.{sign}"
        if fact not in NEVER_SOFTENED and not any(rule.when == (fact,) for rule in file.rules):
            what = f'the sign "{sign}" is asked for and raises nothing by itself'
            yield page.fault(("rules",), what, f"Add a rule with when: [{fact}]")


def _softened(page: Page, file: RedFlagsShape) -> Iterator[Fault]:
    """What must be an emergency by itself and is less, told where its rule says so, or has no such rule at all."""
    for fact in NEVER_SOFTENED:
        rules = {place: rule.level for place, rule in enumerate(file.rules) if set(rule.when) == {fact}}
        if Level.EMERGENCY in rules.values():
            continue
        if not rules:
            what = f'no rule makes "{fact}" by itself an emergency'
            yield page.fault(("rules",), what, f"Add a rule with level: emergency and when: [{fact}]")
        for place, level in rules.items():
            what = f'"{fact}" is an emergency and is never softened, not to "{level}"'
            yield page.fault(("rules", place, "level"), what, "Write level: emergency")


def _case_faults(page: Page, loc: Loc, rule: RuleShape, known: frozenset[str]) -> Iterator[Fault]:
    for name, cases, wanted in (("trips", rule.cases.trips, True), ("passes", rule.cases.passes, False)):
        for place, facts in enumerate(cases):
            yield from _unknown(page, (*loc, name, place), facts, known)
            if (set(rule.when) <= set(facts)) is not wanted:
                what = f'the case {list(facts)} {"does not trip" if wanted else "trips"} the rule "{rule.id}"'
                yield page.fault((*loc, name, place), what, "Mend the rule or the case")


def _unknown(page: Page, loc: Loc, facts: tuple[str, ...], known: frozenset[str]) -> Iterator[Fault]:
    for fact in facts:
        if fact not in known:
            yield page.fault(loc, f'there is no fact "{fact}"', f"Use {', '.join(sorted(known))}")
