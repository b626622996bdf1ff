"""Scales such as Berg are under copyright, and a supervised home entry is never their top score (Berg items 6, 7, 13).

So no text names a scale, gives a norm, or scores a hold: what is shown is what was practised.
"""

import re

from tests.outside.practice_at_home import TEXTS

SCALES = re.compile(r"\b(?:berg|sppb|tinetti|mini-?best|steadi|norms?|score[sd]?|percentile|average)\b", re.IGNORECASE)


def test_no_text_names_a_scale_or_a_norm_or_a_score() -> None:
    told = [(key, reading) for key in TEXTS.keys("en") for reading in TEXTS.readings(key, "en") if SCALES.search(reading)]
    assert told == []
