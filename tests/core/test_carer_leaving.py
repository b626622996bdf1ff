"""A carer who goes: for now, and then a new number; or for good, and then nothing more is seen or done."""

from dataclasses import replace
from typing import Any

import pytest

from companion.core import person as people
from companion.core.baseline import About, Baseline
from companion.core.effects import ClearButtons, Pass, Say, TakeBack
from companion.core.events import BaselineTaken, Control, Controlled, Joined, Press, Pressed, Released, Typed
from companion.core.observations import CarerSeen, Ending
from companion.core.person import Part, Person
from tests.core.home import Home, home
from tests.core.practice import CARER, CLIENT, CONTACT, MONDAY, PEOPLE, RULES, THERAPIST, ZONE, full_plan


def removed(it: Home | None = None, **more: Any) -> Home:
    it = it or home(full_plan(), **more)
    it.send(THERAPIST, Press("c1", "page", "page", "remove_carer"))
    it.press(THERAPIST, "remove_carer")
    return it


# --- had to leave ---------------------------------------------------------------------------------------------


def test_who_comes_back_takes_a_new_check_and_a_new_number_before_anybody_stands() -> None:
    it = home(full_plan()).start().reach("helper")
    first = it.session.numbers
    it.number()
    it.reach(".hold")
    it.row(CARER, Control.HAD_TO_LEAVE)
    assert it.at == "carer-left" and it.keys(CARER) == ["carer-left-thanks"]
    it.press(CLIENT, "back")
    it.reach("helper")
    assert it.session.numbers != first
    old = Press("c1", it.session.id, str(it.session.turn), f"n{first[0]}")
    it.send(CARER, old)
    assert it.at == "helper", "the number of before proves nothing now"
    it.number()
    it.finish()
    assert it.ended[-1].carer is CarerSeen.VERIFIED


# --- removed by the therapist ---------------------------------------------------------------------------------


def test_the_therapist_is_asked_once_more_before_the_carer_is_removed() -> None:
    it = home(full_plan())
    it.send(THERAPIST, Press("c1", "page", "page", "remove_carer"))
    assert it.client.people == PEOPLE and {"page-remove-ask", "page-remove-means"} <= set(it.keys(THERAPIST))
    it.press(THERAPIST, "remove_carer")
    assert it.client.people == replace(PEOPLE, carer=None) and "page-removed" in it.keys(THERAPIST)


def test_a_removed_carer_gets_one_polite_line_and_loses_what_was_still_to_come() -> None:
    it = removed(people=replace(PEOPLE, contacts=(CONTACT, CARER)))
    assert it.keys(CARER) == ["carer-removed"] and it.keys(CLIENT) == ["carer-removed-client"]
    assert [effect.event for effect in it.last if isinstance(effect, Pass)] == [Released(it.now, "c1")]
    assert {effect.topic for effect in it.last if isinstance(effect, TakeBack) and effect.to == CARER} >= {"session", "alert"}
    assert {effect.card for effect in it.last if isinstance(effect, ClearButtons) and effect.to == CARER} >= {"carer", "menu"}
    assert it.client.people.contacts == (CONTACT,) and it.client.briefed == () and CARER not in it.client.joined


def test_pressed_twice_it_is_done_once() -> None:
    it = removed()
    it.send(THERAPIST, Press("c1", "page", "remove_carer", "remove_carer"))
    assert it.keys(CARER) == [] and "page-carer-none" in it.keys(THERAPIST)


@pytest.mark.parametrize("by", [CLIENT, CARER, CONTACT, "somebody"])
def test_nobody_but_the_therapist_removes_a_carer(by: str) -> None:
    it = home(full_plan())
    it.send(by, Press("c1", "page", "remove_carer", "remove_carer"))
    assert it.client.people.carer == CARER


def test_a_session_with_the_carer_who_is_removed_ends_kindly() -> None:
    it = removed(home(full_plan()).start().check().reach(".hold"))
    assert it.over and it.ended[-1].ending is Ending.PARTLY
    assert "closing-enough" in it.keys(CLIENT) and it.keys(CARER) == ["carer-removed"]


@pytest.mark.parametrize("where", ["helper", ".hold", ".start"])
def test_the_old_buttons_of_a_removed_carer_do_nothing(where: str) -> None:
    it = home(full_plan()).start().reach(where, ("same", "ready"))
    removed(it)
    before = it.client
    menu = Press("c1", "menu", "more", "fell")
    for press in [*(press for by, press in it.ever if by == CARER), menu]:
        it.send(CARER, press)
        assert it.client == before and not [effect for effect in it.last if isinstance(effect, Say)]


def test_the_carers_last_word_is_not_taken_from_one_who_was_removed() -> None:
    it = home(full_plan()).start().check().finish()
    press = next(button.press for button in it.phone(CARER).buttons() if button.press.choice == "all_well")
    removed(it)
    before = len(it.records)
    it.send(CARER, press)
    assert len(it.records) == before


def test_after_it_a_plan_that_needs_a_carer_is_seated() -> None:
    it = removed().start().finish()
    assert {bout.stance.value for bout in it.bouts} == {"seated"}


def test_on_a_shared_phone_the_next_helper_reads_the_briefing_anew() -> None:
    it = home(full_plan(), shared_phone=True, briefed=((CLIENT, "1"),))
    removed(it).start().reach("no-carer-briefed")


def test_a_flag_that_follows_tells_a_removed_carer_nothing() -> None:
    it = removed()
    it.row(CLIENT, Control.SOMETHING_WRONG)
    it.wait(3 * 3600)
    assert "emergency-go" not in it.heard(CARER) and "alert-contact" not in it.heard(CARER)


# --- the phone of a carer who helps nobody here any more ------------------------------------------------------


def former() -> Person:
    them = Person(CARER, Part.CARER, "Ben", ZONE, ("c1",), user_id=7, briefed="1")
    return people.step(them, Released(MONDAY, "c1"), RULES).person


@pytest.mark.parametrize(
    "event",
    [
        Controlled(MONDAY, CARER, Control.SOMETHING_WRONG),
        Controlled(MONDAY, CARER, Control.MORE),
        Typed(MONDAY, CARER, "hello"),
    ],
)
def test_their_row_and_their_words_get_one_polite_line_with_whom_to_call(event: Controlled | Typed) -> None:
    decision = people.step(former(), event, RULES)
    said = [[line.key for line in effect.words] for effect in decision.effects if isinstance(effect, Say)]
    assert said == [["helps-nobody", "typed-emergency"]] and len(decision.effects) == 1


def test_their_buttons_and_start_open_nothing() -> None:
    opened = people.step(former(), Pressed(MONDAY, CARER, Press(f"@{CARER}", "menu", "more", "briefing")), RULES)
    assert opened.person.dialogue is None
    again = people.step(former(), Joined(MONDAY, CARER, again=True), RULES)
    assert again.person.dialogue is None and not [effect for effect in again.effects if isinstance(effect, Pass)]


def test_a_baseline_that_was_open_when_the_carer_was_removed_does_not_bring_them_back() -> None:
    it = home(full_plan())
    about = About("Ann", ZONE, None, (CARER, "Ben"), ((CONTACT, "Dov"), (CARER, "Ben")))
    baseline = Baseline("left", "left", "none", "no", "none", "voice")
    removed(it)
    it.do(BaselineTaken(it.now, THERAPIST, baseline, about))
    assert it.client.people == replace(PEOPLE, carer=None, names=it.client.people.names)
    it.do(BaselineTaken(it.now, THERAPIST, baseline, replace(about, carer=("k2", "Eva"), contacts=())))
    assert it.client.people.carer == "k2" and it.client.briefed == ()
