"""What the sender is allowed, worked out without a database."""

from datetime import timedelta
from itertools import pairwise
from random import Random

from hypothesis import given
from hypothesis import strategies as st

from companion.runtime.pace import Limits, Pace, back_off
from tests.runtime.hands import START, at

SLOT = timedelta(seconds=1.018) / 30


def test_slots_are_evenly_spaced_a_little_inside_the_rate() -> None:
    pace = Pace(Limits(per_second=30))
    now, starts = START, []
    for chat in range(60):
        now = max(now, pace.slot())
        starts.append(now)
        pace.took(chat, edit=False, now=now)
    assert {later - earlier for earlier, later in pairwise(starts)} == {SLOT}


delays = st.lists(st.one_of(st.floats(0, 0.03), st.floats(0, 1)), min_size=120, max_size=120)


@given(delays, delays, delays)
def test_no_second_counts_more_than_the_rate_however_late_starts_arrivals_and_answers_are(
    lags: list[float], ways: list[float], answers: list[float]
) -> None:
    pace = Pace(Limits(per_second=30))
    now, counted = START, []
    for chat, (lag, way, answer) in enumerate(zip(lags, ways, answers, strict=True)):
        now = max(now, pace.slot()) + timedelta(seconds=lag)
        pace.took(chat, edit=False, now=now)
        counted.append(now + timedelta(seconds=way))
        now = counted[-1] + timedelta(seconds=answer)
        pace.ended(now)
    for first in counted:
        assert sum(first <= one < first + timedelta(seconds=1) for one in counted) <= 30


def test_98_percent_of_the_rate_are_used_though_answers_take_up_to_22_ms() -> None:
    pace, chance = Pace(Limits(per_second=30)), Random(3)
    now, starts = START, []
    for chat in range(3000):
        now = max(now, pace.slot()) + timedelta(milliseconds=chance.uniform(0, 2))
        starts.append(now)
        pace.took(chat, edit=False, now=now)
        now += timedelta(milliseconds=2 + chance.uniform(0, 20))
        pace.ended(now)
    assert (len(starts) - 1) / (starts[-1] - starts[0]).total_seconds() >= 0.98 * 30


def test_slots_lost_by_a_delay_are_made_up_for_at_twice_the_pace() -> None:
    pace = Pace(Limits(per_second=30))
    now, starts = START, []
    for chat in range(300):
        now = max(now, pace.slot()) + timedelta(milliseconds=60 if chat == 10 else 0)
        starts.append(now)
        pace.took(chat, edit=False, now=now)
    assert min(later - earlier for earlier, later in pairwise(starts)) >= SLOT / 2
    assert (len(starts) - 1) / (starts[-1] - starts[0]).total_seconds() > 29.3


def test_an_idle_gap_is_not_made_up_for() -> None:
    pace = Pace(Limits(per_second=30))
    pace.took("ada", edit=False, now=START)
    pace.took("ben", edit=False, now=at(60))
    assert pace.slot() == at(60) + SLOT


def test_a_chat_gets_three_at_once_and_then_one_a_second() -> None:
    pace = Pace(Limits())
    for _ in range(3):
        assert pace.ready("ada", edit=False) <= START
        pace.took("ada", edit=False, now=START)
    assert pace.ready("ada", edit=False) == at(1)
    assert pace.ready("cem", edit=False) <= START
    pace.took("ada", edit=False, now=at(1))
    assert pace.ready("ada", edit=False) == at(2)


def test_a_rested_chat_gets_three_again_and_no_more() -> None:
    pace = Pace(Limits())
    for second in (0, 0, 0, 60, 60, 60):
        assert pace.ready("ada", edit=False) <= at(second)
        pace.took("ada", edit=False, now=at(second))
    assert pace.ready("ada", edit=False) == at(61)


def test_a_chat_gets_twenty_edits_in_any_minute() -> None:
    pace = Pace(Limits())
    for second in range(20):
        pace.took("ada", edit=True, now=at(2 * second))
    assert pace.ready("ada", edit=True) == at(60)
    assert pace.ready("ada", edit=False) <= at(39)
    pace.took("ada", edit=True, now=at(60))
    assert pace.ready("ada", edit=True) == at(62)


def test_some_edits_of_a_minute_can_be_left_unused() -> None:
    pace = Pace(Limits())
    for second in range(15):
        pace.took("ada", edit=True, now=at(2 * second))
    assert pace.ready("ada", edit=True, spare_edits=5) == at(60)
    assert pace.ready("ada", edit=True) <= at(29)


def test_a_refusal_pauses_its_chat_alone() -> None:
    pace = Pace(Limits())
    pace.refused("ada", 30, everywhere=False, now=START)
    assert pace.ready("ada", edit=False) == at(30)
    assert pace.ready("cem", edit=False) <= START
    assert pace.slot() <= START


def test_a_second_chat_refused_within_the_pause_of_the_first_pauses_all() -> None:
    pace = Pace(Limits())
    pace.refused("ada", 30, everywhere=False, now=START)
    pace.refused("cem", 20, everywhere=False, now=at(29))
    assert pace.slot() == at(49)


def test_a_second_refusal_of_the_same_chat_or_after_the_pause_pauses_nobody_else() -> None:
    pace = Pace(Limits())
    pace.refused("ada", 30, everywhere=False, now=START)
    pace.refused("ada", 30, everywhere=False, now=at(10))
    pace.refused("cem", 30, everywhere=False, now=at(41))
    assert pace.slot() <= START


def test_a_refusal_of_the_whole_bot_pauses_all() -> None:
    pace = Pace(Limits())
    pace.refused("ada", 7, everywhere=True, now=START)
    assert pace.slot() == at(7)


def test_a_lost_network_is_tried_again_ever_more_slowly_but_within_five_seconds() -> None:
    pace, waits = Pace(Limits()), []
    for _ in range(5):
        pace.unreachable(START)
        waits.append((pace.slot() - START).total_seconds())
    assert waits == [1, 2, 4, 5, 5]
    pace.reached()
    pace.unreachable(at(100))
    assert pace.slot() == at(101)


def test_back_off_doubles_up_to_its_most() -> None:
    assert [back_off(attempts).total_seconds() for attempts in (1, 2, 3, 4, 5, 1000)] == [1, 2, 4, 8, 8, 8]


def test_chats_at_rest_are_forgotten() -> None:
    pace = Pace(Limits())
    for chat in range(5000):
        pace.took(chat, edit=True, now=at(chat))
    assert pace.remembered() < 2100
    assert pace.ready(4999, edit=True) > at(4990)
