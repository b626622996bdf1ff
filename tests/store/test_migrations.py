"""The migrations make exactly the tables that the program uses."""

import json
import sqlite3
from pathlib import Path

import pytest
from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory

from companion.store import migrate
from companion.store.engines import migrator
from companion.store.errors import DatabaseUnusable
from companion.store.migrate import VERSION_TABLE, bring_up_to_date, config, is_up_to_date, opened
from companion.store.schema import metadata


def made(database: Path) -> dict[str, str]:
    """What SQLite was told for each table and index."""
    with sqlite3.connect(database) as connection:
        found = connection.execute("SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL")
        return {name: " ".join(sql.split()) for name, sql in found if name != VERSION_TABLE}


def test_migrations_make_what_the_schema_says(tmp_path: Path) -> None:
    bring_up_to_date(tmp_path / "a.sqlite3")
    with opened(tmp_path / "a.sqlite3") as connection:
        assert compare_metadata(MigrationContext.configure(connection), metadata) == []


def test_migrations_make_it_to_the_letter(tmp_path: Path) -> None:
    migrated, created = tmp_path / "a.sqlite3", tmp_path / "b.sqlite3"
    bring_up_to_date(migrated)
    metadata.create_all(migrator(created))
    assert made(migrated) == made(created)
    assert len(made(migrated)) > len(metadata.tables)


def test_migrations_are_one_line_of_changes() -> None:
    scripts = ScriptDirectory.from_config(config())
    assert len(scripts.get_heads()) == len(scripts.get_bases()) == 1
    assert [script.revision for script in scripts.walk_revisions()][-1] == "0001"


def test_a_database_of_the_first_tables_keeps_its_people_and_what_waits(tmp_path: Path) -> None:
    database = tmp_path / "a.sqlite3"
    with opened(database) as connection:
        settings = config()
        settings.attributes["connection"] = connection
        command.upgrade(settings, "0001")
    client = '{"v":1,"data":{"id":"c1","name":"Alva","people":{"client":"alva","therapist":"tora"}}}'
    persons = [
        (name, json.dumps({"v": 1, "data": {"name": name.title(), "role": role}}), 1, 2, user)
        for name, role, user in (("tora", "therapist", 7), ("not_joined", "therapist", None), ("alva", "client", 8))
    ]
    with sqlite3.connect(database) as connection:
        connection.execute("INSERT INTO client (id, record, version, wake_class) VALUES ('c1', ?, 1, 2)", [client])
        connection.executemany("INSERT INTO person (id, record, version, wake_class, user_id) VALUES (?, ?, ?, ?, ?)", persons)
        connection.execute(
            "INSERT INTO outbox (id, aggregate, subject_id, person_id, urgency, topic, put, text, buttons, fixed_row, silent, "
            "clears, state, attempts, created_at) VALUES (41, 'client', 'c1', 'alva', 0, 'alert', 'new', 'Stop.', '', '', "
            "0, 0, 'waiting', 0, '2026-11-23')"
        )
    bring_up_to_date(database)
    with sqlite3.connect(database) as connection:
        assert connection.execute("SELECT * FROM caseload").fetchall() == [("c1", "tora", 0, "Alva", '{"v":1,"data":[]}')]
        assert connection.execute("SELECT * FROM therapist").fetchall() == [("tora", "Tora")]
        assert connection.execute("SELECT id, text, secret, copy_of FROM outbox").fetchall() == [(41, "Stop.", 0, None)]


def test_a_database_without_pictures_keeps_its_cards_and_what_waits(tmp_path: Path) -> None:
    database = tmp_path / "a.sqlite3"
    with opened(database) as connection:
        settings = config()
        settings.attributes["connection"] = connection
        command.upgrade(settings, "0003")
    with sqlite3.connect(database) as connection:
        connection.execute("INSERT INTO person (id, record, version, wake_class, user_id) VALUES ('alva', '{}', 1, 2, 8)")
        connection.execute("INSERT INTO card VALUES ('alva', 'session', 5, 1, 1)")
        connection.execute(
            "INSERT INTO outbox (id, aggregate, subject_id, person_id, urgency, topic, put, text, buttons, fixed_row, silent, "
            "clears, photo, state, attempts, created_at, secret) VALUES "
            "(41, 'client', 'c1', 'alva', 0, 'alert', 'new', 'Stop.', '', '', 0, 0, x'89', 'waiting', 0, '2026-11-23', 1)"
        )
    bring_up_to_date(database)
    with sqlite3.connect(database) as connection:
        assert connection.execute("SELECT * FROM card").fetchall() == [("alva", "session", 5, 1, 1, None, None)]
        assert connection.execute("SELECT id, text, photo, secret, media, media_key FROM outbox").fetchall() == [
            (41, "Stop.", b"\x89", 1, None, None)
        ]


def test_bringing_up_to_date_twice_changes_nothing(tmp_path: Path) -> None:
    database = tmp_path / "a.sqlite3"
    assert not is_up_to_date(database)
    bring_up_to_date(database)
    before = made(database)
    assert is_up_to_date(database)
    bring_up_to_date(database)
    assert made(database) == before


TOMORROW = """
from alembic import op

revision, down_revision = "0007", "0006"

def upgrade() -> None:
    op.execute("CREATE TABLE added (id INTEGER)")
    op.execute("DROP TABLE passes")
    op.execute("{last}")
"""


def write_tomorrow(monkeypatch: pytest.MonkeyPatch, tmp_path: Path, last: str) -> None:
    """A companion with one more migration, that ends with `last`."""
    (tmp_path / "tomorrow").mkdir()
    (tmp_path / "tomorrow" / "0007_more.py").write_text(TOMORROW.format(last=last))

    def longer() -> Config:
        settings = config()
        of_today = ScriptDirectory.from_config(settings).versions
        settings.set_main_option("version_locations", "\n".join([of_today, str(tmp_path / "tomorrow")]))
        return settings

    monkeypatch.setattr(migrate, "config", longer)


def test_an_older_database_is_brought_up_to_date(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    database = tmp_path / "a.sqlite3"
    bring_up_to_date(database)
    write_tomorrow(monkeypatch, tmp_path, last="SELECT 1")
    assert not is_up_to_date(database)
    bring_up_to_date(database)
    assert is_up_to_date(database)
    assert "added" in made(database) and "passes" not in made(database)


def test_a_migration_that_goes_wrong_leaves_the_database_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    database = tmp_path / "a.sqlite3"
    bring_up_to_date(database)
    before = made(database)
    with monkeypatch.context() as tomorrow:
        write_tomorrow(tomorrow, tmp_path, last="NOT SQL AT ALL")
        with pytest.raises(DatabaseUnusable):
            bring_up_to_date(database)
    assert made(database) == before
    assert is_up_to_date(database)
