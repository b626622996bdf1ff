"""The desk where a request is met: its token, its method, the fault that was ordered for it, its answer."""

import asyncio
import json
import re
from collections.abc import Callable
from typing import Any

from starlette.applications import Starlette
from starlette.requests import ClientDisconnect, Request
from starlette.responses import Response
from starlette.routing import Route
from starlette.types import Receive, Scope, Send

from .connections import Connections
from .faults import Fault, FaultBook
from .methods import METHODS
from .parameters import Parameters, read
from .platform import Call, Platform
from .polling import ask_of
from .refusals import Refusal, not_found, too_many_requests, unauthorized

TOKEN = re.compile(r"[0-9]+:[A-Za-z0-9_-]+")
POLL = "getupdates"
BAD_GATEWAY = "<html><head><title>502 Bad Gateway</title></head><body><h1>502 Bad Gateway</h1></body></html>"


class Desk:
    """The ASGI application of one bot's server."""

    def __init__(self, platform: Platform, token: str, connections: Connections) -> None:
        self.faults = FaultBook()
        self.latency: Callable[[], float] | None = None
        self.network_down = False
        self.in_progress = 0
        self.failures: list[Exception] = []
        self._platform = platform
        self._token = token
        self._connections = connections
        self._routes = Starlette(
            routes=[
                Route("/bot{token}/{method}", self._call, methods=["GET", "POST"]),
                Route("/file/bot{token}/{path:path}", self._download, methods=["GET"]),
            ]
        )

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Counts what is in progress. A failure of this server's own is answered 500, kept, and told when it stops."""
        self.in_progress += 1
        self._platform.changes.ring()
        try:
            await self._routes(scope, receive, send)
        except Exception as failure:
            self.failures.append(failure)
        finally:
            self.in_progress -= 1
            self._platform.changes.ring()

    async def _call(self, request: Request) -> Response:
        if self.network_down:
            return await self._cut(request)
        method = request.path_params["method"].lower()
        try:
            self._admit(request)
            if method != POLL and method not in METHODS:
                raise not_found()
            parameters = await read(request)
        except Refusal as refusal:
            return _json(refusal.envelope(), refusal.code)
        except ClientDisconnect:  # it hung up in the middle of its question: nothing is done, and nobody hears
            return Response(status_code=400)
        chat_id = self._chat_meant(parameters)
        fault = self.faults.take(method, chat_id)
        if fault is not None and fault.kind == "cut":
            return await self._cut(request)
        response = _refused_by(fault) if fault is not None else None
        if response is None:
            response, code = await self._answer(request, method, parameters)
            if method != POLL:
                self._platform.calls.append(Call(self._platform.now(), method, chat_id, code))
        if fault is not None and fault.kind == "slow":
            await _pause(request, fault.seconds)
        if fault is not None and fault.kind == "accepted_then_lost":
            return await self._cut(request)
        if self.latency is not None:
            await asyncio.sleep(self.latency())
        return response

    async def _answer(self, request: Request, method: str, parameters: Parameters) -> tuple[Response, int]:
        """Does what is asked; the answer and its code."""
        try:
            if method == POLL:
                ask = ask_of(self._platform, parameters)
                result = await self._platform.updates.poll(ask, lambda: _gone(request))
            else:
                result = METHODS[method].call(self._platform, parameters)
        except Refusal as refusal:
            return _json(refusal.envelope(), refusal.code), refusal.code
        return _json({"ok": True, "result": result}, 200), 200

    def _chat_meant(self, parameters: Parameters) -> int | None:
        """The chat of a request; the answer to a press names it only by the press."""
        press = self._platform.presses.get(parameters.text("callback_query_id"))
        return press.user_id if press is not None else parameters.chat_id

    async def _download(self, request: Request) -> Response:
        if self.network_down:
            return await self._cut(request)
        try:
            self._admit(request)
        except Refusal as refusal:
            return _json(refusal.envelope(), refusal.code)
        stored = self._platform.files.by_path(request.path_params["path"])
        if stored is None:
            return _json(not_found().envelope(), 404)
        return Response(stored.content, media_type="application/octet-stream")

    def _admit(self, request: Request) -> None:
        token = request.path_params["token"]
        if not TOKEN.fullmatch(token):
            raise not_found()
        if token != self._token:
            raise unauthorized()

    async def _cut(self, request: Request) -> Response:
        if request.client is not None:
            self._connections.cut((request.client.host, request.client.port))
            await asyncio.sleep(0)
        return Response(status_code=500)


def _json(envelope: dict[str, Any], code: int) -> Response:
    return Response(json.dumps(envelope), status_code=code, media_type="application/json")


def _refused_by(fault: Fault) -> Response | None:
    """The answer of a fault under which nothing is done; None if the request is carried out."""
    match fault.kind:
        case "500":
            return _json(Refusal(500, "Internal Server Error").envelope(), 500)
        case "502":
            return Response(BAD_GATEWAY, status_code=502, media_type="text/html")
        case "429":
            return _json(too_many_requests(fault.retry_after).envelope(), 429)
        case "garbage":
            return Response("\x00<<<not what you expect", status_code=200, media_type="application/json")
        case _:
            return None


async def _gone(request: Request) -> None:
    """Returns when the client has hung up; the body was read before."""
    while (await request.receive())["type"] != "http.disconnect":
        pass


async def _pause(request: Request, seconds: float) -> None:
    """Waits so many real seconds, or until the client has hung up."""
    hung_up = asyncio.ensure_future(_gone(request))
    await asyncio.wait({hung_up}, timeout=seconds)
    hung_up.cancel()
