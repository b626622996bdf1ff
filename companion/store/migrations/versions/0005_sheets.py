"""What is drawn of a client's records is of several kinds."""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None

ROW_ID = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
OLD = "id, client_id, person_id, first, last, state"


def upgrade() -> None:
    """Forward only: the way back is a backup."""
    op.drop_index("ix_report_request_state_id", "report_request")
    op.rename_table("report_request", "report_request_before")
    op.create_table(
        "report_request",
        sa.Column("id", ROW_ID, nullable=False),
        sa.Column("client_id", sa.String(), nullable=False),
        sa.Column("person_id", sa.String(), nullable=False),
        sa.Column("first", sa.Date(), nullable=False),
        sa.Column("last", sa.Date(), nullable=False),
        sa.Column("state", sa.String(), nullable=False),
        sa.Column("sheet", sa.String(), nullable=False),
        sa.Column("paper", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["client_id"], ["client.id"], name=op.f("fk_report_request_client_id")),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_report_request_person_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_report_request")),
        sqlite_autoincrement=True,
    )
    op.execute(f"INSERT INTO report_request ({OLD}, sheet, paper) SELECT {OLD}, 'week', 'a4' FROM report_request_before")
    op.drop_table("report_request_before")
    op.create_index("ix_report_request_state_id", "report_request", ["state", "id"])
