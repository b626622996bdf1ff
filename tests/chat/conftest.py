"""A loopback platform without rates, one person who has pressed Start, and a wire to it."""

from collections.abc import AsyncIterator

import pytest

from companion.chat.wire import Wire, connect
from companion.rehearsal.server import Limits, Phone, RehearsalServer
from tests.chat.hands import SteppingClock


@pytest.fixture
def clock() -> SteppingClock:
    return SteppingClock()


@pytest.fixture
async def server(clock: SteppingClock) -> AsyncIterator[RehearsalServer]:
    server = RehearsalServer(now=clock.now, limits=Limits.without_rates())
    await server.start()
    yield server
    await server.stop()


@pytest.fixture
async def wire(server: RehearsalServer) -> AsyncIterator[Wire]:
    wire = connect(server.token, server.base_url)
    yield wire
    await wire.shutdown()


@pytest.fixture
def phone(server: RehearsalServer) -> Phone:
    """Ada's phone, Start pressed, and the bot has confirmed that."""
    phone = server.add_phone(1001, "Ada")
    server.updates.confirm(phone.start() + 1)
    return phone
