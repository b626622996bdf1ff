"""What a whole message to client or carer keeps: its lines together, and its answers beside each other.

One question, few lines, at most 3 answers, one a line, and no two answers that could be taken for one another. Each of its
texts keeps the rules of `plain_words` besides.
"""

import re
from collections.abc import Iterator, Sequence
from itertools import combinations

from companion.content.plain_words import HIGHEST_GRADE, sentences
from companion.content.reading_grade import grade_in, words_of

Line = tuple[str, str]
"""A line of a message, or an answer under it: the key of its text, and how it reads."""

MOST_LINES = 10
MOST_ANSWERS = 3
MOST_ON_A_SCALE = 5
ON_A_SCALE = (
    "b-quarter", "b-when-unknown",  # when a bout first broke
    "b-tones",  # the same, told by tones
    "b-heard",  # how many tones were heard
    "b-count", "b-foot-down",  # how many were done
    "b-sway-amount", "b-sway-direction",
    "b-pause-1", "b-pause-2", "b-pause-3", "b-pause-open",
    "b-broke",  # what broke a bout: no scale, but 1 glance and 1 tap where 2 questions would be 2
)  # fmt: skip
"""How the answers begin that may be up to 5, since they stand in an order."""
PICKED = "b-number"
"""The numbers to pick from are one answer: the one that the other phone shows."""
BESIDE = ("typed-", "fault", "style-", "menu-in-session", "shared-")
"""Lines that answer what somebody just did, before the question is said again."""
FOR_HELPER = "for-helper"
LISTED = ("keep-item", "sign-row", "usual-row", "plan-")
"""Items of a list, which is as long as what it lists."""
FEWEST_WORDS = 8
"""Of a message with fewer words in all, a grade says nothing."""

_NOT = re.compile(r"\b(?:not|no|never|nothing|none|do|did|does)\b")
_MARK = re.compile(r"[^\w\s]")


def broken_together(lines: Sequence[Line], answers: Sequence[Line], own_words: bool = False) -> Iterator[str]:
    """Each rule that a message breaks as a whole. `own_words`: somebody's own words stand in it, and have no grade."""
    text = "\n".join(said for _, said in lines)
    if text.count("?") > 1:
        yield "more than one question"
    for part in _parts(lines):
        own = [key for key, _ in part if not key.startswith((*BESIDE, *LISTED))]
        if len(own) > MOST_LINES:
            yield f"{len(own)} lines, over {MOST_LINES}"
    hard = grade_in(text, len(sentences(text)))
    if not own_words and len(words_of(text)) >= FEWEST_WORDS and hard > HIGHEST_GRADE:
        yield f"grade {hard:.1f}, over {HIGHEST_GRADE:.0f}"
    yield from _broken_by_answers(answers)


def _parts(lines: Sequence[Line]) -> Iterator[Sequence[Line]]:
    """A message on a shared phone is two, one below the other: the client's and the helper's."""
    at = next((at for at, (key, _) in enumerate(lines) if key == FOR_HELPER), len(lines))
    yield lines[:at]
    yield lines[at + 1 :]


def _broken_by_answers(answers: Sequence[Line]) -> Iterator[str]:
    choices = [(key, said) for key, said in answers if key != PICKED]
    scale = any(key.startswith(ON_A_SCALE) for key, _ in choices)
    most = MOST_ON_A_SCALE if scale else MOST_ANSWERS
    count = len(choices) + (len(choices) < len(answers))
    if count > most:
        yield f"{count} answers, over {most}"
    for (one, first), (other, second) in combinations(answers, 2):
        if "?" in first + second:
            yield "an answer that asks"
        if not (one.startswith(ON_A_SCALE) and other.startswith(ON_A_SCALE)) and PICKED not in (one, other):
            yield from (f"{first!r} and {second!r} {how}" for how in _alike(first, second))


def _alike(first: str, second: str) -> Iterator[str]:
    """How two answers could be taken for one another."""
    one, other = (_MARK.sub("", text.lower()).split() for text in (first, second))
    bare = [" ".join(_NOT.sub(" ", " ".join(words)).split()) for words in (one, other)]
    if bare[0] == bare[1]:
        yield "differ by a not alone"
    if one[: len(other)] == other or other[: len(one)] == one:
        yield "begin alike to the end of one of them"
    elif len(one) == len(other) and one[0] == other[0] and sum(a != b for a, b in zip(one, other, strict=True)) == 1:
        yield "differ by one word behind their first"
    if any(_look_alike(a, b) for a in set(one) - set(other) for b in set(other) - set(one)):
        yield "have words that look alike"


def _look_alike(one: str, other: str) -> bool:
    """Whether two words are of the same letters or one letter apart, as fell and feel. A plural is the same word."""
    if one.isdigit() or other.isdigit() or min(len(one), len(other)) < 4:
        return False
    if sorted(one) == sorted(other):
        return True
    if len(one) == len(other):
        return sum(a != b for a, b in zip(one, other, strict=True)) == 1
    short, long = sorted((one, other), key=len)
    if long == f"{short}s":
        return False
    return len(long) - len(short) == 1 and any(long[:at] + long[at + 1 :] == short for at in range(len(long)))
