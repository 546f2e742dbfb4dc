"""Old code beside a new schema: migrations only add, and a version goes on beside what the next one adds."""

from __future__ import annotations

import ast
from contextlib import closing
from pathlib import Path

import pytest
from alembic.script import ScriptDirectory
from sqlalchemy import inspect, text

from service.commands.errors import Failure
from service.commands.places import configured, require_own_schema, require_schema
from service.settings import Settings
from service.storage import Database, migrate
from service.storage.errors import NewerSchemaError
from service.storage.tables import Row
from tests.acceptance.processes import environment, faying
from tests.factories.http import publish_package, running

SCRIPTS = ScriptDirectory.from_config(migrate.configuration())
FILES = [Path(script.path) for script in SCRIPTS.walk_revisions()]
CONTRACTING = {"drop_table", "drop_column", "drop_constraint", "drop_index", "rename_table"}
"""What takes away something that the version before may still use."""

AGREED: dict[str, str] = {"waivers_in_assemblies": "nothing has ever used the table"}
"""Revisions that contract, with the version since which nothing uses any more what they take away."""


def calls(file: Path) -> list[ast.Call]:
    """What the upgrade of a migration calls on alembic's ``op`` or on a batch of it."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    (upgrade,) = [node for node in tree.body if isinstance(node, ast.FunctionDef) and node.name == "upgrade"]
    return [
        node
        for node in ast.walk(upgrade)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute)
    ]


def contracts(call: ast.Call) -> bool:
    """Whether old code could stumble over it."""
    name = call.func.attr if isinstance(call.func, ast.Attribute) else ""
    given = {keyword.arg: keyword.value for keyword in call.keywords}
    if name == "alter_column":
        nullable = given.get("nullable")
        widens = isinstance(nullable, ast.Constant) and nullable.value is True
        return not (widens and set(given) <= {"nullable", "existing_type", "existing_nullable"})
    if name == "add_column":
        column = next(each for each in ast.walk(call) if isinstance(each, ast.Call) and _is_column(each))
        options = {keyword.arg: keyword.value for keyword in column.keywords}
        nullable = options.get("nullable")
        needs_value = isinstance(nullable, ast.Constant) and nullable.value is False
        return needs_value and "server_default" not in options
    return name in CONTRACTING


def _is_column(call: ast.Call) -> bool:
    return isinstance(call.func, ast.Attribute) and call.func.attr == "Column"


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_a_migration_only_adds(file: Path) -> None:
    found = [ast.unparse(call.func) for call in calls(file) if contracts(call)]
    if any(file.stem.endswith(f"_{revision}") for revision in AGREED):
        assert found
    else:
        assert found == []


@pytest.mark.parametrize(
    ("statement", "expected"),
    [
        ("op.drop_column('jobs', 'kind')", True),
        ("op.rename_table('jobs', 'work')", True),
        ("op.alter_column('jobs', 'kind', new_column_name='sort')", True),
        ("op.alter_column('jobs', 'kind', nullable=False)", True),
        ("op.alter_column('jobs', 'kind', nullable=True)", False),
        ("op.add_column('jobs', sa.Column('rank', sa.Integer(), nullable=False))", True),
        ("op.add_column('jobs', sa.Column('rank', sa.Integer(), nullable=False, server_default='0'))", False),
        ("op.add_column('jobs', sa.Column('rank', sa.Integer(), nullable=True))", False),
        ("op.create_table('ranks')", False),
    ],
)
def test_the_rule_knows_what_contracts(tmp_path: Path, statement: str, expected: bool) -> None:  # noqa: FBT001
    file = tmp_path / "some.py"
    file.write_text(f"def upgrade():\n    {statement}\n")
    assert any(contracts(call) for call in calls(file)) is expected


def expand(url: str) -> None:
    """Do to a database what the next version's migration might: more columns, more tables."""
    with closing(Database.open(url)) as database, database.engine.begin() as connection:
        for name in inspect(connection).get_table_names():
            if name in Row.metadata.tables:
                connection.execute(text(f"ALTER TABLE {name} ADD COLUMN of_tomorrow INTEGER"))
                connection.execute(text(f"ALTER TABLE {name} ADD COLUMN also INTEGER DEFAULT 7 NOT NULL"))
        connection.execute(text("CREATE TABLE tomorrow (id INTEGER PRIMARY KEY)"))
        connection.execute(text("UPDATE alembic_version SET version_num = 'of_tomorrow'"))


@pytest.mark.anyio
async def test_a_version_works_beside_what_the_next_one_adds(
    database_url: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    publish_package(database_url)
    expand(database_url)
    monkeypatch.setenv("FAYING_DATABASE_URL", database_url)
    require_schema(configured())
    key = "fay_test_a-key-of-the-fault-tests-and-of-nothing-else"
    async with running(Settings(database_url=database_url, development_key=key), key) as application:
        client = application.client
        assert (await client.get("/v1/materials")).status_code == 200
        body = {
            "parts": [{"part_number": "1", "surface": "S235JR"}, {"part_number": "2", "surface": "S235JR"}],
            "joints": [{"id": "J1", "first": "1", "second": "2"}],
            "programme": {"environment": "harbour"},
        }
        stored = await client.put("/v1/assemblies/stored/mast", json=body)
        assert stored.status_code == 201, stored.text
        assert (await client.get("/v1/changes")).status_code == 200


def test_only_the_newer_version_migrates_and_saves(
    database_url: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    expand(database_url)
    monkeypatch.setenv("FAYING_DATABASE_URL", database_url)
    with pytest.raises(NewerSchemaError):
        migrate.upgrade(database_url)
    with pytest.raises(Failure, match="newer version"):
        require_own_schema(configured())


def test_a_version_refuses_tables_that_are_too_old(database_url: str) -> None:
    migrate.downgrade(database_url, "-1")
    outcome = faying("serve", env=environment(database_url))
    assert outcome.status == 1
    assert "run `faying migrate`" in outcome.complaint
