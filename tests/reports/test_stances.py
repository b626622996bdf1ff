"""What is counted of each stance, and when a hold is said to have broken."""

from dataclasses import replace
from datetime import timedelta
from itertools import pairwise

import pytest

from companion.core.observations import Bounds, Bout, Quality
from companion.core.programme import Eyes, Hand, Side, Stance
from companion.reports.breaks import FirstBreak, earliest_break, least_count, usual_break, usual_count
from companion.reports.stances import BoutMark, StanceLine, Tried, lines, tried
from tests.reports.weeks import bout, claps, day, plan, unanswered, unwell

HOUR = timedelta(hours=1)


def broke(*quarters: int | None) -> list[Bout]:
    return [bout(day(0), quarter=quarter) for quarter in quarters]


def within(low: float, high: float | None, target: int = 60) -> Bout:
    return replace(bout(day(0), quarter=1), target=target, first_break=Bounds(low, high))


def of_week(*bouts: Bout, before: tuple[Bout, ...] | None = None) -> tuple[StanceLine, ...]:
    then = None if before is None else [(hold.at.date(), hold) for hold in before]
    return lines([(hold.at.date(), hold) for hold in bouts], then, plan("feet_together", "heel_to_toe", "one_leg"))


def only(line: StanceLine, side: Side | None = Side.WEAKER) -> BoutMark:
    (mark,) = next(each for each in line.sides if each.side is side).marks
    return mark


@pytest.mark.parametrize(
    ("quarters", "usual"),
    [
        ((2,), FirstBreak.SECOND),
        ((1, 1, 4), FirstBreak.FIRST),
        ((1, 3, 3), FirstBreak.THIRD),
        ((4, None), FirstBreak.LAST),
        ((4, None, None), FirstBreak.NO_BREAK),
        ((None, None), FirstBreak.NO_BREAK),
    ],
)
def test_the_usual_break_is_the_quarter_by_whose_end_half_had_broken(
    quarters: tuple[int | None, ...], usual: FirstBreak
) -> None:
    assert usual_break(broke(*quarters)) is usual


def test_capped_holds_are_not_averaged() -> None:
    # own example, recomputed: 12, 18, 30+, 30+, 30+ s of 30 s. The median is not reached; the mean 24.0 s is wrong
    seconds = [within(12, 12, 30), within(18, 18, 30)]
    assert usual_break([*seconds, *[replace(hold, target=30) for hold in broke(None, None, None)]]) is FirstBreak.NO_BREAK


@pytest.mark.parametrize("target", [10, 15, 30, 45, 60])
def test_the_four_answers_of_any_target_are_its_four_quarters(target: int) -> None:
    # the cuts are offered in whole seconds, so those of 10 and 30 s are rounded
    cuts = [round(target * part / 4) for part in range(5)]
    usual = [usual_break([within(low, high, target)]) for low, high in pairwise(cuts)]
    assert usual == [FirstBreak.FIRST, FirstBreak.SECOND, FirstBreak.THIRD, FirstBreak.LAST]


@pytest.mark.parametrize(
    ("second", "usual"), [(0, FirstBreak.FIRST), (14.9, FirstBreak.FIRST), (15, FirstBreak.SECOND), (60, FirstBreak.LAST)]
)
def test_a_second_that_somebody_tapped_lies_in_its_quarter(second: float, usual: FirstBreak) -> None:
    assert usual_break([within(second, second)]) is usual


def test_a_break_at_a_time_nobody_knows_makes_the_usual_one_unknown_only_if_it_could_change_it() -> None:
    nobody_knows = replace(bout(day(0), quarter=1), first_break=None)
    assert usual_break([nobody_knows]) is FirstBreak.UNKNOWN
    assert usual_break([nobody_knows, *broke(2, 4)]) is FirstBreak.UNKNOWN
    assert usual_break([nobody_knows, *broke(2, 2)]) is FirstBreak.SECOND
    assert usual_break([nobody_knows, *broke(None, None)]) is FirstBreak.NO_BREAK


def test_a_bout_ended_early_is_neither_clean_nor_a_break_at_its_end() -> None:
    early = replace(bout(day(0)), quality=Quality.ENDED_EARLY, practised_s=40.0, first_break=None)
    assert tried([early]) == Tried(clean=0, tried=1, unknown=0)
    assert usual_break([early]) is FirstBreak.UNKNOWN
    assert usual_break([early, *broke(None, None)]) is FirstBreak.NO_BREAK


def test_a_bout_nobody_spoke_of_is_not_among_those_tried() -> None:
    hold = bout(day(0))
    assert tried([hold, unanswered(hold)]) == Tried(clean=1, tried=1, unknown=1)
    assert usual_break([unanswered(hold)]) is FirstBreak.UNKNOWN


def test_a_count_is_the_lower_median_and_unknown_where_the_reports_leave_it_open() -> None:
    fewer = replace(claps(day(0), Side.WEAKER, 2), done=None)
    assert usual_count([claps(day(0), Side.WEAKER, done) for done in (1, 3, 2)]) == 2
    assert usual_count([claps(day(0), Side.WEAKER, done) for done in (1, 3)]) == 1
    assert usual_count([fewer]) is None
    assert usual_count([fewer, *[claps(day(0), Side.WEAKER, 3)] * 2]) == 3
    assert usual_count([]) is None


def test_the_earliest_break_and_the_least_count_are_those_of_a_single_bout() -> None:
    nobody_knows = replace(bout(day(0), quarter=1), first_break=None)
    assert earliest_break(broke(4, 3, None)) is FirstBreak.THIRD
    assert earliest_break([nobody_knows, *broke(2)]) is FirstBreak.UNKNOWN
    assert earliest_break([nobody_knows, *broke(1)]) is FirstBreak.FIRST
    assert earliest_break([unanswered(bout(day(0)))]) is FirstBreak.UNKNOWN


def test_a_bout_stopped_for_a_symptom_is_neither_a_break_nor_a_full_hold_unless_a_break_was_told() -> None:
    stopped = unwell(bout(day(0)), 9.0)
    assert earliest_break([stopped, *broke(None, 3)]) is FirstBreak.THIRD
    assert usual_break([stopped, stopped, *broke(2, None)]) is FirstBreak.SECOND
    assert usual_break([stopped]) is earliest_break([stopped]) is FirstBreak.NO_BREAK
    assert usual_break([unanswered(stopped)]) is earliest_break([]) is FirstBreak.UNKNOWN
    assert earliest_break([replace(stopped, first_break=Bounds(4.0, 4.0))]) is FirstBreak.FIRST
    assert least_count([claps(day(0), Side.WEAKER, done) for done in (3, 1, 2)]) == 1
    fewer = replace(claps(day(0), Side.WEAKER, 2), done=None)
    assert least_count([fewer, claps(day(0), Side.WEAKER, 1)]) is None
    assert least_count([fewer, claps(day(0), Side.WEAKER, 0)]) == 0


def test_sessions_of_a_day_are_told_apart_by_their_order_only_where_a_day_had_more_than_two() -> None:
    def of_day(sessions: int) -> list[Bout]:
        return [
            replace(bout(day(0), quarter=None if turn == 1 else turn), session=f"s{turn}", at=bout(day(0)).at + turn * HOUR)
            for turn in range(1, sessions + 1)
        ]

    (line,) = of_week(*reversed(of_day(3)))
    assert [mark.turn for mark in line.sides[0].marks] == [3, 2, 1]
    assert [one.tried for one in line.sides[0].turns] == [Tried(1, 1, 0), Tried(0, 1, 0), Tried(0, 1, 0)]
    assert [one.usual for one in line.sides[0].turns] == [FirstBreak.NO_BREAK, FirstBreak.SECOND, FirstBreak.THIRD]
    (line,) = of_week(*of_day(2))
    assert line.sides[0].turns == ()


def test_the_hand_and_the_easing_of_each_side_are_its_own() -> None:
    eased = replace(bout(day(0)), hand=Hand.FINGERTIPS, eased=1)
    (line,) = of_week(eased, bout(day(0), side=Side.STRONGER), unanswered(eased))
    assert [(side.hands, side.eased) for side in line.sides] == [
        ((Hand.FINGERTIPS, Hand.FINGERTIPS), 1),
        ((Hand.HOVERING, Hand.HOVERING), 0),
    ]


def test_a_mark_holds_what_is_sure_and_where_it_broke() -> None:
    (line,) = of_week(bout(day(0), quarter=2))
    assert only(line) == BoutMark(day(0), Quality.BROKE, sure=0.25, at_most=0.5, practised=1.0)
    (line,) = of_week(bout(day(0)))
    assert only(line) == BoutMark(day(0), Quality.CLEAN, sure=1.0, at_most=1.0, practised=1.0)


def test_a_mark_of_a_lost_clock_claims_no_time() -> None:
    lost = replace(bout(day(0), quarter=2), practised_s=None, first_break=None)
    (line,) = of_week(lost)
    assert only(line) == BoutMark(day(0), Quality.BROKE, sure=0.0, at_most=1.0, practised=None)


def test_a_mark_of_a_bout_nobody_answered_claims_nothing() -> None:
    (line,) = of_week(unanswered(bout(day(0))))
    assert only(line) == BoutMark(day(0), Quality.UNKNOWN)


def test_a_count_is_drawn_as_far_as_it_went() -> None:
    two, fewer = claps(day(0), Side.WEAKER, 2), replace(claps(day(0), Side.STRONGER, 2), done=None)
    (line,) = of_week(two, fewer)
    assert only(line).sure == only(line).at_most == pytest.approx(2 / 3)
    assert only(line, Side.STRONGER).sure == 0.0
    assert only(line, Side.STRONGER).at_most == pytest.approx(2 / 3)


def test_lines_follow_the_plan_and_the_weaker_side_comes_first() -> None:
    shown = of_week(
        bout(day(0), Stance.ONE_LEG, Side.STRONGER), bout(day(0), Stance.ONE_LEG), bout(day(0), Stance.FEET_TOGETHER, None)
    )
    assert [line.stance for line in shown] == [Stance.FEET_TOGETHER, Stance.ONE_LEG]
    assert [side.side for side in shown[1].sides] == [Side.WEAKER, Side.STRONGER]


def test_holds_of_one_stance_are_one_line_whatever_their_hand_and_target() -> None:
    (line,) = of_week(bout(day(0)), replace(bout(day(1)), eased=1, hand=Hand.ONE_HAND, target=30))
    assert (line.exercise, line.targets, line.hands) == (None, (30, 60), (Hand.ONE_HAND, Hand.HOVERING))


def test_a_hold_without_sides_belongs_to_its_stance_whatever_its_exercise() -> None:
    hold = bout(day(0), Stance.FEET_TOGETHER, None)
    (line,) = of_week(hold, replace(hold, exercise="an_exercise_of_long_ago"))
    assert (line.exercise, len(line.sides[0].marks)) == (None, 2)


def test_a_side_that_is_the_leg_stood_on_is_never_counted_with_one_that_is_the_foot_in_front() -> None:
    half_step, one_leg = bout(day(0), Stance.HALF_STEP), replace(bout(day(0), Stance.HALF_STEP), exercise="one_leg")
    shown = {line.exercise: line for line in of_week(half_step, one_leg, one_leg)}
    assert {exercise: len(line.sides[0].marks) for exercise, line in shown.items()} == {None: 1, "one_leg": 2}
    assert shown["one_leg"].told_apart


def test_an_exercise_eased_below_the_stance_it_is_named_for_says_in_which() -> None:
    (line,) = of_week(replace(bout(day(0), Stance.FEET_APART), exercise="half_step"))
    assert (line.exercise, line.stance, line.told_apart) == ("half_step", Stance.FEET_APART, True)


def test_eyes_closed_is_a_line_of_its_own_after_eyes_open() -> None:
    hold = bout(day(0), Stance.FEET_TOGETHER, None)
    assert [line.eyes for line in of_week(replace(hold, eyes=Eyes.CLOSED), hold)] == [Eyes.OPEN, Eyes.CLOSED]


def test_what_is_counted_is_told_apart_by_exercise_and_stance() -> None:
    flat = replace(claps(day(0), Side.WEAKER, 3), stance=Stance.ONE_LEG)
    seated = replace(claps(day(0), Side.WEAKER, 3, "seated_press"), stance=Stance.SEATED)
    shown = of_week(claps(day(0), Side.WEAKER, 3), flat, seated)
    told = {(line.exercise, line.stance): line.told_apart for line in shown}
    assert told == {
        ("one_leg_toes", Stance.ONE_LEG): True,
        ("one_leg_toes", Stance.ONE_LEG_TOES): True,
        ("seated_press", Stance.SEATED): False,
    }


def test_a_stance_of_last_week_keeps_its_line_and_a_first_week_has_nothing_beside_it() -> None:
    (line,) = of_week(before=(bout(day(-7)), bout(day(-6), quarter=1)))
    assert (line.sides[0].now, line.sides[0].before) == (Tried(0, 0, 0), Tried(1, 2, 0))
    (line,) = of_week(bout(day(0)))
    assert line.sides[0].before is None
