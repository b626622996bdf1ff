"""What clients and carers read in any scenario: short sentences, one at a time, nothing to tap while standing."""

import re
from datetime import datetime, timedelta
from itertools import pairwise

import pytest

from tests.scenarios.playing import ALL, Line, Rehearsals

MOST_WORDS = 10
SENTENCE_END = re.compile(r"[.!?][\"”]?(?=\s|$)|\n")
HOME = ("client", "carer")
LENGTH = re.compile(r"voice note (\d+):(\d\d)")
FOOT = re.compile(r"\b(weaker|stronger) (foot|leg)\b", re.IGNORECASE)
STANDING = re.compile(r"^(Get into place\.|Go\.|\d+ seconds left\.)")


def sentences(text: str) -> list[str]:
    return [sentence for part in SENTENCE_END.split(text) if (sentence := part.strip())]


@pytest.mark.parametrize("name", ALL)
def test_no_sentence_to_client_or_carer_has_more_than_10_words(name: str, rehearsals: Rehearsals) -> None:
    lines = [line for line in rehearsals.lines(name) if line.way == "out" and line.phone in HOME]
    said = {part for line in lines for text in (line.text, *line.buttons) for part in sentences(text)}
    assert len(said) > 30
    long = {
        sentence for sentence in said if len([word for word in sentence.split() if any(map(str.isalnum, word))]) > MOST_WORDS
    }
    assert long == set()


@pytest.mark.parametrize("name", ALL)
def test_the_client_has_nothing_to_tap_while_a_clock_runs(name: str, rehearsals: Rehearsals) -> None:
    running = [line for line in rehearsals.lines(name) if line.phone == "client" and STANDING.match(line.text)]
    assert [line for line in running if line.way == "out" and line.buttons] == []


@pytest.mark.parametrize("name", ALL)
def test_while_a_clock_runs_a_new_message_is_the_end_cue_a_stop_or_an_answer_to_what_was_typed(
    name: str, rehearsals: Rehearsals
) -> None:
    client = [line for line in rehearsals.lines(name) if line.phone == "client"]
    for before, line in pairwise(client):
        if STANDING.match(before.text) and before.way == "out" and line.new:
            first = line.text.partition("\n")[0]
            assert first in ("Time.", "Your helper had to leave.", "Sorry. The clock stopped. I do not know your time."), line


def notes(lines: list[Line]) -> list[tuple[Line, list[Line]]]:
    """Each voice note with its answers under it on the client's phone, and what came while it played, up to an answer."""
    client = [line for line in lines if line.phone == "client"]
    found = []
    for place, note in enumerate(client):
        length = LENGTH.match(note.file or "")
        if note.kind != "voice" or note.way == "in" or not note.buttons or length is None:
            continue
        ends = datetime.fromisoformat(note.at) + timedelta(minutes=int(length[1]), seconds=int(length[2]))
        during = []
        for line in client[place + 1 :]:
            if line.way == "in" or datetime.fromisoformat(line.at) > ends:
                break
            during.append(line)
        found.append((note, during))
    return found


@pytest.mark.parametrize("name", ALL)
def test_while_a_voice_note_plays_the_phone_makes_no_sound_and_asks_nothing(name: str, rehearsals: Rehearsals) -> None:
    assert [line for _, during in notes(rehearsals.lines(name)) for line in during if line.new or line.buttons] == []


def test_sessions_with_sound_are_among_them(rehearsals: Rehearsals) -> None:
    told = [note.file or "" for note, _ in notes(rehearsals.lines("sound_session"))]
    assert len(told) == 9
    assert sum("to count" in one for one in told) == 1 and sum("a long falling tone" in one for one in told) == 8


@pytest.mark.parametrize("name", ALL)
def test_each_set_up_has_a_picture_of_the_same_foot_as_in_its_words(name: str, rehearsals: Rehearsals) -> None:
    set_ups = [line for line in rehearsals.lines(name) if line.way == "out" and "Make it easier" in line.buttons]
    for line in set_ups:
        assert line.file is not None and line.file.startswith("picture: "), line
        said, drawn = FOOT.search(line.text), FOOT.search(line.file)
        assert said is None or (drawn is not None and said[0].lower() == drawn[0].lower()), line
