"""The token is in no log, whoever writes it and however."""

import logging

import pytest

from companion.chat.outbound import Telegram
from companion.chat.secrecy import HIDDEN, conceal
from companion.chat.updates import Updates
from companion.chat.wire import Wire, connect
from companion.errors import UsedWrong
from companion.rehearsal.server import Fault, FaultKind, Phone, RehearsalServer
from companion.runtime.transport import Op, Outgoing, Unknown, Unreachable
from tests.chat.hands import Keeper, SteppingClock, fetching

SECRET = "rehearsal-token"

pytestmark = pytest.mark.filterwarnings("ignore::telegram.warnings.PTBDeprecationWarning")


@pytest.fixture
def everything(caplog: pytest.LogCaptureFixture) -> pytest.LogCaptureFixture:
    """All logs of all loggers, the quiet ones too."""
    caplog.set_level(logging.DEBUG)
    for name in ("httpx", "httpcore", "telegram"):
        caplog.set_level(logging.DEBUG, logger=name)
    return caplog


def test_every_way_of_logging_a_token_is_struck_out(everything: pytest.LogCaptureFixture) -> None:
    conceal("77:very-secret-part")
    log = logging.getLogger("somebody.else")
    log.info("GET /bot77:very-secret-part/getMe")
    log.info("GET %s", "/bot77:very-secret-part/getMe")
    log.info("half of it: %s", "very-secret-part")
    try:
        raise ValueError("The token `77:very-secret-part` was rejected")
    except ValueError:
        log.exception("it failed")
    assert "very-secret" not in everything.text
    told = [record.getMessage() + (record.exc_text or "") for record in everything.records]
    assert [HIDDEN in line for line in told] == [True] * 4
    assert "it failed" in everything.text


def test_a_log_line_without_a_secret_is_left_as_it_was(everything: pytest.LogCaptureFixture) -> None:
    conceal("77:very-secret-part")
    logging.getLogger("somebody.else").info("%d of %d", 1, 2)
    record = everything.records[-1]
    assert (record.msg, record.args) == ("%d of %d", (1, 2))


async def test_no_log_holds_the_token_whatever_goes_wrong(
    server: RehearsalServer, wire: Wire, phone: Phone, everything: pytest.LogCaptureFixture
) -> None:
    clock, keeper = SteppingClock(), Keeper()
    kinds: tuple[FaultKind, ...] = ("500", "502", "429", "garbage", "cut", "accepted_then_lost")
    async with fetching(server, wire, keeper, clock):
        for kind in kinds:
            server.faults.order(Fault(kind=kind))
            assert await Telegram(wire, clock).send(Outgoing(Op.TEXT, phone.user_id, "hello")) is not None
            server.faults.order(Fault(kind=kind, method="getUpdates"))
            phone.type("hello")
            await server.wait_quiet()
    await wire.get_me()
    assert len(keeper.kept) == len(kinds)
    assert len(everything.records) > 50
    assert SECRET not in everything.text


async def test_a_token_that_is_refused_is_not_told(server: RehearsalServer, everything: pytest.LogCaptureFixture) -> None:
    wire, clock = connect("1000001:another-secret", server.base_url), SteppingClock()
    updates = Updates(wire, Keeper().receive, Keeper().note, clock)
    with pytest.raises(UsedWrong, match="COMPANION_TELEGRAM_TOKEN") as told:
        await updates.run()
    assert await Telegram(wire, clock).send(Outgoing(Op.TEXT, 1001, "hello")) == Unreachable()
    await wire.shutdown()
    assert "another-secret" not in everything.text + str(told.value)


async def test_what_could_not_be_read_is_not_logged(
    server: RehearsalServer, wire: Wire, phone: Phone, everything: pytest.LogCaptureFixture
) -> None:
    server.faults.order(Fault(kind="garbage"))
    assert await Telegram(wire, SteppingClock()).send(Outgoing(Op.TEXT, phone.user_id, "hello")) == Unknown()
    assert "not what you expect" not in everything.text
