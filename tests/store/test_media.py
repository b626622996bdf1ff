"""Pictures and sounds that we make: asked for once, made in the order of need, kept by the platform's name for them."""

from datetime import timedelta

import pytest

from companion.core.media import Media, Medium, Recorded, SignsPicture, SoundCheck
from companion.store import MediaRow, MediaState, OutboxRow, Store
from tests.store.people import NOW, message, say

EYES, FACE, ARM = SignsPicture(("eyes",)), SignsPicture(("face",)), SignsPicture(("arm",))
TONES = SoundCheck((), 10, 3)
OWN = Recorded(Medium.VOICE, "AwAC")


async def want(store: Store, media: Media, language: str = "en", edition: str = "1", ahead: bool = False) -> tuple[str, bool]:
    async with store.writing() as tx:
        return await tx.want(media, language, edition, NOW, ahead=ahead)


async def file(store: Store, key: str) -> MediaRow | None:
    async with store.reading() as reading:
        return await reading.media(key)


async def next_wanted(store: Store) -> object:
    async with store.reading() as reading:
        found = await reading.next_wanted()
    return found.media if found is not None else None


async def made(store: Store, key: str, data: bytes | None) -> None:
    async with store.writing() as tx:
        await tx.set_made(key, data)


async def test_what_is_wanted_is_read_as_it_was_asked_for(home: Store) -> None:
    key, new = await want(home, TONES)
    assert new
    assert await file(home, key) == MediaRow(key, TONES, "en", MediaState.WANTED)
    assert await file(home, "another") is None


async def test_equal_media_are_one_file_and_are_made_once(home: Store) -> None:
    key, _ = await want(home, EYES)
    assert await want(home, SignsPicture(("eyes",))) == (key, False)
    await made(home, key, b"png")
    assert await want(home, EYES) == (key, False)
    assert await next_wanted(home) is None


@pytest.mark.parametrize("other", [{"language": "nb"}, {"edition": "2"}, {"media": FACE}])
async def test_another_language_edition_or_picture_is_another_file(home: Store, other: dict[str, str]) -> None:
    key, _ = await want(home, EYES)
    other_key, new = await want(home, **{"media": EYES, **other})  # type: ignore[arg-type]
    assert new and other_key != key


async def test_what_somebody_waits_for_is_made_before_what_is_made_ahead(home: Store) -> None:
    await want(home, EYES, ahead=True)
    face, _ = await want(home, FACE, ahead=True)
    arm, _ = await want(home, ARM)
    assert await next_wanted(home) == ARM
    await made(home, arm, b"png")
    assert await next_wanted(home) == EYES
    assert await want(home, FACE) == (face, True)
    assert await next_wanted(home) == FACE
    assert await want(home, FACE, ahead=True) == (face, False)
    assert await next_wanted(home) == FACE


async def test_its_bytes_are_kept_until_the_platform_has_a_name_for_it(home: Store) -> None:
    key, _ = await want(home, EYES)
    await made(home, key, b"png")
    assert await file(home, key) == MediaRow(key, EYES, "en", MediaState.MADE, b"png")
    async with home.writing() as tx:
        await tx.set_file_id(key, "AgAC")
    assert await file(home, key) == MediaRow(key, EYES, "en", MediaState.MADE, None, "AgAC")
    async with home.writing() as tx:
        await tx.want_again(key, NOW)
    assert await file(home, key) == MediaRow(key, EYES, "en", MediaState.WANTED)
    assert await next_wanted(home) == EYES


async def test_what_failed_is_tried_again_when_it_is_wanted_an_hour_later(home: Store) -> None:
    key, _ = await want(home, EYES)
    await made(home, key, None)
    assert await want(home, EYES) == (key, False)
    assert await next_wanted(home) is None
    async with home.writing() as tx:
        assert await tx.want(EYES, "en", "1", NOW + timedelta(hours=1)) == (key, True)
    assert await next_wanted(home) == EYES


async def test_what_a_person_recorded_is_there_already(home: Store) -> None:
    key, new = await want(home, OWN)
    assert not new and await file(home, key) is None
    assert await next_wanted(home) is None


async def awaited(store: Store, row: OutboxRow) -> bool:
    async with store.reading() as reading:
        return await reading.is_wanted(row)


async def test_a_message_waits_for_what_goes_with_it_only_while_that_is_to_be_made(home: Store) -> None:
    key, _ = await want(home, EYES)
    row = message(media=EYES, media_key=key)
    assert await awaited(home, row)
    assert not await awaited(home, message())
    assert not await awaited(home, message(media=OWN, media_key="any"))
    await made(home, key, b"png")
    assert not await awaited(home, row)
    async with home.writing() as tx:
        await tx.want_again(key, NOW)
    assert await awaited(home, row)
    await made(home, key, None)
    assert not await awaited(home, row)


async def test_a_picture_that_is_left_out_leaves_its_name(home: Store) -> None:
    [row] = await say(home, message(media=EYES, media_key="eyes"))
    async with home.writing() as tx:
        await tx.leave_out(row)
    async with home.reading() as reading:
        found = await reading.outbox(row)
    assert found is not None and (found.media, found.media_key, found.text) == (None, "eyes", "Hand down.")
