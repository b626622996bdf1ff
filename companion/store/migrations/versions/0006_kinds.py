"""What was observed of a kind is found however long ago it was."""

from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Forward only: the way back is a backup."""
    op.create_index("ix_observation_client_id_kind_at_id", "observation", ["client_id", "kind", "at", "id"])
