from __future__ import annotations

from pathlib import Path

import pytest
from typer.testing import CliRunner

from service.__main__ import app


def test_the_embedded_default_needs_no_worker(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FAYING_DATABASE_URL", f"sqlite:///{tmp_path / 'faying.sqlite3'}")
    result = CliRunner().invoke(app, ["worker"])
    assert result.exit_code == 1
    assert "workers need PostgreSQL" in result.stderr


def test_a_worker_waits_for_the_schema(postgresql_url: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FAYING_DATABASE_URL", f"{postgresql_url}_that_is_not_there")
    result = CliRunner().invoke(app, ["worker"])
    assert result.exit_code == 1
    assert result.stderr.startswith("faying: the database does not answer")
