"""The digest over all clients of a therapist, asked for and drawn."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None

ROW_ID = sa.BigInteger().with_variant(sa.Integer(), "sqlite")


def upgrade() -> None:
    """Forward only: the way back is a backup."""
    op.create_table(
        "digest_request",
        sa.Column("id", ROW_ID, nullable=False),
        sa.Column("person_id", sa.String(), nullable=False),
        sa.Column("first", sa.Date(), nullable=False),
        sa.Column("last", sa.Date(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("buttons", sa.Text(), nullable=False),
        sa.Column("state", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_digest_request_person_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_digest_request")),
        sqlite_autoincrement=True,
    )
    op.create_index(op.f("ix_digest_request_state_id"), "digest_request", ["state", "id"])
