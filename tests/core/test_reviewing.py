"""The therapist enters what was measured at a review: a screen each, nothing is lost, nothing is counted twice."""

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta

import pytest

from companion.core.care import facts
from companion.core.dialogues import Enrolling, Reviewing
from companion.core.effects import Subject
from companion.core.events import Control, HandedOver, Opened, Opens, Press, ReviewDone
from companion.core.person import own
from companion.core.review_entries import Act, read
from companion.core.review_screens import screen
from companion.core.review_values import GoalLevel, ReviewValues
from tests.core.people import People
from tests.core.practice import MONDAY, THERAPIST, client, plan, planned
from tests.core.reviewer import (
    DEE,
    GOAL,
    ann,
    asked,
    choose,
    dialogue,
    enter,
    goal,
    keys,
    labels,
    open_measure,
    page,
    reviewed,
    said,
    saved,
    stages,
    values,
    visit,
    whole,
)

DAY = timedelta(days=1)
ALL = ReviewValues((10.0, 10.0, 7.2), 14.2, 4.5, 12.0, 41, (GoalLevel(GOAL, 1, 3), GoalLevel(None, -1, 1)), 70)


def menu(it: People) -> list[str]:
    return [params.get("measure", key) for key, params in labels(it)]


# --- entering -------------------------------------------------------------------------------------------------


def test_the_page_opens_a_menu_of_all_measures_with_nothing_entered_and_nothing_to_save() -> None:
    it = asked()
    assert keys(it) == ["review-title", "review-menu"]
    assert menu(it) == [
        "review-four-stage",
        "review-sit-to-stand-5",
        "review-one-leg-weaker",
        "review-one-leg-stronger",
        "review-berg",
        "b-review-goal-own",
        "review-decade",
        "b-answer-cancel",
    ]


def test_everything_that_was_measured_is_passed_on_as_it_was_entered() -> None:
    it = choose(whole(asked()), "b-review-save")
    assert saved(it) == [ReviewDone(it.now, THERAPIST, ALL)]
    assert [one.values for one in reviewed(it)] == [ALL] and it.persons[THERAPIST].dialogue is None


def test_beside_each_measure_stands_what_is_entered() -> None:
    it = choose(choose(whole(asked()), "b-review-menu"), "b-review-entered", measure="review-berg")
    assert said(it, "answer-now") == {"answer": "review-points"}
    choose(it, "b-review-menu")
    entered = [params["measure"] for key, params in labels(it) if key == "b-review-entered"]
    assert entered == [one for one in menu(asked()) if one.startswith("review-")]
    assert ("b-review-goal", {"number": "2", "level": "-1", "weight": "1"}) in labels(it)


@pytest.mark.parametrize(
    "measure", ["review-sit-to-stand-5", "review-one-leg-weaker", "review-one-leg-stronger", "review-berg"]
)
def test_anything_can_be_left_out_again(measure: str) -> None:
    it = enter(asked(), measure, "20")
    choose(open_measure(it, measure), "b-review-leave-out")
    assert values(it) == ReviewValues() and "b-review-preview" not in menu(it)


def test_one_measure_alone_can_be_saved_and_the_preview_names_what_was_not_measured() -> None:
    it = choose(enter(asked(), "review-berg", "41"), "b-review-preview")
    assert keys(it) == ["review-preview", "review-line", "review-left-out", "review-age-unknown"]
    choose(it, "b-review-save")
    assert saved(it)[0].values == ReviewValues(berg=41)


def test_an_age_alone_is_no_review() -> None:
    it = choose(open_measure(asked(), "review-decade"), "review-age-80")
    assert values(it).decade == 80 and "b-review-preview" not in menu(it)
    choose(open_measure(it, "review-decade"), "review-age-none")
    assert values(it) == ReviewValues()


def test_the_weaker_side_is_the_one_of_the_baseline_and_unknown_without_one() -> None:
    def sides(it: People) -> list[str]:
        names = [dict(button.label.params).get("measure") for button in it.phone(THERAPIST).cards["desk"].buttons]
        found = [dict(name.params)["side"] for name in names if not isinstance(name, str | None) and name.params]
        return [one.key.rpartition("-")[2] for one in found if not isinstance(one, str)]

    assert sides(asked()) == ["left", "right"]
    assert sides(asked(visit(baseline=None))) == ["unknown", "unknown"]


# --- the 4-stage balance test ---------------------------------------------------------------------------------


def test_the_test_ends_at_the_first_stage_not_held_and_the_next_is_never_offered() -> None:
    it = stages(asked(), "held", "held", "7.2")
    assert values(it).four_stage == (10.0, 10.0, 7.2)
    assert keys(it)[-2:] == ["review-stages-stopped", "review-stages-risk"]
    assert [key for key, _ in labels(it)] == ["b-review-take-back", "b-review-menu"]
    it.write(THERAPIST, "3")
    assert values(it).four_stage == (10.0, 10.0, 7.2) and keys(it)[0] == "plan-only-buttons"


def test_almost_10_is_not_10() -> None:
    it = stages(asked(), "held", "9.99")
    assert values(it).four_stage == (10.0, 9.99) and "review-stage-now" not in keys(it)
    assert "review-stages-stopped" in keys(it)


def test_a_test_that_ends_before_heel_to_toe_says_that_it_was_not_reached() -> None:
    it = stages(asked(), "held", "0")
    assert keys(it)[-2:] == ["review-stages-stopped", "review-stages-not-reached"]


def test_a_failure_on_one_leg_alone_is_no_flag() -> None:
    it = stages(asked(), "10", "10,0", "10.00", "3")
    assert values(it).four_stage == (10.0, 10.0, 10.0, 3.0) and keys(it)[-2:] == [
        "review-stages-stopped",
        "review-stages-no-risk",
    ]


def test_each_stage_is_named_in_order_until_all_4_are_held() -> None:
    it = open_measure(asked(), "review-four-stage")
    for stage in ("side-by-side", "half-step", "heel-to-toe", "one-leg"):
        assert said(it, "review-stage-now") == {"stage": f"review-{stage}"}
        choose(it, "b-review-held")
    assert keys(it)[-2:] == ["review-stages-all", "review-stages-no-risk"]


def test_a_stage_is_taken_back_one_at_a_time() -> None:
    it = stages(asked(), "held", "4")
    choose(it, "b-review-take-back")
    assert values(it).four_stage == (10.0,) and said(it, "review-stage-now") == {"stage": "review-half-step"}
    choose(it, "b-review-take-back")
    assert values(it) == ReviewValues()


def test_a_test_that_was_not_ended_says_so_in_the_preview() -> None:
    it = choose(choose(stages(asked(), "held"), "b-review-menu"), "b-review-preview")
    assert "review-stages-open" in keys(it) and not [key for key in keys(it) if "risk" in key or "reached" in key]


@pytest.mark.parametrize("text", ["10.01", "12", "-1", "  ", "ten", "held"])
def test_the_seconds_of_a_stage_are_0_to_10(text: str) -> None:
    it = stages(asked(), "held")
    it.write(THERAPIST, text)
    assert values(it).four_stage == (10.0,) and keys(it)[0] == "review-not-taken"
    assert said(it, "review-not-taken")["measure"] == "review-half-step"


# --- numbers --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "number"),
    [("14.2", 14.2), ("14,2", 14.2), (" 14 ", 14.0), ("14.25 s", 14.25), ("14S", 14.0), ("7 sec", 7.0), ("600", 600.0)],
)
def test_seconds_are_read_with_a_point_or_a_comma(text: str, number: float) -> None:
    assert values(enter(asked(), "review-sit-to-stand-5", text)).sit_to_stand_5 == number


@pytest.mark.parametrize(
    "text",
    ["", "fast", "14.2.1", "1 4", "14..2", "601", "600.01", "0", "-3", "1e2", "14.255", "nan", "inf", "\u0661\u0664", "14 min"],
)
def test_what_is_no_number_or_out_of_range_is_told_in_one_line_and_loses_nothing(text: str) -> None:
    it = enter(enter(asked(), "review-sit-to-stand-5", "20"), "review-sit-to-stand-5", text)
    assert keys(it) == ["review-not-taken", "review-ask", "answer-now"]
    assert values(it) == ReviewValues(sit_to_stand_5=20.0) and dialogue(it).at == "sit_to_stand_5"
    told = said(it, "review-not-taken")
    assert told == {"measure": "review-sit-to-stand-5", "said": text, "taken": "review-takes-s"}
    it.write(THERAPIST, "21")
    assert values(it) == ReviewValues(sit_to_stand_5=21.0)


@pytest.mark.parametrize(("text", "points"), [("0", 0), ("56", 56), (" 41 ", 41), ("007", 7)])
def test_the_berg_total_is_0_to_56_whole_points(text: str, points: int) -> None:
    found = values(enter(asked(), "review-berg", text)).berg
    assert found == points and isinstance(found, int)


@pytest.mark.parametrize("text", ["57", "41.5", "41,0", "-1", "41 s", "41/56", "\u00b2", "forty"])
def test_a_berg_total_that_can_not_be_is_not_taken(text: str) -> None:
    it = enter(asked(), "review-berg", text)
    assert values(it) == ReviewValues() and said(it, "review-not-taken")["taken"] == "review-takes-points"


def test_a_time_on_one_leg_may_be_nothing() -> None:
    assert values(enter(asked(), "review-one-leg-weaker", "0")).one_leg_weaker == 0.0


def test_of_many_words_only_the_first_are_said_again() -> None:
    it = enter(asked(), "review-berg", "x" * 5000)
    assert said(it, "review-not-taken")["said"] == "x" * 20


def test_no_measure_takes_what_another_does() -> None:
    assert read("four_stage", "10") == 10 and read("four_stage", "56") is None and read("berg", "600") is None


# --- goals ----------------------------------------------------------------------------------------------------


def test_the_clients_own_goal_comes_first_and_others_are_numbered() -> None:
    it = goal(asked(), "2", "5")
    goal(goal(it, "0", "1", "b-review-goal-more"), "minus-2", "2", "b-review-goal-more")
    assert values(it).goals == (GoalLevel(GOAL, 2, 5), GoalLevel(None, 0, 1), GoalLevel(None, -2, 2))
    assert not [key for key, _ in labels(it) if key in ("b-review-goal-own", "b-review-goal-more")], "3 are the most"


def test_without_a_goal_of_the_clients_it_is_goal_1() -> None:
    it = choose(asked(visit(goal="")), "b-review-goal-more")
    line = next(line for line in it.phone(THERAPIST).cards["desk"].words if line.key == "review-goal-ask")
    assert [getattr(value, "key", "") for _, value in line.params] == ["review-goal"]
    assert values(choose(choose(it, "review-level-0"), "b-review-weight", weight="1")).goals == (GoalLevel(None, 0, 1),)


def test_a_goal_counts_once_its_weight_is_chosen_and_not_before() -> None:
    it = choose(choose(asked(), "b-review-goal-own"), "review-level-1")
    assert values(it) == ReviewValues()
    choose(choose(it, "b-answer-back"), "b-review-menu")
    assert values(it) == ReviewValues() and dialogue(it).level is None


def test_a_goal_is_changed_and_taken_out_and_no_other_takes_its_words() -> None:
    it = goal(goal(asked(), "2", "5"), "0", "1", "b-review-goal-more")
    choose(choose(it, "b-review-goal", number="1"), "review-level-minus-1")
    choose(it, "b-review-weight", weight="4")
    assert values(it).goals == (GoalLevel(GOAL, -1, 4), GoalLevel(None, 0, 1))
    choose(choose(it, "b-review-goal", number="1"), "b-review-leave-out")
    assert values(it).goals == (GoalLevel(None, 0, 1),)
    assert values(goal(it, "1", "1")).goals == (GoalLevel(None, 0, 1), GoalLevel(GOAL, 1, 1))


# --- pressed twice, typed in place of taps, left, begun before ------------------------------------------------


WAYS: dict[str, Callable[[], People]] = {
    "menu": asked,
    "stage": lambda: stages(asked(), "held"),
    "stages over": lambda: stages(asked(), "held", "2"),
    "number": lambda: open_measure(asked(), "review-berg"),
    "number entered": lambda: open_measure(enter(asked(), "review-berg", "41"), "review-berg"),
    "goal": lambda: choose(asked(), "b-review-goal-own"),
    "weight": lambda: choose(choose(asked(), "b-review-goal-own"), "review-level-0"),
    "age": lambda: open_measure(asked(), "review-decade"),
    "preview": lambda: whole(asked()),
    "cancel": lambda: choose(enter(asked(), "review-berg", "41"), "b-answer-cancel"),
    "resume": lambda: asked(enter(asked(), "review-berg", "41")),
}


@pytest.mark.parametrize("way", WAYS)
def test_a_second_press_of_any_button_gets_one_line_and_changes_nothing(way: str) -> None:
    for place in range(len(labels(WAYS[way]()))):
        it = WAYS[way]()
        press = it.phone(THERAPIST).cards["desk"].buttons[place].press
        it.send(THERAPIST, press)
        was, care, records = it.persons[THERAPIST], ann(it), list(it.records)
        it.send(THERAPIST, press)
        assert it.replies[-1] is not None and it.replies[-1].key in ("press-over", "press-stale")
        assert (it.persons[THERAPIST], ann(it), it.records) == (was, care, records) and len(it.records) <= 1


@pytest.mark.parametrize("way", [way for way in WAYS if way not in ("stage", "number", "number entered")])
def test_where_buttons_are_asked_for_typed_words_get_one_line_and_the_screen_again(way: str) -> None:
    for text, form in (("0", ""), ("", "photo"), ("Save", "")):
        it = WAYS[way]()
        was, there = dialogue(it), labels(it)
        it.write(THERAPIST, text, form)
        assert keys(it)[0] == "plan-only-buttons" and labels(it) == there
        assert replace(dialogue(it), turn=was.turn) == was


@pytest.mark.parametrize("form", ["photo", "voice", "edited"])
def test_a_picture_or_an_edited_message_is_no_number(form: str) -> None:
    it = open_measure(asked(), "review-berg")
    it.write(THERAPIST, "", form)
    assert values(it) == ReviewValues() and keys(it)[0] == "review-not-taken"


@pytest.mark.parametrize("way", WAYS)
def test_a_forged_press_changes_nothing(way: str) -> None:
    it = WAYS[way]()
    was = dialogue(it)
    for choice in ("n0", "99", "-1", "", "\N{SUPERSCRIPT TWO}", "save"):
        it.send(THERAPIST, Press(own(THERAPIST), was.id, str(was.turn), choice))
        assert dialogue(it) == was and it.replies[-1] is not None and it.replies[-1].key == "press-over"


def test_cancel_with_nothing_entered_ends_it_and_with_something_asks_once() -> None:
    it = choose(asked(), "b-answer-cancel")
    assert it.persons[THERAPIST].dialogue is None and keys(it) == ["review-dropped"]
    it = choose(enter(asked(), "review-berg", "41"), "b-answer-cancel")
    assert keys(it) == ["review-cancel"]
    assert values(choose(it, "b-answer-keep")).berg == 41
    choose(choose(it, "b-answer-cancel"), "b-review-drop")
    assert it.persons[THERAPIST].dialogue is None and ann(it).first_review is None and not saved(it)


def test_what_was_begun_is_kept_beside_another_dialogue_and_offered_again() -> None:
    it = enter(asked(), "review-berg", "41")
    it.row(THERAPIST, Control.NEW_CLIENT)
    assert isinstance(it.persons[THERAPIST].dialogue, Enrolling)
    page(it, "review")
    assert keys(it) == ["review-resume"]
    assert values(choose(it, "b-answer-keep")).berg == 41
    choose(asked(it), "b-review-anew")
    assert values(it) == ReviewValues() and keys(it) == ["review-title", "review-menu"]
    assert len([one for one in it.persons[THERAPIST].drafts if isinstance(one, Reviewing)]) == 0


def test_a_button_of_a_review_that_was_put_by_goes_on_with_it() -> None:
    it = enter(asked(), "review-berg", "41")
    press = next(one.press for one in it.phone(THERAPIST).cards["desk"].buttons if one.label.key == "b-review-preview")
    it.row(THERAPIST, Control.NEW_CLIENT)
    it.send(THERAPIST, press)
    assert dialogue(it).at == "preview" and values(it).berg == 41


def test_a_review_in_which_nothing_was_entered_is_not_offered_again() -> None:
    it = asked(open_measure(asked(), "review-berg"))
    assert keys(it) == ["review-title", "review-menu"]


def test_what_was_begun_on_another_day_says_so_before_it_is_saved() -> None:
    it = enter(asked(), "review-berg", "41")
    assert "review-begun" not in keys(choose(it, "b-review-preview"))
    it.now += DAY
    choose(asked(it), "b-answer-keep")
    assert said(choose(it, "b-review-preview"), "review-begun") == {"day": "2026-11-02"}
    choose(it, "b-review-menu")
    choose(asked(it), "b-review-anew")
    assert "review-begun" not in keys(choose(enter(it, "review-berg", "40"), "b-review-preview"))


def test_each_client_has_a_review_of_their_own() -> None:
    it = enter(asked(), "review-berg", "41")
    other = replace(client(plan(planned("press"))), id="c2", name="Bea")
    it.tell(THERAPIST, Opened(it.now, Opens.REVIEW, facts(other)))
    assert keys(it) == ["review-title", "review-menu"] and values(it) == ReviewValues()
    assert values(choose(asked(it), "b-answer-keep")).berg == 41


def test_a_therapist_who_gives_the_client_away_loses_what_was_begun() -> None:
    it = enter(asked(), "review-berg", "41")
    assert values(it).berg == 41
    it.do(Subject("client", "c1"), HandedOver(it.now, THERAPIST, DEE, "Dee"))
    assert it.persons[THERAPIST].dialogue is None and it.persons[THERAPIST].drafts == ()


def test_a_screen_that_nobody_knows_any_more_is_the_menu() -> None:
    it = asked()
    unknown = replace(dialogue(it), at="gone")
    assert screen(unknown, MONDAY.date()).options[-1].then is Act.DROP


def test_preview_without_a_measure_is_the_menu() -> None:
    it = asked()
    assert screen(replace(dialogue(it), at="preview"), MONDAY.date()).options == screen(dialogue(it), MONDAY.date()).options
    assert screen(replace(dialogue(it), at="weight"), MONDAY.date()).lines[0].key == "review-goal-ask"
