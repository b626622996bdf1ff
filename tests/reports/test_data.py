"""The records of a client as CSV files."""

import csv
import io
import zipfile
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

from companion.content import dictionary_file
from companion.content.folders import content_dir
from companion.core.observations import Observation, OwnWords, PlanPrescribed, Reporter
from companion.reports.asking import Task
from companion.reports.data import files, slug, written_to, zipped
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


def test_the_same_records_are_the_same_bytes_and_a_zip_that_opens(tmp_path: Path) -> None:
    task = Task(case(), MONDAY, SUNDAY, tuple(dated(bout(day(0)))), NOW, "en")
    one = zipped(files(task, DICTIONARY))
    assert one == zipped(files(task, DICTIONARY))
    with zipfile.ZipFile(io.BytesIO(one)) as opened:
        assert opened.testzip() is None and "bouts.csv" in opened.namelist()
    written_to(tmp_path / "out", files(task, DICTIONARY))
    written_to(tmp_path / "out", files(task, DICTIONARY))
    assert len(list((tmp_path / "out").iterdir())) == len(DICTIONARY.names)


def test_the_name_of_the_file_is_plain() -> None:
    task = Task(replace(case(), name="Åse / B."), MONDAY, SUNDAY, (), NOW, "en")
    assert slug(task).startswith("ase-b-20")
