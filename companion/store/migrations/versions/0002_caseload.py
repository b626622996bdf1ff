"""Lists of clients and of therapists; messages that are copies, and messages that are forgotten once sent."""

import json
from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

ROW_ID = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
MOMENT = sa.DateTime(timezone=True)


def upgrade() -> None:
    """Forward only: the way back is a backup."""
    _lists()
    _fill_lists()
    _outbox()
    op.create_index(op.f("ix_link_person_id"), "link", ["person_id"])


def _lists() -> None:
    op.create_table(
        "caseload",
        sa.Column("client_id", sa.String(), nullable=False),
        sa.Column("person_id", sa.String(), nullable=False),
        sa.Column("rank", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("reasons", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["client_id"], ["client.id"], name=op.f("fk_caseload_client_id")),
        sa.PrimaryKeyConstraint("client_id", "person_id", name=op.f("pk_caseload")),
    )
    op.create_index("ix_caseload_page", "caseload", ["person_id", sa.text("rank DESC"), "name", "client_id"])
    op.create_table(
        "therapist",
        sa.Column("person_id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_therapist_person_id")),
        sa.PrimaryKeyConstraint("person_id", name=op.f("pk_therapist")),
    )
    op.create_index(op.f("ix_therapist_name_person_id"), "therapist", ["name", "person_id"])


def _fill_lists() -> None:
    """Who needs a look is worked out at each client's next event; until then nobody does."""
    bind = op.get_bind()
    for id, record in bind.execute(sa.text("SELECT id, record FROM client")).all():
        data = json.loads(record)["data"]
        line = {"client": id, "person": data["people"]["therapist"], "name": data["name"], "reasons": '{"v":1,"data":[]}'}
        bind.execute(
            sa.text(
                "INSERT INTO caseload (client_id, person_id, rank, name, reasons) VALUES (:client, :person, 0, :name, :reasons)"
            ),
            line,
        )
    for id, record in bind.execute(sa.text("SELECT id, record FROM person WHERE user_id IS NOT NULL")).all():
        data = json.loads(record)["data"]
        if data["role"] == "therapist":
            bind.execute(
                sa.text("INSERT INTO therapist (person_id, name) VALUES (:id, :name)"), {"id": id, "name": data["name"]}
            )


def _outbox() -> None:
    """Made anew with three more columns: a column that is merely added has no place among the others."""
    for name in INDEXES:
        op.drop_index(f"ix_outbox_{name}", "outbox")
    op.rename_table("outbox", "outbox_before")
    old = _columns()
    more: tuple[sa.Column[Any], ...] = (
        sa.Column("copy_of", sa.BigInteger(), nullable=True),
        sa.Column("copy_from", sa.String(), nullable=True),
        sa.Column("secret", sa.Boolean(), nullable=False),
    )
    names = ", ".join(column.name for column in old)
    op.create_table("outbox", *old, *more, sa.PrimaryKeyConstraint("id", name=op.f("pk_outbox")), sqlite_autoincrement=True)
    op.execute(f"INSERT INTO outbox ({names}, secret) SELECT {names}, false FROM outbox_before")
    op.drop_table("outbox_before")
    for name, (columns, where) in INDEXES.items():
        text = sa.text(where)
        op.create_index(f"ix_outbox_{name}", "outbox", columns, sqlite_where=text, postgresql_where=text)


INDEXES = {
    "to_send": (["urgency", "id"], "state = 'waiting'"),
    "to_take_back": (["client_id"], "state = 'waiting'"),
    "held_back": (["person_id", "try_after"], "state = 'waiting' AND try_after IS NOT NULL"),
    "next_try": (["try_after"], "state = 'waiting' AND try_after IS NOT NULL"),
    "on_wire": (["id"], "state = 'on_wire'"),
}


def _columns() -> tuple[sa.Column[Any], ...]:
    """The columns of 0001."""
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
    )
