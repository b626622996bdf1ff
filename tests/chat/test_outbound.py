"""What is sent arrives as it was meant, and every way a request can end is told apart."""

from datetime import UTC, datetime

import httpx
import pytest
from telegram import Chat, Message

from companion.chat.buttons import decode
from companion.chat.outbound import Telegram
from companion.chat.wire import Wire, connect
from companion.core.events import Press
from companion.rehearsal.server import Fault, FaultKind, Limits, Phone, RehearsalServer
from companion.runtime.transport import (
    NotThere,
    NoWay,
    Op,
    Outcome,
    Outgoing,
    Receipt,
    TryLater,
    Undeliverable,
    Unknown,
    Unreachable,
)
from tests.chat.hands import START, SteppingClock
from tests.rehearsal.server.hands import picture

YES, NO = Press("c1", "s1", "q1", "a"), Press("c1", "s1", "q1", "b")


@pytest.fixture
def telegram(wire: Wire, clock: SteppingClock) -> Telegram:
    return Telegram(wire, clock)


async def sent(telegram: Telegram, outgoing: Outgoing) -> int:
    """The message id of what must be taken."""
    outcome = await telegram.send(outgoing)
    assert isinstance(outcome, Receipt), outcome
    return outcome.message_id


def text(phone: Phone, words: str = "hello", **more: object) -> Outgoing:
    return Outgoing(Op.TEXT, phone.user_id, words, **more)  # type: ignore[arg-type]


async def test_a_text_arrives_with_its_buttons_one_to_a_row(telegram: Telegram, phone: Phone) -> None:
    rows = (("Same as usual", YES), ("Different or not sure", NO))
    message = phone.message(await sent(telegram, text(phone, "How are you? <b> *x* _y_", rows=rows)))
    assert message.text == "How are you? <b> *x* _y_"
    assert message.labels == (("Same as usual",), ("Different or not sure",))
    assert [decode(button.data) for row in message.buttons for button in row] == [YES, NO]
    assert not message.silent


async def test_a_silent_text_makes_no_sound(telegram: Telegram, phone: Phone) -> None:
    assert phone.message(await sent(telegram, text(phone, silent=True))).silent


async def test_the_fixed_row_is_laid_and_stays(telegram: Telegram, phone: Phone) -> None:
    await sent(telegram, text(phone, fixed_row=(("Something is wrong",), ("Enough", "More"))))
    assert phone.fixed_row == (("Something is wrong",), ("Enough", "More"))
    assert phone.fixed_row_stays


async def test_a_chart_arrives_with_its_caption(telegram: Telegram, phone: Phone) -> None:
    png = picture()
    outgoing = Outgoing(Op.PHOTO, phone.user_id, "Week 48", rows=(("Seen", YES),), photo=png)
    message = phone.message(await sent(telegram, outgoing))
    assert (message.photo, message.caption, message.labels) == (png, "Week 48", (("Seen",),))


async def test_a_voice_note_is_copied_into_another_chat(telegram: Telegram, phone: Phone, server: RehearsalServer) -> None:
    other = server.add_phone(1002, "Ben")
    other.start()
    phone.send_voice(b"OggS invented", seconds=4)
    original = phone.messages[-1].message_id
    copy = Outgoing(Op.COPY, 1002, message_id=original, from_chat=1001)
    receipt = await telegram.send(copy)
    assert isinstance(receipt, Receipt)
    assert (other.message(receipt.message_id).kind, other.message(receipt.message_id).from_bot) == ("voice", True)
    phone.delete(original)
    assert await telegram.send(copy) == NotThere()
    assert await telegram.send(Outgoing(Op.COPY, 1002, message_id=1, from_chat=1003)) == Undeliverable(NoWay.REFUSED)


async def test_an_edit_changes_words_and_buttons_in_place(telegram: Telegram, phone: Phone) -> None:
    there = await sent(telegram, text(phone, "30", rows=(("Ready", YES),)))
    assert await sent(telegram, Outgoing(Op.EDIT, phone.user_id, "15", message_id=there)) == there
    assert (phone.message(there).text, phone.message(there).labels) == ("15", ())


async def test_buttons_are_taken_off_and_the_words_stay(telegram: Telegram, phone: Phone) -> None:
    there = await sent(telegram, text(phone, "30", rows=(("Ready", YES),)))
    assert await sent(telegram, Outgoing(Op.CLEAR, phone.user_id, message_id=there)) == there
    assert (phone.message(there).text, phone.message(there).labels) == ("30", ())


async def test_an_edit_that_changes_nothing_was_taken(telegram: Telegram, phone: Phone, server: RehearsalServer) -> None:
    there = await sent(telegram, text(phone, "30"))
    for op in (Op.EDIT, Op.CLEAR):
        assert await telegram.send(Outgoing(op, phone.user_id, "30", message_id=there)) == Receipt(there, START)
    assert [call.code for call in server.calls[-2:]] == [400, 400]


async def test_a_message_that_is_gone_is_not_there(telegram: Telegram, phone: Phone) -> None:
    there = await sent(telegram, text(phone, "30", rows=(("Ready", YES),)))
    phone.delete(there)
    for op in (Op.EDIT, Op.CLEAR):
        assert await telegram.send(Outgoing(op, phone.user_id, "15", message_id=there)) == NotThere()


async def test_a_message_that_can_not_be_edited_is_not_there(telegram: Telegram, phone: Phone) -> None:
    there = await sent(telegram, text(phone, "row", fixed_row=(("Enough",),)))
    assert await telegram.send(Outgoing(Op.EDIT, phone.user_id, "15", message_id=there)) == NotThere()


async def test_a_chart_can_not_become_text_again(telegram: Telegram, phone: Phone) -> None:
    there = await sent(telegram, Outgoing(Op.PHOTO, phone.user_id, "Week 48", photo=picture()))
    assert await telegram.send(Outgoing(Op.EDIT, phone.user_id, "15", message_id=there)) == NotThere()


async def test_who_blocked_the_bot_or_never_started_is_out_of_reach(
    telegram: Telegram, phone: Phone, server: RehearsalServer
) -> None:
    phone.block()
    stranger = server.add_phone(1002, "Bea")
    for chat_id in (phone.user_id, stranger.user_id, 4711):
        outcome = await telegram.send(Outgoing(Op.TEXT, chat_id, "hello"))
        assert outcome == Undeliverable(NoWay.BLOCKED)


@pytest.mark.parametrize("words", ["", "x" * 4097])
async def test_what_the_platform_will_never_take_is_refused(telegram: Telegram, phone: Phone, words: str) -> None:
    assert await telegram.send(text(phone, words)) == Undeliverable(NoWay.REFUSED)


@pytest.mark.parametrize(
    ("kind", "outcome", "arrives"),
    [
        ("500", Unreachable(), False),
        ("502", Unreachable(), False),
        ("429", TryLater(7.0), False),
        ("garbage", Unknown(), False),
        ("cut", Unknown(), False),
        ("accepted_then_lost", Unknown(), True),
    ],
)
@pytest.mark.filterwarnings("ignore::telegram.warnings.PTBDeprecationWarning")
async def test_what_went_wrong_is_told_apart(
    telegram: Telegram, phone: Phone, server: RehearsalServer, kind: FaultKind, outcome: Outcome, arrives: bool
) -> None:
    server.faults.order(Fault(kind=kind, retry_after=7))
    before = len(phone.messages)
    assert await telegram.send(text(phone)) == outcome
    assert len(phone.messages) - before == arrives


async def test_a_server_that_is_not_there_was_sent_nothing(phone: Phone, server: RehearsalServer) -> None:
    wire = connect(server.token, "http://127.0.0.1:9")
    assert await Telegram(wire, SteppingClock()).send(text(phone)) == Unreachable()
    await wire.shutdown()


async def test_an_answer_that_does_not_come_leaves_the_end_unknown(
    telegram: Telegram, phone: Phone, server: RehearsalServer, monkeypatch: pytest.MonkeyPatch
) -> None:
    async def no_patience(*_: object, **__: object) -> None:
        raise httpx.ReadTimeout("")

    monkeypatch.setattr(httpx.AsyncClient, "request", no_patience)
    assert await telegram.send(text(phone)) == Unknown()


@pytest.mark.filterwarnings("ignore::telegram.warnings.PTBDeprecationWarning")
async def test_too_many_messages_are_put_off(telegram: Telegram, phone: Phone, server: RehearsalServer) -> None:
    server.limits = Limits()
    outcomes = [await telegram.send(text(phone, str(number))) for number in range(4)]
    assert [type(outcome) for outcome in outcomes] == [Receipt, Receipt, Receipt, TryLater]


@pytest.mark.parametrize(
    ("named", "began", "answered", "taken"),
    [
        (10, 10.2, 10.3, 10.3),  # at once: when the answer had come
        (10, 10.2, 14.0, 11.0),  # a slow answer: by the end of the second that the platform names
        (70, 10.2, 10.3, 10.3),  # the platform's clock is ahead
        (2, 10.2, 14.0, 10.2),  # the platform's clock is behind
    ],
)
def test_a_message_is_taken_between_its_sending_and_its_answer(
    wire: Wire, named: int, began: float, answered: float, taken: float
) -> None:
    def at(seconds: float) -> datetime:
        return datetime.fromtimestamp(1_772_442_000 + seconds, UTC)

    clock = SteppingClock()
    clock.at = at(answered)
    message = Message(1, at(named), Chat(1001, "private"))
    assert Telegram(wire, clock)._taken_at(at(began), message) == at(taken)
