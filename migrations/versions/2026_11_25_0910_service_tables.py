"""Releases, audit, access, answers, policies."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "service_tables"
down_revision = "knowledge_tables"
branch_labels = None
depends_on = None

SERIAL = sa.BigInteger().with_variant(sa.Integer(), "sqlite")


def upgrade() -> None:
    """Create the tables in the order of their references."""
    op.create_table(
        "releases",
        sa.Column("serial", SERIAL, autoincrement=True, nullable=False),
        sa.Column("label", sa.Text(), nullable=False),
        sa.Column("content_hash", sa.Text(), nullable=False),
        sa.Column("published_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("published_by", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("engine", sa.Text(), nullable=False),
        sa.Column("size_bytes", sa.Integer(), nullable=False),
        sa.Column("blob", sa.LargeBinary(), nullable=False),
        sa.PrimaryKeyConstraint("serial", name="pk_releases"),
        sa.UniqueConstraint("content_hash", name="uq_releases_content_hash"),
        sa.UniqueConstraint("label", name="uq_releases_label"),
    )
    op.create_index("ix_releases_published_at", "releases", ["published_at"])
    op.create_table(
        "seeded_rows",
        sa.Column("table_name", sa.Text(), nullable=False),
        sa.Column("row_key", sa.Text(), nullable=False),
        sa.Column("row_hash", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("table_name", "row_key", name="pk_seeded_rows"),
    )
    op.create_table(
        "audit",
        sa.Column("serial", SERIAL, autoincrement=True, nullable=False),
        sa.Column("happened_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("actor", sa.Text(), nullable=False),
        sa.Column("action", sa.Text(), nullable=False),
        sa.Column("subject_kind", sa.Text(), nullable=False),
        sa.Column("subject_id", sa.Text(), nullable=False),
        sa.Column("detail", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("serial", name="pk_audit"),
    )
    op.create_index("ix_audit_actor", "audit", ["actor"])
    op.create_index("ix_audit_subject_kind_subject_id", "audit", ["subject_kind", "subject_id"])
    op.create_table(
        "tenants",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("disabled_at", sa.DateTime(timezone=True)),
        sa.PrimaryKeyConstraint("id", name="pk_tenants"),
    )
    op.create_table(
        "api_keys",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("prefix", sa.Text(), nullable=False),
        sa.Column("key_hash", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("tenant_id", sa.Text(), nullable=False),
        sa.Column("scopes", sa.JSON(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("expires_at", sa.DateTime(timezone=True)),
        sa.Column("revoked_at", sa.DateTime(timezone=True)),
        sa.Column("last_used_at", sa.DateTime(timezone=True)),
        sa.ForeignKeyConstraint(["tenant_id"], ["tenants.id"], name="fk_api_keys_tenant_id_tenants"),
        sa.PrimaryKeyConstraint("id", name="pk_api_keys"),
        sa.UniqueConstraint("prefix", name="uq_api_keys_prefix"),
    )
    op.create_index("ix_api_keys_tenant_id", "api_keys", ["tenant_id"])
    op.create_table(
        "idempotency_keys",
        sa.Column("tenant_id", sa.Text(), nullable=False),
        sa.Column("idempotency_key", sa.Text(), nullable=False),
        sa.Column("fingerprint", sa.Text(), nullable=False),
        sa.Column("status", sa.Integer()),
        sa.Column("headers", sa.JSON(), nullable=False),
        sa.Column("body", sa.LargeBinary()),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("expires_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["tenant_id"], ["tenants.id"], name="fk_idempotency_keys_tenant_id_tenants"),
        sa.PrimaryKeyConstraint("tenant_id", "idempotency_key", name="pk_idempotency_keys"),
    )
    op.create_index("ix_idempotency_keys_expires_at", "idempotency_keys", ["expires_at"])
    op.create_table(
        "changes",
        sa.Column("serial", SERIAL, autoincrement=True, nullable=False),
        sa.Column("happened_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("subject", sa.Text(), nullable=False),
        sa.Column("tenant_id", sa.Text()),
        sa.Column("detail", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(["tenant_id"], ["tenants.id"], name="fk_changes_tenant_id_tenants"),
        sa.PrimaryKeyConstraint("serial", name="pk_changes"),
    )
    op.create_index("ix_changes_kind", "changes", ["kind"])
    op.create_index("ix_changes_tenant_id", "changes", ["tenant_id"])
    op.create_table(
        "answers",
        sa.Column("digest", sa.Text(), nullable=False),
        sa.Column("release_label", sa.Text(), nullable=False),
        sa.Column("engine", sa.Text(), nullable=False),
        sa.Column("tenant_id", sa.Text()),
        sa.Column("overlay_hash", sa.Text(), nullable=False),
        sa.Column("policy_hash", sa.Text(), nullable=False),
        sa.Column("request", sa.LargeBinary(), nullable=False),
        sa.Column("body", sa.LargeBinary(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["release_label"], ["releases.label"], name="fk_answers_release_label_releases"
        ),
        sa.ForeignKeyConstraint(["tenant_id"], ["tenants.id"], name="fk_answers_tenant_id_tenants"),
        sa.PrimaryKeyConstraint("digest", name="pk_answers"),
    )
    op.create_index("ix_answers_release_label", "answers", ["release_label"])
    op.create_index("ix_answers_tenant_id", "answers", ["tenant_id"])
    op.create_table(
        "policies",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("tenant_id", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("content_hash", sa.Text(), nullable=False),
        sa.Column("body", sa.JSON(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("created_by", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["tenant_id"], ["tenants.id"], name="fk_policies_tenant_id_tenants"),
        sa.PrimaryKeyConstraint("id", name="pk_policies"),
        sa.UniqueConstraint("tenant_id", "name", "version", name="uq_policies_tenant_id_name_version"),
    )
    op.create_table(
        "waivers",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("tenant_id", sa.Text(), nullable=False),
        sa.Column("subject", sa.Text(), nullable=False),
        sa.Column("answer_digest", sa.Text()),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("conditions", sa.JSON(), nullable=False),
        sa.Column("granted_by", sa.Text(), nullable=False),
        sa.Column("granted_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("expires_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("revoked_at", sa.DateTime(timezone=True)),
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


def downgrade() -> None:
    """Drop them in the opposite order."""
    op.drop_table("waivers")
    op.drop_table("policies")
    op.drop_table("answers")
    op.drop_table("changes")
    op.drop_table("idempotency_keys")
    op.drop_table("api_keys")
    op.drop_table("tenants")
    op.drop_table("audit")
    op.drop_table("seeded_rows")
    op.drop_table("releases")
