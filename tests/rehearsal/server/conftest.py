"""One server without rates, one person who has pressed Start, one plain bot."""

from collections.abc import AsyncIterator

import httpx
import pytest

from companion.rehearsal.server import Limits, Phone, RehearsalServer
from tests.rehearsal.server.hands import Bot, HandClock


@pytest.fixture
def clock() -> HandClock:
    return HandClock()


@pytest.fixture
async def server(clock: HandClock) -> AsyncIterator[RehearsalServer]:
    server = RehearsalServer(now=clock, limits=Limits.without_rates())
    await server.start()
    yield server
    await server.stop()


@pytest.fixture
async def bot(server: RehearsalServer) -> AsyncIterator[Bot]:
    # No certificates are looked at on loopback, and loading them takes longer than most tests.
    async with httpx.AsyncClient(verify=False, timeout=5) as http:
        yield Bot(server, http)


@pytest.fixture
def phone(server: RehearsalServer) -> Phone:
    """Ada's phone, Start pressed, and the bot has confirmed that."""
    phone = server.add_phone(1001, "Ada", username="ada_invented")
    server.updates.confirm(phone.start() + 1)
    return phone
