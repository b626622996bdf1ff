"""What is told of a client's own spread."""

from companion.content.folders import content_dir
from companion.content.library import load
from companion.measures.dated import dated
from companion.reports.own_spread import told
from tests.measures.records import broke, session

TABLE = load(content_dir()).without_number.noticeable


def test_a_steady_client_is_told_with_high_chances() -> None:
    records = [one for day in range(20) for one in session(day, broke(30.0 + day % 3), broke(33.0 - day % 2))]
    said = told(dated(records, "UTC"), TABLE)
    assert said.key == "spread-allows" and dict(said.params)["half"] == "100"


def test_one_who_differs_much_from_day_to_day_is_told_not_to_count_on_it() -> None:
    records = [one for day in range(20) for one in session(day, broke(3.0 if day % 2 else 55.0))]
    assert told(dated(records, "UTC"), TABLE).key == "spread-beyond"


def test_with_few_sessions_it_is_unknown() -> None:
    assert told(dated(session(0, broke(20)), "UTC"), TABLE).key == "spread-unknown"


def test_a_larger_spread_leaves_less_to_be_noticed() -> None:
    assert [row.third for row in TABLE] == sorted((row.third for row in TABLE), reverse=True)
    assert all(row.third <= row.half for row in TABLE)
