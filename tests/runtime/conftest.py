"""A running world on a real SQLite file, its clock moved by hand."""

from collections.abc import AsyncIterator
from pathlib import Path

import pytest

from tests.runtime.hands import World


@pytest.fixture
async def world(tmp_path: Path) -> AsyncIterator[World]:
    made = await World.make(tmp_path)
    await made.people()
    await made.runtime.start()
    await made.clock.quiet()
    yield made
    await made.close()
