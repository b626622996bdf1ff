"""The lists that a therapist asks for, a page at a time: their clients, and their colleagues on this bot."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Row, Select, bindparam, func, select

from companion.core.effects import PAGE, PersonId
from companion.core.events import Entry
from companion.store.questions import Questions
from companion.store.schema import caseload, therapist

_THEIRS = caseload.c.person_id == bindparam("person")
CASELOAD_WHOLE = (
    select(caseload.c.client_id, caseload.c.name, caseload.c.reasons)
    .where(_THEIRS)
    .order_by(caseload.c.rank.desc(), caseload.c.name, caseload.c.client_id)
)
CASELOAD = CASELOAD_WHOLE.limit(PAGE).offset(bindparam("first"))
CASELOAD_TOTAL = select(func.count()).select_from(caseload).where(_THEIRS)

_OTHERS = therapist.c.person_id != bindparam("person")
COLLEAGUES = (
    select(therapist.c.person_id, therapist.c.name)
    .where(_OTHERS)
    .order_by(therapist.c.name, therapist.c.person_id)
    .limit(PAGE)
    .offset(bindparam("first"))
)
COLLEAGUES_TOTAL = select(func.count()).select_from(therapist).where(_OTHERS)


@dataclass(frozen=True, slots=True)
class Page:
    """A page of a list, and how long the whole list is."""

    entries: tuple[Entry, ...]
    total: int


class Lists(Questions):
    """Questions for lists. `first` is the place in the list of the page's first line, from 0."""

    async def caseload(self, person_id: PersonId, first: int = 0) -> Page:
        """The clients whom this therapist sees to, who needs a look first, then by name."""
        rows = await self._rows(CASELOAD, {"person": person_id, "first": first})
        return Page(self._entries(person_id, rows), await self._total(CASELOAD_TOTAL, person_id))

    async def whole_caseload(self, person_id: PersonId) -> tuple[Entry, ...]:
        """All clients whom this therapist sees to, in the order of `caseload`."""
        return self._entries(person_id, await self._rows(CASELOAD_WHOLE, {"person": person_id}))

    async def colleagues(self, person_id: PersonId, first: int = 0) -> Page:
        """The other therapists who have joined, by name."""
        rows = await self._rows(COLLEAGUES, {"person": person_id, "first": first})
        entries = tuple(Entry(row.person_id, row.name) for row in rows)
        return Page(entries, await self._total(COLLEAGUES_TOTAL, person_id))

    def _entries(self, person_id: PersonId, rows: Iterable[Row[Any]]) -> tuple[Entry, ...]:
        what = f"the caseload of {person_id}"
        return tuple(Entry(row.client_id, row.name, self._records.labels(row.reasons, what)) for row in rows)

    async def _total(self, count: Select[Any], person_id: PersonId) -> int:
        return int((await self._rows(count, {"person": person_id}))[0][0])
