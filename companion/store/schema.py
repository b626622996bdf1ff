"""The tables. Records are versioned JSON (see `records.py`); what must be found or sorted by is a column of its own.

The types are those that SQLite and PostgreSQL share. A change here needs a migration; a test compares the two.
"""

from datetime import UTC, datetime
from typing import Any

from sqlalchemy import (
    BigInteger,
    Boolean,
    CheckConstraint,
    Column,
    ColumnElement,
    Date,
    DateTime,
    Dialect,
    ForeignKey,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    String,
    Table,
    Text,
    literal_column,
)
from sqlalchemy.types import TypeDecorator

metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s",
        "pk": "pk_%(table_name)s",
    }
)

# SQLite numbers rows by itself only in an INTEGER primary key.
RowId = BigInteger().with_variant(Integer, "sqlite")


class Instant(TypeDecorator[datetime]):
    """An aware moment, kept in UTC. A naive one is refused: nobody could say when it was."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError(f"{value} has no time zone, so it is no moment")
        utc = value.astimezone(UTC)
        return utc.replace(tzinfo=None) if dialect.name == "sqlite" else utc

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


def _woken(name: str, *columns: Column[Any]) -> Table:
    """A table of rows that are looked at again at `wake_at`. Every handled event raises `version`.

    `wake_class` is 0 to 2, so that the alarms can ask each class for its first and never overlook one.
    """
    return Table(
        name,
        metadata,
        Column("id", String, primary_key=True),
        Column("record", Text, nullable=False),
        Column("version", Integer, nullable=False),
        Column("wake_at", Instant),
        Column("wake_class", Integer, nullable=False),
        *columns,
        CheckConstraint("wake_class BETWEEN 0 AND 2", name="wake_class"),
        Index(None, "wake_class", "wake_at", "id"),
    )


# `script_id` names the script of the session under way; the record does not hold it.
client = _woken("client", Column("script_id", String))

# A session's script is frozen when it starts, so it is stored once. Its name is the client's own, like a session's.
script = Table(
    "script",
    metadata,
    Column("client_id", ForeignKey("client.id"), primary_key=True),
    Column("id", String, primary_key=True),
    Column("record", Text, nullable=False),
)

person = _woken("person", Column("user_id", BigInteger, unique=True))

journal = Table(
    "journal",
    metadata,
    Column("key", String, primary_key=True),
    Column("aggregate", String, nullable=False),
    Column("subject_id", String, nullable=False),
    Column("at", Instant, nullable=False),
    Column("event", Text, nullable=False),
    Column("effects", Text, nullable=False),
)

# No foreign keys: an alert must not fail because somebody else whom it also goes to is not there.
outbox = Table(
    "outbox",
    metadata,
    Column("id", RowId, primary_key=True),
    Column("aggregate", String, nullable=False),
    Column("subject_id", String, nullable=False),
    Column("client_id", String),
    Column("person_id", String, nullable=False),
    Column("urgency", Integer, nullable=False),
    Column("topic", String, nullable=False),
    Column("card", String),
    Column("put", String, nullable=False),
    Column("text", Text, nullable=False),
    Column("buttons", Text, nullable=False),
    Column("fixed_row", Text, nullable=False),
    Column("silent", Boolean, nullable=False),
    Column("not_after", Instant),
    Column("tag", String),
    Column("clears", Boolean, nullable=False),
    Column("photo", LargeBinary),
    Column("state", String, nullable=False),
    Column("attempts", Integer, nullable=False),
    Column("try_after", Instant),
    Column("created_at", Instant, nullable=False),
    Column("sent_at", Instant),
    Column("message_id", BigInteger),
    Column("copy_of", BigInteger),
    Column("copy_from", String),
    Column("secret", Boolean, nullable=False),
    Column("media", Text),
    Column("media_key", String),
    sqlite_autoincrement=True,
)

# Written out, not parameters: else SQLite does not see that the partial indexes fit.
WAITING: ColumnElement[str] = literal_column("'waiting'")
WAITS = outbox.c.state == WAITING
ON_WIRE = outbox.c.state == literal_column("'on_wire'")


def _some_of_outbox(name: str, where: ColumnElement[bool], *columns: Column[Any]) -> Index:
    """An index over the few messages that are under way, not over all that were ever sent."""
    return Index(f"ix_outbox_{name}", *columns, sqlite_where=where, postgresql_where=where)


_some_of_outbox("to_send", WAITS, outbox.c.urgency, outbox.c.id)
_some_of_outbox("to_take_back", WAITS, outbox.c.client_id)
_some_of_outbox("held_back", WAITS & outbox.c.try_after.is_not(None), outbox.c.person_id, outbox.c.try_after)
_some_of_outbox("next_try", WAITS & outbox.c.try_after.is_not(None), outbox.c.try_after)
_some_of_outbox("on_wire", ON_WIRE, outbox.c.id)

card = Table(
    "card",
    metadata,
    Column("person_id", ForeignKey("person.id"), primary_key=True),
    Column("card", String, primary_key=True),
    Column("message_id", BigInteger, nullable=False),
    Column("has_buttons", Boolean, nullable=False),
    Column("editable", Boolean, nullable=False),
    Column("form", String),
    Column("media", String),
)

# Pictures and sounds that we make, each once: the bytes until it was sent, then the platform's name for it. `ahead`: nobody
# waits for it yet.
media = Table(
    "media",
    metadata,
    Column("id", RowId, primary_key=True),
    Column("key", String, nullable=False, unique=True),
    Column("record", Text, nullable=False),
    Column("language", String, nullable=False),
    Column("state", String, nullable=False),
    Column("ahead", Boolean, nullable=False),
    Column("wanted_at", Instant, nullable=False),
    Column("data", LargeBinary),
    Column("file_id", String),
    sqlite_autoincrement=True,
)
WANTED = media.c.state == literal_column("'wanted'")
Index("ix_media_wanted", media.c.ahead, media.c.id, sqlite_where=WANTED, postgresql_where=WANTED)

last_message = Table(
    "last_message",
    metadata,
    Column("person_id", ForeignKey("person.id"), primary_key=True),
    Column("message_id", BigInteger, nullable=False),
)

# Rows leave when they are handled; the number is never used again, for the journal knows it by its key.
passes = Table(
    "passes",
    metadata,
    Column("id", RowId, primary_key=True),
    Column("aggregate", String, nullable=False),
    Column("subject_id", String, nullable=False),
    Column("event", Text, nullable=False),
    sqlite_autoincrement=True,
)

observation = Table(
    "observation",
    metadata,
    Column("id", RowId, primary_key=True),
    Column("client_id", ForeignKey("client.id"), nullable=False),
    Column("at", Instant, nullable=False),
    Column("kind", String, nullable=False),
    Column("session", String),
    Column("data", Text, nullable=False),
    Index(None, "client_id", "at", "id"),
    Index(None, "client_id", "kind", "at", "id"),
    sqlite_autoincrement=True,
)

report_request = Table(
    "report_request",
    metadata,
    Column("id", RowId, primary_key=True),
    Column("client_id", ForeignKey("client.id"), nullable=False),
    Column("person_id", ForeignKey("person.id"), nullable=False),
    Column("first", Date, nullable=False),
    Column("last", Date, nullable=False),
    Column("state", String, nullable=False),
    Column("sheet", String, nullable=False),
    Column("paper", String, nullable=False),
    Index(None, "state", "id"),
    sqlite_autoincrement=True,
)

# A line of a therapist's list of clients, renewed with the client's own row. No foreign key to the therapist: a client is
# written down before the people are.
caseload = Table(
    "caseload",
    metadata,
    Column("client_id", ForeignKey("client.id"), primary_key=True),
    Column("person_id", String, primary_key=True),
    Column("rank", Integer, nullable=False),
    Column("name", String, nullable=False),
    Column("reasons", Text, nullable=False),
)
Index("ix_caseload_page", caseload.c.person_id, caseload.c.rank.desc(), caseload.c.name, caseload.c.client_id)

# The therapists who have joined, to be found by name among all persons.
therapist = Table(
    "therapist",
    metadata,
    Column("person_id", ForeignKey("person.id"), primary_key=True),
    Column("name", String, nullable=False),
    Index(None, "name", "person_id"),
)

# The digest over all clients of a therapist; its words are rendered when it is asked for.
digest_request = Table(
    "digest_request",
    metadata,
    Column("id", RowId, primary_key=True),
    Column("person_id", ForeignKey("person.id"), nullable=False),
    Column("first", Date, nullable=False),
    Column("last", Date, nullable=False),
    Column("text", Text, nullable=False),
    Column("buttons", Text, nullable=False),
    Column("state", String, nullable=False),
    Index(None, "state", "id"),
    sqlite_autoincrement=True,
)

# The hash, not the payload: who reads the database does not hold the key to the door.
link = Table(
    "link",
    metadata,
    Column("hash", String, primary_key=True),
    Column("person_id", ForeignKey("person.id"), nullable=False),
    Column("expires_at", Instant, nullable=False),
    Column("used_at", Instant),
    Index(None, "person_id"),
)

update_offset = Table(
    "update_offset",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("next", BigInteger, nullable=False),
    CheckConstraint("id = 1", name="single"),
)
