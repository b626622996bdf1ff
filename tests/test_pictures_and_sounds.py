"""The whole, with pictures and sounds: really made by the child, sent to the platform, and kept by its names for them."""

from collections.abc import AsyncIterator
from dataclasses import replace
from pathlib import Path

import pytest

from companion.app import App
from companion.core import client as clients
from companion.core.effects import Button, Effect, HaveMade, Put, Say, Subject, words
from companion.core.events import Event, Lost, Press, Typed, Why
from companion.core.media import Medium, Recorded, SignsPicture, SoundCheck
from companion.core.programme import Rules
from companion.rehearsal.server import Fault
from companion.rehearsal.server.chats import PhoneMessage
from tests.playing import Play, playing

SIGNS, TONES = SignsPicture(("balance", "eyes")), SoundCheck((), 10, 3)
READY = (Button(words("b-ready"), Press("mara", "s1", "1", "ready")),)
HOLD = words("sound-starts")
THEN = words("sound-then")
PNG = b"\x89PNG"


def say(to: str, **more: object) -> Say:
    return replace(Say(to, (HOLD,), READY, card="session"), **more)  # type: ignore[arg-type]


ASKED: dict[str, tuple[Effect, ...]] = {
    "signs": (say("mara", media=SIGNS), say("tomas", media=SIGNS)),
    "again": (say("mara", media=SIGNS),),
    "ahead": (HaveMade("mara", (SIGNS, TONES)),),
    "tones": (say("mara", media=TONES, tag="s1:1"),),
    "words": (say("mara"),),
    "caption": (say("mara", put=Put.IN_PLACE, words=(THEN,)),),
    "swap": (say("mara", put=Put.IN_PLACE, media=SIGNS),),
    "clip": (say("mara", media=Recorded(Medium.VIDEO, "no-such-file")),),
}


@pytest.fixture
async def play(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> AsyncIterator[Play]:
    """Mara is a client, Tomas her carer."""
    step = clients.step

    def steps(client: clients.Client, event: Event, rules: Rules) -> clients.Decision:
        if isinstance(event, Typed) and event.text in ASKED:
            return clients.Decision(client, ASKED[event.text])
        return step(client, event, rules)

    monkeypatch.setattr(clients, "step", steps)
    async with playing(tmp_path / "companion.sqlite3") as play:
        for invitation in (await play.enrol()).invitations:
            if invitation.person.id in ("mara", "tomas"):
                async with play.running():
                    await play.follow(invitation)
        yield play


async def ask(play: Play, app: App, *names: str) -> None:
    """Mara's care asks for these, one after another."""
    for name in names:
        event = Typed(play.clock.now(), "mara", name)
        await app.runtime.handler.handle(Subject("client", "mara"), event, f"asked:{play.clock.seed()}")
        await play.pass_by(20)


def files(play: Play, name: str = "mara") -> list[PhoneMessage]:
    """The messages with a file on somebody's phone."""
    return [message for message in play.phone(name).messages if message.from_bot and message.media is not None]


def file_ids(play: Play, *names: str) -> list[str]:
    return [message.media.file_id for name in names for message in files(play, name) if message.media is not None]


def asked(play: Play) -> list[tuple[str, int]]:
    """What the platform was asked to do with files, and how it answered."""
    return [(call.method, call.code) for call in play.server.calls if call.method.startswith(("sendp", "sendv", "editmessage"))]


async def test_one_upload_serves_every_phone_and_is_sent_again_by_its_id(play: Play) -> None:
    async with play.running() as app:
        await ask(play, app, "signs", "again")
    uploads = set(file_ids(play, "mara", "tomas"))
    assert (len(uploads), len(files(play)), len(files(play, "tomas"))) == (1, 2, 1)
    assert all(message.photo is not None and message.photo.startswith(PNG) for message in files(play))


async def test_what_was_made_ahead_outlives_a_power_cut_and_is_sent_by_its_bytes(play: Play) -> None:
    async with play.running() as app:
        await ask(play, app, "ahead")
        await app.cut()
    assert asked(play) == []
    async with play.running() as app:
        never_made(app)
        await ask(play, app, "signs", "tones")
    kinds = [message.kind for message in files(play)]
    assert kinds == ["photo", "voice"]


def never_made(app: App) -> None:
    """Nothing can be made any more."""

    async def make(*_: object) -> bytes:
        raise AssertionError("it was made again")

    app._assessor.make = make  # type: ignore[method-assign,assignment]


async def test_a_picture_that_can_not_be_made_leaves_the_words(play: Play) -> None:
    async with play.running() as app:
        never_made(app)
        await ask(play, app, "signs")
    message = play.phone("mara").messages[-1]
    assert (message.kind, message.labels) == ("text", (("Ready",),))


async def test_a_voice_note_that_can_not_be_made_is_told_as_lost(play: Play) -> None:
    async with play.running() as app:
        never_made(app)
        before = len(play.phone("mara").messages)
        await ask(play, app, "tones")
        assert len(play.phone("mara").messages) == before
        assert await lost(app) == [("s1:1", Why.UNDELIVERABLE)]


async def lost(app: App) -> list[tuple[str, Why]]:
    found = []
    async with app.store.reading() as reading:
        for number in range(1, 60):
            row = await reading.journal(f"sent:{number}")
            if row is not None and isinstance(row.event, Lost):
                found.append((row.event.tag, row.event.why))
    return found


async def test_a_voice_note_that_may_have_been_taken_is_told_as_lost_and_not_sent_twice(play: Play) -> None:
    async with play.running() as app:
        play.server.faults.order(Fault(kind="accepted_then_lost", method="sendVoice"))
        await ask(play, app, "tones")
        assert await lost(app) == [("s1:1", Why.UNKNOWN)]
    assert [message.kind for message in files(play)] == ["voice"]


async def test_words_become_a_picture_in_the_same_message_and_its_words_change(play: Play) -> None:
    async with play.running() as app:
        await ask(play, app, "words", "swap", "caption", "swap")
    assert asked(play) == [("editmessagemedia", 200), ("editmessagecaption", 200), ("editmessagecaption", 200)]
    [message] = files(play)
    assert (message.kind, message.labels) == ("photo", (("Ready",),))


async def test_a_file_that_the_platform_forgot_is_made_and_sent_again(play: Play) -> None:
    async with play.running() as app:
        await ask(play, app, "signs")
        play.server.forget_file_ids()
        await ask(play, app, "again", "again")
    first, healed, again = file_ids(play, "mara")
    assert first != healed == again
    assert [code for method, code in asked(play) if method == "sendphoto"] == [200, 200, 400, 200, 200]


async def test_what_a_person_sent_and_the_platform_forgot_is_left_out(play: Play) -> None:
    async with play.running() as app:
        await ask(play, app, "clip")
    assert [call for call in asked(play) if call[0] == "sendvideo"] == [("sendvideo", 400)]
    assert play.phone("mara").messages[-1].labels == (("Ready",),)
