"""Who needs a look first, and why: each reason comes and goes, the gravest first, and the list is right without being asked."""

from dataclasses import replace
from datetime import date, datetime, time, timedelta
from typing import Any

import pytest

from companion.core.care import Client, Hold, Past, Pause
from companion.core.caseload import GRAVITY, Look, Reason, adherence, changes_at, look
from companion.core.events import Control, Press
from companion.core.observations import Ending, FallKind, Reporter
from companion.core.programme import Direction, Level, Listing, Practice
from companion.core.recent import Blank, Proposal, Said, Slip
from tests.core.home import Home
from tests.core.practice import CARER, CLIENT, MONDAY, RULES, THERAPIST, client, plan, planned
from tests.core.test_falls import fallen

TODAY = MONDAY.date()
DAY = timedelta(days=1)
HOLD = Hold("f1", "fall", Level.URGENT, ("fall",), CLIENT, MONDAY)
PROPOSAL = Proposal("p1", "together", Direction.UP, None, 1, MONDAY, (THERAPIST,))


def somebody(**more: Any) -> Client:
    return client(more.pop("of", plan(planned("press"), planned("together"))), **more)


def reasons(it: Client, at: datetime = MONDAY) -> list[str]:
    return list(look(it, at, RULES).reasons)


def days_before(number: int) -> date:
    return TODAY - number * DAY


def blanks(ending: Ending, *days: int) -> tuple[Blank, ...]:
    return tuple(Blank(days_before(day), ending) for day in days)


def test_a_client_of_whom_nothing_is_to_be_seen_has_rank_0() -> None:
    assert look(somebody(), MONDAY, RULES) == Look(0, ())


@pytest.mark.parametrize(
    ("more", "reason"),
    [
        ({"hold": HOLD}, "flag_unseen:2026-11-02"),
        ({"hold": replace(HOLD, acknowledged_at=MONDAY)}, "flag_open:2026-11-02"),
        ({"slips": (Slip(days_before(2), "f1", FallKind.FALL),)}, "fall:2026-10-31"),
        ({"slips": (Slip(days_before(2), "f1", FallKind.UNKNOWN),)}, "fall:2026-10-31"),
        ({"slips": (Slip(days_before(6), "f1", FallKind.NEAR_FALL),)}, "near_fall:2026-10-27"),
        ({"lower_since": MONDAY}, "lower:2026-11-02"),
        ({"past": (Past(days_before(1), Ending.NO_WORD, 1, 2, asked=0),)}, "no_word:2026-11-01"),
        ({"proposal": PROPOSAL}, "proposal"),
        ({"of": plan(planned("press"), review_on=TODAY)}, "review:2026-11-02"),
        ({"of": plan(planned("press"), ends_on=days_before(1))}, "ended:2026-11-01"),
        ({"joined": (CARER, THERAPIST)}, "left"),
        ({"joined": (CARER, THERAPIST), "consent": None}, "never_joined"),
        ({"consent": None}, "no_consent"),
        ({"refused_at": MONDAY, "consent": None}, "refused:2026-11-02"),
        ({"of": None}, "no_plan"),
        ({"joined": (CLIENT, THERAPIST)}, "carer_away"),
        ({"pause": Pause("holiday", MONDAY, date(2026, 11, 9))}, "paused:2026-11-09"),
        ({"pause": Pause("holiday", MONDAY)}, "paused"),
    ],
)
def test_each_reason_is_listed_by_itself(more: dict[str, Any], reason: str) -> None:
    assert reasons(somebody(**more)) == [reason]


@pytest.mark.parametrize(
    "more",
    [
        {"slips": (Slip(days_before(7), "f1", FallKind.FALL),)},
        {"past": (Past(days_before(2), Ending.NO_WORD, 1, 2, asked=0), Past(days_before(1), Ending.DONE, 2, 2))},
        {"proposal": replace(PROPOSAL, later_at=MONDAY + DAY)},
        {"of": plan(planned("press"), review_on=TODAY + DAY, ends_on=TODAY)},
    ],
)
def test_what_is_over_or_not_yet_due_is_no_reason(more: dict[str, Any]) -> None:
    assert reasons(somebody(**more)) == []


def test_the_gravest_reason_comes_first_and_sorts_the_list() -> None:
    low = somebody(proposal=PROPOSAL, pause=Pause("holiday", MONDAY))
    high = somebody(slips=(Slip(TODAY, "f1", FallKind.FALL),))
    both = somebody(slips=(Slip(TODAY, "f1", FallKind.FALL),), proposal=PROPOSAL)
    flag = somebody(hold=HOLD)
    ranks = [look(one, MONDAY, RULES).rank for one in (flag, both, high, low, somebody())]
    assert ranks == sorted(ranks, reverse=True) and len(set(ranks)) == len(ranks)
    assert reasons(both) == ["fall:2026-11-02", "proposal"]


def test_one_graver_reason_outweighs_all_that_are_less_grave() -> None:
    for place, reason in enumerate(Reason):
        assert GRAVITY[reason] > sum(GRAVITY[other] for other in list(Reason)[place + 1 :])


def test_a_flag_that_is_open_stays_on_the_list_whatever_else_ended() -> None:
    assert reasons(somebody(hold=HOLD, discharged_at=MONDAY))[0] == "flag_unseen:2026-11-02"
    assert look(somebody(discharged_at=MONDAY, proposal=PROPOSAL), MONDAY, RULES) == Look(0, ("discharged:2026-11-02",))


# --- silence --------------------------------------------------------------------------------------------------


def test_silence_is_counted_from_the_last_answer_and_needs_a_day_on_which_nobody_answered() -> None:
    done = (Past(days_before(3), Ending.DONE, 2, 2),)
    assert reasons(somebody(past=done)) == []  # nothing was due since
    assert reasons(somebody(past=done, blanks=blanks(Ending.NO_ANSWER, 2)))[0] == "silent:2026-10-30"
    near = (Past(days_before(2), Ending.DONE, 2, 2),)
    assert "silent:2026-10-31" not in reasons(somebody(past=near, blanks=blanks(Ending.NO_ANSWER, 1)))


@pytest.mark.parametrize("ending", [Ending.HELD, Ending.PAUSED, Ending.NOT_ASKED])
def test_a_day_on_which_nobody_could_answer_is_no_silence(ending: Ending) -> None:
    it = somebody(since=MONDAY - 5 * DAY, blanks=blanks(ending, 4, 3, 2, 1))
    assert not [one for one in reasons(it) if one.startswith("silent")]


def test_not_today_and_own_words_are_answers() -> None:
    silent = somebody(since=MONDAY - 9 * DAY, blanks=blanks(Ending.NO_ANSWER, 8, 5, 1))
    assert reasons(silent)[0] == "silent:2026-10-24"
    said = (Said(MONDAY - 2 * DAY, Reporter.CLIENT, "away"),)
    assert not [one for one in reasons(replace(silent, said=said)) if one.startswith("silent")]
    declined = (*silent.blanks, Blank(days_before(2), Ending.DECLINED))
    assert not [one for one in reasons(replace(silent, blanks=declined)) if one.startswith("silent")]


# --- adherence ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("done", "due", "listed"), [(7, 10, True), (8, 10, False), (0, 1, True), (1, 1, False)])
def test_70_percent_and_less_is_listed_and_more_is_not(done: int, due: int, listed: bool) -> None:
    days = [day for day in range(14) if days_before(day).weekday() < 5][:due]
    past = tuple(Past(days_before(day), Ending.DONE, 2, 2) for day in sorted(days[:done], reverse=True))
    it = somebody(past=past, blanks=blanks(Ending.DECLINED, *days[done:]))
    assert adherence(it, TODAY, Listing()) == (done, due)
    assert ([one for one in reasons(it) if one.startswith("adherence")] == [f"adherence:{done}/{due}"]) is listed


def test_days_held_or_paused_or_of_a_fortnight_ago_are_not_due() -> None:
    it = somebody(blanks=(*blanks(Ending.HELD, 3), *blanks(Ending.PAUSED, 4), *blanks(Ending.NO_ANSWER, 14)))
    assert adherence(it, TODAY, Listing()) == (0, 0)


def test_a_session_begun_by_oneself_on_a_free_day_makes_no_day_due() -> None:
    sunday = (Past(days_before(1), Ending.DONE, 2, 2, asked=0),)
    assert adherence(somebody(past=sunday), TODAY, Listing()) == (0, 0)


def test_a_day_is_due_by_the_plan_that_held_then_whatever_days_the_plan_of_today_has() -> None:
    practised = tuple(Past(days_before(day), Ending.DONE, 2, 2) for day in (10, 7, 5))
    tuesdays = plan(planned("press"), practice=Practice((1,), (time(9),)))
    it = somebody(of=tuesdays, past=practised, blanks=blanks(Ending.NO_ANSWER, 3))
    assert adherence(it, TODAY, Listing()) == (3, 4)


@pytest.mark.parametrize(("practice", "asked"), [(Practice((0, 2), (time(9), time(15))), 2), (Practice((1,), (time(9),)), 0)])
def test_for_how_many_sessions_a_day_asked_is_written_down_with_each(practice: Practice, asked: int) -> None:
    home = Home(client(plan(planned("press"), practice=practice)))
    home.send(CLIENT, Press("c1", "menu", "more", "practise"))
    home.row(CLIENT, Control.ENOUGH)
    assert [past.asked for past in home.client.past] == [asked]
    home.until(MONDAY + 4 * DAY)
    assert [blank.asked for blank in home.client.blanks] == ([2] if asked else [1])


def test_where_a_plan_asks_several_times_a_day_sessions_are_counted_and_not_days() -> None:
    past = tuple(Past(days_before(day), Ending.DONE, 2, 2, asked=2) for day in (10, 9, 9, 8, 8, 8))
    it = somebody(past=past, blanks=(Blank(days_before(7), Ending.NO_ANSWER, 2), Blank(days_before(6), Ending.PAUSED, 2)))
    assert adherence(it, TODAY, Listing()) == (5, 8)


def test_all_sessions_of_the_window_are_kept_however_many_a_day() -> None:
    past = tuple(Past(days_before(day), Ending.DONE, 2, 2, asked=4) for day in range(20, 0, -1) for _ in range(4))
    home = Home(somebody(past=past))
    home.send(CLIENT, Press("c1", "menu", "more", "practise"))
    home.row(CLIENT, Control.ENOUGH)
    assert [one.day for one in home.client.past] == [*(one.day for one in past if one.day > days_before(14)), TODAY]
    once = Home(somebody(past=past[::4]))
    once.send(CLIENT, Press("c1", "menu", "more", "practise"))
    once.row(CLIENT, Control.ENOUGH)
    assert len(once.client.past) == 20, "so many are kept however few a day"


def test_a_session_that_a_flag_stopped_is_due_and_not_reported_done() -> None:
    assert adherence(somebody(past=(Past(TODAY, Ending.STOPPED, 1, 2),)), TODAY, Listing()) == (0, 1)


# --- time -----------------------------------------------------------------------------------------------------


def test_the_list_is_looked_at_when_a_day_is_reached_though_nothing_happens() -> None:
    review = somebody(of=plan(planned("press"), review_on=date(2026, 11, 5)))
    assert changes_at(review, RULES.listing) == datetime(2026, 11, 5, tzinfo=MONDAY.tzinfo)
    assert changes_at(somebody(), RULES.listing) is None
    fell = somebody(slips=(Slip(TODAY, "f1", FallKind.FALL),))
    assert changes_at(fell, RULES.listing) == datetime(2026, 11, 9, tzinfo=MONDAY.tzinfo)


def test_a_life_in_which_nobody_answers_comes_onto_the_list_by_its_alarms_alone() -> None:
    it = Home(somebody(since=MONDAY))
    seen: list[tuple[date, list[str]]] = []
    while it.wake < MONDAY + 6 * DAY:
        it.until(it.wake)
        seen.append((it.now.date(), reasons(it.client, it.now)))
    first = next(day for day, found in seen if any(one.startswith("silent") for one in found))
    assert first == date(2026, 11, 5)
    assert reasons(it.client, it.now) == ["silent:2026-11-02", "adherence:0/5"]


def test_silence_comes_onto_the_list_on_its_day_though_no_practice_is_due_then() -> None:
    mondays = plan(planned("press"), practice=Practice((0,), (time(9),)))
    it = Home(somebody(of=mondays, since=MONDAY - DAY))
    it.until(datetime(2026, 11, 3, 23, tzinfo=MONDAY.tzinfo))
    assert reasons(it.client, it.now) == ["adherence:0/1"]
    assert it.wake == datetime(2026, 11, 4, tzinfo=MONDAY.tzinfo)
    it.until(it.wake)
    assert reasons(it.client, it.now) == ["silent:2026-11-01", "adherence:0/1"]


def test_a_review_day_between_two_days_of_practice_wakes_the_client() -> None:
    it = Home(somebody(of=plan(planned("press"), review_on=date(2026, 11, 7))))
    days = set()
    while it.wake < MONDAY + 6 * DAY:
        it.until(it.wake)
        days.add(it.now)
    assert datetime(2026, 11, 7, tzinfo=MONDAY.tzinfo) in days
    assert "review:2026-11-07" in reasons(it.client, it.now)


def test_a_fall_pressed_at_home_stays_on_the_list_for_its_days_after_the_stop_was_lifted() -> None:
    it = fallen()
    it.press(CLIENT, "up")
    it.press(CLIENT, "not_hit")
    assert reasons(it.client, it.now)[:2] == ["flag_unseen:2026-11-02", "fall:2026-11-02"]
    it.press(THERAPIST, "seen")
    it.lift()
    assert reasons(it.client, it.now) == ["fall:2026-11-02"]
    it.until(MONDAY + 7 * DAY)
    assert not [one for one in reasons(it.client, it.now) if one.startswith("fall")]
