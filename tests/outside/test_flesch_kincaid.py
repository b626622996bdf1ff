"""Flesch-Kincaid grade: .39 words a sentence + 11.8 syllables a word - 15.59. Target: grade 6 or lower.

Worked example: 10 words in 1 sentence with 13 syllables give 3.65.
"""

import pytest
import textstat

from companion.content.plain_words import FOR_THE_THERAPIST, sentences, words_in
from tests.outside.practice_at_home import TEXTS

TARGET = 6


def grade(words: int, sentences: int, syllables: int) -> float:
    return 0.39 * words / sentences + 11.8 * syllables / words - 15.59


def test_the_worked_example_is_what_the_formula_gives() -> None:
    assert grade(10, 1, 13) == pytest.approx(3.65, abs=0.005)


def test_the_library_that_judges_our_texts_agrees_with_the_worked_example() -> None:
    text = "Your helper waits near you on the weaker side today."
    assert (len(words_in(text)), textstat.syllable_count(text)) == (10, 13)
    assert textstat.flesch_kincaid_grade(text) == pytest.approx(3.65, abs=0.005)


def test_all_that_client_and_carer_read_taken_together_is_far_below_the_target() -> None:
    told = [
        TEXTS.readings(key, "en")[0]
        for key, source in TEXTS.keys("en").items()
        if source.path.name not in FOR_THE_THERAPIST and TEXTS.readings(key, "en")[0].endswith(".")
    ]
    every = [sentence for text in told for sentence in sentences(text)]
    words = sum(len(words_in(sentence)) for sentence in every)
    assert len(every) > 200
    assert grade(words, len(every), sum(textstat.syllable_count(sentence) for sentence in every)) < TARGET - 2
