"""Scales such as Berg are under copyright, and a supervised home entry is never their top score (Berg items 6, 7, 13).

So no text names a scale, gives a norm, or scores a hold: what is shown is what was practised. Apart stand the words of a
review, which a therapist measures: they may name a scale and a published value, never an item of a scale nor its wording.
"""

import re

from tests.outside.practice_at_home import TEXTS

SCALES = re.compile(r"\b(?:berg|sppb|tinetti|mini-?best|steadi|norms?|score[sd]?|percentile|average)\b", re.IGNORECASE)
ITEMS = re.compile(
    r"\bitems?\b(?! 14 by time\b)|\bsubscales?\b|\b(?:standing|sitting) (?:un)?supported\b|\breach(?:ing|es)? forward\b"
    r"|\bpick(?:s|ing)? up\b|\bretriev\w*|\bturn(?:s|ing)? (?:360|to look)\b|\b360\b|\bfoot on (?:a |the )?(?:step|stool)\b"
    r"|\balternat\w+\b|\btransfers?\b|\bindependently\b|\bsupervision\b|\bverbal cue\w*|\bsafely\b"
    r"|\bminimal(?:ly)? (?:aid|assist\w*)\b|\b[0-4] points?\b",
    re.IGNORECASE,
)
"""What items of balance scales are called, and the words by which their points are given. Own summary, from memory.

The number of the item from which the thresholds of the one-leg time come is its citation, and stands without its words."""
OF_A_REVIEW = frozenset({"review.ftl", "review_page.ftl"})


def _told(of_a_review: bool) -> list[tuple[str, str]]:
    """Every reading of the texts of a review, or of all others, with its key."""
    keys = [key for key, source in TEXTS.keys("en").items() if (source.path.name in OF_A_REVIEW) == of_a_review]
    return [(key, reading) for key in keys for reading in TEXTS.readings(key, "en")]


def test_no_text_but_those_of_a_review_names_a_scale_or_a_norm_or_a_score() -> None:
    assert [one for one in _told(of_a_review=False) if SCALES.search(one[1])] == []


def test_the_texts_of_a_review_hold_no_item_of_a_scale_and_none_of_its_wording() -> None:
    told = _told(of_a_review=True)
    assert len(told) > 50, "the texts of a review are not where they are looked for"
    assert [one for one in told if ITEMS.search(one[1])] == []
    assert ITEMS.search("Able to stand safely for 2 minutes") and ITEMS.search("4 points")


def test_of_the_berg_scale_there_is_a_total_and_nothing_else_but_published_thresholds() -> None:
    """Every text that names it is about the total, or a change of it, or a time against published thresholds."""
    named = [one for one in _told(of_a_review=True) if re.search("berg", one[1], re.IGNORECASE)]
    assert named
    assert [one for one in named if not re.search(r"\b(?:total|change|by time)\b", one[1], re.IGNORECASE)] == []
