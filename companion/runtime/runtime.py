"""The loops joined: alarms, making, outbox, drawing, each a task of that name, and the handler that feeds them.

A loop that breaks is loud: it is logged, and `broken()` raises, for the process to end and be started again. Nothing is
lost by that; everything that matters is written down.
"""

import asyncio
import logging
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Protocol

from companion.core import client as clients
from companion.core.events import Control
from companion.core.programme import Rules
from companion.errors import CompanionError
from companion.runtime.alarms import Alarms
from companion.runtime.clock import Clock
from companion.runtime.drawing import DrawingLoop
from companion.runtime.handler import Change, Handler
from companion.runtime.making import MakingLoop
from companion.runtime.mishap import told
from companion.runtime.outbox import Outbox
from companion.runtime.pace import Limits, Pace
from companion.runtime.settling import OperatorHook, Settling, tell_log
from companion.runtime.transport import Assessor, Doors, Renderer, Transport
from companion.store import Store

log = logging.getLogger(__name__)


class LoopBroken(CompanionError):
    """A loop of the runtime ended with an error."""


@dataclass(frozen=True, slots=True)
class Outside:
    """Everything that is not ours to do: time, sending, words, links, charts, pictures and sounds."""

    clock: Clock
    transport: Transport
    renderer: Renderer
    doors: Doors
    assessor: Assessor


@dataclass(frozen=True, slots=True)
class Options:
    """How to run. `controls` maps every label of the fixed row ever shipped, and every command, to its control.

    `edition` names everything that pictures and sounds depend on: those of another edition are made anew.
    """

    controls: Mapping[str, Control]
    limits: Limits = field(default_factory=Limits)
    hook: OperatorHook = tell_log
    edition: str = ""


class Loop(Protocol):
    """A loop that can be stopped between two turns."""

    name: str
    turn: asyncio.Lock

    async def run(self) -> None:
        """For ever."""
        ...


class Runtime:
    """Made from a store and the outside; `handler` takes what comes in."""

    def __init__(self, store: Store, rules: Rules, outside: Outside, options: Options) -> None:
        self.handler = Handler(store, rules, outside.renderer, outside.doors, outside.clock, options.controls, [self])
        self.handler.edition = options.edition
        self._alarms = Alarms(self.handler)
        settling = Settling(store, self.handler, outside.clock, options.hook)
        self._outbox = Outbox(settling, outside.transport, Pace(options.limits), self._alarms.eased)
        self._making = MakingLoop(self.handler, outside.assessor, self._outbox.event)
        self._drawing = DrawingLoop(self.handler, outside.assessor, self._outbox.event)
        self._loops: tuple[Loop, ...] = (self._alarms, self._making, self._outbox, self._drawing)
        self._tasks: dict[str, asyncio.Task[None]] = {}
        self._broken = asyncio.Event()

    async def start(self) -> None:
        """Settle what the last run left open, then start the loops."""
        self._broken.clear()
        await self._outbox.recover()
        await self.handler.drain()
        async with self.handler.store.reading() as reading:
            live = await reading.live_clients()
        for client in live:
            self._show(client)
        for loop in self._loops:
            task = asyncio.create_task(loop.run(), name=loop.name)
            task.add_done_callback(self._ended)
            self._tasks[loop.name] = task

    async def stop(self) -> None:
        """End the loops, each between two turns: a request on the wire is waited for, so that its end is known."""
        for loop in self._loops:
            task = self._tasks.pop(loop.name, None)
            if task is None:
                continue
            async with loop.turn:
                task.cancel()
            await asyncio.gather(task, return_exceptions=True)

    async def cut(self) -> None:
        """End as a power cut does: each loop wherever it is, with nothing more written, sent or settled."""
        tasks = list(self._tasks.values())
        self._tasks.clear()
        for task in tasks:
            task.cancel()
        await asyncio.gather(*tasks, return_exceptions=True)

    def wake(self) -> None:
        """Something was written beside the handler: let every loop look."""
        self._alarms.event.set()
        self._making.event.set()
        self._outbox.event.set()
        self._drawing.event.set()

    async def broken(self) -> None:
        """Wait until a loop breaks; raises LoopBroken."""
        await self._broken.wait()
        names = [task.get_name() for task in self._tasks.values() if task.done()]
        raise LoopBroken(f"the loop {' and '.join(names)} ended; the log says why. Start again: nothing is lost.")

    # what the handler tells after a commit

    def changed(self, change: Change) -> None:
        """An event was handled: let the loops look that have to."""
        self._alarms.notice(change.wake_at)
        if change.client is not None:
            self._show(change.client)
        if change.wanted:
            self._making.event.set()
        if change.said:
            self._outbox.event.set()
        if change.asked_report:
            self._drawing.event.set()

    def stranger(self, chat_id: int, text: str) -> None:
        """A plain line for somebody unknown."""
        self._outbox.stranger(chat_id, text)

    def _show(self, client: clients.Client) -> None:
        try:
            countdowns = clients.countdowns(client, self.handler.rules)
        except Exception as error:
            log.error("no countdown for client %s: %s", client.id, told(error))
            countdowns = ()
        self._outbox.show(client.id, countdowns)

    def _ended(self, task: asyncio.Task[None]) -> None:
        if task.cancelled():
            return
        error = task.exception()
        log.critical("the loop %s ended: %s", task.get_name(), told(error) if error is not None else "it returned")
        self._broken.set()
