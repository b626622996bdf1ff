"""How the companion speaks to client and carer, as rules that a text keeps or breaks.

Short sentences, one question a message, digits, no short forms, left and right never alone, and no button that says
only yes or no. The therapist's texts (`FOR_THE_THERAPIST`) are dense and exact and keep only the limits of the platform.
"""

import re
from collections.abc import Iterator

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
    }
)
WORDS_IN_A_SENTENCE = 10
LETTERS_ON_A_BUTTON = 40
LETTERS_IN_A_MESSAGE = 4096  # the platform's limit

_END = re.compile(r"(?:(?<=[.!?])|(?<=[.!?][\"”)]))\s+|\n")
_SHORT_FORM = re.compile(r"\b\w+['’](?:t|re|ll|ve|m|d)\b|\b(?:it|that|he|she|what|there|let)['’]s\b", re.IGNORECASE)
_SIDE = re.compile(r"\b(?:left|right) (?:foot|leg|hand|arm|side|knee)\b|\b(?:to|on) the (?:left|right)\b", re.IGNORECASE)
_NUMBER = re.compile(r"\b(?:two|three|four|five|six|seven|eight|nine|ten|twelve|fifteen|twenty|thirty|sixty)\b", re.IGNORECASE)
_PLACE = re.compile(r"\bright behind\b", re.IGNORECASE)


def sentences(text: str) -> list[str]:
    """The sentences of a text; a line end ends a sentence too."""
    return [part for part in (piece.strip() for piece in _END.split(text)) if part]


def words_in(sentence: str) -> list[str]:
    """The words of a sentence: what stands between spaces and has a letter or a digit."""
    return [word for word in sentence.split() if re.search(r"\w", word)]


def broken_rules(text: str, button: bool) -> Iterator[tuple[str, str]]:
    """Each rule that a text for client or carer breaks, as what is wrong and what to do."""
    for sentence in sentences(text):
        count = len(words_in(sentence))
        if count > WORDS_IN_A_SENTENCE:
            yield f"a sentence of {count} words: {sentence!r}", f"Write {WORDS_IN_A_SENTENCE} or fewer; make two of it"
    if text.count("?") > 1:
        yield "more than one question in a text", "Ask one thing at a time"
    for pattern, what, do in (
        (_SHORT_FORM, "a short form", "Write it out"),
        (_SIDE, "left or right alone", "Say weaker or stronger"),
        (_NUMBER, "a number in letters", "Write digits"),
    ):
        for found in pattern.findall(_PLACE.sub("", text)):
            yield f"{what}: {found!r}", do
    if button and text.strip(" .!").lower() in {"yes", "no", "ok"}:
        yield f"the button {text!r} does not say what it means", "Let it say what is so"
    if button and len(text) > LETTERS_ON_A_BUTTON:
        yield f"a button of {len(text)} letters", f"Write {LETTERS_ON_A_BUTTON} or fewer"
