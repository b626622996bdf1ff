"""Fetches what people sent, one update after another, and loses none.

    fetch  ->  read one  ->  handle it, to the commit  ->  its number is behind us  ->  next one, then fetch

Fetching with a number confirms all below it, so a number moves only after the commit: whoever is killed in
between gets the update again, and the journal knows it. An update that can not be read or handled is set aside
with a note and never holds up the others.
"""

import asyncio
import logging
import traceback
from collections.abc import Awaitable, Callable, Coroutine
from datetime import datetime, timedelta
from typing import Any

from telegram.error import Conflict, InvalidToken, RetryAfter, TelegramError

from companion.chat.inbound import KINDS, BadUpdate, Came, Group, number_of, read
from companion.chat.wire import Wire
from companion.errors import UsedWrong
from companion.runtime.clock import Clock
from companion.runtime.transport import Inbound, ReplyText

log = logging.getLogger(__name__)

Receive = Callable[[Inbound], Awaitable[ReplyText | None]]
"""Handles one thing that came in, to the commit; rolls back when it raises."""

Meet = Callable[[str], None]
"""Is told the bot's name, once, before anything is fetched."""

Note = Callable[[int], Awaitable[None]]
"""Writes down that all below this number is behind us."""

POLL_S = 50
ANSWER_S = 3.0
ANSWER_LETTERS = 200
SHORTEST_WAIT_S = 1.0
LONGEST_WAIT_S = 30.0
TRIES = 2
# Numbers are dealt anew, perhaps lower, after a week without any; an old one then confirms what is unread.
NUMBERS_HOLD = timedelta(days=1)


class Updates:
    """The loop. `run` ends when told to `stop`, or raises UsedWrong when it makes no sense to go on."""

    def __init__(self, wire: Wire, receive: Receive, note: Note, clock: Clock, meet: Meet | None = None) -> None:
        self._wire = wire
        self._receive = receive
        self._note = note
        self._clock = clock
        self._meet = meet
        self._next: int | None = None
        self._heard_at: datetime | None = None
        self._poll: asyncio.Task[list[Any]] | None = None
        self._stopping = asyncio.Event()
        self._asides: set[asyncio.Task[None]] = set()
        self._wait_s = 0.0

    async def run(self) -> None:
        """Fetch and handle until stopped. UsedWrong: another program fetches too, or the token is wrong."""
        try:
            while not self._stopping.is_set():
                try:
                    await self._round()
                except (Conflict, InvalidToken) as error:
                    raise _cannot_go_on(error) from None
                except RetryAfter as error:
                    await self._rest(_seconds(error))
                except TelegramError as error:
                    log.warning("The platform can not be reached (%s); trying again", type(error).__name__)
                    await self._back_off()
            await self._finish_asides()
        finally:
            for task in self._asides:
                task.cancel()

    def stop(self) -> None:
        """End after the update under way; a fetch under way is given up."""
        self._stopping.set()
        if self._poll is not None:
            self._poll.cancel()

    async def _round(self) -> None:
        if self._meet is not None:
            self._meet((await self._wire.get_me()).username or "")
            self._meet = None
        batch = await self._fetch()
        if not batch:
            self._forget_an_old_number()
        for place, raw in enumerate(batch):
            if self._stopping.is_set():
                return
            number = number_of(raw)
            if not await self._settled(raw, number):
                await self._back_off()
                return
            self._count(number, first=place == 0)
        self._wait_s = 0.0
        # A fetch says that all is quiet; so what was said on the side is said before.
        await self._finish_asides()
        if batch and all(number_of(raw) is None for raw in batch):
            await self._rest(SHORTEST_WAIT_S)

    async def _fetch(self) -> list[Any]:
        self._poll = asyncio.create_task(self._wire.fetch(self._next, POLL_S, KINDS))
        try:
            await asyncio.wait({self._poll})
            return [] if self._poll.cancelled() else self._poll.result()
        finally:
            self._poll.cancel()
            self._poll = None

    async def _settled(self, raw: Any, number: int | None) -> bool:
        """Handle one update. False: neither handled nor set aside, so it must be fetched again."""
        for attempt in range(1, TRIES + 1):
            try:
                await self._handle(raw)
                return True
            except BadUpdate as error:
                log.error("Update %s is set aside: it has no usable %s", number, error)
                break
            except Exception as error:
                # Only where it happened: the message of an exception may hold somebody's words.
                where = "".join(traceback.format_tb(error.__traceback__))
                log.error("Update %s failed (%d of %d): %s\n%s", number, attempt, TRIES, type(error).__name__, where)
        return number is None or await self._set_aside(number)

    async def _handle(self, raw: Any) -> None:
        came = read(raw)
        match came:
            case Came():
                reply = await self._receive(came.inbound)
                if came.callback is not None:
                    self._aside(self._answer(came.callback, reply))
            case Group():
                log.warning("The bot was brought into a group and leaves it: only private chats count")
                self._aside(self._leave(came.chat_id))
            case None:
                pass

    async def _set_aside(self, number: int) -> bool:
        """A database that can not even note this is what is wrong, not the update."""
        try:
            await self._note(number + 1)
        except Exception as error:
            log.critical("The database can not be written (%s); nothing is confirmed", type(error).__name__)
            return False
        log.error("Update %d is set aside", number)
        return True

    def _count(self, number: int | None, first: bool) -> None:
        if number is not None:
            self._next = max(self._next or 0, number + 1)
            self._heard_at = self._clock.now()
        elif first and self._next is not None:
            # Its true number is not below the one we asked for, so this confirms nothing else.
            self._next += 1

    def _forget_an_old_number(self) -> None:
        """Only after an empty answer: it shows that everything below the number is confirmed."""
        if self._heard_at is not None and self._clock.now() - self._heard_at > NUMBERS_HOLD:
            self._next = self._heard_at = None

    async def _answer(self, callback: str, reply: ReplyText | None) -> None:
        # Longer words would be refused whole, and the button would seem to be stuck.
        text = reply.text[:ANSWER_LETTERS] if reply is not None else None
        await self._wire.answer_callback_query(callback, text, read_timeout=ANSWER_S)

    async def _leave(self, chat_id: int) -> None:
        await self._wire.leave_chat(chat_id, read_timeout=ANSWER_S)

    def _aside(self, request: Coroutine[Any, Any, None]) -> None:
        """A courtesy that nothing waits for, and whose failure changes nothing."""

        async def courtesy() -> None:
            try:
                await request
            except Exception as error:
                log.info("A courtesy failed: %s", type(error).__name__)

        task = asyncio.create_task(courtesy())
        self._asides.add(task)
        task.add_done_callback(self._asides.discard)

    async def _finish_asides(self) -> None:
        if self._asides:
            await asyncio.wait(set(self._asides))

    async def _back_off(self) -> None:
        self._wait_s = min(max(self._wait_s * 2, SHORTEST_WAIT_S), LONGEST_WAIT_S)
        await self._rest(self._wait_s)

    async def _rest(self, seconds: float) -> None:
        await self._clock.park("updates", self._stopping, self._clock.now() + timedelta(seconds=seconds))


def _cannot_go_on(error: TelegramError) -> UsedWrong:
    if isinstance(error, InvalidToken):
        return UsedWrong("The platform does not know the bot's token. Set COMPANION_TELEGRAM_TOKEN to the one it gave you.")
    if "webhook" in error.message:
        return UsedWrong("A webhook is set for this bot, so nothing can be fetched. Delete the webhook first.")
    return UsedWrong("Another program fetches this bot's messages. Only one may: stop the other one, then start this.")


def _seconds(error: RetryAfter) -> float:
    after = error.retry_after
    return after.total_seconds() if isinstance(after, timedelta) else float(after)
