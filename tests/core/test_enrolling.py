"""Making a client in the chat: few taps, what bears on safety always asked, nothing lost and nothing done twice."""

from dataclasses import replace

import pytest

from companion.chat.buttons import NAMES
from companion.core.dialogues import Enrolling, Prescribing
from companion.core.effects import Enrol, Invite, Pass, Record, Reply
from companion.core.events import BaselineTaken, Control, DutySet, Facts, Opened, Opens, Press, Released
from companion.core.observations import BaselineNoted
from companion.core.person import Part, Person, own
from companion.core.programme import Quiet
from companion.core.visit import Visit, questions
from tests.core.people import People
from tests.core.practice import RULES, ZONE, client, full_plan

T = "t1"
MUST = ("weaker-side-left", "tap-hand-right", "orthosis-ankle-free", "blood-thinner-no", "falls-last-year-one")
RULES_HERE = replace(RULES, can_be_usual=("balance", "face"))


class Desk(People):
    """A therapist's phone whose taps are counted, those of the fixed row too."""

    taps = 0

    def send(self, by: str, press: Press) -> None:
        self.taps += 1
        super().send(by, press)

    def row(self, by: str, control: Control) -> None:
        self.taps += 1
        super().row(by, control)


def desk(*clients: str) -> Desk:
    """A therapist's phone, nobody enrolled yet."""
    return Desk([Person(T, Part.THERAPIST, "Cleo", ZONE, clients, user_id=3)], rules=RULES_HERE)


def tap(it: Desk, *labels: str) -> None:
    for label in labels:
        it.press(T, label)


def answer(it: Desk, *answers: str) -> None:
    tap(it, *(f"baseline-{one}" for one in answers))


def change(it: Desk, section: str, **answers: str) -> None:
    """On the summary: into a section, each question of it answered by a tap, and back."""
    answer(it, section)
    for question, choice in answers.items():
        choose(it, question)
        choose(it, choice)
    tap(it, "b-answer-back")


def choose(it: Desk, choice: str) -> None:
    """Tap what carries that choice."""
    it.send(T, next(button.press for button in it.buttons(T) if button.press.choice == choice))


def to_the_summary(it: Desk) -> Desk:
    it.row(T, Control.NEW_CLIENT)
    it.write(T, "Ann")
    answer(it, *MUST, "call-for-help-voice", "supervision-always")
    it.write(T, "Ben")
    return it


def dialogue(it: Desk) -> Enrolling:
    found = it.persons[T].dialogue
    assert isinstance(found, Enrolling)
    return found


def enrolled(it: Desk) -> BaselineTaken:
    (taken,) = [one.event for one in it.all(Pass) if isinstance(one.event, BaselineTaken)]
    return taken


# --- few taps -------------------------------------------------------------------------------------------------


def test_a_client_with_every_default_is_written_down_in_9_taps_and_2_typed_names() -> None:
    it = to_the_summary(desk())
    tap(it, "b-answer-write")
    assert it.taps == 9
    (made,) = it.all(Enrol)
    assert [(one.id, one.role, one.name) for one in made.people] == [("t1.1", "client", "Ann"), ("t1.1.k", "carer", "Ben")]
    assert it.persons[T].clients == ("t1.1",)


def test_a_client_with_three_defaults_changed_takes_at_most_20_taps() -> None:
    it = to_the_summary(desk())
    change(it, "person", age_band="age_65_74", walking_aid="stick")
    change(it, "home", support="rail")
    tap(it, "b-answer-write")
    assert it.taps <= 20
    baseline = enrolled(it).baseline
    assert (baseline.age_band, baseline.walking_aid, baseline.support) == ("age_65_74", "stick", "rail")


def test_what_bears_on_safety_has_no_default_and_is_asked_before_anything_can_be_written_down() -> None:
    without = [one.id for one in questions({"supervision": "always"}, Visit(ZONE, ())).questions if one.default is None]
    assert without == [
        *("name", "weaker_side", "tap_hand", "orthosis"),
        *("blood_thinner", "falls_last_year", "call_for_help", "supervision", "carer"),
    ]
    it = desk()
    it.row(T, Control.NEW_CLIENT)
    it.write(T, "Ann")
    for one in (*MUST, "call-for-help-voice"):
        assert "b-answer-write" not in it.labels(T)
        answer(it, one)
    assert "b-answer-write" not in it.labels(T)
    answer(it, "supervision-none")
    assert it.labels(T)[0] == "b-answer-write"


# --- what is written down -------------------------------------------------------------------------------------


def test_rows_come_first_then_the_baseline_then_a_link_for_each_phone_then_the_plan_is_offered() -> None:
    it = to_the_summary(desk())
    answer(it, "risk")
    choose(it, "contacts")
    choose(it, "carer")
    it.write(T, "Dov, Eva")
    tap(it, "b-answer-done", "b-answer-back", "b-answer-write")
    kinds = [type(effect) for effect in it.effects if not isinstance(effect, Reply | Record)]
    assert [kind.__name__ for kind in kinds] == ["Enrol", "Pass", *["Invite"] * 4, "Say"]
    assert [(one.whom, one.words.key) for one in it.all(Invite)] == [
        ("t1.1", "enrol-link-client"),
        ("t1.1.k", "enrol-link-carer"),
        ("t1.1.n2", "enrol-link-contact"),
        ("t1.1.n3", "enrol-link-contact"),
    ]
    about = enrolled(it).about
    assert about is not None and about.carer == ("t1.1.k", "Ben")
    assert about.contacts == (("t1.1.k", "Ben"), ("t1.1.n2", "Dov"), ("t1.1.n3", "Eva"))
    assert it.labels(T) == ["b-enrol-prescribe", "b-enrol-not-now"]


def test_a_deputy_can_be_told_next_and_needs_no_link() -> None:
    it = desk()
    it.persons[T] = replace(it.persons[T], deputy="t2", deputy_name="Rafe")
    to_the_summary(it)
    answer(it, "risk")
    choose(it, "contacts")
    choose(it, "deputy")
    tap(it, "b-answer-done", "b-answer-back", "b-answer-write")
    about = enrolled(it).about
    assert about is not None and about.contacts == (("t2", "Rafe"),)
    assert [one.whom for one in it.all(Invite)] == ["t1.1", "t1.1.k"]
    assert [one.id for one in it.all(Enrol)[0].people] == ["t1.1", "t1.1.k", "t2"]
    assert [one.event for one in it.all(Pass) if isinstance(one.event, DutySet)]


def test_on_one_shared_phone_the_carer_gets_no_link() -> None:
    it = to_the_summary(desk())
    change(it, "home", phones="shared")
    tap(it, "b-answer-write")
    assert enrolled(it).baseline.shared_phone and [one.whom for one in it.all(Invite)] == ["t1.1"]
    assert it.clients["t1.1"].shared_phone


def test_time_zone_and_quiet_hours_are_the_therapists_and_the_night_unless_typed() -> None:
    it = to_the_summary(desk())
    tap(it, "b-answer-write")
    about = enrolled(it).about
    assert about is not None and about.zone == ZONE and about.quiet is not None
    assert (about.quiet.start.hour, about.quiet.end.hour) == (21, 8)
    it = to_the_summary(desk())
    answer(it, "home")
    choose(it, "zone")
    it.write(T, "America/New_York")
    choose(it, "quiet")
    it.write(T, "22-6:30")
    tap(it, "b-answer-back", "b-answer-write")
    about = enrolled(it).about
    assert about is not None and about.zone == "America/New_York" and about.quiet is not None
    assert (about.quiet.start.isoformat("minutes"), about.quiet.end.isoformat("minutes")) == ("22:00", "06:30")


def test_usual_deficits_are_the_signs_of_the_check_and_several_can_be_ticked() -> None:
    it = to_the_summary(desk())
    answer(it, "person")
    choose(it, "deficits")
    tap(it, "sign-face.short", "sign-balance.short", "b-answer-done", "b-answer-back", "b-answer-write")
    assert enrolled(it).baseline.deficits == ("face", "balance")


def test_later_leaves_the_client_without_a_plan_and_shows_the_way_to_their_page() -> None:
    it = to_the_summary(desk())
    tap(it, "b-answer-write", "b-enrol-not-now")
    assert it.persons[T].dialogue is None and it.keys(T) == ["enrol-later"]
    assert it.buttons(T)[0].press == Press("t1.1", "page", "open", "open")


# --- names and words ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("text", ["", "  ", "123", "x" * 31, "/start", "Ann, Ben", "..."])
def test_what_is_no_call_name_is_not_taken_and_the_question_stands_with_one_line(text: str) -> None:
    it = desk()
    it.row(T, Control.NEW_CLIENT)
    it.write(T, text)
    assert dialogue(it).at == "name" and dialogue(it).answers == ()
    assert it.keys(T)[0] == "baseline-name.again" and "baseline-name.ask" in it.keys(T)


@pytest.mark.parametrize("text", ["Ann", " Ann  Lee ", "Zoë", "李", "O'Hara"])
def test_a_call_name_is_kept_as_it_is_written_but_for_spaces(text: str) -> None:
    it = desk()
    it.row(T, Control.NEW_CLIENT)
    it.write(T, text)
    assert dict(dialogue(it).answers)["name"] == " ".join(text.split())


def test_words_in_place_of_a_tap_get_one_line_and_lose_nothing() -> None:
    it = desk()
    it.row(T, Control.NEW_CLIENT)
    it.write(T, "Ann")
    before = dialogue(it)
    it.write(T, "the left one")
    assert dialogue(it) == before and it.keys(T)[0] == "answer-by-tap"
    assert "baseline-weaker-side-left" in it.labels(T)
    it.write(T, "", form="voice")
    assert dialogue(it) == before


# --- twice, back, cancel, a draft -----------------------------------------------------------------------------


def test_every_button_pressed_twice_is_answered_once() -> None:
    it = desk()
    it.row(T, Control.NEW_CLIENT)
    it.row(T, Control.NEW_CLIENT)
    it.write(T, "Ann")
    for one in (*MUST, "call-for-help-voice", "supervision-none"):
        press = next(button.press for button in it.buttons(T) if button.label.key == f"baseline-{one}")
        it.send(T, press)
        after = dialogue(it)
        it.send(T, press)
        assert dialogue(it) == after and it.replies[-1] is not None and it.replies[-1].key == "press-stale"
    write = it.buttons(T)[0].press
    it.send(T, write)
    assert len(it.all(Enrol)) == 1
    it.send(T, write)
    assert it.all(Enrol) == [] and it.all(Pass) == [] and it.persons[T].clients == ("t1.1",)


def test_every_question_can_be_gone_back_to() -> None:
    it = desk()
    it.row(T, Control.NEW_CLIENT)
    it.write(T, "Ann")
    answer(it, "weaker-side-left")
    tap(it, "b-answer-back", "b-answer-back")
    assert dialogue(it).at == "name"
    it.write(T, "Anna")
    assert dict(dialogue(it).answers) == {"name": "Anna", "weaker_side": "left"} and dialogue(it).at == "tap_hand"


def test_cancel_asks_once_and_then_nothing_of_it_is_left() -> None:
    it = to_the_summary(desk())
    tap(it, "b-answer-cancel")
    assert it.keys(T)[-1] == "baseline-cancel"
    tap(it, "b-answer-drop")
    assert it.persons[T].dialogue is None and it.all(Enrol) == []
    it.row(T, Control.NEW_CLIENT)
    assert dialogue(it).answers == ()


def test_a_half_made_draft_is_offered_to_go_on_with() -> None:
    it = desk()
    it.row(T, Control.NEW_CLIENT)
    it.write(T, "Ann")
    answer(it, "weaker-side-left")
    before = dialogue(it)
    it.row(T, Control.NEW_CLIENT)
    assert it.keys(T) == ["enrol-draft"] and it.labels(T) == ["b-answer-keep", "b-enrol-anew"]
    tap(it, "b-answer-keep")
    assert dialogue(it) == before and "baseline-tap-hand-left" in it.labels(T)
    it.row(T, Control.NEW_CLIENT)
    tap(it, "b-enrol-anew")
    assert dialogue(it).answers == () and dialogue(it).client != before.client


def test_a_draft_survives_another_dialogue_on_the_same_phone_and_its_old_buttons_go_on_with_it() -> None:
    it = to_the_summary(desk())
    before, write = dialogue(it), it.buttons(T)[0].press
    turned = replace(
        it.persons[T], dialogue=Prescribing("d9", Facts("c9", "Eva", ZONE), "start", full_plan()), drafts=(before,)
    )
    it.persons[T] = turned
    it.send(T, write)
    assert len(it.all(Enrol)) == 1 and isinstance(it.persons[T].drafts[0], Prescribing)


@pytest.mark.parametrize("choice", ["write", "left", "back", "gone", "", "cancel", "anew"])
@pytest.mark.parametrize("step", ["summary", "name", "draft", "prescribe", "cancel", "home", ""])
def test_no_press_breaks_it_whatever_it_carries(step: str, choice: str) -> None:
    for it in (desk(), to_the_summary(desk())):
        it.row(T, Control.NEW_CLIENT)
        it.send(T, Press(own(T), dialogue(it).id, step, choice))
        assert it.persons[T].id == T


# --- what the answers mean together ---------------------------------------------------------------------------


def test_alone_without_a_call_for_help_is_said_before_it_is_written_down() -> None:
    it = desk()
    it.row(T, Control.NEW_CLIENT)
    it.write(T, "Ann")
    answer(it, *MUST, "call-for-help-phone-tap", "supervision-none")
    assert "baseline-remark-alone" in it.keys(T)


def test_who_can_tap_with_neither_hand_is_never_without_a_carer() -> None:
    it = desk()
    it.row(T, Control.NEW_CLIENT)
    it.write(T, "Ann")
    answer(it, "weaker-side-left", "tap-hand-neither", *MUST[2:], "call-for-help-voice")
    assert "baseline-supervision-none" not in it.labels(T)


def test_an_orthosis_makes_shoes_with_it_the_usual_footwear() -> None:
    it = to_the_summary(desk())
    tap(it, "b-answer-write")
    assert enrolled(it).baseline.footwear == "shoes_orthosis"


def test_one_good_hand_has_the_support_on_the_stronger_side_and_only_two_can_face_it() -> None:
    one, two = ({"tap_hand": hand} for hand in ("left", "either"))
    assert questions(one, Visit(ZONE, ())).find("support_side") is None
    assert questions(two, Visit(ZONE, ())).find("support_side") is not None


# --- taken anew -----------------------------------------------------------------------------------------------


def again(it: Desk) -> Desk:
    """The baseline is opened from the client's page."""
    it.send(T, Press("c1", "page", "more", "baseline"))
    return it


def a_client_of_mine() -> Desk:
    it = desk("c1")
    it.clients["c1"] = client(full_plan())
    return it


def test_taken_anew_it_begins_with_the_answers_that_there_are_and_asks_only_what_nobody_answered() -> None:
    it = again(a_client_of_mine())
    assert dict(dialogue(it).answers)["name"] == "Ann" and dialogue(it).at == "weaker_side"
    answer(it, *MUST, "call-for-help-voice", "supervision-always")
    tap(it, "b-answer-write")
    assert it.all(Enrol) == [] and it.all(Invite) == []
    assert it.clients["c1"].baseline is not None and it.clients["c1"].people.carer == "k1"
    again(it)
    assert dialogue(it).at == "summary" and dict(dialogue(it).answers)["orthosis"] == "ankle_free"


def test_each_baseline_is_recorded_and_the_newest_holds() -> None:
    it = again(a_client_of_mine())
    answer(it, *MUST, "call-for-help-voice", "supervision-always")
    tap(it, "b-answer-write")
    again(it)
    change(it, "risk", blood_thinner="yes")
    tap(it, "b-answer-write")
    noted = [one for one in it.records if isinstance(one, BaselineNoted)]
    assert [one.baseline.blood_thinner for one in noted] == ["no", "yes"]
    now = it.clients["c1"].baseline
    assert now == noted[-1].baseline


def test_a_new_contact_is_made_and_one_taken_away_sees_nothing_more() -> None:
    it = again(a_client_of_mine())
    it.persons["x1"] = Person("x1", Part.CONTACT, "Dov", ZONE, ("c1",), user_id=9)
    answer(it, *MUST, "call-for-help-voice", "supervision-always")
    answer(it, "risk")
    choose(it, "contacts")
    tap(it, "b-answer-clear")
    it.write(T, "Eva")
    tap(it, "b-answer-done", "b-answer-back", "b-answer-write")
    (made,) = it.all(Enrol)
    assert [(one.role, one.name) for one in made.people] == [("contact", "Eva")]
    assert it.clients["c1"].people.contacts == (made.people[0].id,)
    assert it.persons["x1"].clients == ()


def test_a_therapist_who_does_not_see_to_the_client_any_more_changes_nothing() -> None:
    it = again(a_client_of_mine())
    answer(it, *MUST, "call-for-help-voice", "supervision-always")
    it.clients["c1"] = replace(it.clients["c1"], people=replace(it.clients["c1"].people, therapist="t2"))
    before = it.clients["c1"]
    tap(it, "b-answer-write")
    assert it.clients["c1"].baseline is None and it.clients["c1"].people == before.people
    assert "baseline-not-theirs" in it.keys(T)


def test_a_client_who_is_released_takes_the_draft_of_their_baseline_along() -> None:
    it = again(a_client_of_mine())
    it.tell(T, Released(it.now, "c1"))
    assert it.persons[T].dialogue is None


# --- buttons --------------------------------------------------------------------------------------------------


def test_no_button_of_the_baseline_tells_anybody_what_was_asked_or_answered() -> None:
    for answers in ({}, {"tap_hand": "either", "supervision": "always", "orthosis": "ankle_free"}):
        table = questions(answers, Visit(ZONE, RULES_HERE.can_be_usual, deputy="Dov"))
        used = {one for question in table.questions for one in (question.id, *question.choices, question.section)}
        assert {one for one in used if one not in NAMES and not one.isdecimal()} == set()


def test_opening_the_baseline_is_what_the_clients_page_does() -> None:
    it = a_client_of_mine()
    it.tell(T, Opened(it.now, Opens.BASELINE, Facts("c1", "Ann", ZONE)))
    assert dialogue(it).client == "c1"


def test_quiet_hours_of_nobody_stay_none_when_taken_anew() -> None:
    it = again(a_client_of_mine())
    answer(it, *MUST, "call-for-help-voice", "supervision-always")
    tap(it, "b-answer-write")
    assert it.clients["c1"].quiet is None
    it.clients["c1"] = replace(it.clients["c1"], quiet=Quiet(it.now.time(), it.now.time()))
    again(it)
    assert dict(dialogue(it).answers)["quiet"] == "08:00-08:00"
