"""The connection to the platform: the library's typed `Bot`, and three things it does not do.

It tells a server that is down apart from one that may have taken the message; it never logs what it could not
read; and it fetches updates as they came, for one that can not be parsed must not take the others with it.
"""

import json
from collections.abc import Sequence
from typing import Any
from urllib.parse import urlsplit

import httpx
from telegram import Bot
from telegram.error import NetworkError, TelegramError
from telegram.request import HTTPXRequest

from companion.chat.secrecy import conceal

CONNECT_S = 5.0
ANSWER_S = 5.0
UPLOAD_S = 20.0
# A long poll is answered at its end, and then the answer has to travel.
POLL_SLACK_S = 10.0
LOOPBACK = frozenset({"localhost", "127.0.0.1", "::1"})
GATEWAY_TIMEOUT = 504


class Down(NetworkError):
    """The platform answered that it is down: nothing was done."""

    def __init__(self, code: int) -> None:
        super().__init__(f"The platform answered {code}")


class _Wire(HTTPXRequest):
    async def do_request(self, *args: Any, **more: Any) -> tuple[int, bytes]:
        code, payload = await super().do_request(*args, **more)
        # Behind a gateway that lost patience the request may well have been done.
        if code >= 500 and code != GATEWAY_TIMEOUT:
            raise Down(code)
        return code, payload

    @staticmethod
    def parse_json_payload(payload: bytes) -> dict[str, Any]:
        """As the library's, but what could not be read is in no log: it may be about somebody's health."""
        try:
            answer = json.loads(payload)
        except (ValueError, RecursionError):
            answer = None
        if not isinstance(answer, dict):
            raise TelegramError("Invalid server response")
        return answer


class Wire(Bot):
    """The typed bot, and updates as they came."""

    async def fetch(self, offset: int | None, wait_s: int, kinds: Sequence[str]) -> list[Any]:
        """One long poll of at most `wait_s` seconds: raw updates. Confirms all below `offset`."""
        answer = await self._post(
            "getUpdates",
            {"offset": offset, "timeout": wait_s, "allowed_updates": list(kinds)},
            read_timeout=wait_s + POLL_SLACK_S,
        )
        if not isinstance(answer, list):
            raise TelegramError("Invalid server response")
        return answer


def connect(token: str, api: str) -> Wire:
    """A bot that speaks to the Bot API at `api`. Nothing is sent yet; close it with `shutdown`."""
    conceal(token)
    parts = urlsplit(api)
    at_home = parts.scheme == "http" and parts.hostname in LOOPBACK
    # On this machine there is no proxy and no certificate; reading all that are trusted takes 0.1 s.
    http = {"trust_env": False, "verify": False} if at_home else {}
    times: dict[str, Any] = {"connect_timeout": CONNECT_S, "read_timeout": ANSWER_S, "httpx_kwargs": http}
    return Wire(
        token,
        base_url=f"{api}/bot",
        base_file_url=f"{api}/file/bot",
        request=_Wire(media_write_timeout=UPLOAD_S, **times),
        get_updates_request=_Wire(connection_pool_size=4, **times),
    )


def was_not_sent(error: TelegramError) -> bool:
    """Whether the platform can not have got the request that ended in `error`."""
    return isinstance(error, Down) or isinstance(
        error.__cause__,
        httpx.ConnectError | httpx.ConnectTimeout | httpx.PoolTimeout | httpx.UnsupportedProtocol,
    )
