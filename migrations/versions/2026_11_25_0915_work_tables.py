"""Curation, jobs, assemblies, webhooks."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "work_tables"
down_revision = "service_tables"
branch_labels = None
depends_on = None

SERIAL = sa.BigInteger().with_variant(sa.Integer(), "sqlite")


def upgrade() -> None:
    """Create the tables in the order of their references."""
    op.create_table(
        "proposals",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("table_name", sa.Text(), nullable=False),
        sa.Column("row_key", sa.Text(), nullable=False),
        sa.Column("before", sa.JSON()),
        sa.Column("after", sa.JSON()),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("proposed_by", sa.Text(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("closed_at", sa.DateTime(timezone=True)),
        sa.Column("closing_reason", sa.Text(), nullable=False),
        sa.Column("release_label", sa.Text()),
        sa.ForeignKeyConstraint(
            ["release_label"], ["releases.label"], name="fk_proposals_release_label_releases"
        ),
        sa.PrimaryKeyConstraint("id", name="pk_proposals"),
    )
    op.create_index("ix_proposals_proposed_by", "proposals", ["proposed_by"])
    op.create_index("ix_proposals_release_label", "proposals", ["release_label"])
    op.create_index("ix_proposals_state", "proposals", ["state"])
    op.create_index("ix_proposals_table_name", "proposals", ["table_name"])
    op.create_table(
        "comments",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("proposal_id", sa.Text(), nullable=False),
        sa.Column("author", sa.Text(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["proposal_id"], ["proposals.id"], name="fk_comments_proposal_id_proposals"),
        sa.PrimaryKeyConstraint("id", name="pk_comments"),
    )
    op.create_index("ix_comments_proposal_id", "comments", ["proposal_id"])
    op.create_table(
        "reviews",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("proposal_id", sa.Text(), nullable=False),
        sa.Column("reviewer", sa.Text(), nullable=False),
        sa.Column("decision", sa.Text(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["proposal_id"], ["proposals.id"], name="fk_reviews_proposal_id_proposals"),
        sa.PrimaryKeyConstraint("id", name="pk_reviews"),
        sa.UniqueConstraint("proposal_id", "reviewer", name="uq_reviews_proposal_id_reviewer"),
    )
    op.create_table(
        "overlay_rows",
        sa.Column("tenant_id", sa.Text(), nullable=False),
        sa.Column("table_name", sa.Text(), nullable=False),
        sa.Column("row_key", sa.Text(), nullable=False),
        sa.Column("body", sa.JSON(), nullable=False),
        sa.Column("updated_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("updated_by", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["tenant_id"], ["tenants.id"], name="fk_overlay_rows_tenant_id_tenants"),
        sa.PrimaryKeyConstraint("tenant_id", "table_name", "row_key", name="pk_overlay_rows"),
    )
    op.create_table(
        "jobs",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("tenant_id", sa.Text()),
        sa.Column("created_by", sa.Text(), nullable=False),
        sa.Column("request", sa.LargeBinary(), nullable=False),
        sa.Column("result", sa.LargeBinary()),
        sa.Column("error", sa.JSON()),
        sa.Column("total", sa.Integer(), nullable=False),
        sa.Column("done", sa.Integer(), nullable=False),
        sa.Column("attempts", sa.Integer(), nullable=False),
        sa.Column("is_cancel_requested", sa.Boolean(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("started_at", sa.DateTime(timezone=True)),
        sa.Column("heartbeat_at", sa.DateTime(timezone=True)),
        sa.Column("finished_at", sa.DateTime(timezone=True)),
        sa.ForeignKeyConstraint(["tenant_id"], ["tenants.id"], name="fk_jobs_tenant_id_tenants"),
        sa.PrimaryKeyConstraint("id", name="pk_jobs"),
    )
    op.create_index("ix_jobs_state", "jobs", ["state"])
    op.create_index("ix_jobs_tenant_id", "jobs", ["tenant_id"])
    op.create_table(
        "job_chunks",
        sa.Column("job_id", sa.Text(), nullable=False),
        sa.Column("chunk", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("result", sa.LargeBinary(), nullable=False),
        sa.Column("finished_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["job_id"], ["jobs.id"], name="fk_job_chunks_job_id_jobs", ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("job_id", "chunk", name="pk_job_chunks"),
    )
    op.create_table(
        "assemblies",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("tenant_id", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("body", sa.JSON(), nullable=False),
        sa.Column("release_label", sa.Text()),
        sa.Column("summary", sa.JSON()),
        sa.Column("report", sa.LargeBinary()),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("updated_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["release_label"], ["releases.label"], name="fk_assemblies_release_label_releases"
        ),
        sa.ForeignKeyConstraint(["tenant_id"], ["tenants.id"], name="fk_assemblies_tenant_id_tenants"),
        sa.PrimaryKeyConstraint("id", name="pk_assemblies"),
        sa.UniqueConstraint("tenant_id", "name", name="uq_assemblies_tenant_id_name"),
    )
    op.create_index("ix_assemblies_release_label", "assemblies", ["release_label"])
    op.create_table(
        "webhooks",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("tenant_id", sa.Text(), nullable=False),
        sa.Column("url", sa.Text(), nullable=False),
        sa.Column("secret", sa.Text(), nullable=False),
        sa.Column("events", sa.JSON(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("disabled_at", sa.DateTime(timezone=True)),
        sa.Column("failures", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["tenant_id"], ["tenants.id"], name="fk_webhooks_tenant_id_tenants"),
        sa.PrimaryKeyConstraint("id", name="pk_webhooks"),
    )
    op.create_index("ix_webhooks_tenant_id", "webhooks", ["tenant_id"])
    op.create_table(
        "deliveries",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("webhook_id", sa.Text(), nullable=False),
        sa.Column("change_serial", SERIAL, nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("attempts", sa.Integer(), nullable=False),
        sa.Column("due_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("last_status", sa.Integer()),
        sa.Column("last_error", sa.Text(), nullable=False),
        sa.Column("delivered_at", sa.DateTime(timezone=True)),
        sa.ForeignKeyConstraint(
            ["change_serial"], ["changes.serial"], name="fk_deliveries_change_serial_changes"
        ),
        sa.ForeignKeyConstraint(
            ["webhook_id"], ["webhooks.id"], name="fk_deliveries_webhook_id_webhooks", ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("id", name="pk_deliveries"),
        sa.UniqueConstraint("webhook_id", "change_serial", name="uq_deliveries_webhook_id_change_serial"),
    )
    op.create_index("ix_deliveries_change_serial", "deliveries", ["change_serial"])
    op.create_index("ix_deliveries_state_due_at", "deliveries", ["state", "due_at"])


def downgrade() -> None:
    """Drop them in the opposite order."""
    op.drop_table("deliveries")
    op.drop_table("webhooks")
    op.drop_table("assemblies")
    op.drop_table("job_chunks")
    op.drop_table("jobs")
    op.drop_table("overlay_rows")
    op.drop_table("reviews")
    op.drop_table("comments")
    op.drop_table("proposals")
