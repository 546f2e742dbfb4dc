"""Overlays keep their history; jobs and reports remember by which of them they were made."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "overlay_versions"
down_revision = "blocked_clients"
branch_labels = None
depends_on = None

SERIAL = sa.BigInteger().with_variant(sa.Integer(), "sqlite")

POSTGRESQL_TRIGGER = """
CREATE TRIGGER overlay_versions_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON overlay_versions
FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()
"""
SQLITE_TRIGGER = """
CREATE TRIGGER overlay_versions_no_{action} BEFORE {action} ON overlay_versions
BEGIN SELECT RAISE(ABORT, 'overlay_versions is append-only'); END
"""


def upgrade() -> None:
    """Add the table with its triggers, and the columns; what was made so far was made without overlays."""
    op.create_table(
        "overlay_versions",
        sa.Column("serial", SERIAL, autoincrement=True, nullable=False),
        sa.Column("tenant_id", sa.Text(), nullable=False),
        sa.Column("overlay_hash", sa.Text(), nullable=False),
        sa.Column("body", sa.JSON(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("created_by", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("serial", name="pk_overlay_versions"),
        sa.ForeignKeyConstraint(["tenant_id"], ["tenants.id"], name="fk_overlay_versions_tenant_id_tenants"),
    )
    op.create_index("ix_overlay_versions_tenant_id", "overlay_versions", ["tenant_id"])
    if op.get_bind().dialect.name == "postgresql":
        op.execute(POSTGRESQL_TRIGGER)
    else:
        for action in ("update", "delete"):
            op.execute(SQLITE_TRIGGER.format(action=action))
    for table in ("jobs", "assemblies"):
        with op.batch_alter_table(table) as altered:
            altered.add_column(sa.Column("overlay_hash", sa.Text(), nullable=False, server_default=""))


def downgrade() -> None:
    """Take them away; the rows of the overlays stay."""
    for table in ("assemblies", "jobs"):
        with op.batch_alter_table(table) as altered:
            altered.drop_column("overlay_hash")
    op.drop_table("overlay_versions")
