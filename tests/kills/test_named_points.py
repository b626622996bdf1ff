"""The real process is killed at named points, and started again: fetched, before and after the commit, on the wire.

Each point is reached without luck: the test holds the database's write lock, or an answer, or kills at the very moment
at which a request arrives.
"""

import asyncio
import contextlib
import shutil
import sqlite3
from collections.abc import AsyncIterator, Callable, Coroutine, Iterator
from contextlib import AbstractAsyncContextManager
from dataclasses import dataclass, replace
from pathlib import Path

from companion.content.folders import content_dir
from companion.core.care import Client, Consent
from companion.core.effects import Urgency
from companion.core.observations import Bout, ConsentAnswer, ConsentNoted
from companion.rehearsal.server import Fault, Phone, RehearsalServer
from companion.runtime.clock import RealClock
from companion.store import OutboxState, Store
from tests.crowd import Pace, can_press, home, phones, press, reminded_at, resting, says, write
from tests.kills.ledger import NEW, Ledger
from tests.playing import CONTENT
from tests.process import Companion, Tap, until

DATABASE = "companion.sqlite3"
HELD_S = 60.0
"""Real seconds for which an answer is held: longer than anything here takes."""

TURNS = 5_000
"""So many turns of the loop are some hundredths of a second: time enough to confirm what must not be confirmed yet."""

SENDS = ("sendmessage", "sendphoto")
CHANGES_WORDS = ("editmessagetext", "editmessagecaption")
"""What the requests are, whether there is a picture or not."""

REMINDER = says("reminder")
CUE = says("time")
GO = says("hold-now", seconds=1)
INTO_PLACE = says("into-place", seconds=2)
DECLINED = says("not-today")
EMERGENCY = says("emergency-call", number="112")
HELD = says("alert-held")
LOST_CUE = says("clock-stopped")
RULES = CONTENT.library.rules("112")
QUICK = Pace(hold_s=1, into_place_s=2, rest_s=1)


@dataclass
class Point:
    """One client at home, the platform, and the companion."""

    server: RehearsalServer
    companion: Companion
    phone: Phone
    therapist: Phone
    database: Path

    async def ledger(self) -> Ledger:
        return await Ledger.read(self.database)

    async def start(self) -> None:
        await self.companion.start()
        await self.server.wait_quiet()

    async def restart(self) -> None:
        """After a kill: nothing goes wrong any more."""
        await self.companion.gone()
        self.server.faults.cancel_all()
        await self.companion.start()

    async def stop(self) -> Ledger:
        """End it in order, once nothing is under way; what it left."""
        await self.server.wait_quiet()
        await self.companion.stop()
        return await self.ledger()

    def press(self, choice: str) -> int:
        """Press the newest button of that choice; the number of the update."""
        return press(self.phone, choice)

    async def sees(self, line: str, on: Phone | None = None) -> None:
        """Wait until something that the bot said or changed on that phone has this line."""
        await until(self.server, lambda: self.times(line, on, (*NEW, "edit")) > 0)

    async def can_press(self, choice: str) -> None:
        """Wait until there is such a button on the client's phone."""
        await until(self.server, lambda: can_press(self.phone, choice))

    def times(self, line: str, on: Phone | None = None, kinds: tuple[str, ...] = NEW) -> int:
        """How many new messages of the bot on that phone had this line."""
        user = (on or self.phone).user_id
        said = [one for one in self.server.entries if one.user_id == user and one.way == "out" and one.kind in kinds]
        return sum(line in one.text.splitlines() for one in said)

    def kill_at(self, methods: tuple[str, ...], on: Phone, taken: bool) -> None:
        """Kill the companion the moment one of such requests arrives; `taken` says whether the platform does it."""

        def told(arrived: str, chat_id: int | None) -> bool:
            return arrived in methods and chat_id == on.user_id and self.companion.kill()

        self.server.faults.order(Tap(told=told, kind="accepted_then_lost" if taken else "cut"))

    @contextlib.contextmanager
    def locked(self) -> Iterator[None]:
        """Nobody else can write to the database meanwhile, so nobody can commit."""
        connection = sqlite3.connect(self.database, isolation_level=None)
        try:
            connection.execute("BEGIN IMMEDIATE")
            yield
        finally:
            connection.close()


@contextlib.asynccontextmanager
async def at_home(folder: Path, client: Client, settings: dict[str, str] | None = None) -> AsyncIterator[Point]:
    """That client, written down; the companion is not started yet."""
    server, database = RehearsalServer(now=RealClock().now), folder / DATABASE
    await write(database, [client], RULES)
    await server.start()
    known = phones(server, 1)
    companion = Companion(server, database, settings)
    try:
        yield Point(server, companion, known["c0"], known["t0"], database)
    finally:
        if companion.running:
            companion.kill()
            await companion.gone()
        await server.stop()


def reminded(folder: Path) -> AbstractAsyncContextManager[Point]:
    """A client who is reminded as soon as the companion runs."""
    now = RealClock().now()
    return at_home(folder, reminded_at(home(0, now), now))


def not_agreed(folder: Path) -> AbstractAsyncContextManager[Point]:
    """A client who has joined, and was not asked to agree yet; the check is one look."""
    now = RealClock().now()
    return at_home(folder, replace(home(0, now), consent=None, sessions=RULES.sign_by_sign_sessions, last_session_at=now))


def practising(folder: Path, settings: dict[str, str] | None = None) -> AbstractAsyncContextManager[Point]:
    """A client in a rest that is over as soon as the companion runs. The next hold takes a second."""
    now = RealClock().now()
    return at_home(folder, resting(home(0, now, QUICK), RULES, now), settings)


def patient(folder: Path) -> dict[str, str]:
    """Settings with a content that waits longer for a receipt than a start takes on a machine however busy."""
    content = shutil.copytree(content_dir(), folder / "content")
    safety = content / "safety.yaml"
    usual = safety.read_text(encoding="utf-8")
    assert "receipt_s: 10 " in usual
    safety.write_text(usual.replace("receipt_s: 10 ", f"receipt_s: {HELD_S:.0f} "), encoding="utf-8")
    return {"COMPANION_CONTENT": str(content)}


async def side_by_side(folder: Path, scenario: Callable[[Path, bool], Coroutine[None, None, None]]) -> None:
    """The scenario with a request that the platform did, and with one that never reached it."""
    folders = {taken: folder / ("taken" if taken else "not_taken") for taken in (True, False)}
    for own in folders.values():
        own.mkdir()
        # one after the other: Alembic makes tables for one thread at a time
        await (await Store.open(own / DATABASE)).close()
    async with asyncio.TaskGroup() as both:
        for taken, own in folders.items():
            both.create_task(scenario(own, taken))


async def test_a_press_that_was_fetched_and_not_committed_is_handled_after_the_restart(tmp_path: Path) -> None:
    async with reminded(tmp_path) as point:
        await point.companion.start()
        await point.can_press("not_today")
        with point.locked():
            number = point.press("not_today")
            # handed over, and nobody fetches again
            await until(point.server, lambda: point.server.idle and not point.server.updates.held)
            for _ in range(TURNS):
                await asyncio.sleep(0)
            assert [update.number for update in point.server.updates.unconfirmed] == [number]
            point.companion.kill()
            await point.companion.gone()
        assert (await point.ledger()).updates()[number] == 0
        await point.restart()
        await point.sees(DECLINED)
        ledger = await point.stop()
        assert ledger.updates()[number] == 1
        assert point.times(DECLINED, kinds=(*NEW, "edit")) == 1


async def test_a_press_that_was_committed_and_not_confirmed_is_counted_once(tmp_path: Path) -> None:
    async with reminded(tmp_path) as point:
        await point.companion.start()
        await point.can_press("not_today")
        point.server.faults.order(Fault(kind="slow", method="answerCallbackQuery", seconds=HELD_S))
        number = point.press("not_today")
        await until(point.server, lambda: any(call.method == "answercallbackquery" for call in point.server.calls))
        point.companion.kill()
        await point.companion.gone()
        assert (await point.ledger()).updates()[number] == 1
        assert [update.number for update in point.server.updates.unconfirmed] == [number]
        await point.restart()
        await point.sees(DECLINED)
        ledger = await point.stop()
        assert ledger.updates()[number] == 1
        assert point.server.updates.unconfirmed == []


async def test_a_reminder_on_the_wire_is_not_repeated(tmp_path: Path) -> None:
    async def scenario(folder: Path, taken: bool) -> None:
        async with reminded(folder) as point:
            point.kill_at(SENDS, point.phone, taken)
            await point.companion.start()
            await point.restart()
            number = point.phone.type("/more")
            await point.can_press("practise")
            ledger = await point.stop()
            assert ledger.updates()[number] == 1
            assert [row.state for row in ledger.outbox if row.urgency is Urgency.REMINDER] == [OutboxState.LOST]
            assert point.times(REMINDER) == taken

    await side_by_side(tmp_path, scenario)


async def test_an_end_cue_on_the_wire_is_not_repeated_and_what_happened_is_asked(tmp_path: Path) -> None:
    async def scenario(folder: Path, taken: bool) -> None:
        async with practising(folder) as point:
            await point.companion.start()
            await point.can_press("ready")
            point.press("ready")
            await point.sees(GO)
            point.kill_at(SENDS, point.phone, taken)
            await point.restart()
            await point.sees(LOST_CUE)
            point.press("held")
            await point.can_press("ready")
            ledger = await point.stop()
            assert point.times(CUE) == taken
            # the hold is written down once, and nobody claims to know how long it was
            assert [bout.practised_s for bout in holds(ledger)] == [None]

    await side_by_side(tmp_path, scenario)


async def test_a_go_on_the_wire_is_said_again_where_it_stands_and_one_clock_runs(tmp_path: Path) -> None:
    async def scenario(folder: Path, taken: bool) -> None:
        async with practising(folder, patient(folder)) as point:
            await point.companion.start()
            await point.can_press("ready")
            point.press("ready")
            await point.sees(INTO_PLACE)
            point.kill_at(CHANGES_WORDS, point.phone, taken)
            await point.restart()
            await point.sees(CUE)
            point.press("clean")
            await point.can_press("ready")
            ledger = await point.stop()
            assert point.times(CUE) == 1
            assert [bout.practised_s for bout in holds(ledger)] == [QUICK.hold_s]

    await side_by_side(tmp_path, scenario)


async def test_an_alert_on_the_wire_comes_through_whatever_became_of_it(tmp_path: Path) -> None:
    async def scenario(folder: Path, taken: bool) -> None:
        async with reminded(folder) as point:
            point.kill_at(SENDS, point.therapist, taken)
            await point.companion.start()
            number = point.phone.type(says("row-something-wrong"))
            await point.restart()
            await until(point.server, lambda: point.times(HELD, point.therapist) == 1 + taken)
            ledger = await point.stop()
            assert ledger.updates()[number] == 1
            assert point.times(EMERGENCY) == 1
            assert ledger.clients[0].hold is not None

    await side_by_side(tmp_path, scenario)


async def test_an_agreement_whose_answer_was_on_the_wire_is_kept_once_and_practice_begins(tmp_path: Path) -> None:
    async def scenario(folder: Path, taken: bool) -> None:
        async with not_agreed(folder) as point:
            await point.companion.start()
            point.phone.type("/more")
            await point.can_press("practise")
            point.press("practise")
            *screens, last = RULES.consent.screens
            for screen in screens:
                await point.sees(says(screen[0], number="112"))
                point.press("go_on")
            await point.sees(says(last[0], number="112"))
            point.kill_at(CHANGES_WORDS, point.phone, taken)
            number = point.press("agree")
            await point.restart()
            await point.sees(says("consent-thanks"))
            point.press("practise")
            await point.sees(says("how-are-you"))
            ledger = await point.stop()
            assert ledger.updates()[number] == 1
            noted = [one for one in ledger.observations["c0"] if isinstance(one, ConsentNoted)]
            assert [(one.version, one.answer) for one in noted] == [(RULES.consent.version, ConsentAnswer.AGREED)]
            assert ledger.clients[0].consent == Consent(noted[0].version, noted[0].at)

    await side_by_side(tmp_path, scenario)


def holds(ledger: Ledger) -> list[Bout]:
    """The bouts of the exercise that follows the first rest."""
    return [one for one in ledger.observations["c0"] if isinstance(one, Bout) and one.exercise == "half_step"]
