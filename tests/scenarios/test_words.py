"""What clients and carers read in any scenario: short sentences, one at a time, nothing to tap while standing."""

import re
from itertools import pairwise

import pytest

from tests.scenarios.playing import ALL, Rehearsals

MOST_WORDS = 10
SENTENCE_END = re.compile(r"[.!?][\"”]?(?=\s|$)|\n")
HOME = ("client", "carer")
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
