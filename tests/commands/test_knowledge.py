from __future__ import annotations

from pathlib import Path

import pytest

from service.commands.knowledge import report
from service.storage.seeding import Seeding
from tests.commands.conftest import Faying


def test_the_seed_package_is_loaded_published_and_then_left_alone(faying: Faying) -> None:
    first = faying("setup")
    assert first.exit_code == 0, first.output
    assert "rows new" in first.stdout
    assert "published" in first.stdout
    again = faying("setup").stdout
    assert "rows" not in again
    assert "is current" in again
    assert "already" in faying("seed").stdout


def test_migrating_a_migrated_database_names_its_revision(faying: Faying) -> None:
    assert faying("migrate").stdout.startswith("schema ")


def test_the_seed_package_is_counted(faying: Faying) -> None:
    checked = faying("check-data")
    assert checked.exit_code == 0, checked.output
    assert "materials" in checked.stdout


def test_a_missing_package_is_named(faying: Faying, tmp_path: Path) -> None:
    result = faying("check-data", str(tmp_path))
    assert result.exit_code == 1
    assert "materials.csv: the file is missing" in result.stderr


def test_what_curation_changed_is_named(capsys: pytest.CaptureFixture[str]) -> None:
    report(Seeding(updated=(("materials", "a"),), kept=(("materials", "b"),)))
    assert capsys.readouterr().out == "1 rows changed\nkept as curation left it: materials b\n"
