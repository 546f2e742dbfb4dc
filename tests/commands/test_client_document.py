from __future__ import annotations

from pathlib import Path

from typer.testing import CliRunner

from service.__main__ import app
from service.commands.client_document import NOTE, client_files
from service.web.api import assemble


def test_the_files_are_written_beside_the_document(tmp_path: Path) -> None:
    folder = tmp_path / "document"
    arguments = ["openapi", "--output", str(tmp_path / "openapi.json"), "--client", str(folder)]
    assert CliRunner().invoke(app, arguments).exit_code == 0
    written = {path.name: path.read_text(encoding="utf-8") for path in folder.iterdir()}
    assert written == client_files(assemble().openapi())


def test_every_file_is_python_and_says_where_it_comes_from() -> None:
    for name, content in client_files(assemble().openapi()).items():
        compile(content, name, "exec")
        assert NOTE in content
