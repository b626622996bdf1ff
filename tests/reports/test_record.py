"""Documents for the record, read back as anybody's reader of PDF reads them."""

import io
import re
from dataclasses import replace
from datetime import datetime

import pytest
from pypdf import PdfReader

from companion.content.folders import content_dir
from companion.content.texts import Texts
from companion.core.effects import Paper, Sheet
from companion.core.observations import FlagRaised, Observation, PlanPrescribed
from companion.core.programme import Plan, Side
from companion.measures.course import rates
from companion.measures.dated import dated as days_of
from companion.reports.asking import Drawn, Task
from companion.reports.cert import LINES
from companion.reports.sheets import Content, drawn
from tests.reports.course_of_reviews import COURSE, reviewed
from tests.reports.weeks import MONDAY_MORNING, ZONE, at, bout, case, closed, dated, day, ended, fell, plan

CONTENT = Content(content_dir(), Texts(content_dir() / "texts"))
EXERCISES = CONTENT.library.without_number.exercises


def known(of: Plan) -> Plan:
    """The plan with forms that the library has."""
    usual = (replace(one, form=EXERCISES[one.exercise].usual, hardest=EXERCISES[one.exercise].usual) for one in of.exercises)
    return replace(of, exercises=tuple(usual))


PLAN = known(plan("feet_together", "heel_to_toe", "one_leg"))


def months(weeks: int = 12) -> list[Observation]:
    """A course of so many weeks: weaker side shorter, a day in seven without an answer, one flag."""
    seen: list[Observation] = [PlanPrescribed(at(day(-7 * weeks)), 1, None, "", PLAN)]
    for number in range(-7 * weeks + 1, 0):
        if number % 7 == 3:
            seen.append(closed(day(number)))
            continue
        for side, quarter in ((Side.WEAKER, 1 + number % 3), (Side.STRONGER, None if number % 2 else 4)):
            seen.append(replace(bout(day(number), side=side, quarter=quarter), session=f"s{number}"))
        seen.append(replace(ended(day(number)), session=f"s{number}"))
    return [*seen, *fell(day(-20), lifted=day(-18))]


def task(sheet: Sheet, *seen: Observation, paper: Paper = Paper.A4) -> Task:
    observations: list[tuple[datetime, Observation]] = sorted(dated(list(seen)), key=lambda one: one[0])
    of = replace(case(plan_=PLAN), since=at(day(-84)))
    return Task(of, day(-7), day(-1), tuple(observations), MONDAY_MORNING, "en", sheet, paper)


def read(made: Drawn) -> str:
    """All text of a document, as it is selected, in one line."""
    return " ".join(" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(made.file)).pages)


@pytest.mark.parametrize("sheet", [Sheet.PDF_WEEK, Sheet.PDF_REVIEW, Sheet.PDF_DISCHARGE])
@pytest.mark.parametrize(("paper", "size"), [(Paper.A4, (595, 842)), (Paper.LETTER, (612, 792))])
def test_every_page_has_the_size_of_its_paper(sheet: Sheet, paper: Paper, size: tuple[int, int]) -> None:
    pages = PdfReader(io.BytesIO(drawn(task(sheet, *months(), paper=paper), CONTENT).file)).pages
    assert {(round(float(page.mediabox.width)), round(float(page.mediabox.height))) for page in pages} == {size}


def test_a_review_tells_each_part_with_reported_and_unknown() -> None:
    said = read(drawn(task(Sheet.PDF_REVIEW, *months()), CONTENT))
    for words in (
        "Sessions reported of those due",
        "Each stance",
        "Median time",
        "Weaker side shorter in",
        "Plan 1",
        "fall",
        "The programme, item by item",
        "What the words mean",
    ):
        assert words in said, words
    due = re.search(r"Sessions (\d+)/(\d+) .*?unknown (\d+);", said)
    assert due is not None and int(due[1]) + int(due[3]) == int(due[2]) and int(due[3]) >= 12
    assert "exact sign test, p < 0.001" in said and "p 0.000" not in said and "-0.0 " not in said
    assert "score of" not in said and "average" not in said


def test_a_median_has_its_interval_beside_it_open_above_where_the_target_ends_it() -> None:
    said = read(drawn(task(Sheet.PDF_REVIEW, *months()), CONTENT))
    assert "(15 to 30 s), over" in said and "(45 s or more), over" in said


def test_a_review_tells_how_many_holds_lasted_past_each_quarter_and_how_often_they_broke_a_minute() -> None:
    seen = months()
    said = read(drawn(task(Sheet.PDF_REVIEW, *seen), CONTENT))
    assert re.findall(r"Not broken past 15, 30, 45 s: (\d+), (\d+), (\d+) %", said)
    found = rates(days_of(task(Sheet.PDF_REVIEW, *seen).observations, ZONE))
    assert found is not None and found.steps.count > 0
    told = r"\(reported\): (\d+) in \d+ min practised, ([\d.]+) a minute \(([\d.]+) to ([\d.]+)\)"
    steps, touches = re.findall(told, said)
    assert (int(steps[0]), int(touches[0])) == (found.steps.count, found.touches.count)
    assert float(steps[2]) < float(steps[1]) < float(steps[3])
    assert "No time practised is on record" in read(drawn(task(Sheet.PDF_REVIEW), CONTENT))


@pytest.mark.parametrize("sheet", [Sheet.PDF_REVIEW, Sheet.PDF_DISCHARGE])
def test_what_was_measured_at_reviews_is_a_page_of_its_own_the_last(sheet: Sheet) -> None:
    made = drawn(task(sheet, *months(), *reviewed(*COURSE)), CONTENT)
    *others, last = (" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(made.file)).pages)
    assert "Measured by the therapist at review; home practice is not shown here." in last
    assert "MDC90 6 (Stevenson 2001; stroke rehabilitation)" in last and f"page {len(others) + 1} of {len(others) + 1}" in last
    assert "measured at reviews stands on a page of its own" in others[0] and f"page 1 of {len(others) + 1}" in others[0]
    assert not any("MDC" in page or "Bohannon" in page for page in others) and "clean" not in last.lower()


def test_without_reviews_and_in_a_week_on_paper_there_is_no_such_page() -> None:
    for sheet, seen in ((Sheet.PDF_REVIEW, ()), (Sheet.PDF_DISCHARGE, ()), (Sheet.PDF_WEEK, reviewed(*COURSE))):
        assert "Measured by the therapist" not in read(drawn(task(sheet, *months(), *seen), CONTENT))


def test_every_one_of_the_19_lines_of_the_programme_is_filled_or_not_stated() -> None:
    said = read(drawn(task(Sheet.PDF_REVIEW, *months()), CONTENT))
    assert len(LINES) == 19 and "not stated" in said
    assert all(f" {line} " in said for line in LINES)


def test_what_is_too_little_for_an_interval_is_listed_and_said_to_be() -> None:
    said = read(drawn(task(Sheet.PDF_REVIEW, *months(1)), CONTENT))
    assert "under 8, so no interval" in said and "Mean up to" not in said


def test_a_review_of_nothing_says_that_nothing_is_on_record() -> None:
    said = read(drawn(task(Sheet.PDF_REVIEW), CONTENT))
    assert "No bout is on record." in said and "No red flag is on record. Falls that nobody told are not known." in said


def test_a_week_on_paper_says_what_the_chart_says() -> None:
    said = read(drawn(task(Sheet.PDF_WEEK, *months()), CONTENT))
    assert "SESSIONS, AS REPORTED" in said and "Heel-to-toe" in said


def test_what_to_go_on_with_is_never_harder_than_what_the_client_was_told() -> None:
    said = read(drawn(task(Sheet.PDF_DISCHARGE, *months()), CONTENT))
    assert "To go on with" in said and "easiest form with open eyes" in said
    assert "foot up" not in said  # one leg as prescribed


def test_the_file_is_the_same_for_the_same_records_and_names_its_title_language_and_date() -> None:
    one, other = (drawn(task(Sheet.PDF_REVIEW, *months()), CONTENT) for _ in range(2))
    assert one.file == other.file
    reader = PdfReader(io.BytesIO(one.file))
    assert reader.metadata is not None and reader.metadata.title == "Odda Fennimore: review of practice at home"
    assert b"/Lang (en)" in one.file
    assert f"D:{MONDAY_MORNING:%Y%m%d%H%M%S}Z" in str(reader.metadata["/CreationDate"])


def test_a_document_of_many_plans_goes_on_on_further_pages_each_with_its_number() -> None:
    plans = [PlanPrescribed(at(day(-84 + number)), number, None, "", replace(PLAN, version=number)) for number in range(1, 60)]
    made = drawn(task(Sheet.PDF_REVIEW, *plans), CONTENT)
    pages = PdfReader(io.BytesIO(made.file)).pages
    assert len(pages) > 3
    for number, page in enumerate(pages, 1):
        assert f"page {number} of {len(pages)}" in " ".join(page.extract_text().split())


def test_a_form_that_the_library_no_longer_has_is_left_out_and_nothing_fails() -> None:
    gone = replace(PLAN, version=1, exercises=tuple(replace(one, form="gone") for one in PLAN.exercises))
    said = read(drawn(task(Sheet.PDF_REVIEW, PlanPrescribed(at(day(-80)), 1, None, "", gone)), CONTENT))
    assert "Plan 1" in said


def test_a_flag_that_is_open_is_said_to_be() -> None:
    seen = [one for one in fell(day(-2)) if isinstance(one, FlagRaised)]
    assert "Lifted: not yet" in read(drawn(task(Sheet.PDF_REVIEW, *seen), CONTENT))
