"""What is sent arrives as it was meant, and every way a request can end is told apart."""

from datetime import UTC, datetime

import httpx
import pytest
from telegram import Chat, Message

from companion.chat.buttons import decode
from companion.chat.outbound import Telegram
from companion.chat.sound_length import seconds_of
from companion.chat.wire import Wire, connect
from companion.core.events import Press
from companion.core.media import Medium
from companion.rehearsal.server import Fault, FaultKind, Limits, Phone, RehearsalServer
from companion.runtime.transport import (
    File,
    FileUnknown,
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
    outgoing = Outgoing(Op.FILE, phone.user_id, "Week 48", rows=(("Seen", YES),), file=File(Medium.PHOTO, png))
    message = phone.message(await sent(telegram, outgoing))
    assert (message.photo, message.caption, message.labels) == (png, "Week 48", (("Seen",),))


def opus(seconds: float) -> bytes:
    """As much of an Ogg Opus file of that length as says how long it is."""
    head = b"OggS" + bytes(24) + b"OpusHead" + bytes((1, 1)) + (312).to_bytes(2, "little") + bytes(7)
    return head + b"OggS" + bytes((0, 4)) + int(seconds * 48_000 + 312).to_bytes(8, "little") + bytes(14)


@pytest.mark.parametrize(
    ("sound", "seconds"),
    [(opus(92), 92), (opus(92.001), 93), (opus(0), 0), (b"", 0), (b"OggS", 0), (b"OpusHeadOggS", 0), (b"no sound at all", 0)],
)
def test_a_voice_note_tells_how_long_it_is(sound: bytes, seconds: int) -> None:
    assert seconds_of(sound) == seconds


async def sent_file(telegram: Telegram, phone: Phone, file: File, words: str = "Feet") -> Receipt:
    outcome = await telegram.send(Outgoing(Op.FILE, phone.user_id, words, (("Ready", YES),), file=file))
    assert isinstance(outcome, Receipt), outcome
    return outcome


@pytest.mark.parametrize(
    ("medium", "content", "name"),
    [
        (Medium.PHOTO, picture(), "picture.png"),
        (Medium.VOICE, opus(92), "sound.ogg"),
        (Medium.VIDEO, b"\x00\x00\x00\x18ftypmp42", "clip.mp4"),
    ],
)
async def test_a_file_arrives_with_words_and_buttons_and_goes_again_by_its_id(
    telegram: Telegram, phone: Phone, server: RehearsalServer, medium: Medium, content: bytes, name: str
) -> None:
    first = await sent_file(telegram, phone, File(medium, content))
    again = await sent_file(telegram, phone, File(medium, first.file_id))
    assert again.file_id == first.file_id != ""
    for receipt in (first, again):
        message = phone.message(receipt.message_id)
        assert (message.kind, message.caption, message.labels, message.file) == (medium, "Feet", (("Ready",),), content)
        assert message.media is not None and message.media.name == name


async def test_a_voice_note_arrives_with_its_length(telegram: Telegram, phone: Phone) -> None:
    message = phone.message((await sent_file(telegram, phone, File(Medium.VOICE, opus(92)))).message_id)
    assert message.media is not None and message.media.seconds == 92


async def test_words_become_a_picture_its_caption_changes_and_then_the_picture(telegram: Telegram, phone: Phone) -> None:
    there = await sent(telegram, text(phone, "How are you?", rows=(("Ready", YES),)))

    async def change(op: Op, words: str, content: bytes | str = b"") -> Outcome:
        file = File(Medium.PHOTO, content) if content else None
        return await telegram.send(Outgoing(op, phone.user_id, words, (("No", NO),), message_id=there, file=file))

    changed = await change(Op.SWAP, "Place", picture())
    assert isinstance(changed, Receipt) and (changed.message_id, changed.file_id != "") == (there, True)
    message = phone.message(there)
    assert (message.kind, message.caption, message.photo, message.labels) == ("photo", "Place", picture(), (("No",),))
    assert isinstance(await change(Op.CAPTION, "Set-up"), Receipt)
    assert (message.caption, message.photo, message.labels) == ("Set-up", picture(), (("No",),))
    assert isinstance(await change(Op.SWAP, "Feet", picture(60, 40)), Receipt)
    assert (message.caption, message.photo) == ("Feet", picture(60, 40))
    assert isinstance(await change(Op.SWAP, "Place", changed.file_id), Receipt)
    assert (message.caption, message.photo) == ("Place", picture())
    assert await change(Op.SWAP, "Place", changed.file_id) == Receipt(there, START)


async def test_the_buttons_of_a_picture_are_taken_off_and_the_words_stay(telegram: Telegram, phone: Phone) -> None:
    there = (await sent_file(telegram, phone, File(Medium.PHOTO, picture()))).message_id
    assert await sent(telegram, Outgoing(Op.CLEAR, phone.user_id, message_id=there)) == there
    assert (phone.message(there).caption, phone.message(there).labels) == ("Feet", ())


async def test_a_voice_note_keeps_its_sound_and_gets_other_words(telegram: Telegram, phone: Phone) -> None:
    there = (await sent_file(telegram, phone, File(Medium.VOICE, opus(92)))).message_id
    assert isinstance(await telegram.send(Outgoing(Op.CAPTION, phone.user_id, "How did it go?", message_id=there)), Receipt)
    assert (phone.message(there).caption, phone.message(there).file) == ("How did it go?", opus(92))
    swap = Outgoing(Op.SWAP, phone.user_id, "Feet", message_id=there, file=File(Medium.PHOTO, picture()))
    assert await telegram.send(swap) == NotThere()


async def test_words_without_a_file_have_no_caption_to_change(telegram: Telegram, phone: Phone) -> None:
    there = await sent(telegram, text(phone, "30"))
    assert await telegram.send(Outgoing(Op.CAPTION, phone.user_id, "15", message_id=there)) == NotThere()


@pytest.mark.parametrize("op", [Op.FILE, Op.SWAP])
async def test_a_file_that_the_platform_does_not_know_is_told_apart(telegram: Telegram, phone: Phone, op: Op) -> None:
    there = await sent(telegram, text(phone, "30")) if op is Op.SWAP else None
    voice = (await sent_file(telegram, phone, File(Medium.VOICE, opus(3)))).file_id
    for wrong in ("AgAC-another-bot", voice):
        outgoing = Outgoing(op, phone.user_id, "Feet", message_id=there, file=File(Medium.PHOTO, wrong))
        assert await telegram.send(outgoing) == FileUnknown()


async def test_a_file_that_is_no_picture_is_refused(telegram: Telegram, phone: Phone) -> None:
    outgoing = Outgoing(Op.FILE, phone.user_id, "Feet", file=File(Medium.PHOTO, b"no picture"))
    assert await telegram.send(outgoing) == Undeliverable(NoWay.REFUSED)


async def test_a_sound_that_the_platform_takes_for_something_else_has_no_id(telegram: Telegram, phone: Phone) -> None:
    assert (await sent_file(telegram, phone, File(Medium.VOICE, b"no sound"))).file_id == ""


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
    there = await sent(telegram, Outgoing(Op.FILE, phone.user_id, "Week 48", file=File(Medium.PHOTO, picture())))
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
