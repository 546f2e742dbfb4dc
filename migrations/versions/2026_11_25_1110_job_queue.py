"""The queue of PostgreSQL: the tables, types and functions that procrastinate brings."""

from __future__ import annotations

from alembic import op

revision = "job_queue"
down_revision = "job_inputs"
branch_labels = None
depends_on = None

DROP_ALL = """
DO $$
DECLARE name text;
BEGIN
    FOR name IN SELECT tablename FROM pg_tables
        WHERE schemaname = current_schema() AND tablename LIKE 'procrastinate\\_%'
    LOOP EXECUTE format('DROP TABLE %I CASCADE', name); END LOOP;
    FOR name IN SELECT oid::regprocedure::text FROM pg_proc
        WHERE pronamespace = current_schema()::regnamespace AND proname LIKE 'procrastinate\\_%'
    LOOP EXECUTE 'DROP FUNCTION ' || name || ' CASCADE'; END LOOP;
    FOR name IN SELECT typname FROM pg_type
        WHERE typnamespace = current_schema()::regnamespace AND typname LIKE 'procrastinate\\_%'
            AND typtype IN ('c', 'e')
    LOOP EXECUTE format('DROP TYPE %I CASCADE', name); END LOOP;
END $$
"""


def upgrade() -> None:
    """Let procrastinate write its schema in this transaction; SQLite has workers in its own process."""
    if op.get_bind().dialect.name != "postgresql":
        return
    from procrastinate.schema import SchemaManager

    # Percent signs are doubled because the driver fills in parameters, of which there are none.
    op.get_bind().exec_driver_sql(SchemaManager.get_schema().replace("%", "%%"))


def downgrade() -> None:
    """Take away everything that carries its name; tasks that wait there are lost, jobs are not."""
    if op.get_bind().dialect.name == "postgresql":
        op.get_bind().exec_driver_sql(DROP_ALL.replace("%", "%%"))
