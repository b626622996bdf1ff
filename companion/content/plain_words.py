"""How the companion speaks to client and carer, as rules that a text keeps or breaks.

Short sentences of grade 6 or lower, one question a message, digits, no short forms, left and right never alone, and no
button that says only yes or no. The therapist's texts (`FOR_THE_THERAPIST`) are dense and exact and keep only the limits
of the platform. What whole messages keep, of several texts and with their answers, is in `plain_messages`.
"""

import re
from collections.abc import Iterator

from companion.content.reading_grade import FEWEST_WORDS, grade, syllables, words_of

FOR_THE_THERAPIST = frozenset(
    {
        "therapist.ftl",
        "handing_over.ftl",
        "report.ftl",
        "digest.ftl",
        "questions.ftl",
        "baseline.ftl",
        "caseload.ftl",
        "progression.ftl",
        "prescribing.ftl",
        "recording.ftl",
        "exercise_page.ftl",
        "early_notice.ftl",
        "record.ftl",
        "review.ftl",
        "review_page.ftl",
    }
)
WORDS_IN_A_SENTENCE = 10
HIGHEST_GRADE = 6.0
SYLLABLES_IN_A_WORD = 3
LONG_WORDS = frozenset({"emergency", "exercises"})
"""The only longer words that client and carer meet."""
LETTERS_ON_A_BUTTON = 40
LETTERS_IN_A_MESSAGE = 4096  # the platform's limit

_END = re.compile(r"(?:(?<=[.!?])|(?<=[.!?][\"”)]))\s+|\n")
_SHORT_FORM = re.compile(r"\b\w+['’](?:t|re|ll|ve|m|d)\b|\b(?:it|that|he|she|what|there|let)['’]s\b", re.IGNORECASE)
_SIDE = re.compile(r"\b(?:left|right) (?:foot|leg|hand|arm|side|knee)\b|\b(?:to|on) the (?:left|right)\b", re.IGNORECASE)
_WHOSE_SIDE = re.compile(r"\b(?:weaker|stronger)\b", re.IGNORECASE)
_NUMBER = re.compile(r"\b(?:two|three|four|five|six|seven|eight|nine|ten|twelve|fifteen|twenty|thirty|sixty)\b", re.IGNORECASE)
_PLACE = re.compile(r"\bright behind\b", re.IGNORECASE)


def sentences(text: str) -> list[str]:
    """The sentences of a text; a line end ends a sentence too."""
    return [part for part in (piece.strip() for piece in _END.split(text)) if part]


def words_in(sentence: str) -> list[str]:
    """The words of a sentence: what stands between spaces and has a letter or a digit."""
    return [word for word in sentence.split() if re.search(r"\w", word)]


def is_button(key: str) -> bool:
    """Whether the text of that key stands on a button."""
    return key.startswith(("b-", "row-"))


def broken_rules(text: str, button: bool, english: bool = True) -> Iterator[tuple[str, str]]:
    """Each rule that a text for client or carer breaks, as what is wrong and what to do. Grades are those of English."""
    for sentence in sentences(text):
        count = len(words_in(sentence))
        if count > WORDS_IN_A_SENTENCE:
            yield f"a sentence of {count} words: {sentence!r}", f"Write {WORDS_IN_A_SENTENCE} or fewer; make two of it"
        for found in _SIDE.findall(_PLACE.sub("", sentence)):
            if not _WHOSE_SIDE.search(sentence):
                yield f"left or right alone: {found!r}", "Say weaker or stronger"
    if text.count("?") > 1:
        yield "more than one question in a text", "Ask one thing at a time"
    for pattern, what, do in (
        (_SHORT_FORM, "a short form", "Write it out"),
        (_NUMBER, "a number in letters", "Write digits"),
    ):
        for found in pattern.findall(text):
            yield f"{what}: {found!r}", do
    if english:
        yield from _hard_to_read(text)
    if button:
        yield from _broken_by_a_button(text)


def _hard_to_read(text: str) -> Iterator[tuple[str, str]]:
    words = words_of(text)
    if len(words) >= FEWEST_WORDS and grade(text) > HIGHEST_GRADE:
        yield f"grade {grade(text):.1f}, over {HIGHEST_GRADE:.0f}", "Write shorter words, or shorter sentences"
    for word in {part for one in words for part in one.lower().split("-")} - LONG_WORDS:
        if syllables(word) > SYLLABLES_IN_A_WORD:
            yield f"a word of {syllables(word)} syllables: {word!r}", "Write a shorter word"


def _broken_by_a_button(text: str) -> Iterator[tuple[str, str]]:
    if text.strip(" .!").lower() in {"yes", "no", "ok"}:
        yield f"the button {text!r} does not say what it means", "Let it say what is so"
    if len(text) > LETTERS_ON_A_BUTTON:
        yield f"a button of {len(text)} letters", f"Write {LETTERS_ON_A_BUTTON} or fewer"
