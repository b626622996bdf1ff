"""One phone for client and carer, where the therapist allows it: the carer's screens on the client's phone, not verified."""

from functools import cache
from typing import Any

import pytest

from companion.core.effects import Say, words
from companion.core.events import Briefed, Control, Press
from companion.core.observations import Answer, CarerSeen, Reporter
from companion.core.person import Part, Person
from companion.core.steps import Gate
from tests.core.everywhere import everywhere
from tests.core.home import Home, home
from tests.core.people import People
from tests.core.practice import CARER, CLIENT, CONTACT, THERAPIST, ZONE, alone, client, full_plan, plan, planned

READ = ((CLIENT, "1"),)


def shared(*items: Any, **more: Any) -> Home:
    """A home without a carer's phone, the therapist allowing the client's for both, the briefing read there."""
    of = plan(*items, eyes_closed=True) if items else full_plan()
    return home(of, **alone(shared_phone=True, **{"briefed": READ, **more}))


def words_on(it: Home, card: str = "session") -> list[str]:
    return [line.key for line in it.phone(CLIENT).cards[card].words]


def test_the_carer_is_asked_on_the_clients_phone_in_words_marked_as_theirs_and_no_number_is_shown() -> None:
    it = shared().start().reach("helper")
    assert words_on(it) == ["for-helper", "gate-carer-look"]
    assert [button.press.choice for button in it.phone(CLIENT).cards["session"].buttons] == ["beside", "not_there", "different"]
    assert not any(isinstance(step, Gate) for step in it.session.script.steps)


def test_a_session_on_a_shared_phone_goes_to_its_end_and_is_reported_as_not_verified() -> None:
    it = shared().start().finish(("beside", "clean"))
    assert it.ended[-1].carer is CarerSeen.NOT_VERIFIED and it.ended[-1].done == it.ended[-1].planned
    assert {say.to for phone in it.phones.values() for say in phone.said} <= {CLIENT, THERAPIST, CONTACT}


def test_who_says_that_the_carer_is_not_there_does_not_stand() -> None:
    it = shared().start().reach("helper")
    it.press(CLIENT, "not_there")
    assert it.at == "carer-not-there"
    it.press(CLIENT, "seated")
    it.finish()
    assert it.ended[-1].carer is CarerSeen.ABSENT and {bout.stance.value for bout in it.bouts} == {"seated"}


def test_something_different_brings_the_emergency_words_and_then_the_signs_for_the_carer() -> None:
    it = shared().start().reach("helper")
    it.press(CLIENT, "different")
    assert it.keys(CLIENT)[:2] == ["emergency-stop", "emergency-call"] and words_on(it)[0] == "for-helper"
    it.press(CLIENT, "different")
    assert it.held and "carer_different" in it.hold.facts


def test_the_carers_clock_runs_on_the_clients_phone_and_its_end_tells_the_carer_what_to_say() -> None:
    it = shared(planned("press"), planned("dark")).start().reach(".start")
    assert words_on(it)[:2] == ["for-helper", "carer-clock"]
    it.press(CLIENT, "start")
    assert it.at.endswith(".hold") and words_on(it) == ["for-helper", "carer-hold"]
    it.wait(20)
    it.press(CLIENT, "tap")
    it.until(it.wake)
    assert words_on(it) == ["time", "for-helper", "carer-say-down-eyes", "ask-how"]
    assert len([say for say in it.last if isinstance(say, Say) and say.to == CLIENT]) == 1
    it.press(CLIENT, "not_quite")
    assert it.at.endswith(".known")


def test_what_the_carer_does_stands_with_the_set_up() -> None:
    it = shared(planned("press"), planned("toes")).start().reach("b2.2.set")
    assert words_on(it)[-2:] == ["for-helper", "form-toes-up.carer"]


def test_the_carer_had_to_leave_is_under_more_and_ends_standing_at_once() -> None:
    it = shared().start().reach(".hold")
    it.row(CLIENT, Control.MORE)
    assert [button.press.choice for button in it.phone(CLIENT).cards["menu"].buttons] == ["fell", "left", "else"]
    it.press(CLIENT, "left")
    assert it.at == "carer-left" and it.session.checked_at is None
    it.press(CLIENT, "back")
    it.reach("helper")
    it.press(CLIENT, "beside")
    it.finish()
    assert it.ended[-1].carer is CarerSeen.NOT_VERIFIED


def test_a_carer_with_a_phone_of_their_own_may_say_there_that_they_had_to_leave() -> None:
    it = home(full_plan(), shared_phone=True).start().reach(".hold", ("same", "ready", "beside"))
    it.row(CARER, Control.HAD_TO_LEAVE)
    assert it.at == "carer-left" and it.keys(CARER) == ["carer-left-thanks"]


def test_the_briefing_can_be_read_again_on_the_shared_phone() -> None:
    it = shared()
    it.row(CLIENT, Control.MORE)
    for choice in ("else", "rest", "help"):
        it.press(CLIENT, choice)
    assert [button.label.key for button in it.phone(CLIENT).cards["help"].buttons] == ["b-short-words", "b-briefing-again"]


@pytest.mark.parametrize("more", [{}, {"shared_phone": False}])
def test_outside_such_a_session_the_menu_is_the_clients_own(more: dict[str, Any]) -> None:
    it = home(plan(planned("sit")), **alone(**{"shared_phone": True, **more}))
    it.row(CLIENT, Control.MORE)
    assert "left" not in [button.press.choice for button in it.phone(CLIENT).cards["menu"].buttons]
    it.send(CLIENT, Press("c1", "menu", "helping", "left"))
    assert it.keys(CLIENT) == ["nothing-runs"]


def test_the_carers_last_word_is_asked_on_the_clients_phone_too() -> None:
    it = shared().start().finish(("beside", "clean"))
    assert words_on(it, "carer") == ["for-helper", "carer-finished", "carer-finished-ask"]
    it.press(CLIENT, "saw_step")
    assert [(one.question, one.answer, one.by) for one in it.all(Answer)][-2:] == [
        ("carer_after", "all_well", Reporter.CARER),
        ("carer_saw", "step_or_touch", Reporter.CARER),
    ]


def test_silence_after_a_stance_is_told_in_words_for_the_carer_and_then_to_the_therapist() -> None:
    it = shared().start().reach(".hold")
    it.until(it.wake)
    it.wait(it.rules.patience.carer_nudge_s)
    assert it.keys(CLIENT) == ["for-helper", "nudge-carer", "nudge-carer-wrong"]
    it.wait(it.rules.patience.no_word_s)
    assert it.over and "no-word-therapist" in it.heard(THERAPIST)


def test_without_the_briefing_nobody_stands_and_the_phone_says_so_to_both() -> None:
    it = shared(briefed=()).start()
    assert it.phone(CLIENT).cards["carer"].words[0].key == "for-helper"
    it.reach("no-carer-briefed")
    it.do(Briefed(it.now, CLIENT, "1"))
    it.press(CLIENT, "later")
    it.wait(it.rules.patience.later_s)
    it.press(CLIENT, "start")
    it.reach(".hold", ("same", "ready", "beside"))


# --- wherever a session is ------------------------------------------------------------------------------------


@cache
def places() -> dict[str, Home]:
    """Every step at which a session on a shared phone can wait."""
    found = everywhere(shared().start())
    assert len(found) > 100
    return found


def test_something_is_wrong_and_a_fall_stop_everything_wherever_the_session_is() -> None:
    for place, there in places().items():
        it, other = there.copy(), there.copy()
        it.row(CLIENT, Control.SOMETHING_WRONG)
        assert it.held and it.over and it.keys(CLIENT)[0] == "emergency-stop", place
        other.row(CLIENT, Control.MORE)
        other.press(CLIENT, "fell")
        assert other.held and other.over, place


def test_the_carer_can_leave_wherever_the_session_is_and_nobody_stands_after() -> None:
    for place, there in places().items():
        it = there.copy()
        it.row(CLIENT, Control.MORE)
        it.press(CLIENT, "left")
        assert it.over or (it.at == "carer-left" and it.session.checked_at is None), place


def test_left_alone_a_session_on_a_shared_phone_closes_by_itself() -> None:
    for place, there in places().items():
        it = there.copy()
        it.wait(12 * 3600)
        assert it.over, place


# --- the therapist allows it ----------------------------------------------------------------------------------


def page(*presses: tuple[str, str], by: str = THERAPIST, **more: Any) -> Home:
    it = home(full_plan(), **more)
    for step, choice in presses:
        it.send(by, Press("c1", "page", step, choice))
    return it


def test_the_therapist_allows_it_in_two_steps_and_a_second_press_changes_nothing() -> None:
    it = page(("page", "shared"))
    seen = [(it.client.shared_phone, it.keys(THERAPIST)[1])]
    for way in ("on", "on", "off"):
        it.send(THERAPIST, Press("c1", "page", "shared", way))
        seen.append((it.client.shared_phone, it.keys(THERAPIST)[1]))
    on, off = (True, "page-shared-is-on"), (False, "page-shared-is-off")
    assert seen == [off, on, on, off] and it.keys(CLIENT) == ["shared-no-more"]


@pytest.mark.parametrize("by", [CLIENT, CONTACT, "somebody"])
def test_nobody_but_the_therapist_allows_it(by: str) -> None:
    assert not page(("shared", "on"), by=by).client.shared_phone


def test_who_shares_a_phone_reads_the_briefing_there_in_words_marked_for_the_carer() -> None:
    people = People([Person(CLIENT, Part.CLIENT, "Ann", ZONE, ("c1",))], [client(full_plan(), **alone(briefed=()))])
    people.send(THERAPIST, Press("c1", "page", "shared", "on"))
    assert people.keys(CLIENT) == ["shared-now", "for-helper", "shared-read"]
    people.press(CLIENT, "b-read-briefing")
    assert people.keys(CLIENT)[0] == "for-helper"
    for topic in people.rules.briefing.topics:
        people.press(CLIENT, "b-go-on")
        people.press(CLIENT, topic.right)
    assert people.clients["c1"].briefed == READ


def test_a_carer_with_a_phone_of_their_own_who_was_briefed_there_need_not_read_it_again() -> None:
    it = page(("shared", "on"))
    assert it.client.shared_phone and "shared-read" not in it.heard(CLIENT)
    it.start().reach(".hold", ("same", "ready", "beside"))
    assert it.session.carer_phone == CLIENT and it.session.carer is CarerSeen.NOT_VERIFIED


def test_the_therapist_reads_on_the_page_that_it_was_read_on_the_shared_phone() -> None:
    it = page(("shared", "on"), briefed=READ)
    it.send(THERAPIST, Press("c1", "page", "page", "open"))
    told = [line for say in it.last if isinstance(say, Say) for line in say.words]
    carer = next(line for line in told if line.key == "page-carer")
    assert words("page-briefed", version="1") in dict(carer.params).values() and "page-shared" in it.keys(THERAPIST)


def test_a_session_under_way_ends_as_it_began() -> None:
    it = home(full_plan()).start().check().reach(".hold")
    it.send(THERAPIST, Press("c1", "page", "shared", "on"))
    it.finish()
    assert it.ended[-1].carer is CarerSeen.VERIFIED
