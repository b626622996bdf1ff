"""Documents of a client's records: who may ask for which, and what is made."""

from datetime import timedelta

from companion.core.effects import Paper, Report, Sheet
from companion.core.for_the_record import SHEETS
from tests.core.people import People
from tests.core.practice import CARER, CLIENT, MONDAY, STRANGER, THERAPIST, client
from tests.core.test_page import OTHER, choices, desk, read, shown, tap


def reports(it: People) -> list[Report]:
    return [effect for effect in it.effects if isinstance(effect, Report)]


def test_every_document_on_the_screen_is_made_on_a_tap_and_the_screen_is_in_words() -> None:
    it = tap(desk(), "record")
    assert choices(it) == [*SHEETS, "open"] and "A4" in read(shown(it))
    for choice, (sheet, paper) in SHEETS.items():
        tap(it, choice, step="record")
        (asked,) = reports(it)
        assert (asked.to, asked.sheet, asked.paper) == (THERAPIST, sheet, paper)
        assert asked.first <= asked.last <= MONDAY.date()


def test_a_week_is_the_last_whole_one_from_monday_to_sunday() -> None:
    it = tap(desk(), "week_letter", step="record")
    (asked,) = reports(it)
    assert asked.paper is Paper.LETTER and asked.first.isoweekday() == 1
    assert asked.last == asked.first + timedelta(days=6) and asked.last < it.now.date()


def test_nobody_else_gets_a_document() -> None:
    for by in (OTHER, CLIENT, CARER, STRANGER):
        it = desk()
        tap(it, "review_a4", by=by, step="record")
        assert reports(it) == []


def test_an_old_or_unknown_choice_and_a_client_without_a_plan_get_one_line() -> None:
    it = tap(desk(), "week_a5", step="record")
    assert reports(it) == []
    without = desk(of=None)
    assert client(None).plan is None
    tap(without, "data", step="record")
    assert reports(without) == []


def test_at_discharge_the_therapist_gets_the_document_of_the_end() -> None:
    it = tap(tap(desk(), "discharge"), "sure", step="discharge")
    assert [one.sheet for one in reports(it)] == [Sheet.PDF_DISCHARGE]
