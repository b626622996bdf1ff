"""A week worked out from observations: days, sessions, flags, hand and steps."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from companion.core.observations import (
    Answer,
    BrokeBy,
    CarerSeen,
    Discharged,
    Ending,
    FallKind,
    FallReported,
    FlagLifted,
    FlagRaised,
    Observation,
    Reporter,
)
from companion.core.programme import Hand, Level, Side, Stance
from companion.core.red_flags import screen
from companion.measures.due import Day, State, Tally
from companion.reports.week import Support, Week, summarise
from tests.reports.samples import RULES, SAMPLES, wording
from tests.reports.weeks import (
    MONDAY,
    MONDAY_MORNING,
    SUNDAY,
    SUNDAY_EVENING,
    at,
    bout,
    case,
    claps,
    closed,
    confident,
    dated,
    day,
    ended,
    fell,
    plan,
    said,
    session,
    unanswered,
    week,
)


def states(of: Week) -> list[State | None]:
    return [each.state for each in of.days]


@pytest.mark.parametrize(("reported", "more"), [(7, False), (8, True)])
def test_more_than_70_percent_is_more_than_7_of_10(reported: int, more: bool) -> None:
    # SS-MAHE 2019: adherent after stroke is more than 70 % of the prescribed dose
    assert Tally(((State.DONE, 10),), extra=0, sessions=reported, asked=10).more_than_70 is more


def test_partly_done_counts_and_nothing_due_is_never_more_than_70_percent() -> None:
    assert week(*(ended(day(number), Ending.PARTLY) for number in range(7))).more_than_70
    assert not week(*(closed(day(number), Ending.PAUSED) for number in range(7))).more_than_70
    assert not Tally((), extra=2).more_than_70


def test_every_ending_becomes_a_state_of_its_day() -> None:
    endings = [Ending.DONE, Ending.PARTLY, Ending.STOPPED, Ending.NO_WORD, Ending.NOT_READY]
    shown = week(*[ended(day(number), ending) for number, ending in enumerate(endings)], closed(day(5), Ending.PAUSED))
    assert states(shown)[:6] == [*[State(ending) for ending in endings], State.PAUSED]
    every = [state for state in State if state not in (State.NO_RECORD, State.TO_COME)]
    assert sorted(Ending) == sorted(str(state) for state in every)


@pytest.mark.parametrize("sample", SAMPLES)
def test_the_flags_of_the_samples_are_as_grave_as_the_rules_say(sample: str) -> None:
    for flag in SAMPLES[sample]().flags:
        rule = screen(flag.facts, RULES)
        assert rule is not None and (rule.id, rule.level) == (flag.rule, flag.level)


def test_held_paused_and_coming_days_are_not_due_and_unknown_ones_are() -> None:
    closing = [Ending.NO_ANSWER, Ending.NOT_ASKED, Ending.DECLINED, Ending.HELD, Ending.PAUSED]
    found = [closed(day(number), ending) for number, ending in enumerate(closing)]
    tally = week(*found, ended(day(5)), as_of=SUNDAY_EVENING).tally
    assert tally.states == (
        (State.DONE, 1),
        (State.NO_ANSWER, 1),
        (State.NOT_ASKED, 1),
        (State.DECLINED, 1),
        (State.HELD, 1),
        (State.PAUSED, 1),
        (State.TO_COME, 1),
    )
    assert (tally.due, tally.reported, tally.unknown) == (4, 1, 2)


def test_a_past_day_due_without_a_record_is_unknown_and_today_is_not_over() -> None:
    shown = week(session(day(-7)), as_of=at(day(3), 12))
    assert states(shown) == [State.NO_RECORD] * 3 + [State.TO_COME] * 4
    assert shown.tally.unknown == 3


def test_in_a_first_week_the_days_before_the_first_record_are_not_due() -> None:
    shown = week(ended(day(2)), closed(day(3)))
    assert shown.first_week
    assert states(shown) == [None, None, State.DONE, State.NO_ANSWER] + [State.NO_RECORD] * 3


@pytest.mark.parametrize(("hour", "due"), [(9, 5), (10, 4), (15, 4)])
def test_before_the_first_plan_began_nothing_is_due_and_after_it_every_day_is(hour: int, due: int) -> None:
    # practice is at 10:00; the plan began on Wednesday at that hour
    shown = week(of=replace(case(), since=at(day(2), hour)))
    assert states(shown) == [None] * (7 - due) + [State.NO_RECORD] * due
    assert shown.tally.due == shown.tally.unknown == due


def test_a_week_before_the_first_plan_began_has_nothing_due_and_nothing_unknown() -> None:
    shown = week(of=replace(case(), since=at(day(9))))
    assert states(shown) == [None] * 7
    assert (shown.tally.due, shown.tally.unknown) == (0, 0)


def test_a_day_that_was_closed_stays_due_whenever_the_plan_began() -> None:
    shown = week(closed(day(1)), of=replace(case(), since=at(day(2))))
    assert states(shown)[:2] == [None, State.NO_ANSWER]


def test_a_plan_that_began_long_ago_leaves_no_day_of_a_silent_week_out() -> None:
    shown = week(ended(day(3)), of=replace(case(), since=at(day(-90))))
    assert shown.tally.unknown == 6


def test_only_the_weekdays_of_the_plan_are_due_and_more_is_counted_apart() -> None:
    of = case(plan_=plan("heel_to_toe", weekdays=(0, 2)))
    shown = week(session(day(-7)), ended(day(0)), ended(day(1)), of=of)
    assert states(shown)[:4] == [State.DONE, State.DONE, State.NO_RECORD, None]
    assert [each.due for each in shown.days] == [True, False, True] + [False] * 4
    assert (shown.tally.due, shown.tally.reported, shown.tally.extra) == (2, 1, 1)


def test_what_was_left_and_done_later_that_day_makes_one_session() -> None:
    shown = week(ended(day(0), Ending.PARTLY), ended(day(0), Ending.DONE))
    assert shown.days[0] == Day(day(0), due=True, state=State.DONE, version=1, sessions=2, bouts=14, reported=2)
    assert shown.tally.count(State.DONE, State.PARTLY) == 1


def test_a_session_without_a_word_stays_told_whatever_came_later_that_day() -> None:
    shown = week(ended(day(0), Ending.NO_WORD), ended(day(0), Ending.DONE))
    assert states(shown)[0] is State.DONE
    assert shown.no_word_days == (day(0),)


def test_days_are_those_of_the_clients_own_place() -> None:
    # 02:00 UTC on Monday is still Sunday evening in New York
    late = replace(bout(MONDAY), at=datetime(2026, 11, 30, 2, 0, tzinfo=UTC))
    there = summarise(case(zone="America/New_York"), MONDAY, SUNDAY, dated(late), MONDAY_MORNING)
    here = summarise(case(), MONDAY, SUNDAY, dated(late), MONDAY_MORNING)
    assert there.stances[0].sides[0].marks[0].day == SUNDAY
    assert here.stances == ()


def test_nothing_from_after_the_moment_it_is_drawn_is_known() -> None:
    shown = week(session(day(0)), session(day(3)), as_of=at(day(1), 9))
    assert states(shown) == [State.DONE] + [State.TO_COME] * 6
    assert len(shown.stances[0].sides[0].marks) == 1


def test_a_week_that_ends_before_it_begins_is_refused() -> None:
    with pytest.raises(ValueError, match="before it begins"):
        summarise(case(), SUNDAY, MONDAY, [], MONDAY_MORNING)


# flags and falls


def test_a_fall_has_the_kind_that_was_told_last() -> None:
    (flag,) = week(fell(day(3))).flags
    assert (flag.fall, flag.open, flag.at, flag.seen) == (FallKind.FALL, True, at(day(3), 10, 14), at(day(3), 10, 20))


def test_more_told_under_a_flag_makes_it_graver_and_not_two() -> None:
    first = FlagRaised(at(day(1), 9), "f1", "unwell", Level.URGENT, ("felt_unwell",), "odda")
    more = FlagRaised(at(day(1), 9, 5), "f1", "fall", Level.EMERGENCY, ("felt_unwell", "head_knock"), "bram")
    (flag,) = week(first, more).flags
    assert (flag.at, flag.more, flag.by) == (first.at, more.at, "odda")
    assert (flag.level, flag.facts) == (Level.EMERGENCY, more.facts)


def test_an_older_flag_is_shown_while_it_was_open_in_the_week() -> None:
    assert [flag.open for flag in week(fell(day(-3))).flags] == [True]
    assert [flag.open for flag in week(fell(day(-20), lifted=day(1))).flags] == [False]
    assert week(fell(day(-3), lifted=day(-1))).flags == ()


def test_a_flag_of_the_next_week_is_not_shown_and_its_lift_is() -> None:
    late = datetime(2026, 12, 3, 12, tzinfo=UTC)
    assert week(fell(day(8)), as_of=late).flags == ()
    (flag,) = week(fell(day(3), lifted=day(9)), as_of=late).flags
    assert flag.lifted == at(day(9), 15, 2)


def test_only_open_flags_wait_for_a_decision() -> None:
    shown = week(fell(day(0), "f1", lifted=day(1)), fell(day(2), "f2"))
    assert [flag.id for flag in shown.to_lift] == ["f2"]


def test_a_fall_told_without_a_flag_on_record_is_shown_all_the_same() -> None:
    (flag,) = week(FallReported(at(day(1)), "f9", FallKind.NEAR_FALL, "odda")).flags
    assert (flag.fall, flag.level, flag.facts) == (FallKind.NEAR_FALL, None, ())


def test_a_lift_of_something_unknown_changes_nothing() -> None:
    assert week(FlagLifted(at(day(1)), "f9", "thea", "spoke")).flags == ()


# hand, steps, effort, carer


def test_both_counts_as_a_step_and_as_a_touch() -> None:
    causes = [BrokeBy.STEP, BrokeBy.HAND, BrokeBy.BOTH, BrokeBy.LEANED, BrokeBy.FOOT_DOWN]
    found = [replace(bout(day(0), quarter=1), broke_by=cause) for cause in causes]
    found += [replace(bout(day(0)), eased=1, hand=Hand.ONE_HAND), replace(bout(day(0)), eased=-1)]
    assert week(found).support == Support(
        bouts=7,
        hands=((Hand.ONE_HAND, 1), (Hand.HOVERING, 6)),
        steps=2,
        touches=2,
        leaned=1,
        feet_down=1,
        eased=1,
        harder=1,
    )


def test_what_nobody_spoke_of_is_in_no_count_of_hands_and_steps() -> None:
    assert week(unanswered(bout(day(0)))).support.bouts == 0


def test_effort_and_carer_are_counted_over_sessions_in_which_something_was_done() -> None:
    found: list[Observation] = [ended(day(0), effort="hard"), ended(day(1), effort="easy"), ended(day(2), effort=None)]
    found.append(ended(day(3), Ending.NOT_READY, done=0))
    found.append(replace(ended(day(4), Ending.NOT_READY, done=0), carer=CarerSeen.ABSENT))
    shown = week(found)
    assert shown.effort == (("easy", 1), ("hard", 1), (None, 1))
    assert shown.carer == ((CarerSeen.VERIFIED, 3), (CarerSeen.ABSENT, 1))


def saw(on: date, exercise: str | None = None, by: Reporter = Reporter.CARER) -> Answer:
    """The carer saw a step or touch: with their last word, or by a tap on their clock in an exercise."""
    question, answer = ("tap", "12.5") if exercise else ("carer_saw", "step_or_touch")
    return Answer(at(on), bout(on).session, exercise, question, answer, by)


def test_where_only_the_carer_tells_of_a_step_both_reports_are_told_as_different() -> None:
    assert week(session(day(0), None), saw(day(0))).carer_saw_more == 1
    assert week(session(day(0), None), saw(day(0)), session(day(1), None), saw(day(1)), saw(day(1))).carer_saw_more == 2
    assert week(session(day(0), None, 2), saw(day(0))).carer_saw_more == 0, "the client told of one too"
    assert week(session(day(0), None), saw(day(0), by=Reporter.CLIENT)).carer_saw_more == 0


def test_a_tap_of_the_carer_differs_where_the_client_calls_that_exercise_clean() -> None:
    clean = bout(day(0))
    assert week(clean, saw(day(0), clean.exercise)).carer_saw_more == 1
    assert week(bout(day(0), quarter=2), saw(day(0), clean.exercise)).carer_saw_more == 0


def test_a_near_fall_without_harm_is_told_and_is_no_red_flag() -> None:
    near = FallReported(at(day(2)), "n7", FallKind.NEAR_FALL, "bram")
    shown = week(session(day(2)), near)
    assert shown.near_falls == (day(2),) and shown.flags == () and shown.to_lift == ()
    under_a_flag = week(fell(day(1)), replace(near, flag="f1"))
    assert under_a_flag.near_falls == () and under_a_flag.flags[0].fall is FallKind.NEAR_FALL


def test_a_carer_on_a_shared_phone_is_counted_apart() -> None:
    shown = week(ended(day(0)), replace(ended(day(1)), carer=CarerSeen.NOT_VERIFIED))
    assert shown.carer == ((CarerSeen.VERIFIED, 1), (CarerSeen.NOT_VERIFIED, 1))


def test_confidence_is_the_clients_newest_answer_of_the_week() -> None:
    found = [confident(day(4), "sure"), confident(day(1), "not_sure"), confident(day(5), "not_sure", Reporter.CARER)]
    assert week(found).confidence == "sure"
    assert week(confident(day(0), "certain")).confidence is None
    assert week(confident(day(-1), "sure"), replace(confident(day(0), "sure"), question="sway")).confidence is None


def test_own_words_of_the_week_are_kept_and_older_ones_are_not() -> None:
    assert [each.text for each in week(said(day(-1), "old"), said(day(0), "new")).said] == ["new"]


def test_the_order_in_which_things_were_written_does_not_change_the_days() -> None:
    found = [*session(day(0), None, 2), closed(day(1)), *session(day(2)), claps(day(2), Side.WEAKER, 1)]
    assert week(found).days == week(reversed(found)).days
    assert [line.stance for line in week(found).stances][:2] == [Stance.FEET_TOGETHER, Stance.HEEL_TO_TOE]


def test_a_week_may_be_any_span_of_days() -> None:
    last = MONDAY + timedelta(days=2)
    assert [each.day for each in summarise(case(), MONDAY, last, [], MONDAY_MORNING).days] == [
        date(2026, 11, number) for number in (23, 24, 25)
    ]


def test_a_session_without_a_word_stays_due_and_is_unknown_neither_done_nor_missed() -> None:
    shown = week(ended(day(0)), closed(day(1)), ended(day(2), Ending.NO_WORD), as_of=at(day(2), 23))
    assert (shown.tally.due, shown.tally.reported, shown.tally.unknown) == (3, 1, 2)
    told = wording(shown)
    assert told.states(shown.tally).startswith("done 1, unknown 2, without a word 1 of them")
    assert "Ended without a word after standing: Wed 25. How it went, and falls: unknown." in told.silences(shown)


def test_after_a_discharge_nothing_was_due_whether_it_is_among_the_records_or_not() -> None:
    gone = Discharged(at(day(2), 12), "thea")
    for shown in (week(session(day(-2)), gone), week(session(day(-2)), of=replace(case(), ended=gone.at))):
        assert states(shown) == [State.NO_RECORD] * 3 + [None] * 4
