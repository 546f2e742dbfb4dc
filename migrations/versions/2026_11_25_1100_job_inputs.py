"""Inputs of jobs, what a stored assembly rests on, how far a webhook has heard."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "job_inputs"
down_revision = "answers_stay"
branch_labels = None
depends_on = None

SERIAL = sa.BigInteger().with_variant(sa.Integer(), "sqlite")


def upgrade() -> None:
    """Add the table and the columns; jobs that were under way have no inputs and are cancelled."""
    op.create_table(
        "job_inputs",
        sa.Column("job_id", sa.Text(), nullable=False),
        sa.Column("chunk", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("items", sa.Integer(), nullable=False),
        sa.Column("request", sa.LargeBinary(), nullable=False),
        sa.ForeignKeyConstraint(
            ["job_id"], ["jobs.id"], name="fk_job_inputs_job_id_jobs", ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("job_id", "chunk", name="pk_job_inputs"),
    )
    with op.batch_alter_table("jobs") as jobs:
        jobs.add_column(sa.Column("chunks", sa.Integer(), nullable=False, server_default="0"))
        jobs.add_column(sa.Column("release_label", sa.Text()))
        jobs.add_column(sa.Column("dedupe_key", sa.Text()))
        jobs.create_foreign_key("fk_jobs_release_label_releases", "releases", ["release_label"], ["label"])
        jobs.create_unique_constraint("uq_jobs_dedupe_key", ["dedupe_key"])
        jobs.create_index("ix_jobs_release_label", ["release_label"])
    op.execute("UPDATE jobs SET state = 'done' WHERE state = 'succeeded'")
    op.execute("UPDATE jobs SET state = 'cancelled' WHERE state IN ('queued', 'running')")
    with op.batch_alter_table("assemblies") as assemblies:
        assemblies.add_column(sa.Column("joints", sa.Integer(), nullable=False, server_default="0"))
        assemblies.add_column(sa.Column("engine", sa.Text(), nullable=False, server_default=""))
        assemblies.add_column(sa.Column("holds_under", sa.Text()))
        assemblies.add_column(sa.Column("rests_on", sa.JSON(), nullable=False, server_default="[]"))
        assemblies.create_foreign_key(
            "fk_assemblies_holds_under_releases", "releases", ["holds_under"], ["label"]
        )
        assemblies.create_index("ix_assemblies_holds_under", ["holds_under"])
    with op.batch_alter_table("webhooks") as webhooks:
        webhooks.add_column(sa.Column("after_serial", SERIAL, nullable=False, server_default="0"))


def downgrade() -> None:
    """Take them away in the opposite order."""
    with op.batch_alter_table("webhooks") as webhooks:
        webhooks.drop_column("after_serial")
    with op.batch_alter_table("assemblies") as assemblies:
        assemblies.drop_index("ix_assemblies_holds_under")
        assemblies.drop_constraint("fk_assemblies_holds_under_releases", type_="foreignkey")
        assemblies.drop_column("rests_on")
        assemblies.drop_column("holds_under")
        assemblies.drop_column("engine")
        assemblies.drop_column("joints")
    op.execute("UPDATE jobs SET state = 'succeeded' WHERE state = 'done'")
    with op.batch_alter_table("jobs") as jobs:
        jobs.drop_index("ix_jobs_release_label")
        jobs.drop_constraint("uq_jobs_dedupe_key", type_="unique")
        jobs.drop_constraint("fk_jobs_release_label_releases", type_="foreignkey")
        jobs.drop_column("dedupe_key")
        jobs.drop_column("release_label")
        jobs.drop_column("chunks")
    op.drop_table("job_inputs")
