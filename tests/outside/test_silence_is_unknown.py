"""Silence is unknown, never "no falls": people at higher risk of falling return fewer diaries (odds ratio 0.71, published)."""

from companion.core.observations import DayClosed, Ending
from companion.measures.due import NOT_COUNTED, UNKNOWN, State
from tests.outside.practice_at_home import TEXTS, after_a_hold, at_home


def test_a_reminder_that_nobody_answers_is_written_down_as_no_answer() -> None:
    home = at_home()
    home.wait(2 * 24 * 3600)
    assert {day.ending for day in home.all(DayClosed)} == {Ending.NO_ANSWER}


def test_a_day_without_answer_counts_as_due_and_as_unknown() -> None:
    assert State.NO_ANSWER in UNKNOWN and State.NO_ANSWER not in NOT_COUNTED


def test_the_therapist_reads_the_word_unknown() -> None:
    for ending in ("no-answer", "no-word"):
        assert "unknown" in TEXTS.readings(f"ending-{ending}", "en")[0]
    assert "unknown" in TEXTS.readings("no-word-therapist", "en")[0]


def test_a_standing_bout_without_a_word_is_never_counted_as_done() -> None:
    home = after_a_hold()
    home.wait(3600)
    assert home.ended[-1].ending is Ending.NO_WORD
    assert home.bouts[-1].quality == "unknown"
