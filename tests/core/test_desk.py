"""The therapist's list of clients: one screen, gravest first, one button a client, page by page."""

from datetime import date

import pytest

from companion.core.caseload import DISCHARGED, Reason
from companion.core.effects import PAGE, LookUp, Put, Say
from companion.core.events import Control, Entry, Found, Press
from companion.core.person import Part, Person, own
from tests.core.people import People
from tests.core.practice import THERAPIST, ZONE, client, plan, planned
from tests.core.test_page import read


def desk(part: Part = Part.THERAPIST) -> People:
    return People([Person(THERAPIST, part, "Cleo", ZONE, ("c1",), user_id=1)], [client(plan(planned("press")))])


def entries(number: int, *reasons: str) -> tuple[Entry, ...]:
    return tuple(Entry(f"c{place}", f"Name {place}", reasons) for place in range(1, number + 1))


def found(it: People, some: tuple[Entry, ...], first: int = 0, total: int | None = None) -> Say:
    it.tell(THERAPIST, Found(it.now, "caseload", first, len(some) if total is None else total, some))
    return it.phone(THERAPIST).cards["desk"]


def test_my_clients_looks_the_list_up_from_its_beginning() -> None:
    it = desk()
    it.row(THERAPIST, Control.CASELOAD)
    assert it.all(LookUp) == [LookUp("caseload", 0)]


def test_who_has_no_clients_is_told_what_to_press() -> None:
    say = found(desk(), ())
    assert read(say) == "No clients yet. Press New client."


def test_each_client_has_a_line_with_the_reasons_and_a_button_to_the_page() -> None:
    some = (Entry("c1", "Ann", ("flag_unseen:2026-11-02", "adherence:6/10")), Entry("c2", "Bea"))
    say = found(desk(), some)
    text = read(say)
    assert "1. Ann: RED FLAG of 2026-11-02, not acknowledged; adherence low, 6/10 sessions reported" in text
    assert "2. Bea: nothing to look at" in text
    assert [button.press for button in say.buttons] == [Press(one.id, "page", "open", "open") for one in some]
    assert say.put is Put.IN_PLACE


def test_many_reasons_are_cut_to_the_gravest_with_how_many_more() -> None:
    reasons = tuple(f"{reason}:2026-11-02" for reason in Reason)
    say = found(desk(), (Entry("c1", "Ann", reasons),))
    assert f"and {len(Reason) - 4} more" in read(say)


@pytest.mark.parametrize("reason", [*Reason, DISCHARGED])
def test_every_reason_has_words_with_and_without_its_date(reason: str) -> None:
    for key in (reason, f"{reason}:{date(2026, 11, 2)}"):
        assert len(read(found(desk(), (Entry("c1", "Ann", (key,)),)))) > 20


def test_pages_turn_forth_and_back() -> None:
    it = desk()
    first = found(it, entries(PAGE), 0, PAGE + 3)
    assert [button.label.key for button in first.buttons[PAGE:]] == ["b-desk-next"]
    it.press(THERAPIST, "b-desk-next")
    assert it.all(LookUp) == [LookUp("caseload", PAGE)]
    last = found(it, entries(3), PAGE, PAGE + 3)
    assert [button.label.key for button in last.buttons[3:]] == ["b-desk-before"]
    assert f"{PAGE + 1}. Name 1" in read(last)
    it.press(THERAPIST, "b-desk-before")
    assert it.all(LookUp) == [LookUp("caseload", 0)]


def test_a_page_that_emptied_meanwhile_leads_back() -> None:
    say = found(desk(), (), PAGE, 3)
    assert [button.label.key for button in say.buttons] == ["b-desk-before"]


def test_the_longest_list_fits_into_one_message() -> None:
    reasons = tuple(f"{reason}:2026-11-02" for reason in Reason)
    some = tuple(Entry(f"c{place}", "N" * 30, reasons) for place in range(PAGE))
    assert len(read(found(desk(), some, 8, 500))) < 4096


def test_a_name_opens_the_page_in_the_same_place_and_the_page_leads_back() -> None:
    it = desk()
    found(it, entries(1))
    it.press(THERAPIST, "b-desk-client")
    assert it.keys(THERAPIST)[0] == "page-title" and it.phone(THERAPIST).said[-1].put is Put.IN_PLACE
    it.press(THERAPIST, "b-page-list")
    assert it.all(LookUp) == [LookUp("caseload", 0)]


def test_pressing_twice_asks_twice_and_shows_one_list() -> None:
    it = desk()
    for _ in range(2):
        it.row(THERAPIST, Control.CASELOAD)
        found(it, entries(2))
    assert list(it.phone(THERAPIST).cards) == ["desk"]


@pytest.mark.parametrize(
    ("control", "begins"), [(Control.NEW_CLIENT, "enrolling"), (Control.SETTINGS, "setting"), (Control.CASELOAD, None)]
)
def test_the_row_opens_what_it_says(control: Control, begins: str | None) -> None:
    it = desk()
    it.row(THERAPIST, control)
    dialogue = it.persons[THERAPIST].dialogue
    assert (dialogue.kind if dialogue is not None else None) == begins


@pytest.mark.parametrize("press", ["n", "nine", "n-1", "n9999999", ""])
def test_a_place_that_is_none_is_stale(press: str) -> None:
    it = desk()
    it.send(THERAPIST, Press(own(THERAPIST), "desk", "list", press))
    assert it.replies[-1] is not None and it.replies[-1].key == "press-stale" and it.all(LookUp) == []


def test_the_controls_of_the_therapist_do_nothing_on_another_phone() -> None:
    it = desk(Part.CONTACT)
    it.row(THERAPIST, Control.CASELOAD)
    assert it.keys(THERAPIST) == ["typed-therapist"] and it.all(LookUp) == []
