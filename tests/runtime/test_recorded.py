"""What a therapist records goes from their phone to the client's by the platform's own id, whatever is switched off between."""

from dataclasses import replace
from itertools import count
from pathlib import Path

import pytest

from companion.core.care import Client
from companion.core.dialogues import Recording
from companion.core.events import Press
from companion.core.media import Medium
from companion.core.person import own
from companion.runtime.pace import Limits
from companion.runtime.runtime import Options, Outside, Runtime
from companion.runtime.transport import File, Inbound, InOther, InPress, InText, Outgoing
from companion.store import Store
from tests.core import practice
from tests.runtime.hands import ADA, CARE_OF_ADA, CEM, CONTROLS, START, TESS, Draughtsman, Knockers, Spelled, World, at

USERS = {"ada": 11, "tess": 90}
CARE = replace(
    CARE_OF_ADA,
    plan=practice.plan(practice.planned("press"), practice.planned("tandem")),
    consent=practice.AGREED,
    joined=("ada", "tess"),
)


class Visit:
    """A therapist at a client's home, and the process that serves them; `cut`: it is killed after everything that happens."""

    def __init__(self, folder: Path, cut: bool) -> None:
        self.folder, self.cut = folder, cut
        self.numbers = count(1)
        self.sent: list[Outgoing] = []

    async def begin(self) -> None:
        await self._open()
        async with self.world.store.writing() as tx:
            for person in (ADA, TESS, CEM):
                await tx.add_person(person, None, 2)
            await tx.add_client(CARE, None, 2)

    async def _open(self) -> None:
        world = World(await Store.open(self.folder / "companion.sqlite3"), Limits())
        outside = Outside(world.clock, world.platform, Spelled(), Knockers(), Draughtsman())
        world.runtime = Runtime(world.store, practice.RULES, outside, Options(CONTROLS, world.limits, world.stuck.append))
        world.clock.set(at(next(self.numbers) * 60))
        world.platform.next_id = 100 * next(self.numbers)
        await world.runtime.start()
        await world.clock.quiet()
        self.world = world

    async def _close(self) -> None:
        self.sent += [sent.out for sent in self.world.platform.sent]
        self.world.platform.sent.clear()
        await self.world.close()

    async def does(self, who: str, what: InText | InPress | InOther) -> None:
        number, user = next(self.numbers), USERS[who]
        await self.world.runtime.handler.receive(Inbound(f"tg:{number}:{user}:{number}", user, user, what, 10_000 + number))
        await self.world.clock.move(at((self.world.clock.now() - START).total_seconds() + 10))
        if self.cut:
            await self._close()
            await self._open()

    async def chooses(self, choice: str) -> None:
        """The therapist presses a button of the dialogue that stands."""
        async with self.world.store.reading() as reading:
            tess = await reading.person("tess")
        assert tess is not None and isinstance(tess.dialogue, Recording)
        await self.does("tess", InPress(Press(own("tess"), tess.dialogue.id, tess.dialogue.at, choice)))

    async def care(self) -> Client:
        async with self.world.store.reading() as reading:
            client = await reading.client("c1")
        assert client is not None
        return client

    async def end(self) -> None:
        await self._close()


@pytest.mark.parametrize(
    ("form", "cut"), [("voice", True), ("voice", False), ("photo", True), ("photo", False), ("video", False)]
)
async def test_a_file_that_a_therapist_sends_is_shown_back_asked_about_and_kept_by_its_id(
    tmp_path: Path, form: str, cut: bool
) -> None:
    visit = Visit(tmp_path, cut)
    await visit.begin()
    await visit.does("tess", InPress(Press("c1", "page", "page", "media")))
    await visit.chooses("n1")
    await visit.does("tess", InOther(form, "the-file"))
    await visit.chooses("instead")
    (waits,) = (await visit.care()).own_media
    assert waits.asked and waits.kept_at is None
    await visit.does("ada", InPress(Press("c1", "media", waits.id, "use")))
    (kept,) = (await visit.care()).own_media
    await visit.end()
    assert kept.kept_at is not None and kept.media.file_id == "the-file"
    files = [(out.chat_id, out.file, out.message_id) for out in visit.sent if out.file is not None]
    assert files == [(user, File(Medium(form), "the-file"), None) for user in (USERS["tess"], USERS["ada"])]
    assert [out.chat_id for out in visit.sent if "own-used" in out.text] == [USERS["ada"]]


async def test_a_file_comes_to_no_other_clients_phone(tmp_path: Path) -> None:
    visit = Visit(tmp_path, cut=False)
    await visit.begin()
    await visit.does("tess", InPress(Press("c1", "page", "page", "media")))
    await visit.chooses("n1")
    await visit.does("tess", InOther("photo", "the-file"))
    await visit.chooses("beside")
    await visit.end()
    assert {out.chat_id for out in visit.sent if out.file is not None} == {USERS["tess"], USERS["ada"]}
