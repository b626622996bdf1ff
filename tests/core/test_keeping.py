"""What is recorded leaves a short tail in the client's state, whoever recorded it."""

from dataclasses import replace
from datetime import date, timedelta

from companion.core.care import Client
from companion.core.effects import Record
from companion.core.events import Prescribed
from companion.core.keeping import KEPT_BLANKS, KEPT_LETTERS, KEPT_WORDS, note
from companion.core.observations import (
    Bout,
    DayClosed,
    Ending,
    FallKind,
    FallReported,
    FlagRaised,
    Observation,
    OwnWords,
    Quality,
    Reporter,
)
from companion.core.programme import Clock, Eyes, Hand, Level, Measure, Plan, Side, Stance
from companion.core.recent import Blank, Run, Slip
from companion.core.turn import Turn
from tests.core.home import home
from tests.core.practice import CLIENT, MONDAY, RULES, THERAPIST, client, plan, planned

DAY = timedelta(days=1)
PLAN = plan(planned("press"), planned("tandem", form="gap", target=45, hand=Hand.FINGERTIPS))


def after(*recorded: Observation, of: Plan | None = PLAN, **more: object) -> Client:
    """The client after these were recorded in one step."""
    turn = Turn(client(of, **more), MONDAY, 0, RULES)
    before = turn.client
    turn.effects += [Record(one) for one in recorded]
    note(turn, before)
    return turn.client


def bout(side: Side, quality: Quality = Quality.CLEAN, session: str = "s1", **more: object) -> Bout:
    it = Bout(
        at=MONDAY, session=session, exercise="tandem", form="gap", stance=Stance.HEEL_TO_TOE, eyes=Eyes.OPEN,
        hand=Hand.FINGERTIPS, clock=Clock.SCREEN, measure=Measure.TIMED, target=45, side=side, quality=quality,
        practised_s=45.0, done=None, first_break=None, broke_by=None, reporter=Reporter.CLIENT,
    )  # fmt: skip
    return replace(it, **more)  # type: ignore[arg-type]


def counted(*bouts: Bout, of: Plan | None = PLAN) -> list[tuple[int, int, int]]:
    return [(run.sides, run.clean, run.broke) for run in after(*bouts, of=of).runs]


def test_the_bouts_of_both_sides_are_one_run() -> None:
    both = (bout(Side.WEAKER), bout(Side.STRONGER, Quality.BROKE))
    assert counted(*both) == [(2, 1, 1)]


def test_what_nobody_told_or_ended_early_is_neither_clean_nor_broken() -> None:
    assert counted(bout(Side.WEAKER, Quality.UNKNOWN), bout(Side.STRONGER, Quality.ENDED_EARLY)) == [(2, 0, 0)]


def test_a_bout_easier_than_planned_is_not_clean_and_a_harder_one_is() -> None:
    assert counted(bout(Side.WEAKER, hand=Hand.ONE_HAND)) == [(2, 0, 1)]
    assert counted(bout(Side.WEAKER, form="half")) == [(2, 0, 1)]
    assert counted(bout(Side.WEAKER, target=30)) == [(2, 0, 1)]
    assert counted(bout(Side.WEAKER, hand=Hand.NONE)) == [(2, 1, 0)]
    assert counted(bout(Side.WEAKER, form="touching", hand=Hand.ONE_HAND)) == [(2, 1, 0)]


def test_the_weaker_side_is_measured_by_its_own_dose() -> None:
    of = plan(planned("tandem", form="gap", target=45, weaker_target=30, hand=Hand.FINGERTIPS))
    assert counted(bout(Side.WEAKER, target=30), of=of) == [(2, 1, 0)]
    assert counted(bout(Side.STRONGER, target=30), of=of) == [(2, 0, 1)]


def test_a_bout_of_no_plan_or_of_an_exercise_that_is_not_in_it_is_not_kept() -> None:
    assert counted(bout(Side.WEAKER), of=None) == []
    assert counted(bout(Side.WEAKER), of=plan(planned("press"))) == []
    assert counted(bout(Side.WEAKER, exercise="gone")) == []


def test_no_more_runs_of_an_exercise_are_kept_than_a_rule_asks_for() -> None:
    many = [bout(Side.WEAKER, session=f"s{number}") for number in range(9)]
    assert [run.session for run in after(*many).runs] == ["s6", "s7", "s8"]


def test_a_flag_a_fall_or_a_near_fall_begins_the_runs_anew() -> None:
    some = (Run("tandem", "s0", MONDAY.date(), 2, 2, 0, "easy"),)
    flag = FlagRaised(MONDAY, "f1", "felt_unwell", Level.URGENT, ("felt_unwell",), CLIENT)
    assert after(flag, runs=some).runs == ()
    for kind in FallKind:
        assert after(FallReported(MONDAY, "f1", kind, CLIENT), runs=some).runs == ()


def test_of_one_fall_the_last_word_is_kept_on_the_day_at_the_clients_home() -> None:
    late = MONDAY.replace(hour=23, minute=30)
    told = (FallReported(late, "f1", FallKind.UNKNOWN, CLIENT), FallReported(late, "f1", FallKind.NEAR_FALL, CLIENT))
    assert after(*told, zone="Pacific/Auckland").slips == (Slip(date(2026, 11, 3), "f1", FallKind.NEAR_FALL),)


def test_days_without_a_session_are_kept_for_a_month() -> None:
    days = [DayClosed(MONDAY, MONDAY.date() + number * DAY, Ending.NO_ANSWER) for number in range(KEPT_BLANKS + 4)]
    kept = after(*days).blanks
    assert len(kept) == KEPT_BLANKS and kept[-1] == Blank(days[-1].day, Ending.NO_ANSWER)


def test_the_last_own_words_are_kept_and_long_ones_are_cut() -> None:
    told = [OwnWords(MONDAY, Reporter.CLIENT, f"{number}" * 900) for number in range(5)]
    kept = after(*told, OwnWords(MONDAY, Reporter.CARER, "", "photo")).said
    assert len(kept) == KEPT_WORDS and kept[-1].form == "photo" and kept[-2].text == "4" * KEPT_LETTERS


def test_another_dose_drops_the_runs_of_that_exercise_alone() -> None:
    runs = (Run("tandem", "s0", MONDAY.date(), 2, 2), Run("press", "s0", MONDAY.date(), 1, 1))
    it = home(PLAN, runs=runs)
    changed = replace(PLAN, version=2, exercises=(PLAN.exercises[0], replace(PLAN.exercises[1], target=60)))
    it.do(Prescribed(it.now, changed, THERAPIST))
    assert [run.exercise for run in it.client.runs] == ["press"]


def test_the_effort_of_the_session_is_that_of_each_of_its_runs() -> None:
    it = home(PLAN).start().check().finish(("hard",))
    assert [(run.exercise, run.effort) for run in it.client.runs] == [("press", "hard"), ("tandem", "hard")]
