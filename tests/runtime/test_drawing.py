"""Charts that were asked for."""

from datetime import date

from companion.core.effects import Report
from companion.core.events import Press
from companion.core.media import Medium
from companion.runtime.transport import File, Op
from companion.store import DigestRow
from tests.runtime.hands import World, at

FIRST, LAST = date(2026, 2, 23), date(2026, 3, 1)


async def ask(world: World, *clients: str) -> None:
    async with world.store.writing() as tx:
        for client in clients:
            await tx.request_report(client, Report("tess", FIRST, LAST))
    world.runtime.wake()


async def test_a_chart_is_drawn_once_and_sent_as_a_picture_with_its_words(world: World) -> None:
    await ask(world, "c1")
    await world.clock.move(at(1000))
    assert world.draughtsman.drawn == [("c1", FIRST, LAST)]
    [sent] = world.platform.sent
    assert (sent.out.op, sent.out.chat_id, sent.out.file) == (Op.FILE, 90, File(Medium.PHOTO, b"png"))
    assert sent.out.text == "week of 2026-02-23"


async def test_charts_are_drawn_in_the_order_in_which_they_were_asked_for(world: World) -> None:
    await ask(world, "c2", "c1")
    await world.clock.quiet()
    assert [client for client, _, _ in world.draughtsman.drawn] == ["c2", "c1"]


async def test_a_chart_that_can_not_be_drawn_is_tried_again_after_a_minute(world: World) -> None:
    world.draughtsman.failures = 2
    await ask(world, "c1")
    await world.clock.move(at(119))
    assert world.platform.sent == []
    await world.clock.move(at(121))
    assert [sent.out.op for sent in world.platform.sent] == [Op.FILE]


async def test_after_three_failures_it_is_said_and_the_next_chart_is_drawn(world: World) -> None:
    world.draughtsman.failures = 3
    await ask(world, "c1", "c2")
    await world.clock.move(at(121))
    assert world.platform.texts() == ["report-failed[first=2026-02-23 last=2026-03-01]", "week of 2026-02-23"]


async def ask_digest(world: World, text: str) -> None:
    async with world.store.writing() as tx:
        await tx.request_digest(
            DigestRow("tess", FIRST, LAST, text, (("The others", Press("@tess", "desk", "charts", "others")),))
        )
    world.runtime.wake()


async def test_a_digest_is_one_picture_with_its_words_and_buttons_and_goes_before_the_charts(world: World) -> None:
    await ask(world, "c1")
    await ask_digest(world, "2 clients")
    await world.clock.move(at(1000))
    assert [who for who, _, _ in world.draughtsman.drawn] == ["tess", "c1"]
    digest = world.platform.sent[0].out
    assert (digest.op, digest.file, digest.text) == (Op.FILE, File(Medium.PHOTO, b"png"), "2 clients")
    assert [label for label, _ in digest.rows] == ["The others"]


async def test_words_too_long_for_a_caption_follow_the_picture(world: World) -> None:
    await ask_digest(world, "x" * 1025)
    await world.clock.move(at(1000))
    picture, message = (sent.out for sent in world.platform.sent)
    assert (picture.op, picture.text, picture.rows) == (Op.FILE, "", ())
    assert (message.op, message.text, len(message.rows)) == (Op.TEXT, "x" * 1025, 1)


async def test_a_digest_that_can_not_be_drawn_is_said_in_words(world: World) -> None:
    world.draughtsman.failures = 3
    await ask_digest(world, "2 clients")
    await world.clock.move(at(121))
    assert [(sent.out.op, sent.out.text) for sent in world.platform.sent] == [(Op.TEXT, "2 clients")]
