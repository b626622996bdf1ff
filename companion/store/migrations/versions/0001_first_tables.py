"""The first tables."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

ROW_ID = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
MOMENT = sa.DateTime(timezone=True)


def upgrade() -> None:
    """Forward only: the way back is a backup."""
    _people()
    _events()
    _outbox()
    _phones()
    _findings()


def _people() -> None:
    """Clients with the scripts of their sessions, persons with the links they come in by."""
    op.create_table(
        "client",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("record", sa.Text(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("wake_at", MOMENT, nullable=True),
        sa.Column("wake_class", sa.Integer(), nullable=False),
        sa.Column("script_id", sa.String(), nullable=True),
        sa.CheckConstraint("wake_class BETWEEN 0 AND 2", name=op.f("ck_client_wake_class")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_client")),
    )
    op.create_index(op.f("ix_client_wake_class_wake_at_id"), "client", ["wake_class", "wake_at", "id"])
    op.create_table(
        "script",
        sa.Column("client_id", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("record", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["client_id"], ["client.id"], name=op.f("fk_script_client_id")),
        sa.PrimaryKeyConstraint("client_id", "id", name=op.f("pk_script")),
    )
    op.create_table(
        "person",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("record", sa.Text(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("wake_at", MOMENT, nullable=True),
        sa.Column("wake_class", sa.Integer(), nullable=False),
        sa.Column("user_id", sa.BigInteger(), nullable=True),
        sa.CheckConstraint("wake_class BETWEEN 0 AND 2", name=op.f("ck_person_wake_class")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_person")),
        sa.UniqueConstraint("user_id", name=op.f("uq_person_user_id")),
    )
    op.create_index(op.f("ix_person_wake_class_wake_at_id"), "person", ["wake_class", "wake_at", "id"])
    op.create_table(
        "link",
        sa.Column("hash", sa.String(), nullable=False),
        sa.Column("person_id", sa.String(), nullable=False),
        sa.Column("expires_at", MOMENT, nullable=False),
        sa.Column("used_at", MOMENT, nullable=True),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_link_person_id")),
        sa.PrimaryKeyConstraint("hash", name=op.f("pk_link")),
    )


def _events() -> None:
    """What was handled, and what is to be handled."""
    op.create_table(
        "journal",
        sa.Column("key", sa.String(), nullable=False),
        sa.Column("aggregate", sa.String(), nullable=False),
        sa.Column("subject_id", sa.String(), nullable=False),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("event", sa.Text(), nullable=False),
        sa.Column("effects", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_journal")),
    )
    op.create_table(
        "passes",
        sa.Column("id", ROW_ID, nullable=False),
        sa.Column("aggregate", sa.String(), nullable=False),
        sa.Column("subject_id", sa.String(), nullable=False),
        sa.Column("event", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_passes")),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "update_offset",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("next", sa.BigInteger(), nullable=False),
        sa.CheckConstraint("id = 1", name=op.f("ck_update_offset_single")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_update_offset")),
    )


def _outbox() -> None:
    """What is to be said."""
    op.create_table(
        "outbox",
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
        sa.PrimaryKeyConstraint("id", name=op.f("pk_outbox")),
        sqlite_autoincrement=True,
    )
    op.create_index(
        "ix_outbox_held_back",
        "outbox",
        ["person_id", "try_after"],
        sqlite_where=sa.text("state = 'waiting' AND try_after IS NOT NULL"),
        postgresql_where=sa.text("state = 'waiting' AND try_after IS NOT NULL"),
    )
    op.create_index(
        "ix_outbox_next_try",
        "outbox",
        ["try_after"],
        sqlite_where=sa.text("state = 'waiting' AND try_after IS NOT NULL"),
        postgresql_where=sa.text("state = 'waiting' AND try_after IS NOT NULL"),
    )
    op.create_index(
        "ix_outbox_on_wire",
        "outbox",
        ["id"],
        sqlite_where=sa.text("state = 'on_wire'"),
        postgresql_where=sa.text("state = 'on_wire'"),
    )
    op.create_index(
        "ix_outbox_to_send",
        "outbox",
        ["urgency", "id"],
        sqlite_where=sa.text("state = 'waiting'"),
        postgresql_where=sa.text("state = 'waiting'"),
    )
    op.create_index(
        "ix_outbox_to_take_back",
        "outbox",
        ["client_id"],
        sqlite_where=sa.text("state = 'waiting'"),
        postgresql_where=sa.text("state = 'waiting'"),
    )


def _phones() -> None:
    """What stands on the phones."""
    op.create_table(
        "card",
        sa.Column("person_id", sa.String(), nullable=False),
        sa.Column("card", sa.String(), nullable=False),
        sa.Column("message_id", sa.BigInteger(), nullable=False),
        sa.Column("has_buttons", sa.Boolean(), nullable=False),
        sa.Column("editable", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_card_person_id")),
        sa.PrimaryKeyConstraint("person_id", "card", name=op.f("pk_card")),
    )
    op.create_table(
        "last_message",
        sa.Column("person_id", sa.String(), nullable=False),
        sa.Column("message_id", sa.BigInteger(), nullable=False),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_last_message_person_id")),
        sa.PrimaryKeyConstraint("person_id", name=op.f("pk_last_message")),
    )


def _findings() -> None:
    """What was observed, and the charts that are asked for."""
    op.create_table(
        "observation",
        sa.Column("id", ROW_ID, nullable=False),
        sa.Column("client_id", sa.String(), nullable=False),
        sa.Column("at", MOMENT, nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("session", sa.String(), nullable=True),
        sa.Column("data", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["client_id"], ["client.id"], name=op.f("fk_observation_client_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_observation")),
        sqlite_autoincrement=True,
    )
    op.create_index(op.f("ix_observation_client_id_at_id"), "observation", ["client_id", "at", "id"])
    op.create_table(
        "report_request",
        sa.Column("id", ROW_ID, nullable=False),
        sa.Column("client_id", sa.String(), nullable=False),
        sa.Column("person_id", sa.String(), nullable=False),
        sa.Column("first", sa.Date(), nullable=False),
        sa.Column("last", sa.Date(), nullable=False),
        sa.Column("state", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["client_id"], ["client.id"], name=op.f("fk_report_request_client_id")),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_report_request_person_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_report_request")),
        sqlite_autoincrement=True,
    )
    op.create_index(op.f("ix_report_request_state_id"), "report_request", ["state", "id"])
