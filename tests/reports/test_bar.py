"""The bar at the top says what waits, or what to check; silence is never said to be nothing."""

from dataclasses import replace
from datetime import date

import pytest
from matplotlib.colors import to_hex
from matplotlib.patches import Polygon, Rectangle

from companion.core.observations import CarerSeen, Ending, FallKind, FallReported, FlagRaised, Proposed
from companion.core.programme import Direction, Level, Stance
from companion.reports import page
from companion.reports.bar import Call, lines
from companion.reports.caption import caption
from companion.reports.week import Week
from tests.outside.test_wcag_22 import contrast, luminance
from tests.reports.samples import wording
from tests.reports.test_figure import Chart, bold
from tests.reports.twelve_weeks import TWELVE
from tests.reports.weeks import SUNDAY_EVENING, at, bout, case, closed, day, ended, fell, plan, session, unanswered, week

ALL_DONE = [session(day(number)) for number in range(7)]


def told(shown: Week) -> list[str]:
    return [f"{line.text} {line.more}".rstrip() for line in lines(shown, wording(shown))]


def step(way: Direction, step: str, version: int = 1) -> Week:
    usual = plan("heel_to_toe")
    planned = replace(usual.exercises[0], form="touching", hardest="touching")
    up = Proposed(at(day(5), 11), "p1", "heel_to_toe", way, step, version, (day(5),))
    return week(*ALL_DONE, up, of=case(plan_=replace(usual, exercises=(planned,))))


def test_two_open_stops_are_both_named_with_whether_anybody_saw_them() -> None:
    urgent = FlagRaised(at(day(6), 9), "u2", "urgent", Level.URGENT, ("sign.balance",), "bram")
    shown = week(*ALL_DONE[:4], fell(day(4), "f1"), urgent)
    assert told(shown)[0] == (
        "Waiting for you: lift or keep each of 2 stops. Open since Fri 27 Nov 10:14; Sun 29 Nov 09:00, not acknowledged."
    )


@pytest.mark.parametrize("ending", [Ending.NO_ANSWER, Ending.NOT_ASKED, Ending.NO_WORD, None])
def test_a_week_of_silence_is_never_said_to_be_nothing(ending: Ending | None) -> None:
    silent = [ended(day(number), Ending.NO_WORD, 0) for number in range(7)]
    shown = week(silent if ending is Ending.NO_WORD else [closed(day(number), ending) for number in range(7) if ending])
    first = told(shown)[0] if ending else told(week(session(day(-7))))[0]
    assert first.startswith("To check: 7 of 7 days due are unknown")
    said = caption(shown, wording(shown))
    assert "No decision waits" not in said and "No fall reported" not in said and "No red flag on record." in said


def test_what_is_to_be_checked_stands_on_one_line_below_what_waits() -> None:
    near = FallReported(at(day(1)), "n1", FallKind.NEAR_FALL, "bram")
    shown = week(*ALL_DONE[:2], fell(day(2)), near, [closed(day(number), Ending.HELD) for number in range(3, 7)])
    assert [line.call for line in lines(shown, wording(shown))] == [Call.STOP, Call.UNKNOWN]
    assert told(shown)[1] == "To check: 1 of 3 days due are unknown; near-fall reported (Tue 24)."


def test_practice_without_the_carer_and_a_bout_without_an_answer_are_to_be_checked() -> None:
    alone = replace(ended(day(0)), carer=CarerSeen.ABSENT)
    (hold, *rest) = session(day(0))[:-1]
    shown = week(unanswered(hold), rest, alone, *ALL_DONE[1:])  # type: ignore[arg-type]
    assert told(shown) == ["To check: 1 bout without an answer; practised with the carer absent (Mon 23)."]


def test_sessions_of_which_nobody_told_on_a_day_of_several_are_to_be_checked() -> None:
    shown = TWELVE["07_one_side_weaker"]()
    assert lines(shown, wording(shown))[0].call is Call.UNKNOWN
    assert told(shown)[0].startswith("To check: 2 sessions due are unknown (Mon 23, Thu 26); ")


def test_a_week_in_which_nothing_was_done_is_to_be_checked_even_if_every_day_was_declined() -> None:
    assert told(week([closed(day(number), Ending.DECLINED) for number in range(7)])) == ["To check: none done of 7 due."]


def never_clean(tries: dict[Stance, int]) -> list[str]:
    return told(week(*ALL_DONE, [bout(day(at), one, quarter=2) for one, count in tries.items() for at in range(count)]))


def test_a_stance_tried_often_and_never_clean_is_to_be_checked_by_side_and_one_clean_bout_is_enough_not_to_be() -> None:
    assert never_clean({Stance.FEET_APART: 2}) == ["No decision waits for you."]
    assert never_clean({Stance.FEET_APART: 3}) == ["To check: 0 of 3 clean: feet apart weaker."]
    assert never_clean({Stance.HEEL_TO_TOE: 3}) == ["No decision waits for you."]  # it was clean on other days


def test_of_many_stances_never_clean_those_tried_most_are_named_and_the_rest_are_counted() -> None:
    of_3 = (Stance.FEET_APART, Stance.SEATED, Stance.HALF_STEP, Stance.ONE_LEG_TOES)
    of_4 = (Stance.FEET_TOGETHER, Stance.TWO_LEG_TOES, Stance.WALKING)
    (line,) = never_clean(dict.fromkeys(of_3, 3) | dict.fromkeys(of_4, 4))
    assert line.startswith("To check: 0 of 4 clean: ") and line.endswith("; 2 more with 0 clean.")
    assert line.count(" weaker") == 5 and line.index("walking") < line.index("0 of 3 clean")


def test_what_was_never_clean_comes_after_what_else_is_to_be_checked() -> None:
    shown = week(*[session(day(n), None, None, 1) for n in range(6)], closed(day(6)))
    assert told(shown) == ["To check: 1 of 7 days due are unknown; 0 of 6 clean: heel-to-toe weaker."]


def test_a_day_that_is_not_over_is_said_beside_nothing() -> None:
    assert told(week(*ALL_DONE[:6], as_of=SUNDAY_EVENING)) == ["No decision waits for you. Not over yet: Sun 29."]


def test_a_step_back_says_what_it_would_be() -> None:
    assert told(step(Direction.BACK, "")) == [
        "Waiting for you: Heel to toe, a step back, proposed Sat 28 Nov 11:00. Easier, both sides. "
        "Now: heel touches toes, hand hovers, 60 s. Then: heel touches toes, fingertips on, 60 s."
    ]


def test_what_a_step_would_change_is_not_guessed_where_the_plan_or_the_rule_is_another_by_now() -> None:
    waits = "Waiting for you: Heel to toe, a step up, proposed Sat 28 Nov 11:00."
    assert told(step(Direction.UP, "less_hand"))[0].startswith(f"{waits} Less hand support, both sides. Now: ")
    assert told(step(Direction.UP, "less_hand", version=2)) == [waits]
    assert told(step(Direction.UP, "longer_hold")) == [waits]


def test_only_what_asks_for_something_is_bold_and_each_call_has_a_sign_of_its_own() -> None:
    asking = {"01_perfect": "decide", "04_red_flag": "stop", "05_paused": "check", "08_all_clean": "nothing"}
    for name, call in (*asking.items(), ("02_empty", "unknown")):
        chart = Chart(TWELVE[name]())
        assert bool(chart.marks(f"call:{call}")) is (call != "nothing")
        assert bool(chart.texts("call:unknown")) is (call == "unknown"), "a question mark where something is unknown"
        assert bool(chart.marks("call-edge")) is (call == "decide")
        assert bold(chart.written("bar")[0]) is (call != "nothing")
        assert not any(bold(text) for text in chart.written("silence") + chart.written("no-flag") + chart.written("number:"))


def test_the_bar_of_a_stop_is_a_dark_band_with_the_triangle_of_a_flag_and_looks_like_no_step_up_even_in_grey() -> None:
    stop, step_up = Chart(TWELVE["04_red_flag"]()), Chart(TWELVE["01_perfect"]())
    (band,), (pale,) = stop.marks("call-ground:stop"), step_up.marks("call-ground:decide")
    grey = [luminance(to_hex(ground.get_facecolor())) for ground in (band, pale)]
    assert grey[0] < 0.1 < 0.8 < grey[1]
    words = {text.get_color() for text in stop.written("bar")}
    assert words == {page.PAPER} and contrast(page.PAPER, to_hex(band.get_facecolor())) >= 7
    assert isinstance(stop.marks("call:stop")[0], Polygon) and isinstance(step_up.marks("call:decide")[0], Rectangle)
    assert not stop.texts("call:stop")


def test_the_last_day_of_a_pause_is_the_one_before_its_first_day_after_it() -> None:
    shown = TWELVE["05_paused"]()
    assert shown.pause is not None and shown.pause.until == date(2026, 12, 3)
    assert told(shown) == ["To check: paused all week, up to and including Wed 2 Dec."]
