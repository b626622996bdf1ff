"""What a screen of the plan is made of: lines, and options each of which says beforehand what becomes of the draft."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from companion.core.dialogues import Prescribing
from companion.core.effects import Words, words
from companion.core.programme import Plan, Rules


class Act(StrEnum):
    """What an option does beside leading to a screen."""

    GO = "go"
    BACK = "back"
    DROP = "drop"
    PRESCRIBE = "prescribe"
    LOOK_UP = "look_up"
    COPY = "copy"


@dataclass(frozen=True, slots=True)
class Option:
    """One button, or what typed words come to: the screen `at` it leads to, with that draft (None: as it is). `value` is the
    client to copy from, the place in a list, or the reason of a change."""

    label: Words
    at: str = ""
    draft: Plan | None = None
    act: Act = Act.GO
    value: str = ""


@dataclass(frozen=True, slots=True)
class Screen:
    """What the phone shows. `reads` makes an option of typed words, None where they are none."""

    lines: tuple[Words, ...]
    options: tuple[Option, ...]
    reads: Callable[[str], Option | None] | None = None


@dataclass(frozen=True, slots=True)
class Writing:
    """What a screen depends on: the dialogue, the rules, the client's local date."""

    dialogue: Prescribing
    rules: Rules
    today: date

    @property
    def draft(self) -> Plan:
        """The plan as chosen so far."""
        return self.dialogue.draft

    @property
    def carer(self) -> bool:
        """Whether a carer is named."""
        return self.dialogue.facts.carer is not None


BACK = Option(words("b-answer-back"), act=Act.BACK)
CANCEL = Option(words("b-answer-cancel"), at="cancel")
