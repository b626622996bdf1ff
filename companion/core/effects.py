"""Everything the core can ask for, imperative. Effects are data; none returns a value.

What the world answers comes back as an event: a receipt as `Arrived`, a failure as `Lost`.
"""

from dataclasses import dataclass
from datetime import date, datetime
from enum import IntEnum, StrEnum
from typing import Literal

from companion.core.events import Event, Press
from companion.core.media import Made, Media
from companion.core.observations import Observation
from companion.core.words import Words as Words
from companion.core.words import words as words

PersonId = str
ClientId = str


class Urgency(IntEnum):
    """The sender's classes, most urgent first."""

    ALERT = 0
    LIVE = 1
    ANSWER = 2
    REMINDER = 3
    REPORT = 4


@dataclass(frozen=True, slots=True)
class Button:
    """A button under a message, one to a row. `press` comes back in `Pressed`."""

    label: Words
    press: Press


class Put(StrEnum):
    """NEW makes a sound and scrolls. IN_PLACE changes the card where it stands, or is new where it no longer can."""

    NEW = "new"
    IN_PLACE = "in_place"


@dataclass(frozen=True, slots=True)
class Say:
    """A message to one person: lines of words, buttons under them.

    `card` names a place on that phone: the newest message said there. IN_PLACE edits it if it is still the last message of
    that chat and can be edited; otherwise the message is sent new and the old one loses its buttons. A NEW message on a
    card also takes the buttons off the old one. `topic` is what `TakeBack` takes back. `not_after` is judged when
    sent: later than that it is not sent, and `Lost` comes back if there is a `tag`. With a `tag`, acceptance comes back as
    `Arrived`. `fixed_row` lays the persistent row of controls; such a message has no buttons and no card. `media` goes with
    the words. Without one, IN_PLACE leaves the picture or sound that the card has; a sound is always sent new. A picture that
    can not be made is left out; a message whose sound can not be made is lost.
    """

    to: PersonId
    words: tuple[Words, ...]
    buttons: tuple[Button, ...] = ()
    urgency: Urgency = Urgency.LIVE
    topic: str = "session"
    card: str | None = None
    put: Put = Put.NEW
    silent: bool = False
    not_after: datetime | None = None
    tag: str | None = None
    fixed_row: tuple[Words, ...] = ()
    media: Media | None = None
    kind: Literal["say"] = "say"


@dataclass(frozen=True, slots=True)
class Reply:
    """The answer to a press, shown at once by the platform's own callback answer. Not used for typed words."""

    words: Words | None = None
    kind: Literal["reply"] = "reply"


@dataclass(frozen=True, slots=True)
class TakeBack:
    """Everything of this client on a topic that is written down and not yet sent is not sent; for one person or all."""

    topic: str
    to: PersonId | None = None
    kind: Literal["take_back"] = "take_back"


@dataclass(frozen=True, slots=True)
class ClearButtons:
    """The card on that phone keeps its words and loses its buttons."""

    to: PersonId
    card: str
    topic: str = "session"
    kind: Literal["clear_buttons"] = "clear_buttons"


@dataclass(frozen=True, slots=True)
class Record:
    """An observation to remember."""

    observation: Observation
    kind: Literal["record"] = "record"


class Sheet(StrEnum):
    """What is worked out and drawn of a client's records. The first five are pictures, OWN_WEEK for the client, REVIEWS
    what was measured at the reviews; the next four are documents: PDF, and the data as CSV. ASSESSED is sent to nobody: it
    comes back as the event `Assessed`."""

    WEEK = "week"
    FOUR_WEEKS = "four_weeks"
    COURSE = "course"
    OWN_WEEK = "own_week"
    REVIEWS = "reviews"
    PDF_WEEK = "pdf_week"
    PDF_REVIEW = "pdf_review"
    PDF_DISCHARGE = "pdf_discharge"
    DATA = "data"
    ASSESSED = "assessed"


class Paper(StrEnum):
    """The paper of a document."""

    A4 = "a4"
    LETTER = "letter"


@dataclass(frozen=True, slots=True)
class Report:
    """Draw this of the client's records and send it, over `first` to `last`, local dates, both included."""

    to: PersonId
    first: date
    last: date
    sheet: Sheet = Sheet.WEEK
    paper: Paper = Paper.A4
    kind: Literal["report"] = "report"


@dataclass(frozen=True, slots=True)
class Digest:
    """Draw the weeks of all clients of the person whose event this is, side by side, and send them with these words.

    `first` to `last` are local dates, both included. The buttons stand on the card "digest".
    """

    first: date
    last: date
    words: tuple[Words, ...]
    buttons: tuple[Button, ...] = ()
    kind: Literal["digest"] = "digest"


@dataclass(frozen=True, slots=True)
class Subject:
    """The row that an event belongs to."""

    aggregate: Literal["client", "person"]
    id: str


@dataclass(frozen=True, slots=True)
class Pass:
    """Tell another aggregate. Written in the same transaction, handled next, with a key of its own."""

    to: Subject
    event: Event
    kind: Literal["pass"] = "pass"


@dataclass(frozen=True, slots=True)
class NewPerson:
    """A person to be written down: a client, a carer or a contact. `role` is a `Part`."""

    id: PersonId
    role: str
    name: str
    zone: str
    language: str = "en"


@dataclass(frozen=True, slots=True)
class Enrol:
    """Make a client with these people; `therapist` is the phone that asks. Rows are written at once, before what is passed on.

    `people` holds the client's own entry (its id is the client's), the carer's if there is one, then contacts in order. A
    person who is there already gets the client as well. Without the client's own entry the client is there already.
    """

    client: ClientId
    name: str
    zone: str
    therapist: PersonId
    therapist_name: str
    people: tuple[NewPerson, ...]
    kind: Literal["enrol"] = "enrol"


@dataclass(frozen=True, slots=True)
class Invite:
    """Make a one-time start link for `whom` and show it to `to`: `words` get the parameter `link`, a QR picture goes along.

    Older links of `whom` that nobody used are closed. The payload is in no journal.
    """

    to: PersonId
    whom: PersonId
    words: Words
    topic: str = "talk"
    kind: Literal["invite"] = "invite"


PAGE = 8
"""So many lines of a list are found at once."""


@dataclass(frozen=True, slots=True)
class LookUp:
    """Look up a page of a list for the person whose event this is; it comes back as `Found`, passed to them.

    "digest" and "others" are the whole caseload at once.
    """

    what: Literal["caseload", "colleagues", "digest", "others"]
    first: int = 0
    kind: Literal["look_up"] = "look_up"


@dataclass(frozen=True, slots=True)
class PassOn:
    """Send a copy of what `by` sent (a voice note, a picture) to `to`, after the words that announce it."""

    to: PersonId
    by: PersonId
    message_id: int
    topic: str = "talk"
    urgency: Urgency = Urgency.ANSWER
    kind: Literal["pass_on"] = "pass_on"


@dataclass(frozen=True, slots=True)
class HaveMade:
    """Have these made ahead for `to`, who will need them soon, so that nobody waits for them later."""

    to: PersonId
    media: tuple[Made, ...]
    kind: Literal["have_made"] = "have_made"


Effect = Say | Reply | TakeBack | ClearButtons | Record | Report | Digest | Pass | Enrol | Invite | LookUp | PassOn | HaveMade


@dataclass(frozen=True, slots=True)
class Countdown:
    """What a running clock shows, read off the state. No event and no row: drawn when sent, or not at all.

    `card` on the phone of `to` shows `words` with the parameter `left` (seconds left of `seconds`, from `began`).
    """

    to: PersonId
    card: str
    words: tuple[Words, ...]
    began: datetime
    seconds: int
    buttons: tuple[Button, ...] = ()
