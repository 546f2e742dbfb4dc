"""An issued answer is never changed; it may be deleted, when its term of storage is over."""

from __future__ import annotations

from alembic import op

revision = "answers_stay"
down_revision = "append_only"
branch_labels = None
depends_on = None

POSTGRESQL_TRIGGER = """
CREATE TRIGGER answers_no_update BEFORE UPDATE ON answers
FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()
"""
SQLITE_TRIGGER = """
CREATE TRIGGER answers_no_update BEFORE UPDATE ON answers
BEGIN SELECT RAISE(ABORT, 'answers is append-only'); END
"""


def upgrade() -> None:
    """Put the trigger on."""
    is_postgresql = op.get_bind().dialect.name == "postgresql"
    op.execute(POSTGRESQL_TRIGGER if is_postgresql else SQLITE_TRIGGER)


def downgrade() -> None:
    """Take it off; the rows stay."""
    is_postgresql = op.get_bind().dialect.name == "postgresql"
    op.execute("DROP TRIGGER answers_no_update" + (" ON answers" if is_postgresql else ""))
