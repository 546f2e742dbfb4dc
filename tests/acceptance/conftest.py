"""A database that was set up once by the program itself."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.acceptance.processes import Outcome, Server, environment, faying, serving


@pytest.fixture(scope="session")
def first_setup(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Outcome]:
    """The file that `faying setup` made, and what it said."""
    file = tmp_path_factory.mktemp("acceptance") / "var" / "faying.sqlite3"
    return file, faying("setup", env=environment(file))


@pytest.fixture
def database_file(first_setup: tuple[Path, Outcome], tmp_path: Path) -> Path:
    """A copy of that file for one test."""
    return Path(shutil.copy(first_setup[0], tmp_path / "faying.sqlite3"))


@pytest.fixture(scope="session")
def server(first_setup: tuple[Path, Outcome]) -> Iterator[Server]:
    """A running server on that file."""
    with serving(environment(first_setup[0])) as running:
        yield running
