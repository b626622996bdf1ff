"""The other side of the benchmarks: a bot as python-telegram-bot's manual shows one, with the library's own limiter.

A process of its own, told what to do as JSON on the command line. It says what the companion says in the same places, keeps
nothing on disk, and lets the library fetch, dispatch, limit and send:

    reminders   chats that are reminded as soon as it runs
    sessions    chats that practise: [chat, seconds until something happens, what: set_up, go or time]; beside it the words
                that the companion says: into_place, go, time
    menus       chats that get a message with a button which changes it
    scheduled   chats that are reminded at the moment `due` (seconds since 1970) by a job of APScheduler for each
"""

import asyncio
import json
import logging
import sys
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any

from apscheduler.schedulers.asyncio import AsyncIOScheduler
from telegram import InlineKeyboardButton, InlineKeyboardMarkup, Message, Update
from telegram.ext import AIORateLimiter, Application, CallbackQueryHandler, ContextTypes, MessageHandler, filters

REMINDER = "Time to practise.\nAbout 20 minutes."
EMERGENCY = "Stop now. Sit down, or stay where you are.\nIn an emergency, call 112 now.\nI can not call for you."
SET_UP = "Half step\nWeaker foot half a step in front.\nFingertips on."


@dataclass(slots=True)
class Bot:
    """What is to be done, and whom a press wakes."""

    orders: dict[str, Any]
    pressed: dict[int, asyncio.Event] = field(default_factory=dict)
    stopped: dict[int, asyncio.Event] = field(default_factory=dict)
    tasks: set[asyncio.Task[Any]] = field(default_factory=set)

    async def begin(self, application: Application[Any, Any, Any, Any, Any, Any]) -> None:
        """Everything that is due, each as a task of its own: the limiter puts them in a row."""
        for chat in self.orders["reminders"]:
            self._later(application.bot.send_message(chat, REMINDER))
        for chat, wait_s, first in self.orders["sessions"]:
            self._later(self._session(application, chat, wait_s, first))
        for chat in self.orders.get("menus", []):
            self._later(application.bot.send_message(chat, SET_UP, reply_markup=_row("easier")))
        if "scheduled" in self.orders:
            self._schedule(application.bot)

    def _schedule(self, bot: Any) -> None:
        scheduler = AsyncIOScheduler(timezone=UTC)
        due = datetime.fromtimestamp(self.orders["due"], UTC)
        for chat in self.orders["scheduled"]:
            scheduler.add_job(bot.send_message, "date", run_date=due, args=(chat, REMINDER))
        scheduler.start()

    async def on_press(self, update: Update, context: ContextTypes.DEFAULT_TYPE) -> None:
        """A button was pressed."""
        query = update.callback_query
        assert query is not None
        chat = query.from_user.id
        self._later(query.answer())
        if chat in self.pressed:
            self.pressed[chat].set()
        elif isinstance(query.message, Message):
            choice = "as_planned" if query.data == "easier" else "easier"
            await query.message.edit_text(f"{SET_UP} {choice}", reply_markup=_row(choice))

    async def on_text(self, update: Update, context: ContextTypes.DEFAULT_TYPE) -> None:
        """Something is wrong."""
        assert update.effective_chat is not None
        chat = update.effective_chat.id
        if chat in self.stopped:
            self.stopped[chat].set()
        await context.bot.send_message(chat, EMERGENCY)

    async def _session(self, application: Any, chat: int, wait_s: float, what: str) -> None:
        """Bout after bout, the same messages in the same places, from `what` on."""
        hold_s, into_s, rest_s = self.orders["hold_s"], self.orders["into_place_s"], self.orders["rest_s"]
        self.pressed[chat], self.stopped[chat] = asyncio.Event(), asyncio.Event()
        bot, message = application.bot, None
        await asyncio.sleep(wait_s)
        while not self.stopped[chat].is_set():
            if what == "set_up":
                message = await bot.send_message(chat, SET_UP, reply_markup=_row("ready"))
                await self._press(chat)
                await message.edit_text(self.orders["into_place"])
                await asyncio.sleep(into_s)
                what = "go"
            elif what == "go":
                go = self.orders["go"]
                message = await (message.edit_text(go) if message else bot.send_message(chat, go))
                await asyncio.sleep(hold_s)
                what = "time"
            else:
                message = await bot.send_message(chat, f"{self.orders['time']}\nHow did it go?", reply_markup=_row("clean"))
                await self._press(chat)
                await message.edit_text("Rest now.\nSit if you like. The next one comes here.")
                await asyncio.sleep(rest_s)
                what = "set_up"

    async def _press(self, chat: int) -> None:
        await self.pressed[chat].wait()
        self.pressed[chat].clear()

    def _later(self, work: Any) -> None:
        task = asyncio.ensure_future(work)
        self.tasks.add(task)
        task.add_done_callback(self._done)

    def _done(self, task: asyncio.Task[Any]) -> None:
        self.tasks.discard(task)
        if not task.cancelled() and task.exception() is not None:
            logging.getLogger(__name__).warning("a task ended: %r", task.exception())


def _row(choice: str) -> InlineKeyboardMarkup:
    return InlineKeyboardMarkup([[InlineKeyboardButton(choice, callback_data=choice)]])


def main() -> None:
    """Run until it is killed."""
    orders = json.loads(sys.argv[1])
    bot = Bot(orders)
    limiter = AIORateLimiter(overall_max_rate=orders["rate"], overall_time_period=1, max_retries=5)
    api = orders["api"]
    builder = Application.builder().token(orders["token"]).base_url(f"{api}/bot").rate_limiter(limiter)
    # Whoever waits for a connection waits, instead of giving up after a second.
    builder = builder.pool_timeout(600.0)
    application = builder.concurrent_updates(True).post_init(bot.begin).build()
    application.add_handler(CallbackQueryHandler(bot.on_press))
    application.add_handler(MessageHandler(filters.TEXT, bot.on_text))
    application.run_polling(allowed_updates=Update.ALL_TYPES)


if __name__ == "__main__":
    main()
