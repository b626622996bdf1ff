"""`companion export`: the records of clients, each in a folder of its own."""

import zipfile
from pathlib import Path

from tests.test_cli import Told, _elsewhere, enrol_file, told

__all__ = ["_elsewhere", "told"]


def test_every_client_with_a_plan_gets_a_review_and_the_data_in_a_folder_of_their_own(told: Told) -> None:
    told.by("enrol", enrol_file(), "--bot", "some_bot")
    assert told.by("export", "--out", "records") == 0
    (review,) = Path("records/mara").glob("*-review.pdf")
    (data,) = Path("records/mara").glob("*-data.zip")
    assert review.read_bytes().startswith(b"%PDF") and "bouts.csv" in zipfile.ZipFile(data).namelist()
    assert sorted(told.out.split()) == sorted(map(str, (review, data)))
    assert told.by("export", "--out", "records") == 0
    assert len(list(Path("records/mara").iterdir())) == 2


def test_one_client_one_kind_and_the_paper_can_be_named(told: Told) -> None:
    told.by("enrol", enrol_file(), "--bot", "some_bot")
    assert told.by("export", "mara", "--out", "records", "--only", "pdf", "--paper", "letter") == 0
    (review,) = Path("records/mara").iterdir()
    assert b"612" in review.read_bytes()


def test_an_unknown_client_a_missing_database_and_a_wrong_paper_are_used_wrong(told: Told) -> None:
    assert told.by("export", "--out", "records") == 2
    told.by("enrol", enrol_file(), "--bot", "some_bot")
    assert told.by("export", "nobody", "--out", "records") == 2
    assert "Enrolled are: mara" in told.err
    assert told.by("export", "--out", "records", "--paper", "a5") == 2
    assert not Path("records").exists()


def test_where_it_can_not_be_written_the_client_is_named_and_the_others_go_on(told: Told) -> None:
    told.by("enrol", enrol_file(), "--bot", "some_bot")
    Path("records").mkdir()
    Path("records/mara").write_text("in the way", encoding="utf-8")
    assert told.by("export", "--out", "records") == 1
    assert told.err.strip().startswith("mara: ")


def test_it_says_by_when_a_copy_is_due_that_was_asked_for_on_a_day(told: Told) -> None:
    told.by("enrol", enrol_file(), "--bot", "some_bot")
    assert told.by("export", "mara", "--out", "records", "--only", "csv", "--asked-on", "2026-09-03") == 0
    assert "asked for on 3 September 2026 is due by Monday 5 October 2026; public holidays not counted" in told.err
    assert told.by("export", "mara", "--out", "records", "--asked-on", "September") == 2
    assert "'September' is no day; write one as 2026-09-03" in told.err
