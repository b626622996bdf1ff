"""A table of questions on one phone: what must be answered is asked, the rest stands with its default, nothing is lost."""

import pytest

from companion.core.questionnaire import CANCEL, SUMMARY, End, Moved, Question, Questionnaire

NAME = Question("name", reads=lambda text: text.strip() or None, section="who")
SIDE = Question("side", ("left", "right"), section="body")
AID = Question("aid", ("none", "stick"), "none", section="body")
SIGNS = Question("signs", ("eyes", "face", "arm"), "", section="body", many=True)
FORM = Questionnaire("baseline", (NAME, SIDE, AID, SIGNS))
DONE = {"name": "Ann", "side": "left"}


def choices(at: str, answers: dict[str, str], form: Questionnaire = FORM) -> list[str]:
    return [choice for _, choice in form.screen(at, answers).choices]


def moved(at: str, answers: dict[str, str], choice: str) -> tuple[str, dict[str, str]]:
    there = FORM.pressed(at, answers, choice)
    assert there is not None and there.end is None
    return there.at, dict(there.answers)


def test_only_what_has_no_default_is_asked_and_then_the_summary_stands() -> None:
    assert FORM.start({}) == "name"
    typed = FORM.typed("name", {}, " Ann ")
    assert typed == Moved("side", (("name", "Ann"),))
    assert moved("side", {"name": "Ann"}, "left") == (SUMMARY, DONE)
    assert FORM.filled(DONE) == {"name": "Ann", "side": "left", "aid": "none", "signs": ""}


def test_a_change_leads_back_to_the_section_it_was_chosen_in() -> None:
    assert choices(SUMMARY, DONE) == ["write", "who", "body", "cancel"]
    assert moved(SUMMARY, DONE, "body") == ("body", DONE)
    assert moved("body", DONE, "aid") == ("aid", DONE)
    assert moved("aid", DONE, "stick") == ("body", {**DONE, "aid": "stick"})
    assert moved("body", DONE, "back") == (SUMMARY, DONE)


def test_with_one_section_the_summary_itself_offers_the_changes() -> None:
    form = Questionnaire("baseline", (SIDE, AID))
    assert choices(SUMMARY, {"side": "left"}, form) == ["write", "side", "aid", "cancel"]
    there = form.pressed("aid", {"side": "left"}, "stick")
    assert there is not None and there.at == SUMMARY


def test_every_question_but_the_first_can_be_gone_back_to() -> None:
    assert "back" not in choices("name", {})
    assert moved("side", {"name": "Ann"}, "back") == ("name", {"name": "Ann"})
    assert moved("aid", DONE, "back") == ("body", DONE)


def test_several_answers_keep_the_order_in_which_they_were_pressed_and_a_second_press_changes_nothing() -> None:
    at, answers = moved("signs", DONE, "face")
    assert (at, answers["signs"]) == ("signs", "face")
    assert moved(at, answers, "face") == (at, answers)
    at, answers = moved(at, answers, "eyes")
    assert answers["signs"] == "face,eyes" and choices(at, answers)[:1] == ["arm"]
    assert moved(at, answers, "done") == ("body", answers)
    assert moved(at, answers, "clear") == ("signs", {**answers, "signs": ""})


def test_cancel_asks_once_and_keeping_on_loses_nothing() -> None:
    assert moved("side", {"name": "Ann"}, "cancel") == (CANCEL, {"name": "Ann"})
    assert moved(CANCEL, {"name": "Ann"}, "keep") == ("side", {"name": "Ann"})
    assert moved(CANCEL, DONE, "keep") == (SUMMARY, DONE)
    dropped = FORM.pressed(CANCEL, DONE, "drop")
    assert dropped is not None and dropped.end is End.DROPPED


def test_write_is_offered_only_when_nothing_is_missing() -> None:
    assert FORM.pressed(SUMMARY, {"name": "Ann"}, "write") is None
    written = FORM.pressed(SUMMARY, DONE, "write")
    assert written is not None and written.end is End.WRITTEN


@pytest.mark.parametrize(
    ("at", "choice"), [("side", "stick"), ("name", "back"), ("gone", "left"), ("body", "write"), (SUMMARY, "left")]
)
def test_a_press_of_what_does_not_stand_there_is_none(at: str, choice: str) -> None:
    assert FORM.pressed(at, DONE if at in ("body", SUMMARY) else {}, choice) is None


def test_words_are_an_answer_only_where_words_are_asked_for() -> None:
    assert FORM.typed("side", {"name": "Ann"}, "left") is None
    assert FORM.typed("name", {}, "  ") is None
    assert FORM.typed(SUMMARY, DONE, "anything") is None


def test_an_answer_that_is_no_longer_offered_is_asked_for_again() -> None:
    assert FORM.start({**DONE, "side": "middle"}) == "side"
    assert FORM.filled({**DONE, "aid": "crutch"})["aid"] == "none"
