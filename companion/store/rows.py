"""What the tables hold beside the records of clients and persons, as frozen values. All instants are aware UTC."""

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from companion.core.effects import ClientId, Effect, Paper, PersonId, Put, Sheet, Subject, Urgency
from companion.core.events import Event, Press
from companion.core.media import Filed, Made, Media, Medium


class OutboxState(StrEnum):
    """Where a message stands. Only WAITING may still be taken back; ON_WIRE found at a start has an unknown end."""

    WAITING = "waiting"
    ON_WIRE = "on_wire"
    SENT = "sent"
    LOST = "lost"
    TAKEN_BACK = "taken_back"


@dataclass(frozen=True, slots=True, kw_only=True)
class OutboxRow:
    """One message to one person, rendered. The chat is looked up when it is sent.

    `subject` gets the receipt (`Arrived` or `Lost`) if there is a `tag`. `buttons` are (label, press), one to a row;
    `fixed_row` are the labels of the row of controls. `clears`: no message at all, it takes the buttons off the
    message `message_id` if that is given when written down, else off the one that `card` names when it is sent.
    `media` goes with the words; `media_key` is its name, by which it is found if it has to be made, and stays when what it
    names turned out to be of no use. `photo`: a picture that is this message's alone, kept in the row.
    `copy_of`: no words, but a copy of that message of the chat of `copy_from`. `secret`: once it is sent or will not be sent,
    neither words nor picture stay.
    `id` is 0 until written down. `attempts` counts how often it went on the wire; it is not sent before `try_after`.
    `message_id` and `sent_at` are the platform's receipt.
    """

    subject: Subject
    person_id: PersonId
    created_at: datetime
    urgency: Urgency
    topic: str
    text: str = ""
    client_id: ClientId | None = None
    buttons: tuple[tuple[str, Press], ...] = ()
    fixed_row: tuple[str, ...] = ()
    card: str | None = None
    put: Put = Put.NEW
    silent: bool = False
    not_after: datetime | None = None
    tag: str | None = None
    clears: bool = False
    photo: bytes | None = None
    media: Media | Filed | None = None
    media_key: str | None = None
    copy_of: int | None = None
    copy_from: PersonId | None = None
    secret: bool = False
    state: OutboxState = OutboxState.WAITING
    attempts: int = 0
    try_after: datetime | None = None
    sent_at: datetime | None = None
    message_id: int | None = None
    id: int = 0


@dataclass(frozen=True, slots=True)
class CardRow:
    """The newest message said on a card, on one phone.

    `form` is the file that stands there, None for words alone; `media` is its name, if it has one.
    """

    person_id: PersonId
    card: str
    message_id: int
    has_buttons: bool
    editable: bool
    form: Medium | None = None
    media: str | None = None


class MediaState(StrEnum):
    """Where a file stands that has to be made before it can be sent."""

    WANTED = "wanted"
    MADE = "made"
    FAILED = "failed"


@dataclass(frozen=True, slots=True)
class MediaRow:
    """A picture or a sound that we make, in one language. `key` is its name.

    Once MADE it has its bytes in `data`, and when it was sent the platform's `file_id` instead.
    """

    key: str
    media: Made
    language: str
    state: MediaState
    data: bytes | None = None
    file_id: str | None = None


@dataclass(frozen=True, slots=True)
class PassRow:
    """An event that one aggregate passed to another and that is not yet handled. Its key is `pass:{id}`."""

    id: int
    subject: Subject
    event: Event


class ReportState(StrEnum):
    """Where a requested chart stands."""

    WAITING = "waiting"
    DRAWN = "drawn"
    FAILED = "failed"


@dataclass(frozen=True, slots=True)
class ReportRow:
    """Something to work out and draw of a client, for a person, local dates `first` to `last`, both included."""

    id: int
    client_id: ClientId
    person_id: PersonId
    first: date
    last: date
    state: ReportState
    sheet: Sheet = Sheet.WEEK
    paper: Paper = Paper.A4


class LinkState(StrEnum):
    """What became of a start link. Only GOOD lets somebody in, once."""

    GOOD = "good"
    UNKNOWN = "unknown"
    USED = "used"
    EXPIRED = "expired"


@dataclass(frozen=True, slots=True)
class LinkUse:
    """The answer to a start link. `person_id` is whose link it is or was; None when it is unknown."""

    state: LinkState
    person_id: PersonId | None


@dataclass(frozen=True, slots=True)
class Wake:
    """A row that must be looked at. Its key is `wake:{aggregate}:{id}:{version}`."""

    subject: Subject
    wake_at: datetime
    version: int
    wake_class: int


@dataclass(frozen=True, slots=True)
class DigestRow:
    """A digest that was asked for: the weeks of all clients of a person, `first` to `last`, local dates, and its words."""

    person_id: PersonId
    first: date
    last: date
    text: str
    buttons: tuple[tuple[str, Press], ...] = ()
    state: ReportState = ReportState.WAITING
    id: int = 0


@dataclass(frozen=True, slots=True)
class JournalRow:
    """One handled event and what it asked for."""

    key: str
    subject: Subject
    event: Event
    effects: tuple[Effect, ...]
