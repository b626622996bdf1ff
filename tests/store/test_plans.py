"""The questions asked many times a second are answered from an index, however many clients and messages there are."""

import sqlite3
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import Select, select
from sqlalchemy.dialects import sqlite

from companion.store import lists, questions, reading, saying, schema, transactions
from companion.store.migrate import bring_up_to_date

ASKED: dict[str, Any] = {
    "next wake": reading._next_wake((0, 1, 2)),
    "earliest wake": reading._earliest_wake((0, 1, 2)),
    "to send": reading._TO_SEND,
    "cues": reading._CUES,
    "next try": reading._NEXT_TRY,
    "unsent reminders": reading._UNSENT_REMINDERS,
    "on the wire": reading._ON_WIRE,
    "what to make next": reading._NEXT_WANTED,
    "what goes with a message": questions._MEDIA,
    "whether it is made": questions._MEDIA_STATE,
    "it is made": saying._SET_MEDIA,
    "observations": reading._OBSERVATIONS,
    "observations, and older ones of some kinds": reading._SINCE,
    "observations of some kinds": reading._OF_KINDS,
    "person by user": questions.PERSON_BY_USER,
    "caseload": lists.CASELOAD,
    "how many clients": lists.CASELOAD_TOTAL,
    "colleagues": lists.COLLEAGUES,
    "how many colleagues": lists.COLLEAGUES_TOTAL,
    "lines of a client": select(schema.caseload).where(transactions._WITHOUT),
    "links of a person": transactions._CLOSE_LINKS,
    "take back": saying._TAKE_BACK,
    "take back from one": saying._TAKE_BACK_FROM_ONE,
}
TABLES = ("client", "person", "outbox", "observation", "held_back", "before", "older", "caseload", "therapist", "link", "media")


def plan(database: Path, statement: Any) -> list[str]:
    """What SQLite says it will do."""
    if isinstance(statement, Select):
        statement = statement.params(
            dict.fromkeys(statement.compile().params, 1)
            | {"without": ["a", "b"], "b_seeing": ["a"], "ever": ["a"], "newest": ["a"], "kinds": ["a"]}
        )
    sql = str(statement.compile(dialect=sqlite.dialect(), compile_kwargs={"render_postcompile": True}))
    with sqlite3.connect(database) as connection:
        rows = connection.execute(f"EXPLAIN QUERY PLAN {sql}", [None] * sql.count("?"))
        return [row[3] for row in rows]


@pytest.mark.parametrize("question", ASKED)
def test_an_index_answers(question: str, tmp_path: Path) -> None:
    bring_up_to_date(tmp_path / "a.sqlite3")
    steps = plan(tmp_path / "a.sqlite3", ASKED[question])
    of_tables = [step for step in steps if step.startswith(("SCAN ", "SEARCH ")) and step.split()[1] in TABLES]
    assert of_tables
    assert [step for step in of_tables if "INDEX" not in step] == []


@pytest.mark.parametrize("question", ["caseload", "colleagues"])
def test_a_list_is_not_sorted_to_show_a_page_of_it(question: str, tmp_path: Path) -> None:
    bring_up_to_date(tmp_path / "a.sqlite3")
    assert [step for step in plan(tmp_path / "a.sqlite3", ASKED[question]) if "TEMP B-TREE" in step] == []


def test_no_client_of_another_therapist_is_looked_at(tmp_path: Path) -> None:
    bring_up_to_date(tmp_path / "a.sqlite3")
    assert [step for step in plan(tmp_path / "a.sqlite3", lists.CASELOAD) if "person_id=?" not in step] == []


def test_what_is_wanted_is_not_sorted_to_make_the_first(tmp_path: Path) -> None:
    bring_up_to_date(tmp_path / "a.sqlite3")
    assert [step for step in plan(tmp_path / "a.sqlite3", reading._NEXT_WANTED) if "TEMP B-TREE" in step] == []


def test_messages_are_not_sorted_before_the_first_goes(tmp_path: Path) -> None:
    bring_up_to_date(tmp_path / "a.sqlite3")
    assert [step for step in plan(tmp_path / "a.sqlite3", reading._TO_SEND) if "TEMP B-TREE" in step] == []
