"""What holds of any week at all, drawn from random lives."""

from dataclasses import replace
from itertools import combinations

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from companion.core.observations import (
    Bounds,
    Bout,
    BrokeBy,
    CarerSeen,
    Ending,
    FallKind,
    FallReported,
    Observation,
    Quality,
)
from companion.core.programme import Eyes, Hand, Measure, Side, Stance
from companion.measures.due import NOT_COUNTED
from companion.reports.bar import Call, lines
from companion.reports.caption import LIMIT, caption, length
from companion.reports.figure import draw
from companion.reports.week import Week
from tests.reports.samples import wording
from tests.reports.test_figure import Chart
from tests.reports.weeks import bout, case, closed, day, ended, fell, said, week

ON = st.integers(-7, 6).map(day)
BOUNDS = st.none() | st.tuples(st.floats(0, 60), st.none() | st.floats(0, 60)).map(
    lambda ends: Bounds(ends[0], ends[1] if ends[1] is None else max(ends))  # type: ignore[type-var]
)


@st.composite
def bouts(make: st.DrawFn) -> Bout:
    hold = bout(make(ON), make(st.sampled_from(Stance)), make(st.none() | st.sampled_from(Side)))
    measure = make(st.sampled_from(Measure))
    return replace(
        hold,
        exercise=make(st.sampled_from(("feet_together", "heel_to_toe", "one_leg_toes", "an_exercise_of_long_ago"))),
        eyes=make(st.sampled_from(Eyes)),
        hand=make(st.sampled_from(Hand)),
        measure=measure,
        target=make(st.sampled_from((1, 3, 10, 30, 60, 120))),
        quality=make(st.sampled_from(Quality)),
        practised_s=make(st.none() | st.floats(0, 130)),
        done=make(st.none() | st.integers(0, 200)) if measure is Measure.COUNTED else None,
        first_break=make(BOUNDS),
        broke_by=make(st.none() | st.sampled_from(BrokeBy)),
        eased=make(st.integers(-2, 2)),
    )


SESSIONS = st.builds(ended, ON, st.sampled_from(Ending), st.integers(0, 9), st.none() | st.sampled_from(("easy", "hard")))
ANYTHING: st.SearchStrategy[list[Observation]] = st.lists(
    bouts()
    | SESSIONS
    | st.builds(lambda what, seen: replace(what, carer=seen), SESSIONS, st.sampled_from(CarerSeen))
    | st.builds(closed, ON, st.sampled_from((Ending.NO_ANSWER, Ending.DECLINED, Ending.HELD, Ending.PAUSED)))
    | st.builds(said, ON, st.text(max_size=200))
    | st.builds(lambda on, flag: FallReported(ended(on).at, flag, FallKind.FALL, "odda"), ON, st.sampled_from("abc")),
    max_size=30,
)
FLAGS = st.lists(st.tuples(ON, st.sampled_from("abc"), st.none() | st.integers(-7, 8).map(day)), max_size=3).map(
    lambda raised: [what for on, flag, lifted in raised for what in fell(on, flag, lifted=lifted)]
)
WEEKS: st.SearchStrategy[Week] = st.builds(
    lambda name, anything, flags: week(anything, flags, of=case(name)), st.text(min_size=1, max_size=90), ANYTHING, FLAGS
)


@given(shown=WEEKS)
@settings(suppress_health_check=[HealthCheck.too_slow])
def test_every_day_is_counted_once_and_nothing_unknown_is_reported(shown: Week) -> None:
    tally = shown.tally
    assert sum(number for _, number in tally.states) == sum(each.due for each in shown.days)
    assert tally.due == sum(each.due and each.state not in NOT_COUNTED for each in shown.days)
    assert tally.reported + tally.unknown <= tally.due
    for line in shown.stances:
        for side in line.sides:
            assert 0 <= side.now.clean <= side.now.tried
            assert side.now.tried + side.now.unknown == len(side.marks)
            for mark in side.marks:
                assert 0 <= mark.sure <= mark.at_most <= 1 or mark.quality is Quality.UNKNOWN
    assert length(caption(shown, wording(shown))) <= LIMIT


@given(shown=WEEKS)
@settings(max_examples=15, suppress_health_check=[HealthCheck.too_slow])
def test_no_week_makes_texts_overlap_or_leave_the_page(shown: Week) -> None:
    chart = Chart(shown)
    boxes = [box for text, box in chart.boxes() if text.get_text().strip()]
    assert not any(one.overlaps(two) for one, two in combinations(boxes, 2))
    assert all(box.x0 >= 30 and box.x1 <= 1050 and box.y0 >= 10 for box in boxes)


@given(shown=WEEKS)
@settings(suppress_health_check=[HealthCheck.too_slow])
def test_what_is_first_said_of_any_week_is_never_that_nothing_waits_where_something_is_unknown_or_open(shown: Week) -> None:
    first = lines(shown, wording(shown))
    known = not (shown.tally.unknown or shown.no_word_days or shown.unanswered or shown.near_falls)
    assert [line.call for line in first] != [Call.NOTHING] or (known and not shown.to_lift)
    assert sum(line.call is Call.STOP for line in first) == bool(shown.to_lift)
    assert all(wording(shown).moment(flag.at) in first[0].text for flag in shown.to_lift)


def test_a_week_is_drawn_whatever_is_on_record_of_it() -> None:
    draw(shown := week(bout(day(0), Stance.WALKING)), wording(shown))
