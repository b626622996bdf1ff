"""A clock that is set by hand and a bare HTTP client, for the tests of the rehearsal server."""

import asyncio
import io
from collections.abc import AsyncIterator, Coroutine
from contextlib import asynccontextmanager
from datetime import UTC, datetime, timedelta
from typing import Any

import httpx
from PIL import Image

from companion.rehearsal.server import RehearsalServer

START = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


class HandClock:
    """Stands still until it is moved on."""

    def __init__(self) -> None:
        self.at = START

    def __call__(self) -> datetime:
        return self.at

    def move_on(self, seconds: float) -> None:
        self.at += timedelta(seconds=seconds)


class Bot:
    """Calls methods as plainly as the manual describes them, with JSON bodies."""

    def __init__(self, server: RehearsalServer, http: httpx.AsyncClient) -> None:
        self.server = server
        self.http = http

    def url(self, method: str) -> str:
        return f"{self.server.base_url}/bot{self.server.token}/{method}"

    async def ask(self, method: str, **parameters: Any) -> dict[str, Any]:
        """The whole envelope."""
        answer = (await self.http.post(self.url(method), json=parameters)).json()
        assert isinstance(answer, dict)
        return answer

    async def do(self, method: str, **parameters: Any) -> Any:
        """The result; the refusal fails the test."""
        answer = await self.ask(method, **parameters)
        assert answer["ok"], answer
        return answer["result"]

    async def refused(self, method: str, **parameters: Any) -> str:
        """Code and sentence of the refusal; success fails the test."""
        answer = await self.ask(method, **parameters)
        assert not answer["ok"], answer
        return f"{answer['error_code']} {answer['description']}"

    async def upload(self, method: str, files: dict[str, bytes], **parameters: Any) -> Any:
        """The result of a request with files; the refusal fails the test."""
        answer = (await self.http.post(self.url(method), data=parameters, files=files)).json()
        assert answer["ok"], answer
        return answer["result"]

    @asynccontextmanager
    async def polling(self, **parameters: Any) -> AsyncIterator["asyncio.Task[dict[str, Any]]"]:
        """A long poll; one is held when the block begins."""
        poll = asyncio.create_task(self._poll(parameters))
        while not self.server.updates.held and not poll.done():
            await self.server.wait_change()
        try:
            yield poll
        finally:
            poll.cancel()
            await asyncio.gather(poll, return_exceptions=True)

    def _poll(self, parameters: dict[str, Any]) -> Coroutine[Any, Any, dict[str, Any]]:
        return self.ask("getUpdates", **{"timeout": 30, **parameters})


def picture(width: int = 40, height: int = 30) -> bytes:
    """A small PNG."""
    drawn = io.BytesIO()
    Image.new("RGB", (width, height), "white").save(drawn, "PNG")
    return drawn.getvalue()


VOICE = b"OggS" + bytes(60)
CLIP = b"\x00\x00\x00\x18ftypmp42" + bytes(60)


def buttons(*labels: str) -> dict[str, Any]:
    """One row of buttons under a message; each sends its label in lower case."""
    return {"inline_keyboard": [[{"text": label, "callback_data": label.lower()} for label in labels]]}


def keyboard(*labels: str) -> dict[str, Any]:
    """A fixed row."""
    return {
        "keyboard": [[{"text": label} for label in labels]],
        "is_persistent": True,
        "resize_keyboard": True,
    }
