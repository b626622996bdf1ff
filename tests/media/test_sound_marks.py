"""The clock that is heard: decoded, its tones begin when they should and can be told apart by ear."""

from itertools import pairwise

import pytest

from companion.media.sound import ogg
from companion.media.sound.making import make
from tests.media.listening import HOLDS, INTO_PLACE, TEXTS, check, clock, clock_of

EXACT_S = 0.020


@pytest.mark.parametrize("into_place_s", INTO_PLACE)
@pytest.mark.parametrize("seconds", HOLDS)
def test_decoded_every_mark_begins_within_20_ms_of_its_time(seconds: int, into_place_s: int) -> None:
    begins = [tones[0].begin for tones in clock(seconds, into_place_s).marks]
    wanted = [into_place_s + seconds * quarter / 4 for quarter in range(5)]
    assert begins == pytest.approx(wanted, abs=EXACT_S)


@pytest.mark.parametrize("seconds", HOLDS)
def test_the_marks_are_told_in_the_header_as_they_are_heard(seconds: int) -> None:
    note = clock(seconds)
    told = [float(mark) for mark in ogg.comments(note.data)["MARKS"].split()]
    assert [tones[0].begin for tones in note.marks] == pytest.approx(told, abs=EXACT_S)


@pytest.mark.parametrize("seconds", HOLDS)
def test_the_quarters_are_1_2_and_3_short_tones_each_higher_than_the_last(seconds: int) -> None:
    start, *quarters, end = clock(seconds).marks
    assert [len(tones) for tones in quarters] == [1, 2, 3]
    assert len(start) == len(end) == 1
    pitches = [tones[0].pitch for tones in (start, *quarters)]
    steps = [higher / lower for lower, higher in pairwise(pitches)]
    assert min(steps) > 1.15, "each is a whole tone higher or more"


def test_start_quarters_and_end_differ_in_length() -> None:
    start, first, second, third, end = (tones[0].end - tones[0].begin for tones in clock(60).marks)
    assert max(first, second, third) < start / 3
    assert end > 1.5 * start


def test_the_end_is_the_only_tone_that_changes_its_pitch_and_it_falls() -> None:
    *before, end = clock(60).tones
    assert end.half(second=False).pitch > 1.3 * end.half(second=True).pitch
    assert all(tone.half(second=False).pitch == pytest.approx(tone.half(second=True).pitch, abs=8) for tone in before)


def test_nothing_sounds_while_the_client_gets_into_place() -> None:
    assert clock(60, 30).tones[0].begin == pytest.approx(30, abs=EXACT_S)


def test_in_the_shortest_hold_no_tone_runs_into_the_next() -> None:
    tones = clock(5).tones
    assert len(tones) == 8
    assert all(after.begin - before.end > 0.05 for before, after in pairwise(tones))


@pytest.mark.parametrize("seconds", [1, 2, 3, 4])
def test_a_hold_too_short_for_quarters_has_a_start_and_an_end(seconds: int) -> None:
    marks = [float(mark) for mark in ogg.comments(clock(seconds).data)["MARKS"].split()]
    assert marks == [20, 20 + seconds]
    assert clock(seconds).tones[0].begin == pytest.approx(20, abs=EXACT_S)
    assert clock(seconds).tones[-1].end == pytest.approx(20 + seconds + 1.8, abs=EXACT_S)


@pytest.mark.parametrize("tones", [2, 3, 4])
def test_a_check_has_as_many_tones_as_it_says_slow_enough_to_count(tones: int) -> None:
    heard = check(tones).tones
    assert len(heard) == tones
    assert heard[0].begin == pytest.approx(10, abs=EXACT_S)
    assert all(after.begin - before.begin >= 0.9 for before, after in pairwise(heard))


def test_who_hears_the_check_hears_the_clock() -> None:
    first_quarter = clock(60).marks[1][0]
    for tone in check(3).tones:
        assert tone.pitch == pytest.approx(first_quarter.pitch, abs=8)
        assert tone.level == pytest.approx(first_quarter.level, abs=0.5)
        assert tone.end - tone.begin == pytest.approx(first_quarter.end - first_quarter.begin, abs=EXACT_S)


def test_the_same_sound_is_the_same_bytes() -> None:
    media = clock_of(10)
    assert make(media, "en", TEXTS, speaks=False) == make(media, "en", TEXTS, speaks=False)
