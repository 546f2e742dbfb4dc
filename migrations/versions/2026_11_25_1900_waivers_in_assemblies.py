"""Take away the table of waivers: nothing has ever written it, they stand in the assemblies they are for."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "waivers_in_assemblies"
down_revision = "overlay_versions"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Drop the table."""
    op.drop_table("waivers")


def downgrade() -> None:
    """Put it back, empty as it was."""
    op.create_table(
        "waivers",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("tenant_id", sa.Text(), nullable=False),
        sa.Column("subject", sa.Text(), nullable=False),
        sa.Column("answer_digest", sa.Text(), nullable=True),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("conditions", sa.JSON(), nullable=False),
        sa.Column("granted_by", sa.Text(), nullable=False),
        sa.Column("granted_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("expires_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("revoked_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("revoked_reason", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["answer_digest"], ["answers.digest"], name="fk_waivers_answer_digest_answers"
        ),
        sa.ForeignKeyConstraint(["tenant_id"], ["tenants.id"], name="fk_waivers_tenant_id_tenants"),
        sa.PrimaryKeyConstraint("id", name="pk_waivers"),
    )
    op.create_index("ix_waivers_answer_digest", "waivers", ["answer_digest"])
    op.create_index("ix_waivers_subject", "waivers", ["subject"])
    op.create_index("ix_waivers_tenant_id", "waivers", ["tenant_id"])
