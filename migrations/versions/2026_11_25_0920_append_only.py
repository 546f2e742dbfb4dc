"""Audit lines and releases can be added, and never changed or deleted."""

from __future__ import annotations

from alembic import op

revision = "append_only"
down_revision = "work_tables"
branch_labels = None
depends_on = None

TABLES = ("audit", "releases")

POSTGRESQL_FUNCTION = """
CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    RAISE EXCEPTION '% is append-only', TG_TABLE_NAME USING ERRCODE = 'restrict_violation';
END
$$
"""
POSTGRESQL_TRIGGER = """
CREATE TRIGGER {table}_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON {table}
FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()
"""
SQLITE_TRIGGER = """
CREATE TRIGGER {table}_no_{action} BEFORE {action} ON {table}
BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END
"""
SQLITE_ACTIONS = ("update", "delete")


def upgrade() -> None:
    """Put the triggers on."""
    if op.get_bind().dialect.name == "postgresql":
        op.execute(POSTGRESQL_FUNCTION)
        for table in TABLES:
            op.execute(POSTGRESQL_TRIGGER.format(table=table))
        return
    for table in TABLES:
        for action in SQLITE_ACTIONS:
            op.execute(SQLITE_TRIGGER.format(table=table, action=action))


def downgrade() -> None:
    """Take them off; the rows stay."""
    if op.get_bind().dialect.name == "postgresql":
        for table in TABLES:
            op.execute(f"DROP TRIGGER {table}_append_only ON {table}")
        op.execute("DROP FUNCTION refuse_change()")
        return
    for table in TABLES:
        for action in SQLITE_ACTIONS:
            op.execute(f"DROP TRIGGER {table}_no_{action}")
