"""Who may use which control: everybody those of their own row, and no others."""

from itertools import count

import pytest

from companion.core.events import Control, Controlled, Event, Typed
from companion.core.person import ROWS, Part
from companion.runtime.routing import CONTROLS
from companion.runtime.transport import Inbound, InText
from tests.runtime.hands import World

ADA, BEN, TESS = 11, 12, 90
numbers = count(1)


async def said(world: World, user: int, text: str) -> Event:
    """The event that a typed line made."""
    number = next(numbers)
    key = f"tg:{number}:{user}:{number}"
    await world.runtime.handler.receive(Inbound(key, user, user, InText(text), 1000 + number))
    async with world.store.reading() as reading:
        row = await reading.journal(key)
    assert row is not None
    return row.event


@pytest.mark.parametrize(("user", "text", "control"), [(ADA, "/more", Control.MORE), (BEN, "/more", Control.MORE)])
async def test_at_home_the_controls_of_the_home_row_work(world: World, user: int, text: str, control: Control) -> None:
    event = await said(world, user, text)
    assert isinstance(event, Controlled) and event.control is control


@pytest.mark.parametrize(
    ("text", "control"),
    [("/clients", Control.CASELOAD), ("/new", Control.NEW_CLIENT), ("/settings", Control.SETTINGS)],
)
async def test_the_therapist_s_row_works_for_the_therapist_only(world: World, text: str, control: Control) -> None:
    event = await said(world, TESS, text)
    assert isinstance(event, Controlled) and event.control is control
    for user in (ADA, BEN):
        assert isinstance(await said(world, user, text), Typed)


async def test_the_controls_at_home_are_just_words_from_a_therapist(world: World) -> None:
    assert isinstance(await said(world, TESS, "Something is wrong"), Typed)
    assert isinstance(await said(world, TESS, "/more"), Typed)


def test_every_part_has_the_controls_of_its_row_and_no_control_belongs_to_both_sides() -> None:
    labels = {part: {row.removeprefix("row-").replace("-", "_") for row in rows} for part, rows in ROWS.items()}
    assert all(labels[part] <= set(CONTROLS[part]) for part in Part)
    assert not CONTROLS[Part.THERAPIST] & (CONTROLS[Part.CLIENT] | CONTROLS[Part.CARER])
