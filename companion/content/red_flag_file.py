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
    }
)


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
    """Unknown facts, a rule twice, a sign without a rule, a case that does not do what it says."""
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
    for sign in signs:
        if not any(rule.when == (f"sign.{sign}",) for rule in file.rules):
            what = f'the sign "{sign}" is asked for and raises nothing by itself'
            yield page.fault(("rules",), what, f"Add a rule with when: [sign.{sign}]")


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
