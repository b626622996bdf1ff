"""Feet together, eyes closed, 30 s: all 184 adults aged 20 to 79 managed it (Bohannon 1984, Phys Ther 64:1067).

A time that everybody reaches can not tell people apart, so nothing of ours is measured against it: not at a review, and what
is practised at home has no norm at all.
"""

from dataclasses import fields

from companion.core.review_values import FourStage, ReviewValues
from companion.measures.review import FIVE_SIT_TO_STANDS, ONE_LEG_EYES_OPEN
from tests.outside.practice_at_home import TEXTS


def test_no_measure_of_a_review_is_taken_with_closed_eyes() -> None:
    assert {one.name for one in fields(ReviewValues)} == {
        "four_stage",
        "sit_to_stand_5",
        "one_leg_weaker",
        "one_leg_stronger",
        "berg",
        "goals",
        "decade",
    }
    assert not [key for key in TEXTS.keys("en") if key.startswith("review-page-") and "eyes-closed" in key]


def test_of_a_stance_with_the_feet_together_there_is_no_norm() -> None:
    assert len(FourStage) == 4
    assert {norms.source.partition(",")[0] for norms in (ONE_LEG_EYES_OPEN, FIVE_SIT_TO_STANDS)} == {"Bohannon 2006"}
