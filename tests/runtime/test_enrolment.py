"""An enrolment file written down: who may act for whom, and what a therapist's own times come from."""

from collections.abc import AsyncIterator
from dataclasses import replace
from datetime import time
from pathlib import Path

import pytest

from companion.chat.doors import StartLinks
from companion.content import enrolment
from companion.core.duty import Duty, Hours
from companion.core.effects import Subject
from companion.core.events import DutySet
from companion.core.intake import fit
from companion.core.person import Part, Person
from companion.core.programme import ReportTime
from companion.runtime.enrolment import Enrolled, enrol
from companion.runtime.written import Means
from companion.store import Store
from companion.store.rows import PassRow
from tests.playing import CONTENT
from tests.runtime.hands import HandClock

ALONE = """\
people:
  ines: {role: therapist, name: Ines, zone: Europe/London}
  rafe: {role: therapist, name: Rafe, zone: Europe/London}
"""
CLIENT = """\
  {id}: {{role: client, name: {name}, zone: Europe/London}}
"""
CARE = """\
  {id}:
    therapist: ines
    contacts: [rafe]
    plan:
      practice: {{days: [mon], times: ["10:30"]}}
      report: {{day: {day}, time: "08:30"}}
      place: {{support: worktop, footwear: shoes, chair_behind: yes}}
      baseline: {{one_good_hand: no, ankle_blocked: no, blood_thinner: no, can_call_for_help: yes}}
      supervision: when_form_needs
      eyes_closed: no
      exercises: [{{exercise: seated_press}}]
"""
ON_DUTY = "ines: {role: therapist, hours: {days: [tue, mon], start: '08:00', end: '16:00'}, deputy: rafe, "
HOURS = Hours((0, 1), time(8), time(16))


def file_of(*clients: tuple[str, str]) -> str:
    """A file of one therapist, one contact and these clients: their id, and when their report is due."""
    people = "".join(CLIENT.format(id=id, name=id.title()) for id, _ in clients)
    return ALONE + people + "clients:\n" + "".join(CARE.format(id=id, day=day) for id, day in clients)


class Files:
    """Writes enrolment files down in one database."""

    def __init__(self, store: Store, folder: Path) -> None:
        self.store = store
        self._path = folder / "people.yaml"
        self._clock = HandClock()
        self._numbers = iter(range(1000))

    async def enrol(self, text: str) -> Enrolled:
        self._path.write_text(text, encoding="utf-8")
        self._clock.tokens = [f"payload-{next(self._numbers)}" for _ in range(9)]
        found = enrolment.load(self._path, CONTENT.library, CONTENT.texts)
        means = Means(CONTENT.texts, StartLinks(), self._clock, CONTENT.library.without_number)
        return await enrol(self.store, found, means)

    async def person(self, id: str) -> Person:
        async with self.store.reading() as reading:
            person = await reading.person(id)
        assert person is not None
        return person

    async def passed(self) -> list[PassRow]:
        """All that was passed on and is not handled, taken out."""
        rows = []
        async with self.store.writing() as tx:
            while (row := await tx.next_pass()) is not None:
                rows.append(row)
                await tx.pass_done(row.id)
        return rows


@pytest.fixture
async def files(tmp_path: Path) -> AsyncIterator[Files]:
    store = await Store.open(tmp_path / "companion.sqlite3")
    yield Files(store, tmp_path)
    await store.close()


async def test_a_file_without_clients_enrols_therapists_who_get_their_links(files: Files) -> None:
    enrolled = await files.enrol(ALONE)
    assert [invitation.person.id for invitation in enrolled.invitations] == ["ines", "rafe"]
    assert [(await files.person(id)).role for id in ("ines", "rafe")] == [Part.THERAPIST] * 2


async def test_a_therapist_who_is_only_told_when_another_does_not_answer_is_a_contact(files: Files) -> None:
    await files.enrol(file_of(("mara", "mon")))
    assert (await files.person("rafe")).role is Part.CONTACT
    await files.enrol(ALONE)
    assert (await files.person("rafe")).role is Part.THERAPIST


async def test_who_stands_in_for_a_therapist_is_one(files: Files) -> None:
    await files.enrol(file_of(("mara", "mon")).replace("ines: {role: therapist, ", ON_DUTY))
    assert (await files.person("rafe")).role is Part.THERAPIST


async def test_the_first_client_s_report_is_when_the_therapist_s_digest_comes(files: Files) -> None:
    await files.enrol(file_of(("mara", "wed"), ("oona", "fri")))
    assert (await files.person("ines")).digest == ReportTime(2, time(8, 30), "Europe/London")
    assert (await files.person("rafe")).digest is None


async def test_what_a_therapist_has_set_in_the_chat_stays(files: Files) -> None:
    await files.enrol(file_of(("mara", "wed")).replace("ines: {role: therapist, ", ON_DUTY))
    later = file_of(("mara", "wed"), ("oona", "fri")).replace("ines: {role: therapist, ", ON_DUTY.replace("08:00", "10:00"))
    await files.enrol(later)
    ines = await files.person("ines")
    assert ines.digest == ReportTime(2, time(8, 30), "Europe/London")
    assert (ines.hours, ines.deputy, ines.deputy_name) == (HOURS, "rafe", "Rafe")


async def test_hours_and_deputy_are_told_to_the_care_of_every_client_once(files: Files) -> None:
    duty = Duty("ines", "Europe/London", HOURS, "rafe")
    await files.enrol(file_of(("mara", "mon")))
    assert await files.passed() == []
    await files.enrol(file_of(("mara", "mon")).replace("ines: {role: therapist, ", ON_DUTY))
    both = file_of(("mara", "mon"), ("oona", "fri")).replace("ines: {role: therapist, ", ON_DUTY)
    told = await files.passed()
    assert [row.subject for row in told] == [Subject("client", "mara")]
    assert isinstance(told[0].event, DutySet) and (told[0].event.duty, told[0].event.deputy_name) == (duty, "Rafe")
    await files.enrol(both)
    assert [row.subject for row in await files.passed()] == [Subject("client", "oona")]
    await files.enrol(both)
    assert await files.passed() == []


async def test_no_file_undoes_what_a_therapist_found_at_a_visit(files: Files) -> None:
    text = file_of(("mara", "mon"))
    await files.enrol(text)
    async with files.store.writing() as tx:
        client = await tx.client("mara")
        assert client is not None and client.plan is not None and client.baseline is not None
        found = replace(client.baseline, from_file=False, weaker_side="left", orthosis="ankle_blocked", blood_thinner="unknown")
        fitted = replace(client, baseline=found, plan=replace(fit(client.plan, found), version=2))
        await tx.save_client(fitted, None, 2)
    assert (await files.enrol(text)).renewed == ()
    assert (await files.enrol(text.replace('"10:30"', '"11:30"'))).renewed == ("mara",)
    async with files.store.reading() as reading:
        client = await reading.client("mara")
    assert client is not None and client.baseline == found and client.plan is not None
    assert client.plan.version == 3 and client.plan.ankle_blocked and client.plan.blood_thinner
