"""The worker from the command line; that it works is shown by the acceptance tests."""

from __future__ import annotations

from pathlib import Path

import pytest
from typer.testing import CliRunner

from service.__main__ import app


def test_the_embedded_default_needs_no_worker(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("FAYING_DATABASE_URL", f"sqlite:///{tmp_path / 'faying.sqlite3'}")
    done = CliRunner().invoke(app, ["worker"])
    assert done.exit_code == 1
    assert "workers need PostgreSQL" in done.stderr
