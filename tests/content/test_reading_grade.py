"""The reading grade is textstat's: judged word by word and text by text on everything that is said."""

import re

import pytest
import textstat

from companion.content.folders import content_dir
from companion.content.plain_words import FOR_THE_THERAPIST
from companion.content.reading_grade import grade, syllables, words_of
from companion.content.texts import Texts

TEXTS = Texts(content_dir() / "texts")


def readings(plain: bool) -> set[str]:
    """Every way that every text can read, of those for client and carer, or of the therapist's."""
    keys = [key for key, source in TEXTS.keys("en").items() if (source.path.name not in FOR_THE_THERAPIST) == plain]
    return {reading for key in keys for reading in TEXTS.readings(key, "en")}


def words(texts: set[str]) -> set[str]:
    """The words of those texts, and the parts of those with hyphens, each of which textstat takes for one unknown word."""
    parts = {part for text in texts for word in words_of(text) for part in word.lower().split("-")}
    return {part for part in parts if re.fullmatch("[a-z']{2,}", part)}


def test_every_word_for_client_and_carer_has_the_syllables_that_textstat_hears() -> None:
    known = words(readings(plain=True))
    assert len(known) > 450
    assert {word: syllables(word) for word in known if syllables(word) != textstat.syllable_count(word)} == {}


def test_of_words_that_it_was_not_made_for_it_hears_nearly_all_as_textstat_does() -> None:
    others = words(readings(plain=False)) - words(readings(plain=True))
    wrong = [word for word in others if syllables(word) != textstat.syllable_count(word)]
    assert len(others) > 300 and len(wrong) <= len(others) * 0.03, wrong


def test_every_text_for_client_and_carer_has_the_grade_that_textstat_gives() -> None:
    judged = [text for text in readings(plain=True) if "-" not in text and words_of(text)]
    assert len(judged) > 600
    assert [(text, grade(text)) for text in judged if abs(grade(text) - textstat.flesch_kincaid_grade(text)) > 0.01] == []


@pytest.mark.parametrize(
    ("word", "count"),
    [("step", 1), ("little", 2), ("pieces", 2), ("rested", 2), ("pressed", 1), ("sideways", 2), ("half-way", 2), ("60", 1)],
)
def test_the_syllables_of_a_word_are_told_from_its_spelling(word: str, count: int) -> None:
    assert syllables(word) == count


def test_a_text_without_words_has_no_grade() -> None:
    assert grade("") == grade("...") == 0
