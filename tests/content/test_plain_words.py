"""Every text of client and carer keeps the rules of plain words, and the rules notice what breaks them."""

from collections.abc import Iterator

import pytest
import textstat

from companion.content.folders import content_dir
from companion.content.plain_words import (
    FOR_THE_THERAPIST,
    HIGHEST_GRADE,
    LONG_WORDS,
    broken_rules,
    is_button,
    sentences,
    words_in,
)
from companion.content.reading_grade import FEWEST_WORDS
from companion.content.texts import Texts

TEXTS = Texts(content_dir() / "texts")
PLAIN = [key for key, source in TEXTS.keys("en").items() if source.path.name not in FOR_THE_THERAPIST]


def readings() -> Iterator[tuple[str, str]]:
    """Every way that every text for client and carer can read, with its key."""
    for key in PLAIN:
        for reading in TEXTS.readings(key, "en"):
            yield key, reading


def test_every_text_for_client_and_carer_is_in_plain_words() -> None:
    broken = [f"{key}: {what}" for key, reading in readings() for what, _ in broken_rules(reading, is_button(key))]
    assert broken == []


def test_every_text_for_client_and_carer_reads_at_grade_6_or_lower() -> None:
    # Flesch-Kincaid grade, as textstat works it out
    long_enough = [reading for _, reading in readings() if len(words_in(reading)) >= FEWEST_WORDS]
    assert len(long_enough) > 100
    assert [text for text in long_enough if textstat.flesch_kincaid_grade(text) > HIGHEST_GRADE] == []


def test_no_word_for_client_and_carer_has_more_than_3_syllables_but_two() -> None:
    words = {word.strip('.,:?!"()').lower() for _, reading in readings() for word in words_in(reading)}
    parts = {part for word in words - LONG_WORDS for part in word.split("-")}
    assert {part for part in parts if textstat.syllable_count(part) > 3} == set()


def test_no_two_questions_of_the_safety_check_share_their_first_sentence() -> None:
    signs = [key for key in PLAIN if key.startswith("sign-") and "." not in key and key != "sign-row"]
    asked = [sentences(reading)[0] for key in signs for reading in TEXTS.readings(key, "en")]
    assert len(signs) == 9 and len(set(asked)) == len(asked) == 18


def test_every_sign_is_asked_in_words_that_its_two_buttons_answer() -> None:
    # "How is ...?" is answered by "Same as usual" and by "Different, or not sure"; "Is ...?" would want yes or no
    for key in PLAIN:
        if key.startswith("sign-") and "." not in key and key != "sign-row":
            for reading in TEXTS.readings(key, "en"):
                assert reading.startswith("How "), reading


@pytest.mark.parametrize(
    ("text", "broken"),
    [
        ("A b c d e f g h i j.", ""),
        ("A b c d e f. A b c d e f g h.", ""),
        ("A b c d e f g h i j k.", "a sentence of 11 words"),
        ("A b c d e f\ng h i j k l.", ""),
        ("Do not lean - it is 1 of 2.", ""),
        ("You can't fall.", "a short form"),
        ("It’s time.", "a short form"),
        ("That is Mara's chair.", ""),
        ("Lift the left foot.", "left or right alone"),
        ("Lift the left foot, your weaker one.", ""),
        ("Ask for additional help.", "a word of 4 syllables"),
        ("Somebody else may consider another suitable moment.", "grade"),
        ("Step to the right.", "left or right alone"),
        ("You have 5 seconds left.", ""),
        ("Your helper had to leave.", ""),
        ("Are you up? Are you safe?", "more than one question"),
        ("Clap three times.", "a number in letters"),
    ],
)
def test_the_rules_notice_what_breaks_them(text: str, broken: str) -> None:
    found = [what for what, _ in broken_rules(text, button=False)]
    assert [broken in what for what in found] == [True] * bool(broken)


@pytest.mark.parametrize("label", ["Yes", "no", "OK", "No.", "A label that goes on and on and on and on"])
def test_a_button_that_says_too_little_or_too_much_is_noticed(label: str) -> None:
    assert list(broken_rules(label, button=True))


def test_a_line_end_ends_a_sentence_and_a_decimal_point_does_not() -> None:
    assert sentences('Time.\nHand down. Say: "Sit." Now 1.5 m.') == ["Time.", "Hand down.", 'Say: "Sit."', "Now 1.5 m."]
