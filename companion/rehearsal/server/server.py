"""The rehearsal's server: a loopback Bot API, with the people's phones on its other side.

    server = RehearsalServer(now=clock)          phone = server.add_phone(1001, "Ada")
    await server.start()                         phone.start("link-payload")
    ... a bot polls server.base_url ...          phone.press("Ready")
    await server.stop()                          phone.messages, phone.fixed_row, server.entries

Everything dated or limited by time reads `now`, which may stand still. Only a poll's timeout, a "slow" fault
and `latency` are real seconds.
"""

from collections.abc import Callable
from datetime import datetime
from typing import Any

from .changes import Changes
from .chats import GroupChat, PrivateChat
from .connections import Connections
from .desk import Desk
from .entries import Entry
from .faults import FaultBook
from .groups import GroupEvent, group_event
from .limits import Limits
from .phones import Phone
from .platform import Call, Platform
from .updates import UpdateQueue

TOKEN = "1000001:rehearsal-token"


class RehearsalServer:
    """One bot's platform on 127.0.0.1."""

    def __init__(
        self,
        now: Callable[[], datetime],
        token: str = TOKEN,
        bot_username: str = "rehearsal_bot",
        limits: Limits | None = None,
        latency: Callable[[], float] | None = None,
    ) -> None:
        self.token = token
        self.bot_username = bot_username
        self.phones: dict[int, Phone] = {}
        self._platform = Platform(now, int(token.partition(":")[0]), bot_username, limits or Limits())
        self._connections = Connections()
        self._desk = Desk(self._platform, token, self._connections)
        self._desk.latency = latency
        self._port: int | None = None

    async def start(self, port: int = 0) -> None:
        """Begins to listen; 0 takes a free port. OSError if the port is taken."""
        self._port = await self._connections.listen(self._desk, port)

    async def stop(self) -> None:
        """Ends every connection and stops listening.

        RuntimeError if the server itself failed on a request.
        """
        await self._connections.close()
        self._port = None
        if self._desk.failures:
            raise RuntimeError(f"{len(self._desk.failures)} requests broke the server") from self._desk.failures[0]

    @property
    def base_url(self) -> str:
        """`http://127.0.0.1:PORT`; methods are under `/bot<token>/`, files under `/file/bot<token>/`."""
        if self._port is None:
            raise RuntimeError("the rehearsal server is not listening")
        return f"http://127.0.0.1:{self._port}"

    # --- people ---

    def add_phone(self, user_id: int, first_name: str, username: str | None = None, language_code: str = "en") -> Phone:
        """A person who can find the bot and has not pressed Start.

        ValueError if the id is taken or no user's.
        """
        if user_id <= 0 or user_id in self._platform.chats:
            raise ValueError(f"{user_id} is taken or can not be a user's id")
        chat = PrivateChat(user_id, first_name=first_name, username=username, language_code=language_code)
        self._platform.chats[user_id] = chat
        self.phones[user_id] = Phone(self._platform, chat)
        return self.phones[user_id]

    def add_group_event(self, chat_id: int, by: Phone, event: GroupEvent, text: str = "", title: str = "A group") -> int:
        """Lets something happen in the group `chat_id` (below 0), which is made at its first event; the
        update's number.
        """
        if chat_id >= 0:
            raise ValueError("a group's id is below 0")
        group = self._platform.chats.setdefault(chat_id, GroupChat(chat_id, title=title))
        assert isinstance(group, GroupChat)
        return group_event(self._platform, group, by, event, text)

    def bot_is_in(self, chat_id: int) -> bool:
        """Whether the bot is a member of that group."""
        group = self._platform.chats.get(chat_id)
        return isinstance(group, GroupChat) and group.bot_is_in

    def inject_update(self, raw: dict[str, Any]) -> int:
        """Queues `raw` as it is, however malformed; a missing update_id is filled in.

        Returns the number that confirms it.
        """
        return self._platform.updates.inject(raw, self._platform.limits.message_life)

    @property
    def entries(self) -> list[Entry]:
        """Everything that a phone showed or did, in order. The list grows; do not change it."""
        return self._platform.entries

    @property
    def calls(self) -> list[Call]:
        """Every request that was answered, but getUpdates, in order. The list grows; do not change it."""
        return self._platform.calls

    # --- what goes wrong ---

    @property
    def faults(self) -> FaultBook:
        """Where faults are ordered: `server.faults.order(Fault(kind="cut", method="sendMessage"))`."""
        return self._desk.faults

    @property
    def limits(self) -> Limits:
        """The limits in force; may be replaced at any time."""
        return self._platform.limits

    @limits.setter
    def limits(self, limits: Limits) -> None:
        self._platform.limits = limits

    @property
    def network_down(self) -> bool:
        """While true, every request's connection is cut; becoming true also cuts those that are open."""
        return self._desk.network_down

    @network_down.setter
    def network_down(self, down: bool) -> None:
        self._desk.network_down = down
        if down:
            self._connections.cut_all()
        self._platform.changes.ring()

    @property
    def latency(self) -> Callable[[], float] | None:
        """Real seconds to wait before each answer; None for none."""
        return self._desk.latency

    @latency.setter
    def latency(self, latency: Callable[[], float] | None) -> None:
        self._desk.latency = latency

    def unplug(self) -> None:
        """From now on nobody can connect, and what is open ends: a bot that tries knows that nothing was done."""
        self._connections.refuse()
        self._platform.changes.ring()

    async def plug_in(self) -> None:
        """The end of `unplug`: the same address can be reached again."""
        await self._connections.accept()

    def forget_file_ids(self) -> None:
        """No file id given so far is known any longer, as when a bot gets another token."""
        self._platform.files.forget_ids()

    # --- when to go on ---

    @property
    def updates(self) -> UpdateQueue:
        """What waits for the bot: `unconfirmed`, `held`, and `next_number`, which may be set."""
        return self._platform.updates

    @property
    def idle(self) -> bool:
        """No request is in progress but, at most, the held poll."""
        return self._desk.in_progress == int(self.updates.held)

    @property
    def quiet(self) -> bool:
        """The bot is polling, has confirmed everything, and no other request is in progress."""
        return self.updates.held and self.idle and not self.updates.unconfirmed

    @property
    def changed(self) -> Changes:
        """The bell behind wait_change."""
        return self._platform.changes

    async def wait_change(self) -> None:
        """Returns when something happened that may have made the server quiet, or not quiet, or has shown on
        a phone.
        """
        await self._platform.changes.wait()

    async def wait_quiet(self) -> None:
        """Returns when the server is quiet."""
        while not self.quiet:
            await self.wait_change()
