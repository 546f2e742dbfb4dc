from __future__ import annotations

from datetime import UTC, datetime, timedelta, timezone

import pytest
from sqlalchemy import MetaData, select, text
from sqlalchemy.exc import StatementError

from service.storage import Database
from service.storage.tables import MaterialRow, Row, SourceRow, TenantRow, new_id
from tests.factories.knowledge import row


def test_a_moment_comes_back_in_utc(database: Database) -> None:
    moment = datetime(2026, 1, 1, 12, tzinfo=timezone(timedelta(hours=5)))
    with database.writing() as session:
        session.add(TenantRow(id="port", name="Port", created_at=moment))
    with database.reading() as session:
        found = session.scalar(select(TenantRow.created_at))
    assert found == moment
    assert found is not None
    assert found.tzinfo is UTC


def test_a_moment_without_zone_is_refused(database: Database) -> None:
    with pytest.raises(StatementError), database.writing() as session:
        session.add(TenantRow(id="port", name="Port", created_at=datetime(2026, 1, 1)))  # noqa: DTZ001


def test_an_empty_reference_is_null_in_the_database_and_empty_text_outside(database: Database) -> None:
    with database.writing() as session:
        session.add(SourceRow(**row("sources", id="invented")))
        session.flush()
        session.add(MaterialRow(**row("materials", id="wood")))
    with database.reading() as session:
        assert session.scalar(text("SELECT count(*) FROM materials WHERE electrode_id IS NULL")) == 1
        assert session.get_one(MaterialRow, "wood").electrode_id == ""


def test_identifiers_sort_by_age_and_never_repeat() -> None:
    made = [new_id("job") for _ in range(2000)]
    assert made == sorted(made)
    assert len(set(made)) == len(made)
    assert all(each.startswith("job_") for each in made)


def test_every_constraint_has_a_name() -> None:
    metadata: MetaData = Row.metadata
    for table in metadata.tables.values():
        assert all(constraint.name for constraint in table.constraints), table.name
        assert all(index.name for index in table.indexes), table.name
