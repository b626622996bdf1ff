"""Many weeks side by side, and the client's own picture: gaps are gaps, and silence is no zero."""

import re
from collections import Counter
from dataclasses import replace
from datetime import timedelta

from companion.content.folders import content_dir
from companion.core.effects import Sheet
from companion.core.observations import Bounds, Bout, Ending, Observation, PlanPrescribed
from companion.reports import multiples, own_week
from companion.reports.asking import Task
from companion.reports.caption import LIMIT
from companion.reports.sheets import Content, drawn
from companion.reports.spans import MOST_COLUMNS, span
from companion.reports.spans_wording import SpansWording
from companion.reports.week import summarise
from tests.reports.on_page import shapes_on, texts_on
from tests.reports.samples import TEXTS, wording
from tests.reports.test_record import read
from tests.reports.weeks import (
    MONDAY,
    MONDAY_MORNING,
    SUNDAY,
    ZONE,
    at,
    bout,
    case,
    closed,
    dated,
    day,
    ended,
    fell,
    plan,
    session,
    week,
)

CONTENT = Content(content_dir(), TEXTS)


def records(first: int) -> list[Observation]:
    """From `first` on: the weaker side breaks, a week is paused, a day in five is unanswered, one fall."""
    found: list[Observation] = []
    for number in range(first, 7):
        if -14 <= number < -7:
            found.append(closed(day(number), Ending.PAUSED))
        elif number % 5 == 0:
            found.append(closed(day(number)))
        else:
            found += session(day(number), None, None, 2, None, 2)
    return found + fell(day(-16), "f3", lifted=day(-15))


def task(first: int) -> Task:
    return Task(case(), MONDAY, SUNDAY, tuple(dated(records(first))), MONDAY_MORNING, "en")


def texts(first: int, *, trends: bool) -> dict[str, list[str]]:
    of = task(first)
    found = span(of.case, MONDAY + timedelta(days=first), SUNDAY, of.observations, of.as_of)
    figure = multiples.draw(found, SpansWording(TEXTS, "en", ZONE, trends=trends))
    told: dict[str, list[str]] = {}
    for text in texts_on(figure):
        told.setdefault(str(text.get_gid()), []).append(text.get_text())
    for patch in shapes_on(figure):
        told.setdefault(f"shape:{patch.get_gid()}", []).append("")
    return told


def test_a_paused_week_is_a_gap_with_no_bar_and_no_number() -> None:
    told = texts(-21, trends=False)
    assert told["share:heel_to_toe:weaker:2026-11-23"] == ["0/5"]
    assert not [name for name in told if "share:" in name and "2026-11-09" in name]
    assert "shape:gap:2026-11-09" in told and "sessions:2026-11-09" not in told


def test_unanswered_days_stay_due_and_are_told_apart() -> None:
    told = texts(-21, trends=False)
    assert told["sessions:2026-11-23"] == ["5/7"] and told["unknown:2026-11-23"] == ["?2"]


def test_a_fall_stands_in_its_week() -> None:
    told = texts(-21, trends=False)
    assert told["flags:2026-11-02"] == ["▲1"]


def test_two_sides_are_told_as_sessions_and_a_trend_only_with_ten_weeks() -> None:
    few = " ".join(texts(-21, trends=True)["measure"])
    assert "weaker side shorter in" in few and "too few weeks" in few and "rising" not in few
    many = " ".join(texts(-84, trends=True)["measure"])
    assert "No trend shown" in many and "no change" not in many.lower()


def test_a_long_course_has_no_more_columns_than_can_be_read() -> None:
    of = task(-200)
    found = span(of.case, MONDAY - timedelta(days=200), SUNDAY, of.observations, of.as_of)
    assert len(found.columns) <= MOST_COLUMNS and found.weeks_each == 3


def test_captions_keep_the_platforms_limit() -> None:
    for sheet in (Sheet.FOUR_WEEKS, Sheet.COURSE, Sheet.OWN_WEEK):
        made = drawn(replace(task(-60), case=case("Q" * 900), sheet=sheet), CONTENT)
        assert 0 < len(made.caption) <= LIMIT


def two_plans() -> Task:
    """Four weeks, a new plan on the Wednesday of the third: from then on every second day."""
    new = replace(plan("feet_together", weekdays=(0, 2, 4)), version=2)
    changed = PlanPrescribed(at(day(-5), 8), 2, "thea", "", new)
    of = replace(case(plan_=new), previous=plan("feet_together"), since=at(day(-30)))
    return Task(of, MONDAY, SUNDAY, tuple(dated(records(-21), changed)), MONDAY_MORNING, "en", Sheet.FOUR_WEEKS)


def test_each_plan_has_sessions_reported_of_its_own_with_its_own_interval() -> None:
    lines = drawn(two_plans(), CONTENT).caption.split("\n")
    first, second = (line for line in lines if line.startswith("Plan "))
    assert first.startswith("Plan 1, from Mon 2 Nov. Sessions reported done or partly: ") and "(95 % interval" in first
    assert second.startswith("Plan 2, from Wed 18 Nov. Sessions reported done or partly: ") and "(95 % interval" in second


def test_more_plans_than_there_is_room_for_are_counted_together_without_an_interval() -> None:
    plans = [PlanPrescribed(at(day(7 * week), 8), week + 9, "thea", "", plan("feet_together")) for week in range(-8, 1)]
    of = replace(task(-60), observations=tuple(dated(records(-60), plans)), sheet=Sheet.COURSE)
    told = drawn(of, CONTENT).caption
    assert "earlier plans: sessions reported done or partly" in told and told.count("95 % interval") == 3


def test_what_the_clients_own_spread_allows_to_be_noticed_stands_on_the_sheet_and_says_when_it_is_unknown() -> None:
    seen = [replace(one, first_break=Bounds(20.0 + n % 3, 20.0 + n % 3)) if isinstance(one, Bout) and one.first_break else one
            for n, one in enumerate(records(-40))]  # fmt: skip
    known = drawn(replace(task(0), observations=tuple(dated(seen)), sheet=Sheet.FOUR_WEEKS), CONTENT).caption
    assert "Own spread of holds between sessions: log-SD 0." in known and "within 4 sessions in about" in known
    few = drawn(replace(task(3), sheet=Sheet.COURSE), CONTENT).caption
    assert "Own spread of holds between sessions: unknown (under 15 sessions" in few


def test_a_session_without_a_word_is_unknown_beside_what_was_told_before_it_in_the_clients_own_picture() -> None:
    silent = [bout(day(0)), ended(day(0), Ending.NO_WORD, 1), closed(day(1)), *session(day(2))]
    shown = week(silent, session(day(-1)), as_of=at(day(2), 20))
    figure = own_week.draw(shown, Counter(), "", wording(shown))
    signs = [str(text.get_gid()) for text in texts_on(figure) if str(text.get_gid()).startswith(("sign", "unsure:"))]
    on = [f"2026-11-{number}" for number in (23, 24, 25)]
    assert signs == [f"sign:{on[0]}", f"unsure:{on[0]}", f"unsure:{on[1]}", f"sign:{on[2]}"]


def test_weekly_charts_many_weeks_and_documents_count_the_same_sessions() -> None:
    of = two_plans()
    mondays = [MONDAY - timedelta(weeks=back) for back in (3, 2, 1, 0)]
    weekly = [summarise(of.case, monday, monday + timedelta(days=6), of.observations, of.as_of).tally for monday in mondays]
    many = span(of.case, mondays[0], SUNDAY, of.observations, of.as_of)
    assert [column.tally for column in many.columns] == weekly
    shares = [(one.sessions.count, one.sessions.total, one.unknown) for one in many.practised]
    assert tuple(map(sum, zip(*shares, strict=True))) == (
        sum(one.sessions for one in weekly),
        sum(one.asked for one in weekly),
        sum(one.silent for one in weekly),
    )
    said = read(drawn(replace(of, sheet=Sheet.PDF_REVIEW), CONTENT))
    written = re.findall(r"Sessions (\d+)/(\d+) .*?unknown (\d+);", said)
    assert [tuple(map(int, one)) for one in written] == shares
