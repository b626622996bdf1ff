"""The few kinds of step that a session is made of.

A session is a script: a flat tuple of these, stored once and frozen when the session starts. Labels are where jumps land.
Words that depend on the moment (the number to show, the second somebody tapped) are filled in when a step is said.
"""

from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

from companion.core.effects import PersonId, Put, Urgency, Words
from companion.core.media import Media, SoundClock
from companion.core.programme import Clock, Eyes, Hand, Measure, Posture, Side, Stance


class Over(StrEnum):
    """How a session comes to its end, as the script or the interpreter sees it."""

    DONE = "done"
    ENOUGH = "enough"
    LATER = "later"
    NOT_READY = "not_ready"
    UNSURE = "unsure"
    FLAG = "flag"
    NO_WORD = "no_word"
    IDLE = "idle"


@dataclass(frozen=True, slots=True)
class BoutSpec:
    """The bout that a hold or a count belongs to. `key` names the planned bout, whatever form it is done in."""

    key: str
    exercise: str
    form: str
    posture: Posture
    stance: Stance
    eyes: Eyes
    hand: Hand
    clock: Clock
    measure: Measure
    target: int
    side: Side | None
    eased: int


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer. `go` is the label to go to (None: the next step), `go_tapped` the one to go to where the moment of the
    first break is known. `sets` is written into the bout under way. `facts` raise a flag; `ends` ends the session.
    `starts` marks the answer after which somebody stands: it needs a fresh check. `unheard`: the sound was not heard, so the
    bout under way is forgotten and the sound is checked again."""

    id: str
    label: Words
    go: str | None = None
    go_tapped: str | None = None
    sets: tuple[tuple[str, str], ...] = ()
    facts: tuple[str, ...] = ()
    ends: Over | None = None
    starts: bool = False
    seated_only: bool = False
    unheard: bool = False


@dataclass(frozen=True, slots=True)
class Label:
    """A place to go to. `block`: where a session resumes after a new check. `standing`: needs a fresh check, and is
    skipped (to `skip`) in a seated session. `fresh`: here the check is complete. `closes`: the bout is written down.
    `needs_sound`: before it, the sound is checked; where it is not heard, the session goes on there instead. `heard` ends that
    check: whether the sound is heard."""

    name: str
    block: bool = False
    standing: bool = False
    skip: str | None = None
    fresh: bool = False
    verified: bool = False
    closes: bool = False
    needs_sound: str | None = None
    heard: bool | None = None
    kind: Literal["label"] = "label"


@dataclass(frozen=True, slots=True)
class Show:
    """Words for one phone; nothing is waited for."""

    to: PersonId
    words: tuple[Words, ...]
    card: str | None = None
    put: Put = Put.NEW
    urgency: Urgency = Urgency.LIVE
    media: Media | None = None
    kind: Literal["show"] = "show"


@dataclass(frozen=True, slots=True)
class Ask:
    """A question to one phone. `question` is recorded as an Answer (of `exercise`). `watch`: somebody was standing, so
    silence is followed up. `patience` seconds without an answer lead to `otherwise`. `late`: where to go if the words came
    too late to be true. `doubt`: somebody said that something may be different, so no answer ends the session as unsure.
    `also`: a carer who may answer on their own phone in the client's place. `lost`: where to go if its sound did not come."""

    id: str
    to: PersonId
    words: tuple[Words, ...]
    choices: tuple[Choice, ...]
    put: Put = Put.IN_PLACE
    card: str = "session"
    question: str | None = None
    exercise: str | None = None
    watch: bool = False
    patience: int | None = None
    otherwise: str | None = None
    late: str | None = None
    doubt: bool = False
    media: Media | None = None
    also: PersonId | None = None
    lost: str | None = None
    kind: Literal["ask"] = "ask"


@dataclass(frozen=True, slots=True)
class Gate:
    """Somebody else must say yes, by picking the number that the client shows them. A tap alone proves nothing."""

    id: str
    to: PersonId
    words: tuple[Words, ...]
    shown_to: PersonId
    shown: tuple[Words, ...]
    not_there: Choice
    different: Choice
    patience: int
    otherwise: str
    kind: Literal["gate"] = "gate"


class Phase(StrEnum):
    """What a timed step times."""

    INTO_PLACE = "into_place"
    HOLD = "hold"
    REST = "rest"


@dataclass(frozen=True, slots=True)
class Timed:
    """Seconds that pass. A clock on a client's screen begins when the platform took the words (`by_receipt`); the carer's
    begins with the carer's press. `tap` is the carer's button for the moment of a step. `lost`: where to go if the clock
    could not begin or was missed."""

    id: str
    phase: Phase
    to: PersonId
    seconds: int
    words: tuple[Words, ...]
    by_receipt: bool
    card: str = "session"
    put: Put = Put.IN_PLACE
    bout: BoutSpec | None = None
    tap: Choice | None = None
    lost: str | None = None
    kind: Literal["timed"] = "timed"


@dataclass(frozen=True, slots=True)
class Counted:
    """Something done at one's own pace and counted by the one who does it. No clock. `unhurried`: nobody said Ready before,
    so they may still rest, and silence is only followed up once the check is no longer fresh."""

    id: str
    to: PersonId
    words: tuple[Words, ...]
    choices: tuple[Choice, ...]
    bout: BoutSpec
    watch: bool
    unhurried: bool = False
    put: Put = Put.IN_PLACE
    card: str = "session"
    media: Media | None = None
    kind: Literal["counted"] = "counted"


@dataclass(frozen=True, slots=True)
class Sounded:
    """A hold whose clock is a voice note. Nobody knows when it is played, so nothing else is sent; the answers wait under it.

    Silence is followed up once the note can have been played through. `lost`: where to go if it did not arrive. `also`: a
    carer who may answer on their own phone, with `also_words` there before the question."""

    id: str
    to: PersonId
    words: tuple[Words, ...]
    choices: tuple[Choice, ...]
    bout: BoutSpec
    media: SoundClock
    lost: str
    also: PersonId | None = None
    also_words: tuple[Words, ...] = ()
    card: str = "session"
    kind: Literal["sounded"] = "sounded"


Step = Label | Show | Ask | Gate | Timed | Counted | Sounded


@dataclass(frozen=True, slots=True)
class Script:
    """A whole session. `bouts` are the keys of the bouts offered, in order; `planned` counts those that the plan asks for,
    also those that can not be offered this time."""

    id: str
    client: str
    steps: tuple[Step, ...]
    bouts: tuple[str, ...]
    planned: int = 0

    def find(self, label: str) -> int:
        """The index of a label; KeyError if the script has none of that name."""
        for index, step in enumerate(self.steps):
            if isinstance(step, Label) and step.name == label:
                return index
        raise KeyError(label)
