"""The caption: the week in words and numbers, within the platform's limit."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from companion.core.observations import Answer, CarerSeen, Ending, FallKind, FallReported, OwnWords, Reporter
from companion.reports.caption import LIMIT, caption, length
from companion.reports.week import Week
from tests.reports.samples import SAMPLES, wording
from tests.reports.weeks import at, bout, case, closed, confident, day, ended, fell, said, session, week


def told(shown: Week) -> list[str]:
    return caption(shown, wording(shown)).split("\n")


@pytest.mark.parametrize("name", list(SAMPLES))
def test_a_caption_keeps_the_platforms_limit_and_the_order_of_the_chart(name: str) -> None:
    shown = SAMPLES[name]()
    lines = told(shown)
    assert length("\n".join(lines)) <= LIMIT
    sessions = next(place for place, line in enumerate(lines) if line.startswith("Reported done or partly:"))
    flags = next(at for at, line in enumerate(lines) if line.startswith(("No ", "Paused", "Falls", "OPEN")) and at > 1)
    assert lines[0].startswith(shown.name)
    assert lines[1].startswith(("Waiting for you: ", "To check: ", "No decision waits for you.")) and 1 < flags < sessions


def test_the_usual_week_in_words_and_numbers() -> None:
    assert told(SAMPLES["usual"]()) == [
        "Odda Fennimore. Week 48: Mon 23 Nov to Sun 29 Nov 2026.",
        "To check: 1 of 6 days due are unknown; 0 of 4 clean: one leg weaker, up on your toes weaker.",
        "No red flag. No fall reported on the days with an answer.",
        "Days with no answer: 1 of 6 due (Tue 24). Practice and falls then: unknown.",
        "Reported done or partly: 5 of 6 days due, unknown 1 (done 4, partly 1, unknown 1, paused 1).",
        "More than 70 % of the sessions due (SS-MAHE 2019).",
        "Clean of tried as reported (last week); quarter of first break, median/earliest:",
        "Feet together, 60 s: 5 of 5 (5 of 5).",
        "Heel-to-toe, foot in front, 60 s: weaker 1 of 4 (0 of 5), 3rd/2nd; stronger 4 of 5 (0 of 5), not reached/last.",
        "One leg, 60 s: weaker 0 of 4 (0 of 5), 2nd/1st; stronger 2 of 4 (0 of 5), last/3rd.",
        "Up on your toes (one leg, on the toes), count of 3: weaker 0 of 4 (0 of 5), count 2/2; stronger 4 of 4 (5 of 5).",
        "Hand as set up: fingertips 8, hovering 22 (of 30 bouts).",
        "Steps reported 10, hand touches 0.",
        "Made easier, reported: 0 of 30 bouts.",
        "The chart has more.",
    ]


def test_a_flag_tells_what_was_reported_by_whom_and_what_became_of_it() -> None:
    lines = told(SAMPLES["red_flag"]())
    facts = "Fall, head hit: not sure, on a blood thinner (baseline). Reported by the carer."
    assert lines[1] == "Waiting for you: lift the stop, or keep it. Open since Thu 26 Nov 10:14."
    unwell = facts.replace("Fall, ", "Fall, felt unwell, ")
    assert lines[2] == "Falls reported: 2 (Mon 23, Thu 26)."
    assert lines[3] == f"OPEN: emergency flag, Thu 26 Nov 10:14. {unwell} Acknowledged 10:20."
    assert lines[4] == f"Lifted: emergency flag, Mon 23 Nov 10:14. {facts} Lifted Tue 24 Nov 15:02."


def test_what_the_carer_tells_is_told_beside_what_the_client_told() -> None:
    on = day(0)
    saw = Answer(at(on), bout(on).session, None, "carer_saw", "step_or_touch", Reporter.CARER)
    near = FallReported(at(on), "n7", FallKind.NEAR_FALL, "bram")
    lines = told(week(bout(on), replace(ended(on), carer=CarerSeen.NOT_VERIFIED), saw, near))
    differ = "Reports differ: in 1 session the carer saw a step or touch and the client reported none. Both are on record."
    assert differ in lines
    assert lines[1].startswith("To check: 6 of 7 days due are unknown; near-fall reported (Mon 23); client and carer differ")
    assert lines[2:4] == [
        "No red flag. No fall reported on the days with an answer.",
        "Near-falls reported, not hurt, no red flag: 1 (Mon 23 Nov).",
    ]
    assert "Carer present: said on a shared phone, not verified 1 (of 1 sessions)." in lines


def test_an_alert_nobody_acknowledged_says_so() -> None:
    assert "Not acknowledged." in "".join(told(week(fell(day(2), seen=False))))


def test_a_bout_nobody_answered_is_unknown_beside_those_tried() -> None:
    line = next(line for line in told(SAMPLES["first"]()) if line.startswith("Heel-to-toe"))
    assert line == ("Heel-to-toe, foot in front, 60 s: weaker 0 of 1, 1st/1st, 1 unknown; stronger 0 of 2, 2nd/2nd.")


def test_nothing_due_is_not_a_share_of_zero() -> None:
    assert "Reported done or partly: none counted as due (paused 7)." in told(SAMPLES["paused"]())


def test_a_day_the_companion_was_away_is_unknown_and_not_blamed_on_anybody() -> None:
    lines = told(week(closed(day(1), Ending.NOT_ASKED), session(day(0)), *[ended(day(n)) for n in range(2, 7)]))
    assert "Not asked, the companion was away: Tue 24. Practice and falls then: unknown." in lines
    assert "Days with no answer: 0 of 7 due." in lines


def test_a_day_of_which_nothing_is_on_record_is_not_said_to_be_without_an_answer() -> None:
    lines = told(week(session(day(-1)), *[ended(day(n)) for n in range(5)], closed(day(5))))
    assert "Days with no answer: 1 of 7 due (Sat 28). Practice and falls then: unknown." in lines
    assert "Days with no record: 1 of 7 due (Sun 29). Practice and falls then: unknown." in lines


def test_confidence_is_a_line_only_where_it_was_answered() -> None:
    for answer, words in (("sure", "sure"), ("a_little_sure", "a little sure"), ("not_sure", "not sure")):
        assert f"Confidence reported: {words}." in told(week(confident(day(0), answer)))
    assert not any("Confidence" in line for line in told(week(session(day(0)))))


def test_own_words_go_first_where_there_is_no_room_and_the_open_flag_never_does() -> None:
    words = [said(day(number), "word " * 150) for number in range(7)]
    lines = told(week(session(day(0)), words, fell(day(1)), of=case("Ulf Tarn")))
    assert not any("word word" in line for line in lines)
    assert any(line.startswith("OPEN") for line in lines)
    assert lines[-1] == "The chart has more."


def test_own_words_are_there_where_there_is_room() -> None:
    assert 'Client, Mon 23 Nov: "Slept badly."' in told(week(said(day(0), " Slept\n badly. ")))


def test_a_voice_note_stands_there_as_one_and_not_as_empty_words() -> None:
    lines = told(week(OwnWords(at(day(0), 10, 32), Reporter.CLIENT, "", "voice")))
    assert "Client, Mon 23 Nov: a voice note, passed on as it was sent" in lines


@given(name=st.text(min_size=1, max_size=1200), words=st.text(max_size=1500))
def test_no_name_and_no_words_break_the_limit(name: str, words: str) -> None:
    assert length("\n".join(told(week(said(day(0), words), fell(day(1)), of=case(name))))) <= LIMIT
