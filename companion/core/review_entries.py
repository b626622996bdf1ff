"""What a review is made of: the measures, what is taken for each, and how an entry reads."""

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import StrEnum

from companion.core.described import listed
from companion.core.dialogues import Reviewing
from companion.core.effects import Words, words
from companion.core.how import key
from companion.core.review_values import NOTHING, STAGE_S, ReviewValues

DECADES = (50, 60, 70, 80, 90)
SHOWN = 20
"""So many characters of what was typed are said again."""


@dataclass(frozen=True, slots=True)
class Range:
    """What is taken for one measure, both ends included, in its unit ("s" or "points")."""

    low: int
    high: int
    unit: str = "s"


RANGES = {
    "four_stage": Range(0, int(STAGE_S)),
    "sit_to_stand_5": Range(1, 600),
    "one_leg_weaker": Range(0, 600),
    "one_leg_stronger": Range(0, 600),
    "berg": Range(0, 56, "points"),
}
NUMBERS = tuple(RANGES)[1:]
"""What is one number each."""
_NUMBER = re.compile(r"([0-9]{1,3})(?:[.,]([0-9]{1,2}))?(?: ?(?:s|sec))?")


class Act(StrEnum):
    """What a button does that does not lead to a screen."""

    SAVE = "save"
    DROP = "drop"
    ANEW = "anew"


Then = Reviewing | Act


@dataclass(frozen=True, slots=True)
class Option:
    """One button, and what becomes of the dialogue."""

    label: Words
    then: Then


@dataclass(frozen=True, slots=True)
class Screen:
    """What the phone shows. `reads` takes typed words; it returns the dialogue that they make, or a line that says why not."""

    lines: tuple[Words, ...]
    options: tuple[Option, ...]
    reads: Callable[[str], Reviewing | Words] | None = None


def measured(values: ReviewValues) -> bool:
    """Whether anything was measured: an age alone is no measure."""
    return replace(values, decade=None) != NOTHING


# --- numbers, typed -------------------------------------------------------------------------------------------


def number(value: float) -> str:
    """A number as it is said: 10, 9.99, never rounded up."""
    return f"{value:g}"


def read(at: str, text: str) -> float | None:
    """The number of a measure from typed words ("12.4", "12,4 s"), None: none, or out of its range."""
    found, taken = _NUMBER.fullmatch(text.strip().lower()), RANGES[at]
    if found is None or (taken.unit != "s" and not text.strip().isdecimal()):
        return None
    value = float(f"{found[1]}.{found[2] or 0}")
    return value if taken.low <= value <= taken.high else None


def not_taken(name: Words, at: str, text: str) -> Words:
    """Field, value, and what is taken."""
    taken = words(f"review-takes-{RANGES[at].unit}", low=RANGES[at].low, high=RANGES[at].high)
    return words("review-not-taken", measure=name, said=" ".join(text.split())[:SHOWN], taken=taken)


# --- what is entered, in words --------------------------------------------------------------------------------


def name_of(dialogue: Reviewing, at: str) -> Words:
    """What is measured, with the side where it has one."""
    baseline = dialogue.facts.baseline
    weaker = baseline.weaker_side if baseline is not None else "unknown"
    sides = {"one_leg_weaker": weaker, "one_leg_stronger": {"left": "right", "right": "left"}.get(weaker, "unknown")}
    if at in sides:
        return words(f"review-{key(at)}", side=words(f"baseline-weaker-side-{sides[at]}"))
    return words(f"review-{key(at)}")


def value_of(dialogue: Reviewing, at: str) -> Words | None:
    """What is entered, None: nothing yet."""
    values = dialogue.values
    if at == "four_stage":
        held = [words("review-s", value=number(seconds)) for seconds in values.four_stage]
        return listed(held, close=True) if held else None
    if at == "decade":
        return words(f"review-age-{values.decade}") if values.decade in DECADES else None
    found: float | None = getattr(values, at)
    return words(f"review-{RANGES[at].unit}", value=number(found)) if found is not None else None


def or_none(value: Words | None) -> Words:
    """What is entered, or that nothing is."""
    return value if value is not None else words("review-not-entered")


def goal_name(place: int, said: str | None) -> Words:
    """A goal by its number, with the client's own words if it has any."""
    return words("review-goal-named", number=place + 1, goal=said) if said else words("review-goal", number=place + 1)


def level_sign(level: int) -> str:
    """A level from -2 to 2 as it is written."""
    return f"{level:+d}" if level else "0"


def level_words(level: int) -> Words:
    """A level from -2 to 2, and what it means."""
    return words(f"review-level-{'minus-' if level < 0 else ''}{abs(level)}")
