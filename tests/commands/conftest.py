"""Calling the program inside this process, on a migrated database of the test's own."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from typer.testing import CliRunner, Result

from service.__main__ import app

Faying = Callable[..., Result]


@pytest.fixture
def faying(database_url: str, monkeypatch: pytest.MonkeyPatch) -> Faying:
    """Run a command; the output holds what it said and what it complained of."""
    monkeypatch.setenv("FAYING_DATABASE_URL", database_url)
    monkeypatch.setenv("COLUMNS", "200")
    return lambda *arguments: CliRunner().invoke(app, arguments)
