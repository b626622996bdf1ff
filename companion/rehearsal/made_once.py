"""Pictures and sounds of rehearsals: each is really made, but once for all rehearsals of a process."""

from pathlib import Path

from companion.core.media import Made
from companion.media.version import edition
from companion.reports.assessor import ChildAssessor
from companion.runtime.clock import Clock
from companion.store import Store

_FILES: dict[tuple[str, Made, str], bytes] = {}
"""By edition of the content, what it is, and language."""


class MadeOnce(ChildAssessor):
    """An assessor that remembers what other rehearsals had made."""

    def __init__(self, store: Store, content: Path, clock: Clock, speaks: bool = True) -> None:
        super().__init__(store, content, clock, speaks)
        self._edition = edition(content, speaks)

    async def make(self, media: Made, language: str) -> bytes:
        key = (self._edition, media, language)
        if key not in _FILES:
            _FILES[key] = await super().make(media, language)
        return _FILES[key]
