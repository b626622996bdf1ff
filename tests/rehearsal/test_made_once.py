"""What one rehearsal had made, the next one shows at once; another edition of the content is another file."""

from pathlib import Path
from typing import Any

import pytest

from companion.core.media import Made, SoundCheck
from companion.rehearsal.clock import RehearsalClock
from companion.rehearsal.made_once import MadeOnce
from companion.reports.assessor import ChildAssessor
from companion.store import Store
from tests.rehearsal.server.hands import START

CHECK = SoundCheck((), 10, 3)


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> list[Made]:
    """What was really made."""
    done: list[Made] = []

    async def make(self: ChildAssessor, media: Made, language: str) -> bytes:
        done.append(media)
        return f"file {len(done)}".encode()

    monkeypatch.setattr(ChildAssessor, "make", make)
    return done


async def assessor(store: Any, content: Path) -> MadeOnce:
    return MadeOnce(store, content, RehearsalClock(START, "any"), speaks=False)


async def test_a_file_is_made_once_for_all_rehearsals_of_its_content(tmp_path: Path, made: list[Made]) -> None:
    store = await Store.open(tmp_path / "companion.db")
    (tmp_path / "exercises").mkdir()
    first, second = [await assessor(store, tmp_path) for _ in range(2)]
    assert await first.make(CHECK, "en") == await second.make(CHECK, "en") == b"file 1"
    assert await second.make(CHECK, "de") == b"file 2"
    (tmp_path / "exercises" / "one.yaml").write_text("another edition")
    assert await (await assessor(store, tmp_path)).make(CHECK, "en") == b"file 3"
    await store.close()
