"""The files that phones showed and played, kept beside the transcript: charts by their day, others by their order.

Each is kept once, however often it was sent. Start links are kept nowhere.
"""

import re
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from companion.rehearsal.seen_and_heard import File, look_at
from companion.rehearsal.server import Entry

FOLDERS = {"picture": ("pictures", ".png"), "voice note": ("sounds", ".ogg"), "document": ("documents", ".pdf")}
WORDS = re.compile(r"[a-z0-9]+")
MOST_WORDS = 6


@dataclass(slots=True)
class Kept:
    """What is kept in `folder`, in the order in which it came."""

    folder: Path
    charts: list[Path] = field(default_factory=list)
    pictures: list[Path] = field(default_factory=list)
    sounds: list[Path] = field(default_factory=list)
    documents: list[Path] = field(default_factory=list)
    _names: dict[bytes, str] = field(default_factory=dict)
    _sent_by_people: set[bytes] = field(default_factory=set)

    def clear(self) -> None:
        """Nothing of an earlier rehearsal stays."""
        for pattern in ("chart-*.png", *(f"{name}/*{suffix}" for name, suffix in FOLDERS.values())):
            for path in self.folder.glob(pattern):
                path.unlink()

    def told(self, entry: Entry, day: date, is_link: bool) -> str | None:
        """What stands in a transcript for the file that came with `entry`, which is kept if it is new; None: no file came."""
        content = entry.file
        if content is None:
            return None
        if entry.way == "in":
            self._sent_by_people.add(content)
        file = look_at(content)
        if file.description:
            if entry.way == "out" and file.kind in FOLDERS and content not in self._names:
                self._names[content] = self._file(content, file)
            return file.told
        is_chart = entry.kind == "photo" and entry.way == "out" and not is_link and content not in self._sent_by_people
        return self._chart(content, day) if is_chart else file.told

    def _file(self, content: bytes, file: File) -> str:
        name, suffix = FOLDERS[file.kind]
        kept = {"picture": self.pictures, "voice note": self.sounds, "document": self.documents}[file.kind]
        words = "-".join(WORDS.findall(file.description.lower())[:MOST_WORDS])
        path = self.folder / name / f"{len(kept) + 1:02d}-{words}{suffix}"
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(content)
        kept.append(path)
        return path.name

    def _chart(self, content: bytes, day: date) -> str:
        same = sum(chart.name.startswith(f"chart-{day}") for chart in self.charts)
        path = self.folder / (f"chart-{day}.png" if not same else f"chart-{day}-{same + 1}.png")
        path.write_bytes(content)
        self.charts.append(path)
        return path.name
