"""The files beside a transcript: each kept once, named so that it can be found, and told in words."""

from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import pytest

from companion.rehearsal import invented
from companion.rehearsal.kept import Kept
from companion.rehearsal.server import Entry
from tests.rehearsal.server.hands import picture

START = datetime(2026, 7, 6, 9, 0, tzinfo=UTC)
DAY = date(2026, 7, 6)
FEET = invented.picture("Heel to toe: the weaker foot in front, seen from above, and more words")


def entry(kind: Any, file: bytes | None, way: Any = "out") -> Entry:
    return Entry(START, 1, way, kind, "Words", file=file)


@pytest.fixture
def kept(tmp_path: Path) -> Kept:
    return Kept(tmp_path)


def names(kept: Kept) -> list[str]:
    return sorted(str(path.relative_to(kept.folder)) for path in kept.folder.rglob("*.*"))


def test_a_picture_is_kept_once_and_told_each_time(kept: Kept) -> None:
    told = [kept.told(entry(kind, FEET), DAY, is_link=False) for kind in ("photo", "edit", "photo")]
    assert told == ["picture: Heel to toe: the weaker foot in front, seen from above, and more words"] * 3
    assert names(kept) == ["pictures/01-heel-to-toe-the-weaker-foot.png"]
    assert (kept.folder / names(kept)[0]).read_bytes() == FEET


def test_pictures_and_sounds_are_numbered_in_the_order_in_which_they_came(kept: Kept) -> None:
    for kind, file in (("voice", invented.voice_note("3 tones", 4)), ("photo", FEET), ("photo", invented.picture("Place"))):
        kept.told(entry(kind, file), DAY, is_link=False)
    assert names(kept) == ["pictures/01-heel-to-toe-the-weaker-foot.png", "pictures/02-place.png", "sounds/01-3-tones.ogg"]
    assert [path.name for path in (*kept.pictures, *kept.sounds)] == [path.split("/")[1] for path in names(kept)]


def test_a_chart_has_the_name_of_its_day(kept: Kept) -> None:
    told = [kept.told(entry("photo", picture(40 + width)), DAY, is_link=False) for width in (1, 2)]
    assert told == ["chart-2026-07-06.png", "chart-2026-07-06-2.png"] == [path.name for path in kept.charts]


def test_a_start_link_and_what_a_person_sent_are_no_charts(kept: Kept) -> None:
    own = picture(9)
    assert kept.told(entry("photo", picture()), DAY, is_link=True) == "picture"
    assert kept.told(entry("photo", own, "in"), DAY, is_link=False) == "picture"
    assert kept.told(entry("photo", own), DAY, is_link=False) == "picture", "it was passed on"
    assert names(kept) == []


def test_what_a_person_sent_is_kept_when_it_is_shown_to_somebody(kept: Kept) -> None:
    cue = invented.voice_note("Long neck", 2)
    assert kept.told(entry("voice", cue, "in"), DAY, is_link=False) == "voice note 0:02: Long neck"
    assert names(kept) == []
    kept.told(entry("voice", cue), DAY, is_link=False)
    assert names(kept) == ["sounds/01-long-neck.ogg"]


def test_words_alone_leave_no_file(kept: Kept) -> None:
    assert kept.told(entry("text", None), DAY, is_link=False) is None


def test_nothing_of_an_earlier_rehearsal_stays(kept: Kept) -> None:
    kept.told(entry("photo", FEET), DAY, is_link=False)
    kept.told(entry("photo", picture()), DAY, is_link=False)
    Kept(kept.folder).clear()
    assert names(kept) == []
