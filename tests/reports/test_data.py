"""The records of a client as CSV files."""

import csv
import io
import zipfile
from dataclasses import replace
from datetime import timedelta

from companion.content import dictionary_file
from companion.content.folders import content_dir
from companion.core.observations import Observation, OwnWords, PlanPrescribed, Reporter
from companion.core.review_values import ReviewValues
from companion.reports.asking import Task
from companion.reports.data import files, slug, zipped
from tests.reports.course_of_reviews import FOURTH, NEWEST, numbered, reviewed
from tests.reports.weeks import (
    MONDAY,
    MONDAY_MORNING,
    SUNDAY,
    at,
    bout,
    case,
    closed,
    dated,
    day,
    fell,
    plan,
    session,
    unanswered,
)

DICTIONARY = dictionary_file.load(content_dir())
NOW = MONDAY_MORNING + timedelta(days=7)


def read(*observations: Observation | list[Observation]) -> dict[str, list[dict[str, str]]]:
    """Every file as a spreadsheet reads it."""
    task = Task(case(), MONDAY, SUNDAY, tuple(dated(*observations)), NOW, "en")
    return {name: list(csv.DictReader(io.StringIO(text, newline=""))) for name, text in files(task, DICTIONARY).items()}


def test_every_file_has_the_columns_of_the_dictionary_in_its_order() -> None:
    task = Task(case(), MONDAY, SUNDAY, (), NOW, "en")
    for name, text in files(task, DICTIONARY).items():
        head = next(csv.reader(io.StringIO(text)))
        assert head == [one.column for one in DICTIONARY.columns(name.removesuffix(".csv"))]
        assert text.endswith("\r\n")


def test_what_was_measured_at_a_review_is_a_file_of_its_own_a_row_a_measure() -> None:
    found = read(session(day(0)), reviewed(NEWEST))
    told = [
        (row["measure"], row["part"], row["value"], row["unit"], row["weight"], row["words"]) for row in found["reviews.csv"]
    ]
    assert told == [
        ("four_stage", "side_by_side", "10", "s", "", ""),
        ("four_stage", "half_step", "10", "s", "", ""),
        ("four_stage", "heel_to_toe", "10", "s", "", ""),
        ("four_stage", "one_leg", "3", "s", "", ""),
        ("sit_to_stand_5", "", "12.5", "s", "", ""),
        ("one_leg", "weaker", "8.6", "s", "", ""),
        ("one_leg", "stronger", "17.2", "s", "", ""),
        ("berg", "", "46", "points", "", ""),
        ("goal", "1", "1", "level", "3", "Walk to the gate and back on my own"),
    ]
    assert {(row["day"], row["decade"]) for row in found["reviews.csv"]} == {("2026-11-23", "70")}
    assert found["bouts.csv"] and all("berg" not in column for row in found["bouts.csv"] for column in row)


def test_what_was_left_out_at_a_review_has_no_row_and_just_under_10_s_stays_so() -> None:
    rows = read(reviewed(FOURTH, ReviewValues(berg=0, goals=numbered(-2))))["reviews.csv"]
    assert [row["value"] for row in rows if row["part"] == "heel_to_toe"] == ["9.99"]
    assert [(row["measure"], row["value"], row["decade"], row["words"]) for row in rows[-2:]] == [
        ("berg", "0", "unknown", ""),
        ("goal", "-2", "unknown", ""),
    ]


def test_nothing_is_written_that_the_dictionary_does_not_name() -> None:
    observations = (session(day(0)), closed(day(1)), fell(day(2)), PlanPrescribed(at(day(0)), 1, None, "", plan("heel_to_toe")))
    for name, rows in read(bout(day(0)), *observations).items():
        for row in rows:
            assert None not in row, name


def test_the_dictionary_tells_of_each_column_of_each_file() -> None:
    told = {(row["file"], row["column"]) for row in read()["dictionary.csv"]}
    assert told == {(name, one.column) for name in DICTIONARY.names for one in DICTIONARY.columns(name)}
    assert all(row["meaning"] for row in read()["dictionary.csv"])


def test_what_nobody_told_is_unknown_and_never_zero() -> None:
    silent = unanswered(replace(bout(day(0)), practised_s=None))
    (row,) = read(silent)["bouts.csv"]
    assert (row["quality"], row["practised_s"], row["first_break_low_s"]) == ("unknown", "unknown", "unknown")
    assert row["done"] == "" and row["reporter"] == "nobody"


def test_words_that_a_spreadsheet_would_run_are_made_harmless() -> None:
    said = [OwnWords(at(day(0)), Reporter.CLIENT, text) for text in ("=1+1", "@a", "-2", "+3", "good, today", 'a "b"')]
    assert [row["text"] for row in read(*said)["words.csv"]] == ["'=1+1", "'@a", "'-2", "'+3", "good, today", 'a "b"']


def test_a_number_below_0_stays_a_number() -> None:
    (row,) = read(replace(bout(day(0)), eased=-1))["bouts.csv"]
    assert row["eased"] == "-1"


def test_who_raised_a_flag_stands_by_their_part_and_not_by_name() -> None:
    rows = read(fell(day(0)))["flags.csv"]
    assert rows and {row["by"] for row in rows} <= {"client", "carer", "therapist", "contact", "somebody else"}


def test_a_plan_that_was_not_kept_is_unknown() -> None:
    (row,) = read(PlanPrescribed(at(day(0)), 3, None))["plans.csv"]
    assert (row["version"], row["exercise"]) == ("3", "unknown")


def test_the_same_records_are_the_same_bytes_and_a_zip_that_opens() -> None:
    task = Task(case(), MONDAY, SUNDAY, tuple(dated(bout(day(0)))), NOW, "en")
    one = zipped(files(task, DICTIONARY))
    assert one == zipped(files(task, DICTIONARY))
    with zipfile.ZipFile(io.BytesIO(one)) as opened:
        assert opened.testzip() is None and "bouts.csv" in opened.namelist()


def test_the_name_of_the_file_is_plain() -> None:
    task = Task(replace(case(), name="Åse / B."), MONDAY, SUNDAY, (), NOW, "en")
    assert slug(task).startswith("ase-b-20")
