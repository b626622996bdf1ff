"""The one place that joins the parts: content, store, runtime, chat and reports become a running companion.

`companion run` gives it the machine's clock and the real platform, a rehearsal its own clock and a platform on this
machine; nothing else differs.
"""

import asyncio
import gc
import logging
import signal
from dataclasses import dataclass
from pathlib import Path
from typing import Self

from companion.chat.controls import controls
from companion.chat.doors import StartLinks
from companion.chat.outbound import Telegram
from companion.chat.updates import Updates
from companion.chat.wire import Wire, connect
from companion.content import library
from companion.content.enrolment import Enrolment
from companion.content.folders import content_dir
from companion.content.library import Library
from companion.content.texts import Texts
from companion.media.version import edition
from companion.reports.assessor import ChildAssessor
from companion.runtime.alert_command import AlertCommand
from companion.runtime.clock import Clock, RealClock
from companion.runtime.enrolment import Enrolled, Invitation
from companion.runtime.enrolment import enrol as file
from companion.runtime.pace import Limits
from companion.runtime.runtime import Options, Outside, Runtime
from companion.runtime.settling import tell_log
from companion.runtime.written import Means
from companion.settings import Settings
from companion.store import Store

__all__ = ["App", "Content", "Enrolled", "Invitation", "Setup", "enrol", "run"]

log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Setup:
    """What a companion is made from. Only a rehearsal is not `durable`: it need not outlive the machine's power.

    Nor `speaks` a rehearsal, even where a speech engine is installed: it is the same on every machine. `assessor` has charts,
    pictures and sounds made.
    """

    token: str
    api: str
    database: Path
    emergency_number: str
    content: Path | None = None
    rate: float = 25.0
    durable: bool = True
    alert_command: tuple[str, ...] = ()
    speaks: bool = True
    assessor: type[ChildAssessor] = ChildAssessor

    @classmethod
    def of(cls, settings: Settings) -> Self:
        """From the operator's settings. UsedWrong if the token or the emergency number is missing."""
        settings.needed("telegram_token", "emergency_number")
        return cls(
            token=settings.token,
            api=settings.telegram_api,
            database=settings.database,
            emergency_number=settings.emergency_number or "",
            content=settings.content,
            rate=settings.rate,
            alert_command=settings.alert_words,
        )

    def __repr__(self) -> str:
        return f"Setup(database={str(self.database)!r}, api={self.api!r})"


@dataclass(frozen=True, slots=True)
class Content:
    """A folder of content, read and found to be without fault."""

    folder: Path
    library: Library
    texts: Texts

    @classmethod
    def read(cls, chosen: Path | None = None) -> Self:
        """The chosen folder, else what came with the program. Raises FoundWrong."""
        folder = content_dir(chosen)
        return cls(folder, library.load(folder), Texts(folder / "texts"))


class App:
    """A companion: `open`, `start`, then `ended` or `stop`."""

    def __init__(self, setup: Setup, content: Content, store: Store, clock: Clock) -> None:
        texts = content.texts
        rules = content.library.rules(setup.emergency_number)
        self.content = content
        self.store = store
        self.wire: Wire = connect(setup.token, setup.api)
        self._assessor = setup.assessor(store, content.folder, clock, setup.speaks)
        doors = StartLinks()
        outside = Outside(clock, Telegram(self.wire, clock), texts, doors, self._assessor)
        self._command = AlertCommand(setup.alert_command, setup.token) if setup.alert_command else None
        options = Options(
            controls(texts, texts.languages),
            Limits(per_second=setup.rate),
            self._command or tell_log,
            edition(content.folder, setup.speaks),
        )
        self.runtime = Runtime(store, rules, outside, options)
        self._updates = Updates(self.wire, self.runtime.handler.receive, self._note, clock, doors.named)
        self._fetching: asyncio.Task[None] | None = None

    @classmethod
    async def open(cls, setup: Setup, clock: Clock | None = None, content: Content | None = None) -> Self:
        """Read the content if it is not given, lock the database and bring it up to date.

        Raises FoundWrong for content, UsedWrong for a second start, DatabaseUnusable.
        """
        content = content or Content.read(setup.content)
        store = await Store.open(setup.database, durable=setup.durable)
        try:
            return cls(setup, content, store, clock or RealClock())
        except BaseException:
            await store.close()
            raise

    async def start(self) -> None:
        """Begin to work: what was left open first, then what waits on the platform."""
        await self.runtime.start()
        self._fetching = asyncio.create_task(self._updates.run(), name="updates")

    async def expect_charts(self) -> None:
        """Let what draws charts load now, beside everything else, and not when the first is asked for."""
        await self._assessor.get_ready()

    async def ended(self) -> None:
        """Wait until it can not go on, and raise why: UsedWrong, or LoopBroken. Returns if it was stopped."""
        assert self._fetching is not None, "start it first"
        broken = asyncio.create_task(self.runtime.broken())
        try:
            done, _ = await asyncio.wait({self._fetching, broken}, return_when=asyncio.FIRST_COMPLETED)
        finally:
            broken.cancel()
        for task in done:
            task.result()

    async def stop(self) -> None:
        """End in order: nothing more comes in, what is being handled is handled, what is on the wire is settled."""
        self._updates.stop()
        if self._fetching is not None:
            await asyncio.gather(self._fetching, return_exceptions=True)
        await self.runtime.stop()
        await self._close()

    async def cut(self) -> None:
        """End as a power cut does: wherever it is, with nothing more written, sent or settled."""
        if self._fetching is not None:
            self._fetching.cancel()
        await self.runtime.cut()
        if self._fetching is not None:
            await asyncio.gather(self._fetching, return_exceptions=True)
        await self._close()

    async def _close(self) -> None:
        await self._assessor.close()
        if self._command is not None:
            await self._command.close()
        await self.wire.shutdown()
        await self.store.close()

    async def _note(self, number: int) -> None:
        async with self.store.writing() as tx:
            await tx.set_offset(number)


async def run(setup: Setup) -> None:
    """Run until the process is told to end (SIGTERM, SIGINT), or can not go on."""
    told = asyncio.Event()
    loop = asyncio.get_running_loop()
    for number in (signal.SIGTERM, signal.SIGINT):
        loop.add_signal_handler(number, told.set)
    app = await App.open(setup)
    # what is loaded stays; to look for garbage in it takes longer than a cue may be late
    gc.collect()
    gc.freeze()
    try:
        await app.start()
        log.info("The companion runs on %s. End it with Ctrl-C or SIGTERM.", setup.database)
        await _first(told, app)
        log.info("The companion ends: finishing what is under way.")
    finally:
        await app.stop()


async def _first(told: asyncio.Event, app: App) -> None:
    ended, asked = asyncio.create_task(app.ended()), asyncio.create_task(told.wait())
    await asyncio.wait({ended, asked}, return_when=asyncio.FIRST_COMPLETED)
    asked.cancel()
    if ended.done():
        ended.result()
    ended.cancel()


async def enrol(store: Store, enrolment: Enrolment, content: Content, clock: Clock) -> Enrolled:
    """Write the people and plans of a file down; see `runtime.enrolment`. UsedWrong: an id or a user id is somebody else's."""
    return await file(store, enrolment, Means(content.texts, StartLinks(), clock, content.library.without_number))
