"""The listening socket and its connections, each of which can be cut as a bad network would.

uvicorn's protocol speaks HTTP; its server class is used for starting to listen only, so that no signal
handler is set and no clock ticks.
"""

import asyncio
import socket

import uvicorn
from starlette.types import ASGIApp
from uvicorn.protocols.http.auto import AutoHTTPProtocol

Address = tuple[str, int]

KEEP_ALIVE = 3600
"""Seconds that an idle connection stays open: longer than any test, so that only an ordered fault ends one.
"""


class Connections:
    """Every open connection by the client's address."""

    def __init__(self) -> None:
        self._open: dict[Address, asyncio.Transport] = {}
        self._server: uvicorn.Server | None = None
        self._port = 0

    async def listen(self, app: ASGIApp, port: int) -> int:
        """Serves `app` on the loopback interface inside the running loop; port 0 takes a free one.

        Returns the port; OSError if taken.
        """
        listener = _bound(port)
        config = uvicorn.Config(
            app,
            http=self._protocol(),
            ws="none",
            interface="asgi3",
            lifespan="off",
            log_config=None,
            access_log=False,
            proxy_headers=False,
            server_header=False,
            date_header=False,
            timeout_keep_alive=KEEP_ALIVE,
        )
        config.load()
        self._server = uvicorn.Server(config)
        self._server.lifespan = config.lifespan_class(config)
        await self._server.startup(sockets=[listener])
        self._port = int(listener.getsockname()[1])
        return self._port

    def refuse(self) -> None:
        """Ends every connection and takes no new one, until `accept` is called."""
        if self._server is not None:
            for listener in self._server.servers:
                listener.close()
        self.cut_all()

    async def accept(self) -> None:
        """Takes connections again, on the port it had."""
        if self._server is not None:
            await self._server.startup(sockets=[_bound(self._port)])

    async def close(self) -> None:
        """Stops listening, cuts all and waits until the last request is over."""
        if self._server is None:
            return
        server, self._server = self._server, None
        for listener in server.servers:
            listener.close()
        self.cut_all()
        await asyncio.gather(*server.server_state.tasks, return_exceptions=True)

    def cut(self, client: Address) -> None:
        """Ends a client's connection without another byte."""
        transport = self._open.get(client)
        if transport is not None:
            transport.abort()

    def cut_all(self) -> None:
        for transport in list(self._open.values()):
            transport.abort()

    def _protocol(self) -> type[asyncio.Protocol]:
        opened = self._open

        class Cuttable(AutoHTTPProtocol):  # type: ignore[misc,valid-type]
            """uvicorn's protocol, which tells when its connection comes and goes."""

            def connection_made(self, transport: asyncio.Transport) -> None:
                super().connection_made(transport)
                opened[transport.get_extra_info("peername")] = transport

            def connection_lost(self, exc: Exception | None) -> None:
                opened.pop(self.transport.get_extra_info("peername"), None)
                super().connection_lost(exc)

        return Cuttable


def _bound(port: int) -> socket.socket:
    # With the protocol named asyncio sends without delay; otherwise every answer would take 40 ms.
    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind(("127.0.0.1", port))
    except OSError:
        listener.close()
        raise
    return listener
