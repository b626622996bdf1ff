"""How hard an English text reads: its Flesch-Kincaid grade, the school year in which it is read with ease.

    grade = 0.39 x words a sentence + 11.8 x syllables a word - 15.59

Counted as textstat counts, which judges this module in the tests: a sentence of 1 or 2 words is no sentence of its own,
which makes short commands read harder and never easier. Syllables are told from spelling, with the few words of everyday
English that break the rules; that needs no dictionary, so that whoever writes an exercise has the check with no further
package, and without the network.
"""

import re

FEWEST_WORDS = 5
"""Of fewer words a grade says nothing."""

_SENTENCE = re.compile(r"\b[^.!?]+")
_MARK = re.compile(r"[^\w\s'-]")
_VOWELS = re.compile(r"[aeiouy]+")
_SILENT = re.compile(
    r"(?<=[^aeiouy])e$(?<![^aeiouylr]le)"  # whole, but not little
    r"|(?<=[^aeiouycgsxz])(?<!ch)(?<!sh)(?<![^aeiouylr]l)es$"  # sides, but not pieces
    r"|(?<=[^aeiouytd])ed$"  # pressed, but not rested
    r"|(?<=[^aeiouy])e(?=ly$|ful$|less$|ment$|ness$|body$|thing$|times$|ways$|where$|line$|ty$)"  # safely, sideways
)
_APART = re.compile(
    r"(?<=[aeiouy])ing|(?<![ctsx])i(?:a|o(?!n))|(?<![aeiou])i(?:er|est|um)|(?<![qg])u[ao]l|eo(?!p)|eyo|iet|ient|rial|(?<=cre)a|sm$"
)
_BY_HEART = {
    "area": 3, "barefoot": 2, "business": 2, "every": 3, "everybody": 4, "everything": 3, "fire": 2, "hour": 2, "hours": 2,
    "idea": 3, "our": 2, "w": 3, "wednesday": 2,
}  # fmt: skip


def syllables(word: str) -> int:
    """The syllables of a word; each part of one with hyphens is counted, and a number in digits is one."""
    return sum(_of_part(part) for part in word.lower().split("-") if part)


def _of_part(part: str) -> int:
    if part in _BY_HEART:
        return _BY_HEART[part]
    heard = _SILENT.sub("", part)
    return max(1, len(_VOWELS.findall(heard)) + len(_APART.findall(heard)))


def words_of(text: str) -> list[str]:
    """The words of a text, without marks."""
    return _MARK.sub("", text).split()


def grade(text: str) -> float:
    """The Flesch-Kincaid grade of a text; below 0 for the easiest. 0 for a text without words."""
    return grade_in(text, sum(len(words_of(sentence)) > 2 for sentence in _SENTENCE.findall(text)))


def grade_in(text: str, sentences: int) -> float:
    """The grade of a text that is read as so many sentences."""
    words = words_of(text)
    if not words:
        return 0.0
    return 0.39 * len(words) / max(1, sentences) + 11.8 * sum(map(syllables, words)) / len(words) - 15.59
