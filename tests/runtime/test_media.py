"""Pictures and sounds that go with the words: made once, waited for a little, and the words are never lost over a picture."""

import asyncio
from collections.abc import Callable
from dataclasses import replace
from itertools import count

import pytest

from companion.core import client as clients
from companion.core.effects import Button, Effect, HaveMade, Put, Say, Subject, TakeBack, Urgency, Words, words
from companion.core.events import Event, Lost, Press, Typed, Why
from companion.core.media import Made, Media, Medium, Recorded, SignsPicture, SoundCheck
from companion.core.programme import Rules
from companion.runtime.transport import (
    File,
    FileUnknown,
    Inbound,
    InText,
    NoWay,
    Op,
    Outcome,
    Outgoing,
    Undeliverable,
    Unknown,
)
from companion.store import CardRow, MediaState, OutboxState
from tests.runtime.hands import START, World, at

EYES, FACE, TONES = SignsPicture(("eyes",)), SignsPicture(("face",)), SoundCheck((), 10, 3)
CLIP, VOICE = Recorded(Medium.VIDEO, "BAAC"), Recorded(Medium.VOICE, "AwAC")
READY = Button(words("b-ready"), Press("c1", "s1", "3", "ready"))
Asks = Callable[..., None]
numbers = count(1)


def say(text: str, media: Media | None = None, **more: object) -> Say:
    """A message on the card of Ada's session."""
    return replace(Say("ada", (words(text),), media=media, card="session"), **more)  # type: ignore[arg-type]


def change(text: str, media: Media | None = None, **more: object) -> Say:
    return say(text, media, put=Put.IN_PLACE, **more)


def bytes_of(media: Made) -> bytes:
    return f"{'voice' if isinstance(media, SoundCheck) else 'photo'} in en: {media}".encode()


@pytest.fixture
def effects(monkeypatch: pytest.MonkeyPatch) -> list[Effect]:
    """What a client's next Typed asks for."""
    asked: list[Effect] = []

    def step(client: clients.Client, event: Event, rules: Rules) -> clients.Decision:
        mine, asked[:] = (tuple(asked), []) if isinstance(event, Typed) else ((), asked)
        return clients.Decision(client, mine)

    monkeypatch.setattr(clients, "step", step)
    return asked


class Session:
    """Somebody's session that says what it is told to."""

    def __init__(self, world: World, effects: list[Effect]) -> None:
        self.world = world
        self._effects = effects

    async def ask(self, *effects: Effect, client: str = "c1") -> None:
        self._effects.extend(effects)
        typed = Typed(self.world.clock.now(), "ada", "")
        await self.world.runtime.handler.handle(Subject("client", client), typed, f"asked:{next(numbers)}")

    async def after(self, seconds: float, *effects: Effect) -> None:
        """Ask for these and let so many seconds pass."""
        await self.ask(*effects)
        await self.world.clock.move(self.world.clock.now() + (at(seconds) - START))

    def seen(self) -> list[tuple[Op, str, File | None]]:
        return [(sent.out.op, sent.out.text, sent.out.file) for sent in self.world.platform.sent]

    def ops(self) -> list[tuple[Op, str]]:
        return [(op, text) for op, text, _ in self.seen()]

    def files(self) -> list[bytes | str]:
        return [file.content for _, _, file in self.seen() if file is not None]

    async def card(self) -> CardRow | None:
        async with self.world.store.reading() as reading:
            return await reading.card("ada", "session")


@pytest.fixture
def session(world: World, effects: list[Effect]) -> Session:
    return Session(world, effects)


class Slow:
    """Makes nothing until it is let."""

    def __init__(self, world: World) -> None:
        self._make = world.draughtsman.make
        self.may = asyncio.Event()
        world.draughtsman.make = self.make  # type: ignore[method-assign]

    async def make(self, media: Made, language: str) -> bytes:
        await self.may.wait()
        return await self._make(media, language)


# what becomes of a card


async def test_a_picture_goes_with_its_words_and_buttons_in_one_message(session: Session) -> None:
    await session.after(5, say("place", EYES, buttons=(READY,), silent=True))
    [sent] = session.world.platform.sent
    assert (sent.out.op, sent.out.text, sent.out.file) == (Op.FILE, "place", File(Medium.PHOTO, bytes_of(EYES)))
    assert ([label for label, _ in sent.out.rows], sent.out.silent) == (["b-ready"], True)


async def test_words_become_a_picture_its_caption_changes_and_another_picture_comes_all_in_one_message(
    session: Session,
) -> None:
    for effect in (say("how are you"), change("signs", EYES), change("place"), change("set-up", FACE), change("done")):
        await session.after(5, effect)
    assert session.seen() == [
        (Op.TEXT, "how are you", None),
        (Op.SWAP, "signs", File(Medium.PHOTO, bytes_of(EYES))),
        (Op.CAPTION, "place", None),
        (Op.SWAP, "set-up", File(Medium.PHOTO, bytes_of(FACE))),
        (Op.CAPTION, "done", None),
    ]
    assert {sent.out.message_id for sent in session.world.platform.sent[1:]} == {101}


async def test_the_same_picture_stays_and_only_its_words_change(session: Session) -> None:
    await session.after(5, say("heel-to-toe", EYES))
    await session.after(5, change("heel-to-toe, easier", EYES))
    assert session.ops() == [(Op.FILE, "heel-to-toe"), (Op.CAPTION, "heel-to-toe, easier")]
    known = await session.card()
    assert known is not None and known.form is Medium.PHOTO and known.media is not None


async def test_a_voice_note_changes_its_caption_and_a_picture_after_it_comes_new(session: Session) -> None:
    await session.after(5, say("listen", TONES, buttons=(READY,)))
    await session.after(5, change("how did it go"))
    await session.after(5, change("next", EYES))
    await session.after(5, change("listen again", TONES))
    assert session.ops() == [
        (Op.FILE, "listen"),
        (Op.CAPTION, "how did it go"),
        (Op.FILE, "next"),
        (Op.FILE, "listen again"),
    ]


async def test_a_voice_note_in_place_of_a_card_is_sent_new_and_the_old_buttons_go(session: Session) -> None:
    await session.after(5, say("set-up", buttons=(READY,)), change("listen", TONES, buttons=(READY,)))
    assert session.ops() == [(Op.TEXT, "set-up"), (Op.FILE, "listen"), (Op.CLEAR, "")]


async def test_a_picture_that_scrolled_away_is_sent_new_with_the_new_words(session: Session) -> None:
    await session.after(5, say("set-up", EYES))
    await session.world.runtime.handler.receive(Inbound("tg:1:11:555", 11, 11, InText("/more"), 555))
    await session.after(5, change("set-up again", EYES))
    assert session.ops() == [(Op.FILE, "set-up"), (Op.FILE, "set-up again")]


async def test_words_too_long_for_a_caption_go_without_the_picture(session: Session) -> None:
    long = Words("x" * 1025)
    await session.after(5, replace(say("", EYES), words=(long,)))
    await session.after(5, say("short", EYES))
    await session.after(5, replace(change(""), words=(long,)))
    assert session.ops() == [(Op.TEXT, long.key), (Op.FILE, "short"), (Op.TEXT, long.key)]


async def test_a_picture_beyond_plain_letters_counts_as_the_platform_counts(session: Session) -> None:
    await session.after(5, replace(say("", EYES), words=(Words("\U0001f600" * 513),)))
    await session.after(5, replace(say("", EYES), words=(Words("\U0001f600" * 512),)))
    assert [op for op, _ in session.ops()] == [Op.TEXT, Op.FILE]


# made once


async def test_what_is_equal_is_made_once_and_sent_again_by_its_id(session: Session) -> None:
    await session.after(5, say("one", EYES))
    await session.ask(Say("cem", (words("two"),), media=EYES), client="c2")
    await session.after(5, say("three", EYES))
    assert session.world.draughtsman.made == [EYES]
    assert session.files() == [bytes_of(EYES), "photo-1", "photo-1"]


async def test_what_is_made_ahead_is_there_when_it_is_needed(session: Session) -> None:
    await session.after(5, HaveMade("ada", (EYES, TONES)))
    assert session.world.draughtsman.made == [EYES, TONES]
    assert session.world.platform.sent == []
    session.world.draughtsman.failures = 100
    await session.after(5, say("set-up", EYES), say("listen", TONES))
    assert session.files() == [bytes_of(EYES), bytes_of(TONES)]


async def test_what_somebody_waits_for_is_made_first(session: Session) -> None:
    await session.after(5, HaveMade("ada", (EYES, TONES)), say("set-up", FACE))
    assert session.world.draughtsman.made == [FACE, EYES, TONES]


async def test_another_edition_is_made_anew(session: Session) -> None:
    await session.after(5, say("one", EYES))
    session.world.runtime.handler.edition = "2"
    await session.after(5, say("two", EYES))
    assert session.files() == [bytes_of(EYES), bytes_of(EYES)]


async def test_what_was_made_before_a_power_cut_is_not_made_again(session: Session, world: World) -> None:
    await session.after(5, HaveMade("ada", (EYES,)))
    await world.runtime.cut()
    after = World(world.store, world.limits)
    after.clock.set(at(60))
    await after.runtime.start()
    session.world = after
    await session.after(5, say("set-up", EYES))
    assert (after.draughtsman.made, session.files()) == ([], [bytes_of(EYES)])
    await after.runtime.stop()


async def test_what_was_wanted_at_a_power_cut_is_made_after_it(session: Session, world: World) -> None:
    slow = Slow(world)
    await session.ask(say("set-up", EYES))
    await world.runtime.cut()
    slow.may.set()
    after = World(world.store, world.limits)
    after.clock.set(at(3))
    await after.runtime.start()
    await after.clock.move(at(5))
    assert [sent.out.file for sent in after.platform.sent] == [File(Medium.PHOTO, bytes_of(EYES))]
    await after.runtime.stop()


# what is not there in time


async def test_a_picture_that_can_not_be_made_is_left_out_after_three_tries(session: Session) -> None:
    session.world.draughtsman.failures = 3
    await session.after(5, say("set-up", EYES))
    assert session.ops() == [(Op.TEXT, "set-up")]
    assert session.world.draughtsman.made == [EYES] * 3


async def test_a_picture_that_fails_twice_is_there_the_third_time(session: Session) -> None:
    session.world.draughtsman.failures = 2
    await session.after(5, say("set-up", EYES))
    assert session.ops() == [(Op.FILE, "set-up")]


async def test_words_never_stand_under_another_picture_than_theirs(session: Session) -> None:
    await session.after(5, say("feet together", EYES, buttons=(READY,)))
    session.world.draughtsman.failures = 3
    await session.after(5, change("one leg", FACE))
    assert session.ops() == [(Op.FILE, "feet together"), (Op.TEXT, "one leg"), (Op.CLEAR, "")]


async def test_words_whose_picture_can_not_be_made_change_a_card_of_words(session: Session) -> None:
    session.world.draughtsman.failures = 3
    await session.after(5, say("how are you"), change("signs", EYES))
    assert session.ops() == [(Op.TEXT, "how are you"), (Op.EDIT, "signs")]


async def lost(world: World) -> list[tuple[str, Why]]:
    """What the core was told is lost."""
    found = []
    for row_id in range(1, 20):
        async with world.store.reading() as reading:
            row = await reading.journal(f"sent:{row_id}")
        if row is not None and isinstance(row.event, Lost):
            found.append((row.event.tag, row.event.why))
    return found


async def test_a_voice_note_that_can_not_be_made_is_lost_and_what_comes_after_it_is_not(session: Session) -> None:
    session.world.draughtsman.failures = 3
    await session.after(5, say("listen", TONES, tag="s1:4"), say("after"))
    assert session.ops() == [(Op.TEXT, "after")]
    assert await lost(session.world) == [("s1:4", Why.UNDELIVERABLE)]


async def test_a_voice_note_whose_end_is_unknown_is_lost_if_somebody_waits_for_it(session: Session) -> None:
    session.world.platform.answers.append(Unknown())
    await session.after(60, say("listen", TONES, tag="s1:4"))
    assert [op for op, _ in session.ops()] == [Op.FILE]
    assert await lost(session.world) == [("s1:4", Why.UNKNOWN)]


async def waiting(session: Session, *effects: Effect, until: float) -> None:
    """Ask for these while nothing is made, and let time pass."""
    world = session.world
    await session.ask(*effects)
    world.clock.busy.add("making")
    await world.clock.move(at(until))


async def test_a_message_waits_for_its_picture_ten_seconds_and_then_goes_without(session: Session) -> None:
    slow = Slow(session.world)
    await waiting(session, say("set-up", EYES), until=9.9)
    assert session.ops() == []
    await session.world.clock.move(at(10.1))
    assert session.ops() == [(Op.TEXT, "set-up")]
    slow.may.set()


async def test_a_picture_that_is_there_in_time_goes_at_once(session: Session) -> None:
    slow = Slow(session.world)
    await waiting(session, say("set-up", EYES), until=4)
    slow.may.set()
    session.world.clock.busy.clear()
    await session.world.clock.move(at(5))
    [sent] = session.world.platform.sent
    assert (sent.out.op, sent.s) == (Op.FILE, 4)


async def test_a_held_message_holds_back_its_chat_and_class_and_nobody_else(session: Session) -> None:
    slow = Slow(session.world)
    alert = say("alert", urgency=Urgency.ALERT, card=None)
    behind = say("behind", card=None)
    await waiting(session, say("set-up", EYES), behind, alert, say("for ben", to="ben"), until=5)
    assert [text for _, text in session.ops()] == ["alert", "for ben"]
    await session.world.clock.move(at(15))
    assert [text for _, text in session.ops()] == ["alert", "for ben", "set-up", "behind"]
    slow.may.set()


async def test_a_voice_note_is_waited_for_until_it_would_come_too_late(session: Session) -> None:
    slow = Slow(session.world)
    await waiting(session, say("listen", TONES, tag="s1:4", not_after=at(60)), until=59)
    assert session.ops() == [] and await lost(session.world) == []
    await session.world.clock.move(at(61))
    assert session.ops() == []
    assert [tag for tag, _ in await lost(session.world)] == ["s1:4"]
    slow.may.set()


async def test_what_must_not_come_too_late_does_not_wait_so_long_for_its_picture(session: Session) -> None:
    slow = Slow(session.world)
    await waiting(session, say("go", EYES, not_after=at(3), tag="s1:4"), until=5)
    [sent] = session.world.platform.sent
    assert (sent.out.op, sent.s) == (Op.TEXT, 2)
    slow.may.set()


async def test_a_stop_takes_back_a_message_that_waits_for_its_picture(session: Session) -> None:
    slow = Slow(session.world)
    await waiting(session, say("set-up", EYES), until=3)
    await session.ask(TakeBack("session"))
    slow.may.set()
    session.world.clock.busy.clear()
    await session.world.clock.move(at(30))
    assert session.ops() == []
    assert (await session.world.row(1)).state is OutboxState.TAKEN_BACK


# what the platform does not take


async def test_a_file_that_the_platform_does_not_know_any_more_is_made_again_and_sent(session: Session) -> None:
    await session.after(5, say("one", EYES))

    def forgot(out: Outgoing) -> Outcome | None:
        return FileUnknown() if out.file is not None and out.file.content == "photo-1" else None

    session.world.platform.judge = forgot
    session.world.platform.uploads[b"something else"] = 2
    session.world.platform.uploads[bytes_of(EYES)] = 3
    await session.after(5, say("two", EYES))
    await session.after(5, say("three", EYES))
    assert session.files() == [bytes_of(EYES), "photo-1", bytes_of(EYES), "photo-3"]
    assert session.world.draughtsman.made == [EYES, EYES]


async def test_a_voice_note_that_the_platform_does_not_know_any_more_is_made_again(session: Session) -> None:
    await session.after(5, say("one", TONES))
    session.world.platform.answers.append(FileUnknown())
    await session.after(5, say("two", TONES, tag="s1:5"))
    assert session.files() == [bytes_of(TONES), "voice-1", bytes_of(TONES)]
    assert await lost(session.world) == []


@pytest.mark.parametrize("recorded", [CLIP, VOICE])
async def test_what_a_person_recorded_goes_by_its_id_and_if_that_is_unknown_the_words_go_alone(
    session: Session, recorded: Recorded
) -> None:
    await session.after(5, say("set-up", recorded))
    session.world.platform.answers.append(FileUnknown())
    await session.after(5, say("set-up", recorded))
    assert session.seen() == [
        (Op.FILE, "set-up", File(recorded.medium, recorded.file_id)),
        (Op.FILE, "set-up", File(recorded.medium, recorded.file_id)),
        (Op.TEXT, "set-up", None),
    ]


async def test_a_picture_that_the_platform_refuses_is_left_out(session: Session) -> None:
    session.world.platform.judge = lambda out: Undeliverable(NoWay.REFUSED) if out.file is not None else None
    await session.after(5, say("set-up", EYES, tag="s1:4"))
    assert session.ops() == [(Op.FILE, "set-up"), (Op.TEXT, "set-up")]
    assert await lost(session.world) == []


async def test_a_voice_note_that_the_platform_refuses_is_lost(session: Session) -> None:
    session.world.platform.answers.append(Undeliverable(NoWay.REFUSED))
    await session.after(5, say("listen", TONES, tag="s1:4"))
    assert [op for op, _ in session.ops()] == [Op.FILE]
    assert await lost(session.world) == [("s1:4", Why.UNDELIVERABLE)]


async def test_a_file_without_an_id_in_the_receipt_is_sent_by_its_bytes_again(session: Session) -> None:
    receipt = session.world.platform.receipt
    session.world.platform.judge = lambda out: replace(receipt(out), file_id="")
    await session.after(5, say("one", TONES))
    await session.after(5, say("two", TONES))
    assert session.files() == [bytes_of(TONES), bytes_of(TONES)]


async def test_the_bytes_go_once_the_platform_has_them(session: Session) -> None:
    await session.after(5, say("one", EYES))
    key = (await session.world.row(1)).media_key
    assert key is not None
    async with session.world.store.reading() as reading:
        row = await reading.media(key)
    assert row is not None and (row.state, row.data, row.file_id) == (MediaState.MADE, None, "photo-1")
