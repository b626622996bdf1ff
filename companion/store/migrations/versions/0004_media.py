"""Pictures and sounds that go with the words: what is made, what goes with a message, what stands on a card."""

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None

ROW_ID = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
MOMENT = sa.DateTime(timezone=True)


def upgrade() -> None:
    """Forward only: the way back is a backup."""
    _media()
    _card()
    _outbox()


def _media() -> None:
    op.create_table(
        "media",
        sa.Column("id", ROW_ID, nullable=False),
        sa.Column("key", sa.String(), nullable=False),
        sa.Column("record", sa.Text(), nullable=False),
        sa.Column("language", sa.String(), nullable=False),
        sa.Column("state", sa.String(), nullable=False),
        sa.Column("ahead", sa.Boolean(), nullable=False),
        sa.Column("wanted_at", MOMENT, nullable=False),
        sa.Column("data", sa.LargeBinary(), nullable=True),
        sa.Column("file_id", sa.String(), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_media")),
        sa.UniqueConstraint("key", name=op.f("uq_media_key")),
        sqlite_autoincrement=True,
    )
    wanted = sa.text("state = 'wanted'")
    op.create_index("ix_media_wanted", "media", ["ahead", "id"], sqlite_where=wanted, postgresql_where=wanted)


def _card() -> None:
    old: tuple[sa.Column[Any], ...] = (
        sa.Column("person_id", sa.String(), nullable=False),
        sa.Column("card", sa.String(), nullable=False),
        sa.Column("message_id", sa.BigInteger(), nullable=False),
        sa.Column("has_buttons", sa.Boolean(), nullable=False),
        sa.Column("editable", sa.Boolean(), nullable=False),
    )
    _anew(
        "card",
        old,
        sa.Column("form", sa.String(), nullable=True),
        sa.Column("media", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_card_person_id")),
        sa.PrimaryKeyConstraint("person_id", "card", name=op.f("pk_card")),
    )


def _outbox() -> None:
    for name in INDEXES:
        op.drop_index(f"ix_outbox_{name}", "outbox")
    _anew(
        "outbox",
        _outbox_columns(),
        sa.Column("media", sa.Text(), nullable=True),
        sa.Column("media_key", sa.String(), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_outbox")),
        sqlite_autoincrement=True,
    )
    for name, (columns, where) in INDEXES.items():
        text = sa.text(where)
        op.create_index(f"ix_outbox_{name}", "outbox", columns, sqlite_where=text, postgresql_where=text)


def _anew(table: str, old: tuple[sa.Column[Any], ...], *more: Any, **options: Any) -> None:
    """Make a table anew with more columns: a column that is merely added has no place among the others."""
    op.rename_table(table, f"{table}_before")
    names = ", ".join(column.name for column in old)
    op.create_table(table, *old, *more, **options)
    op.execute(f"INSERT INTO {table} ({names}) SELECT {names} FROM {table}_before")
    op.drop_table(f"{table}_before")


INDEXES = {
    "to_send": (["urgency", "id"], "state = 'waiting'"),
    "to_take_back": (["client_id"], "state = 'waiting'"),
    "held_back": (["person_id", "try_after"], "state = 'waiting' AND try_after IS NOT NULL"),
    "next_try": (["try_after"], "state = 'waiting' AND try_after IS NOT NULL"),
    "on_wire": (["id"], "state = 'on_wire'"),
}


def _outbox_columns() -> tuple[sa.Column[Any], ...]:
    """The columns of 0002."""
    return (
        sa.Column("id", ROW_ID, nullable=False),
        sa.Column("aggregate", sa.String(), nullable=False),
        sa.Column("subject_id", sa.String(), nullable=False),
        sa.Column("client_id", sa.String(), nullable=True),
        sa.Column("person_id", sa.String(), nullable=False),
        sa.Column("urgency", sa.Integer(), nullable=False),
        sa.Column("topic", sa.String(), nullable=False),
        sa.Column("card", sa.String(), nullable=True),
        sa.Column("put", sa.String(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("buttons", sa.Text(), nullable=False),
        sa.Column("fixed_row", sa.Text(), nullable=False),
        sa.Column("silent", sa.Boolean(), nullable=False),
        sa.Column("not_after", MOMENT, nullable=True),
        sa.Column("tag", sa.String(), nullable=True),
        sa.Column("clears", sa.Boolean(), nullable=False),
        sa.Column("photo", sa.LargeBinary(), nullable=True),
        sa.Column("state", sa.String(), nullable=False),
        sa.Column("attempts", sa.Integer(), nullable=False),
        sa.Column("try_after", MOMENT, nullable=True),
        sa.Column("created_at", MOMENT, nullable=False),
        sa.Column("sent_at", MOMENT, nullable=True),
        sa.Column("message_id", sa.BigInteger(), nullable=True),
        sa.Column("copy_of", sa.BigInteger(), nullable=True),
        sa.Column("copy_from", sa.String(), nullable=True),
        sa.Column("secret", sa.Boolean(), nullable=False),
    )
