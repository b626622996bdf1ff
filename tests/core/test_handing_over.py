"""The hand-over and the cover as the therapist does them: who, when, sure; whoever has left the chat is refused."""

from dataclasses import replace
from datetime import UTC, datetime, time, timedelta

import pytest

from companion.core.dialogues import HandingOver
from companion.core.duty import Hours
from companion.core.effects import LookUp, Subject
from companion.core.events import Control, Entry, Found, HandedOver, Joined, Left, Press, Pressed
from companion.core.person import Part, Person
from tests.core.people import People
from tests.core.practice import CARER, CLIENT, CONTACT, MONDAY, THERAPIST, ZONE, client, full_plan

DEE, EVA = "t2", "t3"


def therapist(name: str, called: str, *clients: str) -> Person:
    return Person(name, Part.THERAPIST, called, ZONE, clients, user_id=1)


def clinic(*more: Entry) -> People:
    """A client at home, their therapist, two colleagues."""
    persons = [
        therapist(THERAPIST, "Cleo", "c1"),
        therapist(DEE, "Dee"),
        therapist(EVA, "Eva"),
        Person(CLIENT, Part.CLIENT, "Ann", ZONE, ("c1",), user_id=2),
        Person(CARER, Part.CARER, "Ben", ZONE, ("c1",), user_id=3),
        Person(CONTACT, Part.CONTACT, "Dov", ZONE, ("c1",), user_id=4),
    ]
    it = People(persons, [client(full_plan())])
    it.colleagues = [Entry(DEE, "Dee"), Entry(EVA, "Eva"), *more]
    return it


def asked(it: People, what: str) -> None:
    """The dialogue is opened from the client's page."""

    it.do(Subject("client", "c1"), Pressed(it.now, THERAPIST, Press("c1", "page", "page", what)))


def choose(it: People, choice: str) -> None:
    """Press that choice of the dialogue's card."""
    dialogue = it.persons[THERAPIST].dialogue
    assert isinstance(dialogue, HandingOver)
    press = next(one.press for one in it.phone(THERAPIST).cards["desk"].buttons if one.press.choice == choice)
    it.send(THERAPIST, press)


def card(it: People, who: str = THERAPIST) -> str:
    return it.phone(who).cards["desk"].words[0].key


def test_a_hand_over_is_3_taps_and_moves_the_client_from_one_phone_to_the_other() -> None:
    it = clinic()
    asked(it, "hand_over")
    choose(it, "n0")
    assert card(it) == "hand-sure-over"
    choose(it, "sure")
    assert it.persons[THERAPIST].clients == () and it.persons[DEE].clients == ("c1",)
    assert it.clients["c1"].people.therapist == DEE and it.persons[THERAPIST].dialogue is None
    assert card(it) == "handed-over-from" and card(it, DEE) == "handed-over-to"


@pytest.mark.parametrize(
    ("choice", "first", "last"), [("today_only", 0, 0), ("tomorrow_only", 1, 1), ("1_week", 0, 6), ("2_weeks", 0, 13)]
)
def test_a_cover_is_agreed_for_whole_local_days(choice: str, first: int, last: int) -> None:
    it = clinic()
    asked(it, "cover")
    choose(it, "n1")
    choose(it, choice)
    choose(it, "sure")
    cover = it.clients["c1"].cover
    assert cover is not None and cover.by == EVA
    midnight = MONDAY.replace(hour=0)
    assert cover.start == max(MONDAY, midnight + timedelta(days=first)) and cover.end == midnight + timedelta(days=last + 1)


def test_a_cover_by_typed_dates_runs_from_the_first_to_the_end_of_the_last() -> None:
    it = clinic()
    asked(it, "cover")
    choose(it, "n0")
    it.write(THERAPIST, "2026-12-01 to 2026-12-14")
    choose(it, "sure")
    cover = it.clients["c1"].cover
    assert cover is not None
    assert (cover.start, cover.end) == (datetime(2026, 12, 1, tzinfo=UTC), datetime(2026, 12, 15, tzinfo=UTC))


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("next week", "hand-dates-unread"),
        ("2026-13-01", "hand-dates-unread"),
        ("2026-12-01 2026-12-05 2026-12-09", "hand-dates-unread"),
        ("9999-12-31", "hand-dates-unread"),
        ("2026-12-14 2026-12-01", "hand-dates-past"),
        ("2026-11-01", "hand-dates-past"),
        ("2026-12-01 2027-12-01", "hand-dates-long"),
    ],
)
def test_dates_that_do_not_fit_are_refused_with_the_reason(text: str, line: str) -> None:
    it = clinic()
    asked(it, "cover")
    choose(it, "n0")
    it.write(THERAPIST, text)
    assert card(it) == line
    dialogue = it.persons[THERAPIST].dialogue
    assert isinstance(dialogue, HandingOver) and dialogue.at == "when"


@pytest.mark.parametrize("what", ["hand_over", "cover"])
def test_a_colleague_who_has_left_the_chat_meanwhile_is_refused_with_the_reason(what: str) -> None:
    it = clinic()
    asked(it, what)
    choose(it, "n0")
    if what == "cover":
        choose(it, "1_week")
    it.colleagues = it.colleagues[1:]
    choose(it, "sure")
    assert card(it) == "hand-has-left" and it.clients["c1"].cover is None
    assert it.clients["c1"].people.therapist == THERAPIST


def test_who_left_the_chat_before_the_cover_begins_is_told_to_the_therapist_when_it_does() -> None:
    it = clinic()
    asked(it, "cover")
    choose(it, "n0")
    choose(it, "tomorrow_only")
    choose(it, "sure")
    it.tell(DEE, Left(it.now, DEE))
    it.wait(86400)
    heard = [line.key for say in it.phone(THERAPIST).said for line in say.words]
    assert "cover-left" in heard


def test_without_a_colleague_in_the_chat_nothing_changes() -> None:
    it = clinic()
    it.colleagues = []
    asked(it, "hand_over")
    assert card(it) == "colleagues-none" and it.persons[THERAPIST].dialogue is None


def test_many_colleagues_come_in_pages_and_one_of_the_second_can_be_chosen() -> None:
    it = clinic(*(Entry(f"z{number}", f"Zoe {number}") for number in range(9)))
    it.persons["z8"] = therapist("z8", "Zoe 8")
    asked(it, "hand_over")
    choose(it, "p8")
    choose(it, "n10")
    choose(it, "sure")
    assert it.clients["c1"].people.therapist == "z8"


def test_back_and_cancel_lead_back_and_out_and_change_nothing() -> None:
    it = clinic()
    asked(it, "cover")
    choose(it, "n0")
    choose(it, "1_week")
    choose(it, "back")
    assert card(it) == "hand-ask-when"
    choose(it, "back")
    assert card(it) == "hand-ask-cover"
    choose(it, "cancel")
    assert card(it) == "hand-cancelled" and it.persons[THERAPIST].dialogue is None and it.clients["c1"].cover is None


def test_a_second_press_and_a_press_of_an_older_screen_are_answered_in_one_line() -> None:
    it = clinic()
    asked(it, "hand_over")
    press = it.phone(THERAPIST).cards["desk"].buttons[0].press
    it.send(THERAPIST, press)
    it.send(THERAPIST, press)
    assert it.replies[-1] is not None and it.replies[-1].key == "press-stale"
    choose(it, "sure")
    it.send(THERAPIST, press)
    assert it.replies[-1] is not None and it.replies[-1].key == "press-over"


def test_the_cover_there_is_can_be_ended() -> None:
    it = clinic()
    asked(it, "cover")
    choose(it, "n0")
    choose(it, "1_week")
    choose(it, "sure")
    asked(it, "cover")
    choose(it, "end_cover")
    assert it.clients["c1"].cover is None and it.persons[DEE].clients == ()


def test_a_dialogue_about_a_client_who_is_handed_over_ends_on_the_phone_that_loses_them() -> None:
    it = clinic()
    it.clients["c1"] = replace(it.clients["c1"], people=replace(it.clients["c1"].people, therapist=THERAPIST))
    asked(it, "plan")
    assert it.persons[THERAPIST].dialogue is not None

    it.do(Subject("client", "c1"), HandedOver(it.now, THERAPIST, DEE, "Dee"))
    assert it.persons[THERAPIST].dialogue is None


def test_colleagues_that_nobody_asked_for_change_nothing() -> None:

    it = clinic()
    was = it.persons[THERAPIST]
    it.tell(THERAPIST, Found(it.now, "colleagues", 0, 1, (Entry(DEE, "Dee"),)))
    assert it.persons[THERAPIST] == was and not it.all(LookUp)


def test_who_joins_tells_their_hours_to_the_care_of_their_clients() -> None:
    it = clinic()
    it.persons[THERAPIST] = replace(it.persons[THERAPIST], deputy=DEE, deputy_name="Dee")
    it.tell(THERAPIST, Joined(it.now, THERAPIST))
    assert [duty.deputy for duty in it.clients["c1"].duties] == [DEE]


def test_a_deputy_who_never_came_into_the_chat_says_so_when_they_are_needed() -> None:
    it = clinic()
    it.persons["t9"] = Person("t9", Part.THERAPIST, "Ivo", ZONE, ())
    it.persons[THERAPIST] = replace(it.persons[THERAPIST], hours=Hours((5,), time(9), time(10)), deputy="t9", deputy_name="Ivo")
    it.tell(THERAPIST, Joined(it.now, THERAPIST))
    it.row(CLIENT, Control.SOMETHING_WRONG)
    assert it.keys(CLIENT)[-1] == "told-not" and "told" in it.keys(CLIENT)
    assert it.persons["t9"].clients == ("c1",)


def test_a_press_twice_of_the_next_page_or_of_a_name_of_the_page_before_chooses_nobody_else() -> None:
    it = clinic(*(Entry(f"z{number}", f"Zoe {number}") for number in range(9)))
    asked(it, "hand_over")
    there = {one.press.choice: one.press for one in it.phone(THERAPIST).cards["desk"].buttons}
    it.send(THERAPIST, there["p8"])
    page = it.phone(THERAPIST).cards["desk"]
    it.send(THERAPIST, there["p8"])
    assert it.phone(THERAPIST).cards["desk"].buttons == page.buttons
    it.send(THERAPIST, there["n0"])
    dialogue = it.persons[THERAPIST].dialogue
    assert isinstance(dialogue, HandingOver) and dialogue.to is None and dialogue.at == "who"


def test_a_page_that_is_empty_by_now_leads_back_to_the_first() -> None:
    it = clinic(*(Entry(f"z{number}", f"Zoe {number}") for number in range(7)))
    asked(it, "hand_over")
    it.colleagues = it.colleagues[:8]
    choose(it, "p8")
    assert card(it) == "hand-ask-over"


def test_the_hours_of_the_new_therapist_hold_from_the_hand_over_on() -> None:
    it = clinic()
    it.persons[DEE] = replace(it.persons[DEE], hours=Hours((5,), time(9), time(10)))
    asked(it, "hand_over")
    choose(it, "n0")
    choose(it, "sure")
    assert [(duty.by, duty.hours) for duty in it.clients["c1"].duties] == [(DEE, Hours((5,), time(9), time(10)))]
