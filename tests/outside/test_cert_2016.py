"""Consensus on Exercise Reporting Template (Slade 2016): 16 items on 19 lines, since 7, 14 and 16 are split in two."""

import re

from companion.content.folders import content_dir
from companion.content.texts import Texts
from companion.reports.cert import LINES, NOT_STATED, lines
from tests.reports.test_record import EXERCISES, PLAN

TEXTS = Texts(content_dir() / "texts")


def test_there_are_16_items_on_19_lines_and_three_of_them_are_split() -> None:
    items = [re.sub(r"\D", "", line) for line in LINES]
    assert len(LINES) == 19 and list(dict.fromkeys(items)) == [str(number) for number in range(1, 17)]
    assert {item for item in items if items.count(item) == 2} == {"7", "14", "16"}


def test_each_line_is_filled_or_says_not_stated() -> None:
    filled = lines(PLAN, (), (), EXERCISES)
    assert [line for line, _, _ in filled] == list(LINES)
    for _, asks, said in filled:
        assert TEXTS.text(asks, "en") and TEXTS.text(said, "en")
    # without records: who teaches, motivation, how it was progressed, other parts, the level to begin with, how far it went
    assert [line for line, _, said in filled if said == NOT_STATED] == ["2", "6", "7b", "10", "15", "16b"]
