from __future__ import annotations

import json
from pathlib import Path

from typer.testing import CliRunner

from service.__main__ import app


def test_the_document_is_written_to_a_file_or_shown(tmp_path: Path) -> None:
    file = tmp_path / "openapi.json"
    assert CliRunner().invoke(app, ["openapi", "--output", str(file)]).exit_code == 0
    shown = CliRunner().invoke(app, ["openapi"]).stdout
    assert file.read_text(encoding="utf-8") == shown
    assert json.loads(shown)["openapi"].startswith("3.1")
