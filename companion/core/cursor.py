"""Where a session is: a cursor into its frozen script, and what was answered so far."""

from dataclasses import dataclass
from datetime import datetime

from companion.core.bouts import Draft
from companion.core.effects import PersonId
from companion.core.observations import CarerSeen
from companion.core.steps import Over, Script, Step


@dataclass(frozen=True, slots=True)
class Outcome:
    """How a session is over, with the facts that were pressed and by whom."""

    over: Over
    facts: tuple[str, ...] = ()
    by: PersonId | None = None


@dataclass(frozen=True, slots=True)
class Session:
    """A cursor into a frozen script, and what was answered so far.

    `turn` counts the steps entered: a button carries it, so an old button answers nothing. `since` is when the step was
    entered, `clock_began` when its clock did. `block` is where to go on after a new check; `resume` is set while one is asked.
    `heard`: whether tones are heard where the client stands, None while nobody knows; `unheard`: how often a note was not.
    """

    id: str
    client: str
    phone: PersonId
    carer_phone: PersonId | None
    script: Script
    began: datetime
    since: datetime
    step: int = 0
    turn: int = 0
    clock_began: datetime | None = None
    checked_at: datetime | None = None
    block: str | None = None
    resume: str | None = None
    seated_only: bool = False
    carer: CarerSeen = CarerSeen.NOT_NEEDED
    numbers: tuple[int, ...] = ()
    wrong_numbers: int = 0
    nudged: int = 0
    draft: Draft | None = None
    done: tuple[str, ...] = ()
    clean: int = 0
    practised_s: float = 0.0
    effort: str | None = None
    confidence: bool = False
    outcome: Outcome | None = None
    heard: bool | None = None
    unheard: int = 0

    @property
    def current(self) -> Step:
        """The step that the session waits at."""
        return self.script.steps[self.step]
