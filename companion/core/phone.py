"""The state of one person's phone, as it is stored. Values only; `person.py` says what happens to them."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from companion.core.dialogues import Dialogue, Draft
from companion.core.duty import Hours
from companion.core.effects import ClientId, PersonId
from companion.core.programme import ReportTime

__all__ = ["Hours", "Part", "Person"]


class Part(StrEnum):
    """The part a person plays. A contact is told when the therapist does not answer."""

    CLIENT = "client"
    CARER = "carer"
    THERAPIST = "therapist"
    CONTACT = "contact"


@dataclass(frozen=True, slots=True)
class Person:
    """One phone. `user_id` is the platform's number, None until the person joined; `reachable` until they block.

    `serial` numbers dialogues. `digest` is when the weekly digest is due, `digested_at` up to when it is dealt with;
    `all_charts`: with the digest comes the chart of every client, not only of those with something to see.
    `drafts` were put by for another dialogue, oldest first. `deputy` is told of a red flag outside `hours`.
    `briefed`: the version of the carer's briefing that was gone through here.
    """

    id: PersonId
    role: Part
    name: str
    zone: str
    clients: tuple[ClientId, ...]
    language: str = "en"
    user_id: int | None = None
    reachable: bool = True
    serial: int = 0
    dialogue: Dialogue | None = None
    hours: Hours | None = None
    deputy: PersonId | None = None
    deputy_name: str = ""
    digest: ReportTime | None = None
    digested_at: datetime | None = None
    all_charts: bool = False
    briefed: str = ""
    drafts: tuple[Draft, ...] = ()
