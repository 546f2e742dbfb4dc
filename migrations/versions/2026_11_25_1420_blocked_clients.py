"""Clients of the token issuer that are shut out."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "blocked_clients"
down_revision = "job_queue"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the table; nobody is shut out."""
    op.create_table(
        "blocked_clients",
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("blocked_at", sa.DateTime(timezone=True), nullable=False),
        sa.PrimaryKeyConstraint("client_id", name="pk_blocked_clients"),
    )


def downgrade() -> None:
    """Take it away, and with it who was shut out."""
    op.drop_table("blocked_clients")
