"""What the script of a session depends on beside plan and library: whose phones, how to check, what was agreed."""

from dataclasses import dataclass

from companion.core.effects import PersonId, Put, Words, words
from companion.core.media import OwnMedia
from companion.core.programme import Patience
from companion.core.steps import Show, Step


@dataclass(frozen=True, slots=True)
class How:
    """What a script depends on beside plan and library: whose phones, how to check, what is done today already.

    `briefed`: whether the carer went through the briefing; else it is as with one who is not there. `usual` are the signs that
    are usual for this client. `weaker` is the body's weaker side, "left", "right" or "unknown". `tones` are the numbers of
    tones of a sound check, of 2 to 4 and different. `short`: a set-up is a picture and one line. `own`: what the therapist
    recorded and the client agreed to.
    """

    session: str
    client: str
    name: str
    phone: PersonId
    carer_phone: PersonId | None
    emergency_number: str
    sign_by_sign: bool
    signs: tuple[str, ...]
    patience: Patience
    done: frozenset[str] = frozenset()
    confidence: bool = False
    briefed: bool = True
    usual: tuple[str, ...] = ()
    weaker: str = "unknown"
    tones: tuple[int, int] = (3, 2)
    short: bool = False
    own: tuple[OwnMedia, ...] = ()

    @property
    def shared(self) -> bool:
        """Whether client and carer share one phone: then the carer's screens come on the client's card, marked as theirs."""
        return self.carer_phone == self.phone

    @property
    def carer_card(self) -> str:
        """The card of the carer's screens."""
        return "session" if self.shared else "carer"

    def for_carer(self, *lines: Words) -> tuple[Words, ...]:
        """The carer's words, with whom they are for where that is not clear."""
        return (words("for-helper"), *lines) if self.shared else lines

    def show_carer(self, *lines: Words, put: Put = Put.NEW) -> list[Step]:
        """Words that only the carer needs; on a shared phone the client's own words say it."""
        if self.carer_phone is None or self.shared:
            return []
        return [Show(self.carer_phone, lines, card="carer", put=put)]


def key(text: str) -> str:
    """A text key from an id: Fluent keys have hyphens."""
    return text.replace("_", "-")
